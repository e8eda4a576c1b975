using System;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Layout;

namespace Lampblack.Checks;

/// <summary>Scales that are read without counting; steps that aren't round are told by the reader (<c>dial-step</c>).</summary>
internal static class DialRules
{
    private const double SlackMm = 1e-6;

    public static void Check(Inspection panel)
    {
        foreach (var placed in panel.Laid.Dials)
        {
            var dial = panel.ItemOf(placed.Origin) switch
            {
                Control control => control.Dial,
                FreeDial free => free.Dial,
                _ => null,
            };
            if (dial is not null && placed.Marks.Length > 1)
            {
                Between(panel, placed, dial);
                Marks(panel, placed, dial);
                if (panel.ItemOf(placed.Origin) is FreeDial)
                {
                    // The standard is about instruments; the scale around a knob is set by hand and not read from afar.
                    Numbers(panel, placed, dial);
                }
            }
        }
    }

    private static void Between(Inspection panel, PlacedDial placed, Dial dial)
    {
        var between = dial is { Law: ScaleLaw.Linear, Minor: > 0 } ? (int)Math.Ceiling((dial.Major / dial.Minor) - 1e-9) - 1 : 0;
        if (between > DialFigures.MostBetween)
        {
            var (major, minor) = DialFigures.StepsFor(Math.Abs(dial.To - dial.From), 10);
            panel.Findings.Add(
                Finding.Warn(
                    "dial-marks-many",
                    $"{between} marks stand between two numbers of the dial of {Shown.Code(placed.Origin.Item)}; at most {DialFigures.MostBetween} are read without counting (MIL-HDBK-759B Notice 2, 5.2.2.3.1.4.1)",
                    $"such as `major = {Shown.Number(major)}` and `minor = {Shown.Number(minor)}`",
                    placed.Origin.Span,
                    placed.Origin.Item),
                -between,
                placed.Origin);
        }
    }

    private static void Marks(Inspection panel, PlacedDial placed, Dial dial)
    {
        var longest = placed.Marks.MaxBy(mark => mark.OuterRadiusMm - mark.InnerRadiusMm)!;
        var size = DialFigures.MarksFor(longest.InnerRadiusMm);
        var length = longest.OuterRadiusMm - longest.InnerRadiusMm;
        if (dial.Numerals != NumeralStand.None && length < size.MinorShortestMm - DialFigures.LengthToleranceMm - SlackMm)
        {
            panel.Findings.Add(
                Finding.Warn(
                    "dial-marks-short",
                    $"the numbered marks of {Shown.Code(placed.Origin.Item)} are {Shown.Mm(length, 2)} long; at this radius even small marks have {Shown.Mm(size.MinorShortestMm)}, less {Shown.Mm(DialFigures.LengthToleranceMm)} ({CheckSources.Gost})",
                    $"`mark-length`: the standard has {Shown.Number(size.MajorLengthMm)} x {Shown.Mm(size.MajorWidthMm)} for numbered marks and up to {Shown.Number(size.MinorLongestMm)} x {Shown.Mm(size.MinorWidthMm)} for small ones",
                    placed.Origin.Span,
                    placed.Origin.Item),
                length - size.MinorShortestMm,
                placed.Origin);
        }

        // Marks of a dial without numerals are a pattern, such as a hatch, and nobody counts them.
        var angles = placed.Marks.Select(mark => mark.ClockDegrees).Order().ToList();
        var nearest = angles.Zip(angles.Skip(1), (one, next) => next - one).Where(step => step > 1e-6).DefaultIfEmpty(360).Min();
        var spacing = DialFigures.ArcMm(longest.InnerRadiusMm, nearest);
        var least = DialFigures.LeastSpacingMm(panel.Desk.Use.DistanceMm, panel.Desk.Use.Dim);
        if (dial.Numerals != NumeralStand.None && dial.Law == ScaleLaw.Linear && spacing < least - SlackMm)
        {
            panel.Findings.Add(
                Finding.Warn(
                    "dial-marks-close",
                    $"the marks of {Shown.Code(placed.Origin.Item)} stand {Shown.Mm(spacing, 2)} apart; at {Shown.Mm(panel.Desk.Use.DistanceMm)} {(panel.Desk.Use.Dim ? "in the dark " : string.Empty)}it takes {Shown.Mm(least, 2)} (MIL-STD-1472, from memory)",
                    "a larger `radius`, or a larger `minor`",
                    placed.Origin.Span,
                    placed.Origin.Item),
                spacing - least,
                placed.Origin);
        }
    }

    private static void Numbers(Inspection panel, PlacedDial placed, Dial dial)
    {
        if (dial.Numerals == NumeralStand.None || dial.Law == ScaleLaw.Logarithmic)
        {
            return;
        }

        var count = dial.Law == ScaleLaw.Table ? dial.TableDegrees.Length : (int)Math.Floor((Math.Abs(dial.To - dial.From) / dial.Major) + 1e-9) + 1;
        var sweep = dial.Law == ScaleLaw.Table ? dial.TableDegrees[^1].Degrees - dial.TableDegrees[0].Degrees : dial.EndDegrees - dial.StartDegrees;
        var length = DialFigures.ArcMm(placed.Marks[0].InnerRadiusMm, sweep);
        var (fewest, most) = DialFigures.NumbersFor(length);
        if (count < fewest || count > most)
        {
            panel.Findings.Add(
                Finding.Note(
                    "dial-numbers",
                    $"the dial of {Shown.Code(placed.Origin.Item)} has {count} numbered marks on {Shown.Mm(Math.Round(length, MidpointRounding.AwayFromZero))} of arc; {fewest} to {most} are read best ({CheckSources.Gost})",
                    dial.Law == ScaleLaw.Linear ? $"`major = {Shown.Number(DialFigures.StepsFor(Math.Abs(dial.To - dial.From), most).Major)}`" : "number fewer or more values of the table",
                    placed.Origin.Span,
                    placed.Origin.Item),
                -Math.Max(fewest - count, count - most),
                placed.Origin);
        }
    }
}
