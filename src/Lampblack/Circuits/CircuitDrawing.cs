using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Geometry;

namespace Lampblack.Circuits;

/// <summary>The circuit as a drawing: + at the left, 0 V at the right, each channel between them. Its letters are shapes.</summary>
/// <param name="Title">What stands above it.</param>
/// <param name="HeightMm">How high it is; all are equally wide.</param>
/// <param name="Wires">Wires, dots where they are joined, and terminals.</param>
/// <param name="Parts">Symbols and frames.</param>
/// <param name="Words">Words, each line by itself.</param>
public sealed record CircuitDrawing(
    string Title,
    double HeightMm,
    ImmutableArray<Region<DrawingSpace>> Wires,
    ImmutableArray<Region<DrawingSpace>> Parts,
    ImmutableArray<Region<DrawingSpace>> Words)
{
    /// <summary>The words that stand below every drawing. They name this circuit's own voltage: its resistors would burn at a higher one.</summary>
    /// <param name="plan">The plan.</param>
    public static string Caution(CircuitPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return $"Caution: safe extra-low voltage only. Use a certified supply of {CircuitWords.Volts(plan.Wish.SupplyVolts)}, no other voltage, whose current is limited, with the fuse close to it. Nothing of the mains goes into the panel or its box. Check the polarity before you switch on, and that nothing gets hot within the first minutes. What your local code says, and what a licensed person tells you, comes first.";
    }

    /// <summary>How wide a drawing is.</summary>
    public const double WidthMm = 250;

    /// <summary>Where + comes down.</summary>
    public const double PlusMm = 20;

    /// <summary>Where 0 V comes down.</summary>
    public const double ZeroMm = 232;

    internal const double TextMm = 2.4;

    /// <summary>Capitals of notes: printed 180 mm wide they are those of letters of 6.7 points.</summary>
    internal const double SmallMm = 2.3;

    private const double MarginMm = 10;

    /// <summary>The drawing as an SVG file in true size.</summary>
    public ImmutableArray<byte> Svg() => Drawing().File();

    /// <summary>The same in its layers.</summary>
    public SvgDrawing<DrawingSpace> Drawing() => new(WidthMm, HeightMm, Title,
    [
        new("paper", "Paper", Region<DrawingSpace>.Rectangle(new(0, 0, WidthMm, HeightMm)), "#ffffff"),
        new("wires", "Wires", Region<DrawingSpace>.Union(Wires), "#1f4e9c"),
        new("parts", "Parts", Region<DrawingSpace>.Union(Parts), "#000000"),
        new("words", "Words", Region<DrawingSpace>.Union(Words), "#202020"),
    ]);

    /// <summary>Draws a circuit.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="title">What stands above it.</param>
    public static CircuitDrawing Of(CircuitPlan plan, string title)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return Of(plan, title, 0, plan.Channels.Length);
    }

    /// <summary>Draws some of a circuit's channels with the supply, for a page of a book.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="title">What stands above it.</param>
    /// <param name="first">The first channel, from 0.</param>
    /// <param name="count">How many.</param>
    public static CircuitDrawing Of(CircuitPlan plan, string title, int first, int count)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(title);
        var pen = new CircuitPen();
        var middle = MarginMm + 4;
        pen.Word(title, MarginMm, middle, 4.5, 0, WidthMm - (2 * MarginMm));
        var below = pen.Paragraph(Summary(plan), MarginMm, middle + 8, TextMm, WidthMm - (2 * MarginMm));
        var supplyMm = below + 10;
        Supply(pen, plan, supplyMm);
        var next = supplyMm + 28;
        var (plusEndMm, zeroEndMm) = (supplyMm + 14, supplyMm);
        foreach (var (channel, labels) in plan.Channels.Zip(CircuitLabels.Of(plan)).Skip(first).Take(count))
        {
            pen.Divider(PlusMm + 4, ZeroMm - 4, next);
            (next, plusEndMm) = ChannelDrawing.Draw(pen, channel, labels, next);
        }

        // The first stretch of + runs through the fuse, which the supply drew; from there down it is one wire.
        pen.Wire((PlusMm, supplyMm + 21), (PlusMm, Math.Max(plusEndMm, supplyMm + 24)));
        zeroEndMm = next + 4;
        pen.Wire((ZeroMm, supplyMm), (ZeroMm, zeroEndMm - 1));
        pen.Terminal(ZeroMm, zeroEndMm);
        pen.Word("joined to the controller's 0 V", ZeroMm - 4, zeroEndMm, TextMm, 1, 150);
        var end = pen.Paragraph(Caution(plan), MarginMm, zeroEndMm + 10, TextMm, WidthMm - (2 * MarginMm));
        var heightMm = Math.Ceiling(end + MarginMm - TextMm);
        return new(title, heightMm, Up(pen.Wires), Up(pen.Parts), Up(pen.Words));

        ImmutableArray<Region<DrawingSpace>> Up(IEnumerable<Region<DrawingSpace>> shapes) =>
            [.. shapes.Select(shape => shape.Map(Affine<DrawingSpace, DrawingSpace>.Shift(0, heightMm)))];
    }

    private static void Supply(CircuitPen pen, CircuitPlan plan, double yMm)
    {
        pen.Box(10, yMm - 7, 66, yMm + 5);
        pen.Word(string.Create(CultureInfo.InvariantCulture, $"SUPPLY {CircuitWords.Volts(plan.Wish.SupplyVolts)} DC"), 38, yMm - 3.6, TextMm, 0.5, 52);
        pen.Word(string.Create(CultureInfo.InvariantCulture, $"{CircuitWords.Amperes(plan.Supply.RatedAmperes)}{(plan.Wish.SupplyAmperes is null ? " or more" : "")}, limited, certified"), 38, yMm + 1.2, TextMm, 0.5, 52);

        // + leaves below, through the fuse; 0 V at the right.
        pen.Wire((PlusMm, yMm + 5), (PlusMm, yMm + 11));
        pen.Word("+", PlusMm - 3, yMm + 8, TextMm, 0.5, 5);
        pen.Fuse(PlusMm, yMm + 16);
        pen.Word(plan.Wire.FuseAmperes is { } fuse ? $"F1  {CircuitWords.Amperes(fuse)}, slow, close to the supply" : "F1  no fuse fits: see the findings", PlusMm + 5, yMm + 16, TextMm, 0, 80);
        pen.Wire((66, yMm), (ZeroMm, yMm));
        pen.Word("0 V", 70, yMm - 3.2, TextMm, 0, 10);
        pen.Word(
            $"wire pair to the panel: {CircuitWords.Wire(plan.Wire.Gauge)}, {CircuitWords.Length(plan.Wish.WireLengthMm)}{(plan.Wish.OnwardLengthMm > 0 ? $", and {CircuitWords.Length(plan.Wish.OnwardLengthMm)} on to the last one" : string.Empty)}, loses {CircuitWords.Volts(plan.Wire.DropVolts)} ({CircuitWords.Percent(plan.Wire.DropShare)})",
            ZeroMm, yMm - 3.2, TextMm, 1, 140);
    }

    private static string Summary(CircuitPlan plan)
    {
        var parts = new List<string>
        {
            $"{CircuitWords.Volts(plan.Wish.SupplyVolts)}, {CircuitWords.Amperes(plan.Supply.NominalAmperes)} at full brightness, at most {CircuitWords.Amperes(plan.Supply.HighestAmperes)} within all tolerances.",
            plan.Heat.RiseKelvin is null
                ? $"{CircuitWords.Watts(plan.Heat.Watts)} become heat."
                : $"{CircuitWords.Watts(plan.Heat.Watts)} become heat; the box gets about {CircuitWords.Celsius(plan.Heat.InsideCelsius)} warm inside.",
        };
        if (plan.HasGates)
        {
            parts.Add(string.Create(CultureInfo.InvariantCulture, $"Dimmed at {CircuitWords.Hertz(plan.Dimming.PwmHertz)} in {plan.Dimming.StepCount} steps{(plan.Dimming.Verdict == FlickerVerdict.Flickers ? ", which flickers" : "")}."));
        }

        return string.Join(' ', parts);
    }
}
