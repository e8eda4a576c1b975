using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using Lampblack.Findings;

namespace Lampblack.Calibration;

/// <summary>From counts of dots to how far side 2 lies off.</summary>
/// <remarks>
/// Dot k of a row shines when the back lies off towards the row's letter by more than 0.1 k mm, so n shining dots say: between 0.1 n and 0.1 (n + 1) mm.
/// Windows that printed wide, or blinds that printed narrow, let dots of both opposite rows shine: then half their sum is looseness and half their difference the place.
/// </remarks>
internal static class DotRows
{
    private const double StepMm = 0.1;

    /// <summary>How loose dots may be before something else must be wrong. Ours.</summary>
    private const double LargestLoosenessMm = 0.3;

    /// <summary>How loose dots usually are: standard deviation in mm. From memory, no source.</summary>
    private const double LoosenessSdMm = 0.03;

    /// <summary>The same where the opposite row was not read.</summary>
    private const double UnseenLoosenessSdMm = 0.1;

    /// <summary>Half a step. An even spread over a step has less, but what is known already may be narrower than a step: with less, two looks at one thing would count as more than they are.</summary>
    private const double HalfStepMm = StepMm / 2;

    /// <summary>The numbers that a block tells; fewer, with findings, where it can't be.</summary>
    /// <param name="dots">The counts.</param>
    /// <param name="slopeSdRadians">How far side 2 may be turned or stretched on this sheet, standard deviation, as a share: it makes unsure places unsure numbers.</param>
    public static ImmutableArray<SheetReading> Read(DotsAnswer dots, double slopeSdRadians)
    {
        var placeMm = dots.Place.SdMm * slopeSdRadians;
        var readings = ImmutableArray.CreateBuilder<SheetReading>();
        Add(dots, ("E", dots.East), ("W", dots.West), false, placeMm, readings);
        Add(dots, ("N", dots.North), ("S", dots.South), true, placeMm, readings);
        return readings.ToImmutable();
    }

    /// <summary>Rows in which all windows shine, so that nobody knows how far it is.</summary>
    public static IEnumerable<string> Full(DotsAnswer dots)
    {
        foreach (var (row, count) in new[] { ("N", dots.North), ("E", dots.East), ("S", dots.South), ("W", dots.West) })
        {
            if (count >= DotsAnswer.Windows)
            {
                yield return row;
            }
        }
    }

    private static void Add(
        DotsAnswer dots, (string Row, int? Count) plus, (string Row, int? Count) minus, bool isUp, double placeMm, ImmutableArray<SheetReading>.Builder readings)
    {
        if (Value(dots.Typed, plus, minus) is var (mm, sd))
        {
            readings.Add(new(dots.Typed, dots.Place, isUp, mm, Math.Sqrt((sd * sd) + (placeMm * placeMm)), dots.Bracket is null ? ReadFrom.Dots : ReadFrom.Bracket));
        }
    }

    private static (double Mm, double SdMm)? Value(Typed typed, (string Row, int? Count) plus, (string Row, int? Count) minus)
    {
        switch (plus.Count, minus.Count)
        {
            case (null, null):
                return null;
            case (0, 0):
                return (0, StepMm);
            case ({ } one, null):
                return Single(typed, plus.Row, minus.Row, one, 1);
            case (null, { } other):
                return Single(typed, minus.Row, plus.Row, other, -1);
            case ({ } one, 0):
                return ((one + 0.5) * StepMm, Sd(LoosenessSdMm));
            case (0, { } other):
                return (-(other + 0.5) * StepMm, Sd(LoosenessSdMm));
            case ({ } one, { } other):
                return Both(typed, plus.Row, one, minus.Row, other);
        }
    }

    private static (double Mm, double SdMm)? Single(Typed typed, string row, string opposite, int count, int sign)
    {
        if (count > 0)
        {
            return (sign * (count + 0.5) * StepMm, Sd(UnseenLoosenessSdMm));
        }

        typed.Findings.Add(Finding.Warn(
            "dots-half",
            $"{typed.Shown}: no dot shines in row {row} and row {opposite} was not read, so the sheet may lie anywhere towards {opposite}",
            $"count row {opposite} as well; this row was left out",
            item: typed.Option));
        return null;
    }

    private static (double Mm, double SdMm)? Both(Typed typed, string plus, int one, string minus, int other)
    {
        var looseness = (one + other) * StepMm / 2;
        if (looseness > LargestLoosenessMm + 1e-9)
        {
            var odd = one < other ? $"row {plus}" : other < one ? $"row {minus}" : $"row {plus} or row {minus}";
            typed.Findings.Add(Finding.Stop(
                "dots-contradict",
                FormattableString.Invariant($"{typed.Shown}: {one} dots shine in row {plus} and {other} in row {minus}, but side 2 can't lie off both ways; {odd} is the odd one"),
                $"count {odd} again: only slivers of light count, and the letters stand beside their own rows. If it stays so, side 2 lies off sideways by more than 1.1 mm: read the scales instead (`--reading`). Nothing was stored",
                item: typed.Option));
            return null;
        }

        typed.Findings.Add(Finding.Warn(
            "dots-loose",
            FormattableString.Invariant($"{typed.Shown}: dots shine in both rows {plus} and {minus}; the windows printed about {looseness:0.00} mm loose, which was taken out"),
            "nothing to do if it stays small; if the sheet looks blurred there, read the scales as well (`--reading`)",
            item: typed.Option));

        // The difference of two counts, each anywhere within its step, halved.
        return ((one - other) * StepMm / 2, HalfStepMm);
    }

    private static double Sd(double loosenessSdMm) => Math.Sqrt((HalfStepMm * HalfStepMm) + (loosenessSdMm * loosenessSdMm));
}
