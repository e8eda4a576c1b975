using System;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Parts;
using Lampblack.Tests.Checks;
using Lampblack.Wiring;
using Xunit;

namespace Lampblack.Tests.Wiring;

/// <summary>Currents, speeds, ladders.</summary>
public sealed class ElectricRuleTests
{
    /// <summary>Rows 64 and 65 of the published figures, from the data sheet of the ATmega2560.</summary>
    [Theory]
    [InlineData("A0 A1 A2 A8 A9 A10", 20, "port-current: the pins of F, K together would carry 120 mA, and may carry 100 mA")]
    [InlineData("A0 A1 A2 A8 A9", 20, "")]
    [InlineData("A0 A1 A2 A3 D22 D23 D24 D30 D31 D32 D6", 20, "chip-current: the ATmega2560 would carry 220 mA, and may carry 200 mA")]
    [InlineData("A0 A1 A2 A3 D22 D23 D24 D30 D31 D32", 20, "")]
    [InlineData("D22", 21, "pin-current: pin D22 would carry 21 mA, and may carry 20 mA")]
    public void Currents_are_held_against_the_data_sheet(string pins, double milliamperes, string expected)
    {
        var controller = Controllers.ATmega2560;
        var found = PinCurrents.Check(controller, [.. pins.Split(' ').Select(pin => (controller.Find(pin)!.Pin, milliamperes / 1000))]);
        Assert.StartsWith(expected, string.Join("; ", found.Select(finding => $"{finding.Code}: {finding.Message}")), StringComparison.Ordinal);
        Assert.Equal(expected.Length == 0, found.IsEmpty);
    }

    [Fact]
    public void What_was_not_looked_up_only_warns()
    {
        var controller = Controllers.ATmega32U4;
        var found = PinCurrents.Check(controller, [.. new[] { "D2", "D3", "D4", "D5", "D6", "D12" }.Select(pin => (controller.Find(pin)!.Pin, 0.02))]);
        Assert.Equal(("port-current", Severity.Warn), (Assert.Single(found).Code, found[0].Severity));
    }

    /// <summary>By the chip's formula for 16 MHz: 115200 is 2.1 % too fast with the finer divider (facts, measured in neither simulator).</summary>
    [Theory]
    [InlineData(250_000, 0)]
    [InlineData(500_000, 0)]
    [InlineData(38_400, 0.0016)]
    [InlineData(76_800, 0.0016)]
    [InlineData(115_200, 0.0212)]
    [InlineData(57_600, -0.0079)]
    [InlineData(9_600, 0.0016)]
    public void A_speed_is_off_by_what_the_chip_can_not_divide(int baud, double errorShare)
    {
        Assert.Equal(errorShare, SerialSpeed.ErrorShare(baud), 0.0001);
        Assert.Equal(Math.Abs(errorShare) > 0.02 ? "baud-error" : null, SerialSpeed.Check(baud, null)?.Code);
    }

    [Fact]
    public void A_speed_that_can_not_be_made_stops_the_plan() =>
        Assert.Contains(WiredDesk.Planned(WiredDesk.Toml("", controller: "baud = 115200")).Findings, finding => finding is { Code: "baud-error", Severity: Severity.Stop });

    [Theory]
    [InlineData(3)]
    [InlineData(6)]
    [InlineData(12)]
    [InlineData(24)]
    public void Readings_of_a_ladder_lie_in_their_windows_whatever_the_resistors(int positions)
    {
        var design = LadderDesign.Of(positions)!;
        Assert.All(design.Windows.Zip(design.Windows.Skip(1)), pair => Assert.True(pair.First.HighCount < pair.Second.LowCount));
        Assert.True(design.Windows[^1].HighCount < 1000);
        var random = new Random(11);
        for (var trial = 0; trial < 2000; trial++)
        {
            // Node voltages by Kirchhoff's law, solved from the ends: nothing of the design's own formula.
            var ohms = Enumerable.Range(0, positions).Select(_ => design.Ohms * (1 + Off(0.01))).ToArray();
            var pull = LadderDesign.PullUpOhms * (1 + Off(0.01));
            var inner = random.Next(2) == 0 ? double.PositiveInfinity : 20_000 + (30_000 * random.NextDouble());
            for (var tap = 0; tap < positions; tap++)
            {
                var (below, above) = (ohms.Take(tap).Sum(), ohms.Skip(tap).Sum());
                var conductance = (1 / above) + (1 / pull) + (1 / inner);
                var share = tap == 0 ? 0 : conductance / (conductance + (1 / below));
                var reading = (int)Math.Round(1023 * share) + random.Next(-LadderDesign.ConverterCounts, LadderDesign.ConverterCounts + 1);
                Assert.InRange(Math.Clamp(reading, 0, 1023), design.Windows[tap].LowCount, design.Windows[tap].HighCount);
            }
        }

        double Off(double share) => share * (random.Next(3) == 0 ? 1 : random.Next(2) == 0 ? -1 : (2 * random.NextDouble()) - 1);
    }

    [Fact]
    public void A_ladder_whose_windows_would_overlap_is_refused()
    {
        Assert.Null(LadderDesign.Of(24, 0.1));
        Assert.NotNull(LadderDesign.Of(24, 0.01));
        Assert.True(LadderDesign.Of(12, 4700, 0.01).LeastGapCounts < 0);
    }

    [Fact]
    public void Selectors_get_ladders_where_that_saves_pins_and_never_where_it_is_not_wanted()
    {
        var items = WiredDesk.Many("rotary-12x30", 5) + WiredDesk.Many("toggle-mini-on-on", 12, "t", top: 600);
        var (plan, findings, _) = WiredDesk.Planned(WiredDesk.Toml(items));
        Assert.Empty(findings);
        var one = plan.Controllers[0];
        Assert.NotEmpty(one.Ladders);
        Assert.Empty(one.Columns);
        PinPlanTests.AssertSound(one);
        var control = plan.Controls.Single(control => control.Id == "p/" + "c1");
        Assert.All(control.States, state => Assert.Empty(state.Closed));
        Assert.Empty(WiredDesk.Planned(WiredDesk.Toml(items, wiring: "ladders = false")).Plan.Controllers[0].Ladders);
        Assert.Empty(WiredDesk.Planned(WiredDesk.Toml(WiredDesk.Many("rotary-12x30", 2))).Plan.Controllers[0].Ladders);
    }

    [Theory]
    [InlineData("diodes = false", "matrix-ghosts")]
    [InlineData("", null)]
    public void A_matrix_without_diodes_is_told_of(string wiring, string? code) =>
        Assert.Equal(code, WiredDesk.Planned(WiredDesk.Toml(WiredDesk.Many("toggle-mini-on-on", 90), wiring: wiring)).Findings.SingleOrDefault()?.Code);

    [Fact]
    public void Lamps_over_a_limit_go_to_registers_and_more_than_those_bear_is_told()
    {
        var few = WiredDesk.Planned(WiredDesk.Toml(WiredDesk.Many("lamp-3mm-clip", 20), wiring: "lamp-current = 8"));
        Assert.Empty(few.Findings);
        var many = WiredDesk.Planned(WiredDesk.Toml(WiredDesk.Many("lamp-3mm-clip", 30), wiring: "lamp-current = 8"));
        Assert.Equal("lamp-current-chain", Assert.Single(many.Findings).Code);
        Assert.Equal(4, many.Plan.Controllers[0].Outputs!.ChipCount);
    }

    /// <summary>Grouping by place makes rows and columns shorter than the order of the file does.</summary>
    [Fact]
    public void Rows_and_columns_are_shorter_than_in_the_order_of_the_file()
    {
        var random = new Random(7);
        var items = string.Concat(Enumerable.Range(0, 100).OrderBy(_ => random.Next()).Select(index => CheckedDesk.Control("button-12-momentary", 40 + (80 * (index % 10)), 860 - (80 * (index / 10)), $"id = \"c{index}\"")));
        var laid = CheckedDesk.Laid(WiredDesk.Toml(items));
        var needs = WiringNeeds.Of(laid).Value;
        var one = Assert.Single(PinPlanning.Of(needs, [], laid.Desk.Controller!, null, Lampblack.Firmware.EnginePace.Keeps).Value.Controllers);
        var (ours, least) = MatrixGrouping.Lengths(one, needs);
        var crossing = one.Contacts.Where(contact => contact.Place is MatrixInput).ToList();
        var simple = one with { Contacts = [.. one.Contacts.Select(contact => crossing.IndexOf(contact) is >= 0 and var index ? contact with { Place = new MatrixInput(index % one.Columns.Length, index / one.Columns.Length) } : contact)] };
        var (theirs, _) = MatrixGrouping.Lengths(simple, needs);
        TestContext.Current.TestOutputHelper?.WriteLine(FormattableString.Invariant($"{crossing.Count} of {one.Contacts.Length} in {one.Rows.Length} rows and {one.Columns.Length} columns: rows and columns {ours:0} mm, file order {theirs:0} mm, bound {least:0} mm"));
        Assert.True(ours < 0.6 * theirs, FormattableString.Invariant($"{ours} against {theirs}"));
        Assert.InRange(ours, least, 1.6 * least);
    }
}
