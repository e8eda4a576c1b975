using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Text.RegularExpressions;
using Lampblack.Findings;
using Lampblack.Quantities;

namespace Lampblack.Calibration;

/// <summary>How many dots shine in each row of one block; null where a row was not read.</summary>
/// <param name="Typed">As it was typed.</param>
/// <param name="Bracket">The sheet's number in a bracket of nine; null for a sheet of its own.</param>
/// <param name="Place">Where the block is.</param>
/// <param name="North">Row N.</param>
/// <param name="East">Row E.</param>
/// <param name="South">Row S.</param>
/// <param name="West">Row W.</param>
internal sealed partial record DotsAnswer(Typed Typed, int? Bracket, SheetPlace Place, int? North, int? East, int? South, int? West)
{
    /// <summary>Windows in a row.</summary>
    public const int Windows = 6;

    private const string Form = "write how many dots shine in each row, 0 to 6, such as 6-21:N=2,E=0,S=0,W=1; before it the place that is printed beside the block; for a sheet of a bracket its number and an @, such as 5@6-21:N=2";

    private static readonly ImmutableArray<string> Rows = ["N", "E", "S", "W"];

    /// <summary>Reads <c>[BRACKET[@]][PLACE:]N=2,E=0,S=0,W=1</c>; null with findings.</summary>
    public static DotsAnswer? Read(Typed typed, PaperSize paper)
    {
        var (head, rest) = NamedValues.Head(typed.Text);
        var counts = Counts(typed, head, rest);
        var sheet = head is null ? (null, SheetPlace.Unknown(paper)) : Sheet(typed, head, paper);
        if (counts is null || sheet is not var (bracket, place))
        {
            return null;
        }

        return new(typed, bracket, place, counts.GetValueOrDefault("N"), counts.GetValueOrDefault("E"), counts.GetValueOrDefault("S"), counts.GetValueOrDefault("W"));
    }

    /// <summary>Whether there are rows at the place on any of the sheets of the build that was read; a finding where there are none.</summary>
    /// <param name="rowsOf">The sheets and the places of their rows; empty where nobody told the build.</param>
    public void CheckRows(ImmutableArray<(string Sheet, string? Place)> rowsOf)
    {
        if (rowsOf.IsEmpty || !Place.IsCentimetres || rowsOf.Any(sheet => sheet.Place is not null && Place.IsBeside(sheet.Place)))
        {
            return;
        }

        var places = rowsOf.Where(sheet => sheet.Place is not null).Select(sheet => $"{sheet.Place} ({sheet.Sheet})").ToList();
        Typed.Findings.Add(Finding.Stop(
            "place-without-rows",
            $"{Typed.Shown}: no sheet of that build has dot rows at {Place.Name}",
            places.Count == 0
                ? "its sheets have no rows at all: read the scales beside the turn boxes instead (`--reading`). Nothing was stored"
                : $"rows are at {string.Join(", ", places)}: the place is printed below them. Nothing was stored",
            item: Typed.Option));
    }

    private static (int? Bracket, SheetPlace Place)? Sheet(Typed typed, string head, PaperSize paper)
    {
        var at = head.IndexOf('@', StringComparison.Ordinal);
        var number = at >= 0 ? head[..at].Trim() : head;
        var isNumber = int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var sheet);
        if (at >= 0 || isNumber)
        {
            if (!isNumber || sheet is < 1 or > 9)
            {
                typed.Unreadable($"has {Shown.Code(number)} for a sheet of the bracket", "its sheets are numbered 1 to 9; " + Form);
                return null;
            }

            var where = at >= 0 ? head[(at + 1)..].Trim() : "";
            if (where.Length == 0)
            {
                return (sheet, SheetPlace.Unknown(paper));
            }

            return SheetPlace.OfCentimetres(where, typed, paper) is { } place ? (sheet, place) : null;
        }

        return SheetPlace.OfCentimetres(head, typed, paper) is { } alone ? (null, alone) : null;
    }

    private static Dictionary<string, int?>? Counts(Typed typed, string? head, string rest)
    {
        if (NamedValues.Read(rest) is not { } pairs)
        {
            typed.Unreadable("is no count of dots", Form, Repaired(head, rest));
            return null;
        }

        var counts = new Dictionary<string, int?>();
        foreach (var (name, value) in pairs)
        {
            var row = name.ToUpperInvariant();
            if (!Rows.Contains(row))
            {
                typed.Unreadable($"has a row {Shown.Code(name)}; the rows are N, E, S and W", Form, Repaired(head, rest));
                return null;
            }

            if (!int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out var count) || count > Windows)
            {
                typed.Unreadable($"has {Shown.Code(value)} in row {row}; a row has six windows, so 0 to 6 can shine", Form);
                return null;
            }

            if (!counts.TryAdd(row, count))
            {
                typed.Twice($"row {row}");
                return null;
            }
        }

        return counts;
    }

    /// <summary>What was probably meant, with every count that was typed; null where not every count has a row that it can belong to.</summary>
    private static string? Repaired(string? head, string rest)
    {
        var found = Guess().Matches(rest.ToUpperInvariant()).Select(match => (Row: RowOf(match.Groups["row"].Value), Count: match.Groups["count"].Value)).ToList();

        // Rows go by other letters elsewhere, and O stands for the east here and for the west there. A single one can only be the row that is left over.
        var left = Rows.Where(row => found.All(pair => pair.Row != row)).ToList();
        if (found.Count(pair => pair.Row is null) == 1 && left.Count == 1)
        {
            found = [.. found.Select(pair => (pair.Row ?? left[0], pair.Count))];
        }

        var isWhole = found.Count > 0 && found.All(pair => pair.Row is not null) && found.Select(pair => pair.Row).Distinct().Count() == found.Count;
        return isWhole && found.Count == Digits().Count(rest) ? (head is null ? "" : head + ":") + string.Join(',', found.Select(pair => $"{pair.Row}={pair.Count}")) : null;
    }

    private static string? RowOf(string typed) => typed switch
    {
        "N" or "NORTH" => "N",
        "E" or "EAST" => "E",
        "S" or "SOUTH" => "S",
        "W" or "WEST" => "W",
        _ => null,
    };

    [GeneratedRegex("(?<row>[A-Z]+)[^A-Z0-9]*(?<count>[0-6])(?![0-9])", RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant)]
    private static partial Regex Guess();

    [GeneratedRegex("[0-9]+", RegexOptions.CultureInvariant)]
    private static partial Regex Digits();
}
