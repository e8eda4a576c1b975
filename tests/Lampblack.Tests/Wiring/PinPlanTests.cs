using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Parts;
using Lampblack.Tests.Checks;
using Lampblack.Wiring;
using Xunit;

namespace Lampblack.Tests.Wiring;

public sealed class PinPlanTests
{
    private const string Toggle = "toggle-mini-on-on";

    [Fact]
    public void Few_contacts_have_pins_of_their_own_and_no_pin_is_given_twice()
    {
        var (plan, findings, _) = WiredDesk.Planned(WiredDesk.Toml(WiredDesk.Many(Toggle, 20) + WiredDesk.Many("pot-9mm", 4, "p", top: 700) + WiredDesk.Many("encoder-m7-push", 3, "e", top: 600) + WiredDesk.Many("button-16-lit", 4, "b", top: 500)));
        Assert.Empty(findings);
        var one = Assert.Single(plan.Controllers);
        Assert.All(one.Contacts, contact => Assert.IsType<DirectInput>(contact.Place));
        Assert.All(one.Indicators, lamp => Assert.IsType<DirectOutput>(lamp.Place));
        Assert.Equal((27, 3, 4, 4), (one.Contacts.Length, one.Encoders.Length, one.Wipers.Length, one.Indicators.Length));
        AssertSound(one);
    }

    /// <summary>What stands under a cover is meant to be moved rarely, so its contact is believed only once it is steady; a part of one's own that is like it as well.</summary>
    [Theory]
    [InlineData("toggle-standard-covered", "", true)]
    [InlineData("toggle-standard-covered", "steady = false", false)]
    [InlineData("guarded-mains", "", true)]
    [InlineData(Toggle, "", false)]
    [InlineData(Toggle, "steady = true", true)]
    public void A_switch_under_a_cover_is_believed_only_when_it_is_steady(string part, string more, bool isSteady)
    {
        const string Own = "[[part]]\nid = \"guarded-mains\"\nlike = \"toggle-standard-covered\"\nhole = 12.5\n";
        var (plan, _, _) = WiredDesk.Planned(WiredDesk.Toml(CheckedDesk.Control(part, 100, 100, more)) + Own);
        Assert.All(Assert.Single(plan.Controllers).Contacts, contact => Assert.Equal(isSteady, contact.Steady));
        Assert.NotEmpty(plan.Controllers[0].Contacts);
    }

    /// <summary>The promise: rows on whole ports, at most 8 columns for 200 controls.</summary>
    [Theory]
    [InlineData(66, 0)]
    [InlineData(80, 8)]
    [InlineData(200, 8)]
    public void Many_contacts_share_rows_and_at_most_eight_columns(int count, int mostColumns)
    {
        var (plan, findings, _) = WiredDesk.Planned(WiredDesk.Toml(WiredDesk.Many(Toggle, count)));
        Assert.Empty(findings);
        var one = Assert.Single(plan.Controllers);
        Assert.InRange(one.Columns.Length, mostColumns == 0 ? 0 : 1, mostColumns);
        Assert.Equal(count, one.Contacts.Length);
        AssertSound(one);
        Assert.True(one.Rows.GroupBy(row => row.Port).Count() <= (one.Rows.Length + 7) / 8 + 1, string.Join(' ', one.Rows.Select(row => row.Name)));
    }

    [Fact]
    public void Two_hundred_buttons_and_all_else_that_a_large_desk_has_find_pins()
    {
        var items = WiredDesk.Many("button-12-momentary", 200) + WiredDesk.Many("pot-9mm", 6, "p", top: 400) + WiredDesk.Many("encoder-m7", 3, "e", top: 300) + WiredDesk.Many("lamp-3mm-clip", 30, "l", top: 200);
        var (plan, findings, needs) = WiredDesk.Planned(WiredDesk.Toml(items), null, new DimmerNeed("a", 3906), new DimmerNeed("b", 3906));
        Assert.Empty(findings);
        var one = Assert.Single(plan.Controllers);
        Assert.InRange(one.Columns.Length, 1, 8);
        Assert.NotNull(one.Outputs);
        Assert.Equal(needs.Length, plan.Controls.Length);
        AssertSound(one);
    }

    [Fact]
    public void A_small_chip_gets_registers_when_a_matrix_is_too_large_and_several_are_taken_last()
    {
        var (matrix, _, _) = WiredDesk.Planned(WiredDesk.Toml(WiredDesk.Many(Toggle, 60), "ATmega328P"));
        Assert.NotEmpty(Assert.Single(matrix.Controllers).Columns);
        AssertSound(matrix.Controllers[0]);
        var (chain, chainFindings, _) = WiredDesk.Planned(WiredDesk.Toml(WiredDesk.Many(Toggle, 120), "ATmega328P"));
        Assert.Empty(chainFindings);
        Assert.Equal(15, Assert.Single(chain.Controllers).Inputs!.ChipCount);
        AssertSound(chain.Controllers[0]);
        var (several, findings, needs) = WiredDesk.Planned(WiredDesk.Toml(WiredDesk.Many("pot-9mm", 11), "ATmega328P"));
        Assert.Equal("controllers-several", Assert.Single(findings).Code);
        Assert.Equal(2, several.Controllers.Length);
        Assert.Equal(needs.Length, several.Controls.Length);
        Assert.All(several.Controllers, AssertSound);
    }

    /// <summary>Row 75 of the published figures.</summary>
    [Fact]
    public void Thirty_seven_switches_need_five_registers()
    {
        var (plan, _, _) = WiredDesk.Planned(WiredDesk.Toml(WiredDesk.Many(Toggle, 37) + WiredDesk.Many("pot-9mm", 6, "p", top: 500), "ATmega328P", "reserved = [\"D2\", \"D3\", \"D4\", \"D5\", \"D6\"]"));
        Assert.Equal(5, Assert.Single(plan.Controllers).Inputs!.ChipCount);
    }

    [Fact]
    public void What_finds_no_pin_is_told_and_the_rest_is_planned()
    {
        var (plan, findings, _) = WiredDesk.Planned(WiredDesk.Toml(WiredDesk.Many("pot-9mm", 30), "ATmega328P"));
        var finding = Assert.Single(findings, finding => finding.Severity == Severity.Stop);
        Assert.Equal("pins-too-few", finding.Code);
        Assert.Contains("30 pins that read a knob's voltage are needed and one has 6", finding.Message, StringComparison.Ordinal);
        Assert.Equal(24, plan.Controls.Length);
    }

    [Fact]
    public void Reserved_pins_and_those_of_the_link_stay_free()
    {
        var (plan, _, _) = WiredDesk.Planned(WiredDesk.Toml(WiredDesk.Many(Toggle, 60) + WiredDesk.Many("pot-9mm", 14, "p", top: 500), controller: "reserved = [\"A0\", \"PB7\", \"22\"]"));
        var used = Pins(plan.Controllers[0]).Select(pin => pin.Header).ToList();
        Assert.Empty(used.Intersect(["A0", "D13", "D22", "D0", "D1"]));
        AssertSound(plan.Controllers[0]);
    }

    [Fact]
    public void A_pin_that_the_chip_has_not_is_told_of()
    {
        var read = Lampblack.Desks.DeskReader.Read("desk.toml", System.Text.Encoding.UTF8.GetBytes(WiredDesk.Toml("", "ATmega328P", "reserved = [\"D14\"]")));
        Assert.Equal("pin-unknown", Assert.Single(read.Findings).Code);
    }

    [Fact]
    public void Encoders_have_pins_of_their_own_beside_any_matrix()
    {
        var (plan, _, _) = WiredDesk.Planned(WiredDesk.Toml(WiredDesk.Many(Toggle, 100) + WiredDesk.Many("encoder-m7-push", 5, "e", top: 500, more: "edges = 2")));
        var one = plan.Controllers[0];
        Assert.Equal(5, one.Encoders.Length);
        Assert.All(one.Encoders, encoder => Assert.Equal(2, encoder.EdgesPerDetent));
        Assert.Equal(105, one.Contacts.Length);
        Assert.Equal(["out", "in"], plan.Controls.Single(control => control.Id == "p/e1.push").States.Select(state => state.Name));
        AssertSound(one);
    }

    /// <summary>
    /// Worked out by hand: 17 pins of the ATmega328P can be read, and beside a matrix three of them are to stay free. A matrix of c columns and r rows holds
    /// up to c times r contacts on c + r pins. So 18 contacts, four too many, need one that saves four: 11 of 3 x 4. 22 need 16 of 4 x 4, and so on. 49 on 14 pins
    /// are all in 7 x 7.
    /// </summary>
    [Theory]
    [InlineData(17, 0)]
    [InlineData(18, 11)]
    [InlineData(19, 12)]
    [InlineData(20, 14)]
    [InlineData(22, 16)]
    [InlineData(25, 20)]
    [InlineData(26, 22)]
    [InlineData(49, 49)]
    public void Contacts_have_pins_of_their_own_while_there_are_and_only_the_rest_takes_diodes(int count, int diodes)
    {
        var (plan, findings, _) = WiredDesk.Planned(WiredDesk.Toml(WiredDesk.Many(Toggle, count), "ATmega328P"));
        Assert.Empty(findings);
        var one = Assert.Single(plan.Controllers);
        Assert.Equal(diodes, one.Contacts.Count(contact => contact.Place is MatrixInput));
        Assert.Equal(count, one.Contacts.Length);
        AssertSound(one);
        var (kept, _, _) = WiredDesk.Planned(WiredDesk.Toml(WiredDesk.Many(Toggle, count), "ATmega328P"), plan);
        Assert.Equal(one.Contacts, kept.Controllers[0].Contacts);
    }

    [Fact]
    public void Contacts_of_one_pole_share_a_line_as_they_share_a_terminal()
    {
        var (plan, findings, _) = WiredDesk.Planned(WiredDesk.Toml(
            WiredDesk.Many("toggle-mini-on-off-on", 40) + WiredDesk.Many("rotary-12x30", 4, "r", top: 500), wiring: "ladders = false"));
        Assert.Empty(findings);
        var one = plan.Controllers[0];
        Assert.Contains(one.Contacts.GroupBy(contact => contact.ItemId), control => control.Count() > 1 && control.First().Place is MatrixInput);
        foreach (var control in one.Contacts.GroupBy(contact => contact.ItemId))
        {
            var places = control.Select(contact => contact.Place).OfType<MatrixInput>().ToList();
            Assert.True(places.Count == 0 || places.Count == control.Count(), control.Key);
            Assert.True(places.Count == 0 || places.Select(place => place.Row).Distinct().Count() == 1 || places.Select(place => place.Column).Distinct().Count() == 1, control.Key);
        }

        AssertSound(one);
    }

    [Fact]
    public void States_say_which_contacts_are_closed()
    {
        var (plan, _, _) = WiredDesk.Planned(WiredDesk.Toml(
            CheckedDesk.Control("toggle-mini-on-off-on", 50, 50, "id = \"shutter\"\nlegend = \"SHUTTER\"\nstates = [\"OPEN\", \"STOP\", \"SHUT\"]")
            + CheckedDesk.Control(Toggle, 100, 50, "id = \"fan\"")
            + CheckedDesk.Control("button-16-momentary", 150, 50, "id = \"park\"")
            + CheckedDesk.Control("toggle-mini-momentary-both", 200, 50, "id = \"turn\"")
            + CheckedDesk.Control("toggle-mini-on-on-2-pole", 250, 50, "id = \"roof\"\npoles = 2")
            + CheckedDesk.Control("toggle-standard-covered", 300, 50, "id = \"guard\"")
            + CheckedDesk.Control(Toggle, 350, 50, "id = \"mount\"\nwired = false")));
        string Of(string id) => string.Join("; ", plan.Controls.Single(control => control.Id == "p/" + id).States.Select(state => $"{state.Name} {string.Concat(state.Closed.Select(closed => closed ? '1' : '0'))}"));
        Assert.Equal("OPEN 10; STOP 00; SHUT 01", Of("shutter"));
        Assert.Equal("SHUTTER", plan.Controls.Single(control => control.Id == "p/shutter").Name);
        Assert.Equal("up 1; down 0", Of("fan"));
        Assert.Equal("out 0; in 1", Of("park"));
        Assert.Equal("up 10; middle 00; down 01", Of("turn"));
        Assert.Equal("up 11; down 00", Of("roof"));
        Assert.Equal((true, 1), (plan.Controls.Single(control => control.Id == "p/turn").Momentary, plan.Controls.Single(control => control.Id == "p/turn").RestState));
        Assert.DoesNotContain(plan.Controls, control => control.Id == "p/mount");
        Assert.Equal(["p/guard"], plan.Controllers[0].Contacts.Where(contact => contact.Steady).Select(contact => contact.ItemId));
    }

    [Fact]
    public void Lights_of_their_own_are_switched_where_no_timer_is_left()
    {
        var dimmers = Enumerable.Range(0, 4).Select(index => new DimmerNeed($"own {index}", 3906, $"p/legend-{index}")).Prepend(new("board", 3906)).ToArray();
        var (plan, findings, _) = WiredDesk.Planned(WiredDesk.Toml("", "ATmega328P"), null, dimmers);
        Assert.Empty(findings);
        Assert.Equal(["board", "own 0"], plan.Controllers[0].Dimmers.Select(dimmer => dimmer.Channel));
        Assert.Equal(["p/legend-1", "p/legend-2", "p/legend-3"], plan.Controllers[0].Indicators.Select(lamp => lamp.ItemId));
    }

    /// <summary>What has volts of its own gets no pin, and the note says what to do instead.</summary>
    [Fact]
    public void Meters_with_digits_get_no_pin_and_a_note()
    {
        var (plan, findings, _) = WiredDesk.Planned(WiredDesk.Toml(CheckedDesk.Control("meter-96x48", 100, 100)));
        var finding = Assert.Single(findings);
        Assert.Equal("part-not-planned", finding.Code);
        Assert.Contains("reads its own volts", finding.Hint, StringComparison.Ordinal);
        Assert.Empty(plan.Controls);
    }

    [Theory]
    [InlineData("poles = 3", "value-range")]
    [InlineData("edges = 2", "key-unused")]
    public void Keys_that_a_part_has_no_use_for_are_told(string key, string code) =>
        Assert.Contains(Lampblack.Desks.DeskReader.Read("desk.toml", System.Text.Encoding.UTF8.GetBytes(WiredDesk.Toml(CheckedDesk.Control(Toggle, 50, 50, key)))).Findings, finding => finding.Code == code);

    internal static IEnumerable<ControllerPin> Pins(ControllerPlan plan) =>
    [
        .. plan.Columns, .. plan.Rows, .. plan.Dimmers.Select(one => one.Pin), .. plan.Wipers.Select(one => one.Pin), .. plan.Ladders.Select(one => one.Pin),
        .. plan.Encoders.SelectMany(one => new[] { one.PhaseA, one.PhaseB }),
        .. plan.Contacts.Select(one => one.Place).OfType<DirectInput>().Select(one => one.Pin),
        .. plan.Indicators.Select(one => one.Place).OfType<DirectOutput>().Select(one => one.Pin),
        .. plan.Inputs is { } inputs ? new[] { inputs.Load, inputs.Clock, inputs.Data } : [],
        .. plan.Outputs is { } outputs ? new[] { outputs.Data, outputs.Clock, outputs.Latch } : [],
    ];

    /// <summary>No pin twice, none of the link, each able to do what it shall; no crossing or register's input twice.</summary>
    internal static void AssertSound(ControllerPlan plan)
    {
        var controller = Controllers.Of(plan.Chip);
        var pins = Pins(plan).ToList();
        Assert.Equal(pins.Count, pins.Select(pin => pin.Name).Distinct().Count());
        Assert.All(pins, pin => Assert.False(controller.Find(pin.Name)!.IsLink));
        Assert.All(plan.Wipers, one => Assert.Equal(one.AnalogChannel, controller.Find(one.Pin.Name)!.AnalogChannel));
        Assert.All(plan.Ladders, one => Assert.Equal(one.AnalogChannel, controller.Find(one.Pin.Name)!.AnalogChannel));
        Assert.All(plan.Dimmers, one => Assert.True(controller.Find(one.Pin.Name)!.IsFineTimer));
        Assert.All(plan.Contacts.Select(one => one.Place).OfType<DirectInput>().Select(one => one.Pin).Concat(plan.Columns).Concat(plan.Rows).Concat(plan.Encoders.Select(one => one.PhaseA)), pin => Assert.False(controller.Find(pin.Name)!.HasLamp));
        Assert.Equal(plan.Contacts.Length, plan.Contacts.Select(one => one.Place).Distinct().Count());
        Assert.Equal(plan.Indicators.Length, plan.Indicators.Select(one => one.Place).Distinct().Count());
        Assert.All(plan.Contacts.Select(one => one.Place).OfType<MatrixInput>(), place => Assert.True(place.Column < plan.Columns.Length && place.Row < plan.Rows.Length));
        Assert.All(plan.Contacts.Select(one => one.Place).OfType<ChainInput>(), place => Assert.True(place.Chip < plan.Inputs!.ChipCount));
        Assert.Empty(PinCurrents.Check(controller, PinCurrents.Of(plan, 0.005)));
    }
}
