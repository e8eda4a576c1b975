using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Printers;

namespace Lampblack.Sheets;

/// <summary>One of the nine copies of a sheet, whose mask is moved on purpose.</summary>
/// <param name="Number">From 1, left above, row by row as one reads, to 9, right below.</param>
/// <param name="RightMm">How far the mask is moved to the right, in front view.</param>
/// <param name="UpMm">How far it is moved up.</param>
public sealed record BracketCopy(int Number, double RightMm, double UpMm)
{
    /// <summary>What is printed on both sides of the copy.</summary>
    public string Words
    {
        get
        {
            var moves = new[] { Move(RightMm, "left", "right"), Move(UpMm, "down", "up") }.Where(move => move.Length > 0).ToList();
            return string.Create(
                CultureInfo.InvariantCulture, $"bracket {Number} of {Bracket.Count}: mask {(moves.Count == 0 ? "not moved" : string.Join(", ", moves))}");
        }
    }

    private static string Move(double mm, string below, string above) => mm == 0
        ? string.Empty
        : string.Create(CultureInfo.InvariantCulture, $"{System.Math.Abs(mm):0.###} mm {(mm < 0 ? below : above)}");
}

/// <summary>Where the copies of a sheet carry their numbers; null where the sheet is too full.</summary>
/// <param name="Sheet">The sheet.</param>
/// <param name="Front">The place on the front.</param>
/// <param name="Back">The place on the mask, still in front view and before the mask is moved.</param>
public sealed record BracketSheet(Sheet Sheet, LinePlace? Front, LinePlace? Back)
{
    /// <summary>The number of a copy on one side, in front view; the mask's before the mask is moved.</summary>
    /// <param name="copy">The copy.</param>
    /// <param name="onMask">Whether the mask's is wanted, not the front's.</param>
    public Region<SheetSpace> Label(BracketCopy copy, bool onMask)
    {
        System.ArgumentNullException.ThrowIfNull(copy);
        return (onMask ? Back : Front) is { } place
            ? SheetText.Centred(copy.Words, place.HeightMm, place.Middle, onMask ? Side.Back : Side.Front, place.QuarterTurns)
            : Region<SheetSpace>.Empty;
    }
}

/// <summary>A place for a line of lettering.</summary>
/// <param name="Middle">The middle of the line.</param>
/// <param name="HeightMm">Height of capitals.</param>
/// <param name="QuarterTurns">Quarter-turns, counter-clockwise.</param>
public sealed record LinePlace(Point<SheetSpace> Middle, double HeightMm, int QuarterTurns);

/// <summary>Nine copies of each sheet with the mask moved in steps, of which one fits: for a printer that nobody can measure first.</summary>
public static class Bracket
{
    /// <summary>How many copies.</summary>
    public const int Count = 9;

    /// <summary>The usual step in mm: offsets up to 1.05 mm either way come within 0.495 mm of some copy.</summary>
    public const double UsualStepMm = 0.7;

    /// <summary>The smallest step in mm.</summary>
    public const double SmallestStepMm = 0.2;

    /// <summary>The largest step in mm.</summary>
    public const double LargestStepMm = 2;

    /// <summary>The nine copies.</summary>
    /// <param name="stepMm">The step.</param>
    public static ImmutableArray<BracketCopy> Copies(double stepMm) =>
        [.. Enumerable.Range(0, Count).Select(index => new BracketCopy(index + 1, ((index % 3) - 1) * stepMm, (1 - (index / 3)) * stepMm))];

    /// <summary>Finds places for the numbers.</summary>
    /// <param name="sheets">The sheets.</param>
    /// <param name="printer">What is known of the printer.</param>
    /// <param name="stepMm">The step.</param>
    public static Checked<ImmutableArray<BracketSheet>> Plan(ImmutableArray<Sheet> sheets, PrinterProperties printer, double stepMm)
    {
        var findings = new List<Finding>();
        if (stepMm is not (>= SmallestStepMm and <= LargestStepMm))
        {
            findings.Add(Finding.Stop(
                "bracket-step",
                System.FormattableString.Invariant($"the step of a bracket must be from {SmallestStepMm} to {LargestStepMm} mm, found {stepMm}"),
                System.FormattableString.Invariant($"{UsualStepMm} mm is usual")));
            return new([], [.. findings]);
        }

        var widest = Copies(stepMm).Select(copy => copy.Words).MaxBy(words => SheetText.WidthMm(words, 1))!;
        return new([.. sheets.Select(sheet => Plan(sheet, printer, widest, findings))], [.. findings]);
    }

    private static BracketSheet Plan(Sheet sheet, PrinterProperties printer, string widest, List<Finding> findings)
    {
        var lines = new WasteLines(sheet, printer);
        var (front, back) = (lines.Find(widest), lines.Find(widest));
        if (front is null || back is null)
        {
            findings.Add(Finding.Warn(
                "bracket-number-no-room",
                $"{sheet.Id} has no room for the copies' numbers",
                "keep the sheets in their order and write the numbers 1 to 9 on them with a pencil; a larger paper has room",
                null,
                sheet.Id));
        }

        return new(sheet, front, back);
    }
}
