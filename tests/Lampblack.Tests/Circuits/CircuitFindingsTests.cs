using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using System.Text;
using Lampblack.Circuits;
using Lampblack.Findings;
using Xunit;

namespace Lampblack.Tests.Circuits;

public sealed class CircuitFindingsTests
{
    private static readonly CircuitWish Fine = Wishes.Diodes(12, DiodeCurve.White, 12) with { ResistorWatts = 0.5 };

    /// <summary>A fault for each code, and the words that its message must have.</summary>
    public static TheoryData<string, Severity, string> Faults => new()
    {
        { "circuit-value", Severity.Stop, "resistors' watts: found -1, allowed 0.01 to 100" },
        { "supply-not-selv", Severity.Stop, "can come to 79.2 V; up to 60 V" },
        { "string-no-headroom", Severity.Stop, "one lamp needs 3.22 V at 15 mA and the supply gives 3 V" },
        { "lamp-over-current", Severity.Warn, "50 mA are wanted, and the lamps bear 30 mA" },
        { "strip-volts", Severity.Stop, "made for 24 V and the supply gives 12 V" },
        { "supply-too-small", Severity.Stop, "take 200 mA, and the supply gives 150 mA" },
        { "wire-drop", Severity.Warn, "AWG 28 (0.08 mm²) lose 1.19 V, 9.94 % of the supply; 3 %" },
        { "wire-unprotected", Severity.Stop, "AWG 30 (0.05 mm²) bear 255 mA" },
        { "resistor-small", Severity.Warn, "those of 0.125 W are too small" },
        { "box-hot", Severity.Warn, "°C warm inside; 50 °C are allowed" },
        { "pwm-flickers", Severity.Warn, "dimmed at 490 Hz the light may be switched 39.2 % deep" },
    };

    private static CircuitWish Faulty(string code) => code switch
    {
        "circuit-value" => Fine with { ResistorWatts = -1 },
        "supply-not-selv" => Fine with { SupplyVolts = 72 },
        "string-no-headroom" => Fine with { SupplyVolts = 3 },
        "lamp-over-current" => Wishes.Diodes(12, DiodeCurve.White, 12, 0.05),
        "strip-volts" => Wishes.Of(12, Wishes.Strip(24, 0.02, 6, 12)),
        "supply-too-small" => Wishes.Of(12, Wishes.Strip(12, 0.02, 3, 30)) with { SupplyAmperes = 0.15 },
        "wire-drop" => Wishes.Of(12, Wishes.Strip(12, 0.02, 3, 30)) with { WireAwg = 28, WireLengthMm = 10_000 },
        "wire-unprotected" => Wishes.Of(12, Wishes.Strip(12, 0.02, 3, 30)) with { WireAwg = 30 },
        "resistor-small" => Fine with { ResistorWatts = 0.125 },
        "box-hot" => Fine with { Box = new(40, 30, 15) },
        "pwm-flickers" => Fine with { PwmHertz = 490 },
        _ => throw new ArgumentOutOfRangeException(nameof(code), code, "no fault of that kind"),
    };

    [Theory]
    [MemberData(nameof(Faults))]
    public void A_fault_is_told_with_its_figures_and_what_to_do(string code, Severity severity, string words)
    {
        var finding = Assert.Single(CircuitFindings.Of(CircuitDesign.Of(Faulty(code))), one => one.Code == code);
        Assert.Equal(severity, finding.Severity);
        Assert.Contains(words, finding.Message, StringComparison.Ordinal);
        Assert.NotEqual(string.Empty, finding.Hint);
    }

    [Fact]
    public void A_sound_circuit_has_none() => Assert.Empty(CircuitFindings.Of(CircuitDesign.Of(Fine)));

    [Fact]
    public void A_circuit_that_runs_with_little_margin_is_only_warned_of()
    {
        var tight = Wishes.Of(12, Wishes.Strip(12, 0.02, 3, 30)) with { SupplyAmperes = 0.21 };
        Assert.Equal(Severity.Warn, Assert.Single(CircuitFindings.Of(CircuitDesign.Of(tight)), one => one.Code == "supply-too-small").Severity);
        var low = Wishes.Diodes(3.3, DiodeCurve.White, 2, 0.01);
        Assert.Equal(Severity.Warn, Assert.Single(CircuitFindings.Of(CircuitDesign.Of(low)), one => one.Code == "string-no-headroom").Severity);
    }

    [Fact]
    public void Pixels_that_flicker_by_themselves_are_noted_and_faster_ones_are_not()
    {
        var finding = Assert.Single(CircuitFindings.Of(CircuitDesign.Of(Wishes.Of(5, Wishes.Pixels(10)))));
        Assert.Equal(("pwm-flickers", Severity.Note, "pixels"), (finding.Code, finding.Severity, finding.Item));
        var fast = new LampChannel("pixels", new AddressablePixels(5, 0.06) { OwnHertz = 2000 }, 10, IsDimmed: true);
        Assert.Empty(CircuitFindings.Of(CircuitDesign.Of(Wishes.Of(5, fast))));
    }

    [Fact]
    public void Findings_stand_where_their_channel_stands_in_the_file()
    {
        var plan = CircuitDesign.Of(Wishes.Of(12, Wishes.Strip(24, 0.02, 6, 12)) with { PwmHertz = 490 });
        var places = new Dictionary<string, SourceSpan> { ["strip"] = new("desk.toml", 0, 1, 7, 1), [string.Empty] = new("desk.toml", 0, 1, 3, 1) };
        var findings = CircuitFindings.Of(plan, channel => places[channel ?? string.Empty]);
        Assert.Equal([("strip-volts", 7, "strip"), ("pwm-flickers", 3, null)], findings.Select(one => (one.Code, one.Span!.Line, one.Item)));
    }

    [Fact]
    public void What_can_not_be_used_is_left_out_and_the_rest_is_planned()
    {
        var plan = CircuitDesign.Of(Wishes.Of(12, Wishes.Strip(12, double.NaN, 3, 3), Wishes.Strip(12, 0.02, 3, 3), Wishes.Strip(12, 0.02, 3, 0)));
        Assert.Equal(0.02, Assert.Single(plan.Channels).NominalAmperes, 1e-12);
        Assert.Equal(2, CircuitFindings.Of(plan).Count(one => one.Code == "circuit-value"));
    }

    [Fact]
    public void Messages_and_drawings_are_the_same_in_every_culture()
    {
        var wish = Wishes.Of(
            12, new LampChannel("a", new SingleDiodes(new(0, 1.5, 2.5), 0.015, 0.03), 3, IsDimmed: true), new LampChannel("b", new SingleDiodes(DiodeCurve.White, 0.015, 0.03), 3, IsDimmed: true));
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
            var (plain, drawing) = Made();
            Assert.Contains("0 A, 1.5, 2.5 Ω", plain, StringComparison.Ordinal);
            CultureInfo.CurrentCulture = new CultureInfo("de-DE");
            Assert.Equal((plain, drawing), Made());
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }

        (string Words, string Drawing) Made()
        {
            var plan = CircuitDesign.Of(wish with { PwmHertz = 490.5 });
            var words = CircuitFindings.Of(plan).Select(one => one.Message + one.Hint).Concat(plan.Channels.Select(channel => channel.Reason)).Append(Encoding.UTF8.GetString(CircuitParts.Csv(plan).AsSpan()));
            return (string.Join('\n', words), Encoding.UTF8.GetString(CircuitDrawing.Of(plan, "Kiln board").Svg().AsSpan()));
        }
    }
}
