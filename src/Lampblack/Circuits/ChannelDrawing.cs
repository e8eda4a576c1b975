using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;

namespace Lampblack.Circuits;

/// <summary>One channel, between + at the left and 0 V at the right.</summary>
internal static class ChannelDrawing
{
    private const double TextMm = CircuitDrawing.TextMm;
    private const double PlusMm = CircuitDrawing.PlusMm;
    private const double ZeroMm = CircuitDrawing.ZeroMm;
    private const double ResistorMm = 42;
    private const double FirstDiodeMm = 66;
    private const double DiodePitchMm = 15;
    private const double BusMm = 140;
    private const double SwitchMm = 158;
    private const double RowMm = 14;

    // A switch reaches so far below the first row: the drain's wire, the transistor, the pull-down, the way to 0 V.
    private const double SwitchReachMm = 28;

    /// <summary>Draws it.</summary>
    /// <returns>Where the next may start, and how far down + has to reach.</returns>
    public static (double NextMm, double PlusEndMm) Draw(CircuitPen pen, ChannelPlan plan, CircuitLabels labels, double upperMm)
    {
        var lamps = plan.Channel.Feed is AddressablePixels ? ("pixel", "pixels") : ("lamp", "lamps");
        pen.Word(
            string.Create(CultureInfo.InvariantCulture, $"{labels.Number}  {plan.Channel.Name}: {CircuitWords.Count(plan.Channel.Count, lamps.Item1, lamps.Item2)}, {CircuitWords.Amperes(plan.NominalAmperes)}"),
            PlusMm + 5, upperMm + 5, 2.8, 0, ZeroMm - PlusMm - 10);
        var rowMm = pen.Paragraph(plan.Reason, PlusMm + 5, upperMm + 10.2, CircuitDrawing.SmallMm, ZeroMm - PlusMm - 10) + 9;
        if (plan.Pixels is { } pixels)
        {
            return PixelDrawing.Draw(pen, plan, pixels, labels, rowMm);
        }

        var rows = plan.Channel.Feed is CutStrip strip ? Strip(pen, plan, strip, rowMm) : Strings(pen, plan.Strings, labels, rowMm);
        if (rows.Count > 1)
        {
            pen.Wire((BusMm, rows[0]), (BusMm, rows[^1]));
            foreach (var row in rows.Take(rows.Count - 1))
            {
                pen.Dot(BusMm, row);
            }
        }

        foreach (var row in rows)
        {
            pen.Dot(PlusMm, row);
        }

        if (plan.Switch is { } one)
        {
            Switch(pen, one, plan.Channel, labels, rowMm);
            return (Math.Max(rows[^1] + 9, rowMm + SwitchReachMm + 10), rows[^1]);
        }

        pen.Wire((BusMm, rowMm), (ZeroMm, rowMm));
        pen.Dot(ZeroMm, rowMm);
        pen.Word("on as long as the supply is", (BusMm + ZeroMm) / 2, rowMm - 3.4, TextMm, 0.5, ZeroMm - BusMm - 6);
        return (rows[^1] + 9, rows[^1]);
    }

    /// <summary>The strings, each kind by its first and last.</summary>
    /// <returns>The rows that are joined.</returns>
    private static List<double> Strings(CircuitPen pen, ImmutableArray<StringPlan> strings, CircuitLabels labels, double rowMm)
    {
        var rows = new List<double>();
        foreach (var (kind, label) in strings.Zip(labels.Resistors))
        {
            String(pen, kind, label, rowMm);
            rows.Add(rowMm);
            rowMm += RowMm;
            if (kind.StringCount > 2)
            {
                pen.More(ResistorMm, rowMm - 2, isUpright: true);
                pen.More(FirstDiodeMm, rowMm - 2, isUpright: true);
                pen.Word($"{CircuitWords.Count(kind.StringCount, "string", "strings")} alike, each with its own {label}", FirstDiodeMm + 8, rowMm - 2, TextMm, 0, BusMm - FirstDiodeMm - 10);
                rowMm += RowMm - 4;
            }

            if (kind.StringCount > 1)
            {
                String(pen, kind, label, rowMm);
                rows.Add(rowMm);
                rowMm += RowMm;
            }
        }

        return rows;
    }

    private static void String(CircuitPen pen, StringPlan kind, string label, double rowMm)
    {
        pen.Resistor(ResistorMm, rowMm);
        pen.Word($"{label}  {CircuitWords.Ohms(kind.String.ResistorOhms)}", ResistorMm, rowMm - 4.2, TextMm, 0.5, 36);
        pen.Word(CircuitWords.Watts(kind.RatingWatts), ResistorMm, rowMm + 4.2, CircuitDrawing.SmallMm, 0.5, 24);
        pen.Wire((PlusMm, rowMm), (ResistorMm - CircuitPen.ResistorHalfMm, rowMm));
        var from = ResistorMm + CircuitPen.ResistorHalfMm;
        var count = kind.String.DiodeCount;
        foreach (var place in Enumerable.Range(0, Math.Min(5, count)))
        {
            var at = FirstDiodeMm + (place * DiodePitchMm);
            if (count > 5 && place == 3)
            {
                pen.Wire((from, rowMm), (at - 3.2, rowMm));
                pen.More(at, rowMm);
                from = at + 3.2;
                continue;
            }

            pen.Wire((from, rowMm), (at - CircuitPen.DiodeHalfMm, rowMm));
            pen.Diode(at, rowMm);
            from = at + CircuitPen.DiodeHalfMm;
        }

        pen.Wire((from, rowMm), (BusMm, rowMm));
        pen.Word(
            $"{CircuitWords.Count(count, "lamp", "lamps in series")}, {CircuitWords.Amperes(kind.NominalAmperes)} ({CircuitWords.Amperes(kind.LowestAmperes)} to {CircuitWords.Amperes(kind.HighestAmperes)})",
            FirstDiodeMm - CircuitPen.DiodeHalfMm, rowMm + 4.8, CircuitDrawing.SmallMm, 0, BusMm - FirstDiodeMm);
    }

    private static List<double> Strip(CircuitPen pen, ChannelPlan plan, CutStrip strip, double rowMm)
    {
        pen.Wire((PlusMm, rowMm), (40, rowMm));
        pen.Box(40, rowMm - 5, 128, rowMm + 5);
        pen.Word("+", 43, rowMm, TextMm, 0.5, 5);
        pen.Word("−", 125, rowMm, TextMm, 0.5, 5);
        pen.Word($"strip for {CircuitWords.Volts(strip.StripVolts)}, {CircuitWords.Count(plan.StripUnitCount, "unit", "units")} of {CircuitWords.Digits(strip.UnitCount)}", 84, rowMm, TextMm, 0.5, 74);
        pen.Wire((128, rowMm), (BusMm, rowMm));
        return [rowMm];
    }

    /// <summary>The transistor, with its gate's resistors and the controller's pin.</summary>
    private static void Switch(CircuitPen pen, SwitchPlan one, LampChannel channel, CircuitLabels labels, double rowMm)
    {
        var (gateMm, sourceMm, nodeMm) = (rowMm + 10, rowMm + SwitchReachMm, SwitchMm + 11);
        pen.Wire((BusMm, rowMm), (SwitchMm, rowMm), (SwitchMm, gateMm - 5));
        var start = pen.Transistor(SwitchMm, gateMm);
        pen.Word(labels.Switch, SwitchMm - 3, gateMm, TextMm, 1, 12);
        pen.Wire((start, gateMm), (nodeMm + 8, gateMm));
        pen.Resistor(nodeMm + 13, gateMm);
        pen.Word($"{labels.Gate}  {CircuitWords.Ohms(one.GateOhms)}", nodeMm + 13, gateMm - 4.2, TextMm, 0.5, 30);
        pen.Wire((nodeMm + 18, gateMm), (nodeMm + 24, gateMm));
        pen.Terminal(nodeMm + 25, gateMm);
        pen.Word(channel.PinName, nodeMm + 28, gateMm, TextMm, 0, ZeroMm - nodeMm - 31);
        pen.Dot(nodeMm, gateMm);
        pen.Wire((nodeMm, gateMm), (nodeMm, gateMm + 4));
        pen.Resistor(nodeMm, gateMm + 9, isUpright: true);
        pen.Word($"{labels.PullDown}  {CircuitWords.Ohms(one.PullDownOhms)}", nodeMm + 4, gateMm + 9, TextMm, 0, 34);
        pen.Wire((nodeMm, gateMm + 14), (nodeMm, sourceMm));
        pen.Dot(nodeMm, sourceMm);
        pen.Wire((SwitchMm, gateMm + 5), (SwitchMm, sourceMm), (ZeroMm, sourceMm));
        pen.Dot(ZeroMm, sourceMm);
        pen.Word(
            $"N-channel, {CircuitWords.Volts(one.DrainVolts)}, {CircuitWords.Amperes(one.DrainAmperes)}, {CircuitWords.Ohms(one.OnOhms)} or less at a gate of {CircuitWords.Volts(one.GateVolts)}",
            BusMm + 2, sourceMm + 3.6, CircuitDrawing.SmallMm, 0, ZeroMm - BusMm - 5);
    }
}
