using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Quantities;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>Reads what many items have in common: ink and light role, lettering, copies.</summary>
internal static class StyleReader
{
    /// <summary>Copies nearer than this are one smear.</summary>
    private const double SmallestStepMm = 0.1;

    /// <summary>Less toner than this is no cover.</summary>
    private const double LeastCover = 0.05;

    private static readonly ImmutableArray<(string Word, LightRole Value)> Roles =
        [("lit", LightRole.Lit), ("unlit", LightRole.Unlit), ("hidden", LightRole.Hidden)];

    /// <summary>Reads <c>role</c>, <c>ink</c>, <c>backed</c> and <c>cover</c>.</summary>
    public static MarkStyle Style(TableReader table, DeskReading reading, MarkStyle usual)
    {
        var role = table.Choice("role", Roles) ?? usual.Role;
        var (given, ink) = Ink(table, reading, "ink");
        var chosen = given ? ink : usual.Ink;

        // Behind its cover a hidden mark shows no ink of its own, so a colour that was chosen goes into its opening.
        var backed = table.Flag("backed") ?? (usual.Backed || (role == LightRole.Hidden && chosen is not null && chosen != Quantities.Ink.None));
        var cover = table.Number("cover", LeastCover, 1) ?? usual.CoverShare;
        var style = new MarkStyle(role, chosen, backed, cover);
        if (style.Role != LightRole.Unlit && (style.Ink is null || style.Ink == Quantities.Ink.FullK))
        {
            reading.Findings.Add(Finding.Stop(
                "ink-black-cannot-shine",
                style.Ink is null && !reading.FieldIsBlack
                    ? "this is to shine, but it is in the field's own ink, behind which the mask stays black"
                    : "this is to shine, but its ink is black, which lets no light through",
                "give it another `ink`, or `role = \"unlit\"`",
                table.Has("ink") ? table.SpanOf("ink") : table.SpanOf("role")));
            return style with { Role = LightRole.Unlit };
        }

        return style;
    }

    /// <summary>Reports <c>cover</c> and <c>backed</c> where neither the item's marks nor its ranges, which take both from it, have a use for them.</summary>
    public static void Idle(TableReader table, DeskReading reading, MarkStyle usual, MarkStyle style, IEnumerable<MarkStyle> ranges)
    {
        var asked = table.Raw("role") is TextNode role ? role.Value != "unlit" : usual.Role != LightRole.Unlit;
        if (asked && style.Role == LightRole.Unlit)
        {
            // It was to shine in black, which is told already; what it was to look like is not known.
            return;
        }

        MarkStyle[] all = [style, .. ranges];
        var covers = table.Raw("cover") is not NumberNode { Value: >= LeastCover and <= 1 } || all.Any(mark => mark.Role == LightRole.Hidden);
        KeyUnused.Report(table, reading, covers ? [] : ["cover"], "only what is `hidden` has a cover");
        var backs = all.Any(mark => mark.Backed && mark.Role != LightRole.Unlit && mark.Ink != Quantities.Ink.None);
        KeyUnused.Report(
            table,
            reading,
            table.Raw("backed") is FlagNode { Value: true } && !backs ? ["backed"] : [],
            style.Role == LightRole.Unlit ? "behind what is `unlit` the mask has no opening to print an ink in" : "`white` is bare paper, and there is no ink to print");
    }

    /// <summary>Reads an ink by name; says whether the key was there. A null ink is the field's own.</summary>
    public static (bool Given, Ink? Ink) Ink(TableReader table, DeskReading reading, string key)
    {
        if (table.Text(key) is not { } name)
        {
            return (false, null);
        }

        if (name is NamedInks.FieldWord or "black")
        {
            // Black is what people call the toner: on a field of another ink they want to see black.
            return (true, name == NamedInks.FieldWord || reading.FieldIsBlack ? null : Quantities.Ink.FullK);
        }

        if (reading.Inks.Find(name) is { } ink)
        {
            return (true, ink);
        }

        var known = reading.Inks.Names.Append("black");
        reading.Findings.Add(Finding.Stop(
            "ink-unknown",
            $"there is no ink {Shown.Code(name)}",
            Nearest.To(name, known) is { } near ? $"did you mean {Shown.Code(near)}?" : "known are " + Shown.List(known.Select(Shown.Short)) + "; more can be mixed in `[inks]`",
            table.SpanOf(key)));
        return (false, null);
    }

    /// <summary>Reads <c>font</c>, <c>height</c>, <c>spacing</c> and <c>leading</c> over what holds so far.</summary>
    public static TextStyle Text(TableReader table, TextStyle usual) => new(
        table.Text("font") ?? usual.Font,
        table.LengthMm("height", 0.5, 200) ?? usual.HeightMm,
        table.LengthMm("spacing", -2, 100) ?? usual.SpacingMm,
        table.Number("leading", 1, 5) ?? usual.LeadingFactor);

    /// <summary>Reads <c>row</c> or <c>grid</c>.</summary>
    public static Repetition Copies(TableReader table, DeskReading reading)
    {
        var row = table.Table("row");
        var grid = table.Table("grid");
        if (row is not null && grid is not null)
        {
            reading.Findings.Add(Finding.Stop("row-and-grid", "an item is repeated by `row` or by `grid`, not by both", "take one away", table.SpanOf("grid")));
        }

        var (asRow, asGrid) = (row is null ? null : Row(row, reading), grid is null ? null : Grid(grid, reading));
        var copies = asRow ?? asGrid ?? Repetition.Once;
        row?.Finish();
        grid?.Finish();
        return reading.Count(copies.Count, table.Span) ? copies : Repetition.Once;
    }

    /// <summary>Reads words for each copy: one text or list of lines for all, or under <paramref name="manyKey"/> one entry for each copy.</summary>
    public static ImmutableArray<ImmutableArray<string>> Words(TableReader table, DeskReading reading, string oneKey, string manyKey, int copies)
    {
        if (!table.Has(manyKey))
        {
            var lines = table.Texts(oneKey);
            return lines.IsEmpty ? [] : [[.. lines.SelectMany(line => Lines(line.Value))]];
        }

        if (table.Has(oneKey))
        {
            reading.Findings.Add(Finding.Stop(
                "words-twice", $"`{oneKey}` and `{manyKey}` say the same thing", $"keep `{manyKey}` for a row or grid, else `{oneKey}`", table.SpanOf(oneKey)));
            _ = table.Texts(oneKey);
        }

        var words = table.Texts(manyKey, allowEmpty: true);
        if (words.Length != copies)
        {
            reading.Findings.Add(Finding.Stop(
                "words-count",
                string.Create(CultureInfo.InvariantCulture, $"`{manyKey}` has {Shown.Count(words.Length, "entry", "entries")} for {Shown.Count(copies, "copy", "copies")}"),
                "give one entry for each copy, row by row; \"\\n\" in an entry starts a new line",
                table.SpanOf(manyKey)));
        }

        return [.. Enumerable.Range(0, copies).Select(copy =>
            copy < words.Length ? [.. Lines(words[copy].Value)] : ImmutableArray<string>.Empty)];
    }

    /// <summary>The lines of a text. A tab has no width of its own on a panel: it parts words as a blank does.</summary>
    private static string[] Lines(string text) => text.Replace('\t', ' ').Split('\n');

    private static bool Apart(bool apart, TableReader table, DeskReading reading)
    {
        if (!apart)
        {
            reading.Findings.Add(Finding.Stop(
                "value-range",
                FormattableString.Invariant($"`step` must be at least {SmallestStepMm} mm; else the copies lie in one place"),
                "write how far it is from one copy to the next: `step = 20`, or `step = [20, 15]` for x and y",
                table.SpanOf("step")));
        }

        return apart;
    }

    private static Repetition Row(TableReader row, DeskReading reading)
    {
        var count = row.Whole("count", 1, DeskReading.MostItems);
        Require(row, reading, "count", "`count = 4`: how many copies there are");
        var steps = Steps(row, reading, alone => (alone, 0));
        return count is { } n && steps is { } step
            && Apart(n < 2 || Math.Max(Math.Abs(step.XMm), Math.Abs(step.YMm)) >= SmallestStepMm, row, reading)
            ? new(n, 1, step.XMm, step.YMm)
            : Repetition.Once;
    }

    private static Repetition Grid(TableReader grid, DeskReading reading)
    {
        var columns = grid.Whole("columns", 1, 1000);
        var rows = grid.Whole("rows", 1, 1000);
        Require(grid, reading, "columns", "`columns = 4`: how many copies stand side by side");
        Require(grid, reading, "rows", "`rows = 2`: how many rows there are");
        var steps = Steps(grid, reading, alone => (alone, alone));

        // A grid of a single row has nothing below it; with its step downwards it would climb, as a row does.
        return columns is { } c && rows is { } r && steps is { } step
            && Apart((c < 2 || Math.Abs(step.XMm) >= SmallestStepMm) && (r < 2 || Math.Abs(step.YMm) >= SmallestStepMm), grid, reading)
            ? new(c, r, step.XMm, r == 1 ? 0 : step.YMm)
            : Repetition.Once;
    }

    private static (double XMm, double YMm)? Steps(TableReader table, DeskReading reading, Func<double, (double XMm, double YMm)> ofOneLength)
    {
        Require(table, reading, "step", "`step = 18`, or `step = [18, 22]` for right and down: the distance from copy to copy in mm");
        return table.Raw("step") is ListNode
            ? table.PlaceMm("step", -DeskReading.FarthestMm, DeskReading.FarthestMm)
            : table.LengthMm("step", -DeskReading.FarthestMm, DeskReading.FarthestMm) is { } alone ? ofOneLength(alone) : null;
    }

    private static void Require(TableReader table, DeskReading reading, string key, string example)
    {
        if (!table.Has(key))
        {
            reading.Findings.Add(Finding.Stop("key-missing", $"{table.What} has no `{key}`", "such as " + example, table.Span));
        }
    }
}
