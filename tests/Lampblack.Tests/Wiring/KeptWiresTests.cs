using System;
using System.Linq;
using Lampblack.Jobs;
using Lampblack.Tests.Checks;
using Lampblack.Wiring;
using Xunit;

namespace Lampblack.Tests.Wiring;

/// <summary>A change of one control moves no wire of another.</summary>
public sealed class KeptWiresTests
{
    private static readonly string[] Parts =
        ["toggle-mini-on-on", "button-16-lit", "toggle-mini-on-off-on", "pot-9mm", "encoder-m7-push", "rotary-6x60", "lamp-3mm-clip", "button-12-momentary", "key-12", "toggle-mini-on-on-2-pole"];

    public static TheoryData<string, string> Desks => new()
    {
        { "ATmega2560", "" },
        { "ATmega2560", "reserved = [\"A0\", \"A1\", \"D22\", \"D23\", \"D24\", \"D25\", \"D26\", \"D27\", \"D28\", \"D29\", \"D30\", \"D31\", \"D32\", \"D33\"]" },
    };

    [Theory]
    [MemberData(nameof(Desks))]
    public void Sixty_controls_and_one_more_one_less_or_one_elsewhere(string chip, string controller)
    {
        var controls = Enumerable.Range(0, 60).Select(index => Control(index, Parts[index % Parts.Length])).ToList();
        var first = WiredDesk.Planned(WiredDesk.Toml(string.Concat(controls), chip, controller));
        Assert.Empty(first.Findings);
        var wires = WiredDesk.Wires(first.Plan);

        // A file lies between two builds.
        var before = WiringPlanFile.Read(WiringPlanFileOf(first.Plan)).Value;
        foreach (var part in Parts)
        {
            var added = controls.Select(one => one).ToList();
            added.Insert(23, Control(60, part).Replace("c60", "new", StringComparison.Ordinal));
            var more = WiredDesk.Planned(WiredDesk.Toml(string.Concat(added), chip, controller), before);
            Assert.Empty(more.Findings);
            Assert.Empty(wires.Except(WiredDesk.Wires(more.Plan)));
            Assert.Contains(more.Plan.Controls, control => control.Id == "p/new");
            PinPlanTests.AssertSound(more.Plan.Controllers[0]);
        }

        for (var index = 0; index < 60; index += 7)
        {
            var less = WiredDesk.Planned(WiredDesk.Toml(string.Concat(controls.Where((_, place) => place != index)), chip, controller), before);
            Assert.All(wires.Except(WiredDesk.Wires(less.Plan)), wire => Assert.Contains($"p/c{index}", wire, StringComparison.Ordinal));
            var moved = controls.ToList();
            moved[index] = Control(61, Parts[index % Parts.Length]).Replace("c61", $"c{index}", StringComparison.Ordinal);
            Assert.Equal(wires, WiredDesk.Wires(WiredDesk.Planned(WiredDesk.Toml(string.Concat(moved), chip, controller), before).Plan));
            var other = controls.ToList();
            other[index] = Control(index, "toggle-mini-on-off-on");
            Assert.All(wires.Except(WiredDesk.Wires(WiredDesk.Planned(WiredDesk.Toml(string.Concat(other), chip, controller), before).Plan)), wire => Assert.Contains($"p/c{index}", wire, StringComparison.Ordinal));
        }
    }

    [Fact]
    public void Without_what_was_before_wires_would_move()
    {
        // The check above would see it.
        var controls = Enumerable.Range(0, 60).Select(index => Control(index, Parts[index % Parts.Length])).ToList();
        var wires = WiredDesk.Wires(WiredDesk.Planned(WiredDesk.Toml(string.Concat(controls))).Plan);
        Assert.Contains(wires.Except(WiredDesk.Wires(WiredDesk.Planned(WiredDesk.Toml(string.Concat(controls.Skip(1)))).Plan)), wire => !wire.Contains("p/c0", StringComparison.Ordinal));
    }

    [Fact]
    public void Another_chip_or_a_reserved_pin_in_use_is_planned_anew_and_told()
    {
        var desk = WiredDesk.Toml(WiredDesk.Many("toggle-mini-on-on", 100));
        var before = WiredDesk.Planned(desk).Plan;
        Assert.Equal("wiring-made-anew", Assert.Single(WiredDesk.Planned(WiredDesk.Toml(WiredDesk.Many("toggle-mini-on-on", 100), controller: $"reserved = [\"{before.Controllers[0].Rows[0].Header}\"]"), before).Findings).Code);
        Assert.Contains(WiredDesk.Planned(WiredDesk.Toml(WiredDesk.Many("toggle-mini-on-on", 100), "ATmega32U4"), before).Findings, finding => finding.Code == "wiring-made-anew");
    }

    [Theory]
    [InlineData("{")]
    [InlineData("{}")]
    [InlineData("[]")]
    [InlineData("{\"schema\":\"lampblack-wiring/1\"}")]
    [InlineData("{\"schema\":\"lampblack-wiring/1\",\"controllers\":[{\"chip\":\"Z80\"}],\"controls\":[]}")]
    [InlineData("{\"schema\":\"lampblack-wiring/2\",\"controllers\":[],\"controls\":[]}")]
    public void A_plan_file_that_can_not_be_read_is_told_and_not_kept_to(string json)
    {
        var read = WiringPlanFile.Read([.. System.Text.Encoding.UTF8.GetBytes(json)]);
        Assert.Null(read.Value);
        Assert.Equal("wiring-plan-unreadable", Assert.Single(read.Findings).Code);
    }

    [Fact]
    public void A_plan_file_that_somebody_wrote_in_gives_a_sound_plan_or_none()
    {
        var random = new Random(5);
        var kept = 0;
        foreach (var (desk, chip) in new[] { (WiredDesk.Many("toggle-mini-on-off-on", 40), "ATmega2560"), (WiredDesk.Many("button-12-momentary", 120) + WiredDesk.Many("lamp-3mm-clip", 12, "l", top: 500), "ATmega328P") })
        {
            var toml = WiredDesk.Toml(desk, chip);
            var text = System.Text.Encoding.UTF8.GetString(WiringPlanFile.Written(WiredDesk.Planned(toml).Plan).AsSpan());
            for (var trial = 0; trial < 60; trial++)
            {
                var letters = text.ToCharArray();
                for (var change = 0; change < 4; change++)
                {
                    var at = random.Next(letters.Length);
                    letters[at] = char.IsDigit(letters[at]) ? (char)('0' + random.Next(10)) : random.Next(6) == 0 ? '-' : letters[at];
                }

                var read = WiringPlanFile.Read([.. System.Text.Encoding.UTF8.GetBytes(letters)]);
                kept += read.Value is null ? 0 : 1;
                Assert.All(WiredDesk.Planned(toml, read.Value).Plan.Controllers, PinPlanTests.AssertSound);
            }
        }

        Assert.True(kept > 20);
    }

    private static System.Collections.Immutable.ImmutableArray<byte> WiringPlanFileOf(PinPlan plan)
    {
        var file = WiringPlanFile.Written(plan);
        var again = WiringPlanFile.Read(file).Value!;
        Assert.Equal(WiredDesk.Wires(plan), WiredDesk.Wires(again));
        return file;
    }

    private static string Control(int index, string part) =>
        CheckedDesk.Control(part, 40 + (80 * (index % 10)), 860 - (80 * (index / 10)), $"id = \"c{index}\"{(part.EndsWith("2-pole", StringComparison.Ordinal) ? "\npoles = 2" : string.Empty)}");
}
