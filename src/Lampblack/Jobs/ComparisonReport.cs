using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Text.Json;
using Lampblack.Geometry;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>What a build's <c>report.json</c> tells a later build. A report that is missing, damaged or not ours gives null, never an error: then nothing is compared.</summary>
internal sealed record ComparisonReport(string Paper, string Black, ImmutableArray<ReportedPanel> Panels, ImmutableArray<ReportedSheet> Sheets)
{
    private const int LongestWord = 100;
    private const double FarthestMm = 1e5;
    private const double LargestShare = 0.05;

    /// <summary>The register number that its sheets were made with; 0 of reports that do not tell it.</summary>
    public int Register { get; private init; }

    /// <summary>The printer file that it was told; null where it was told none.</summary>
    public string? Printer { get; private init; }

    /// <summary>What was undone on its masks, in sheet mm; null of reports that do not tell it.</summary>
    public Affine<SheetSpace, SheetSpace>? Undone { get; private init; }

    /// <summary>Whether its masks were to be shifted on purpose, copy by copy.</summary>
    public bool IsBracket { get; private init; }

    public static ComparisonReport? Read(ReadOnlyMemory<byte> bytes)
    {
        if (bytes.IsEmpty)
        {
            return null;
        }

        try
        {
            using var document = JsonDocument.Parse(bytes);
            var root = document.RootElement;
            if (Word(root, "schema") != Report.Schema)
            {
                return null;
            }

            var report = new ComparisonReport(
                Word(root, "paper"),
                Word(root, "black"),
                [.. root.GetProperty("panels").EnumerateArray().Select(Panel)],
                [.. root.GetProperty("sheets").EnumerateArray().Select(Sheet)])
            {
                Printer = OptionalWord(root, "printer"),
                Undone = root.TryGetProperty("undone", out var undone) ? Map(undone) : null,
                IsBracket = root.TryGetProperty("bracket", out var bracket) && bracket.GetBoolean(),
                Register = root.TryGetProperty("register", out var register) && register.TryGetInt32(out var number) && number >= 0 ? number : 0,
            };
            return IsUnique(report.Panels.Select(panel => panel.Id)) && IsUnique(report.Sheets.Select(sheet => sheet.Id)) ? report : null;
        }
        catch (Exception fault) when (fault is JsonException or KeyNotFoundException or InvalidOperationException or FormatException)
        {
            return null;
        }
    }

    /// <summary>A map that no printer goes beyond: a few mm, and shares of a hundredth.</summary>
    private static Affine<SheetSpace, SheetSpace> Map(JsonElement rows)
    {
        var numbers = rows.EnumerateArray().Select(row => Lengths(row, 3)).ToArray();
        var map = numbers.Length == 2
            ? new Affine<SheetSpace, SheetSpace>(numbers[0][0], numbers[0][1], numbers[0][2], numbers[1][0], numbers[1][1], numbers[1][2])
            : throw new FormatException("another count");
        return new[] { map.Xx - 1, map.Xy, map.Yx, map.Yy - 1 }.All(share => Math.Abs(share) < LargestShare) ? map : throw new FormatException("no printer's");
    }

    private static ReportedSheet Sheet(JsonElement sheet)
    {
        var marks = sheet.TryGetProperty("marks", out var listed)
            ? listed.EnumerateArray().Select(mark => (Number: mark.GetProperty("number").GetInt32(), At: Lengths(mark.GetProperty("atMm"), 2))).ToList()
            : [];
        return marks.TrueForAll(mark => WasteMarks.IsNumber(mark.Number)) && marks.DistinctBy(mark => mark.Number).Count() == marks.Count
            ? new(Word(sheet, "id"), Word(sheet, "pairCode"), OptionalWord(sheet, "dotRows")) { Marks = [.. marks.Select(mark => new RegisterMark(mark.Number, new(mark.At[0], mark.At[1])))] }
            : throw new FormatException("marks");
    }

    private static ReportedPanel Panel(JsonElement panel)
    {
        var plate = Lengths(panel.GetProperty("plateMm"), 3);
        var controls = panel.GetProperty("controls").EnumerateArray().Select(Control).ToImmutableArray();
        return IsUnique(controls.Select(control => control.Id))
            ? new(
                Word(panel, "id"),
                (plate[0], plate[1], plate[2]),
                panel.TryGetProperty("frontHash", out _) ? Sides(panel) : null,
                Word(panel, "holesHash"),
                Word(panel, "fixingsHash"),
                panel.GetProperty("holes").GetInt32(),
                controls)
            : throw new FormatException("a control stands twice");
    }

    private static ReportedSides Sides(JsonElement panel) =>
        new(Length(panel.GetProperty("spreadMm")), Word(panel, "artworkHash"), Word(panel, "frontHash"), Word(panel, "maskHash"));

    private static ReportedControl Control(JsonElement control)
    {
        var at = Lengths(control.GetProperty("atMm"), 2);
        var drilled = control.GetProperty("drilledMm") is { ValueKind: not JsonValueKind.Null } element ? Lengths(element, 2) : null;
        return new(
            Word(control, "id"),
            Word(control, "part"),
            new(at[0], at[1]),
            drilled is null ? null : new(drilled[0], drilled[1]),
            Word(control, "holeHash"));
    }

    /// <summary>A word that may be shown on a terminal; the file may have come from anywhere.</summary>
    private static string Word(JsonElement parent, string name) =>
        parent.GetProperty(name).GetString() is { Length: > 0 and <= LongestWord } word && !word.Any(char.IsControl)
            ? word
            : throw new FormatException(name);

    /// <summary>A word that older reports don't have, or that may be null.</summary>
    private static string? OptionalWord(JsonElement parent, string name) =>
        parent.TryGetProperty(name, out var word) && word.ValueKind != JsonValueKind.Null ? Word(parent, name) : null;

    private static double Length(JsonElement element) =>
        element.GetDouble() is var mm && Math.Abs(mm) <= FarthestMm ? mm : throw new FormatException("too far");

    private static double[] Lengths(JsonElement list, int count) =>
        list.EnumerateArray().Select(Length).ToArray() is var lengths && lengths.Length == count ? lengths : throw new FormatException("another count");

    private static bool IsUnique(IEnumerable<string> ids) => ids.GroupBy(id => id, StringComparer.Ordinal).All(group => !group.Skip(1).Any());
}

/// <summary>What a report tells of a panel's front and mask.</summary>
internal sealed record ReportedSides(double SpreadMm, string ArtworkHash, string FrontHash, string MaskHash);

/// <summary>A panel of a report; its sides are null where only the bench was asked for.</summary>
internal sealed record ReportedPanel(
    string Id,
    (double WidthMm, double HeightMm, double CornerMm) PlateMm,
    ReportedSides? Sides,
    string HolesHash,
    string FixingsHash,
    int HoleCount,
    ImmutableArray<ReportedControl> Controls);

/// <summary>A control of a report: where its hole is meant to be, and where it was drilled.</summary>
internal sealed record ReportedControl(string Id, string Part, Point<PanelSpace> At, Vector<PanelSpace>? Drilled, string HoleHash)
{
    public Point<PanelSpace> Centre => At + (Drilled ?? default);
}

/// <summary>A sheet of a report, and the place of its dot rows; null where it has none.</summary>
internal sealed record ReportedSheet(string Id, string PairCode, string? DotRows = null)
{
    /// <summary>Its register marks; none of older reports.</summary>
    public ImmutableArray<RegisterMark> Marks { get; init; } = [];
}
