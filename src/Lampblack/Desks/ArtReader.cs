using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Quantities;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>Reads artwork drawn elsewhere: which file, where, and how it is to be understood.</summary>
internal static class ArtReader
{
    private const string ColourHint = "write a colour as `\"#rrggbb\"`, such as `\"#ff00ff\"`";

    private static readonly ImmutableArray<(string Word, ArtBackground Value)> Backgrounds =
        [("auto", ArtBackground.Auto), ("field", ArtBackground.Field), ("paper", ArtBackground.Paper)];

    public static ArtItem? Read(TableReader table, DeskReading reading, string id, MarkStyle usual)
    {
        var style = StyleReader.Style(table, reading, usual);
        var copies = StyleReader.Copies(table, reading);
        var file = table.RequiredText("file", "\"face.svg\"");
        var place = table.PlaceMm("at", -DeskReading.FarthestMm, DeskReading.FarthestMm) ?? (0, 0);
        var width = table.LengthMm("width", 1, 2000);
        var height = table.LengthMm("height", 1, 2000);
        if (width is not null && height is not null)
        {
            reading.Findings.Add(Finding.Warn(
                "art-size-twice", "artwork keeps its proportions, so its height follows from its `width`", "take one away", table.SpanOf("height"), id));
            height = null;
        }

        var turn = table.Number("turn", -360, 360) ?? 0;
        var how = Reading(table, reading, id);
        return file is null ? null : new(id, table.Span, style, copies, file, table.SpanOf("file"), place.XMm, place.YMm, width, height, turn, how);
    }

    private static ArtReading Reading(TableReader table, DeskReading reading, string id)
    {
        var (field, paper) = Levels(table, reading, id);
        var kept = table.Texts("keep").Select(text => Colour(text.Value, text.Span, reading, id)).OfType<ScreenColour>().ToImmutableArray();
        var colours = table.Flag("colours") ?? true;
        KeyUnused.Report(table, reading, colours ? [] : ["keep"], "`colours = false` keeps none");
        return new(
            field,
            paper,
            table.Number("tolerance", 0, 50),
            colours,
            kept,
            table.Has("ink"),
            table.Choice("background", Backgrounds) ?? ArtBackground.Auto,
            table.Flag("invert") ?? false,
            table.Text("holes"),
            table.Text("hole-colour") is { } hole ? Colour(hole, table.SpanOf("hole-colour"), reading, id) : null);
    }

    /// <summary>One lightness, below which is field, or two: the second above which is bare paper.</summary>
    private static (double? Field, double? Paper) Levels(TableReader table, DeskReading reading, string id)
    {
        if (!table.Has("levels") || table.Raw("levels") is not { } node)
        {
            return default;
        }

        if (node is not ListNode)
        {
            return (table.Number("levels", 0, 100), null);
        }

        if (table.Numbers("levels", 2, 2, 0, 100) is not { } two)
        {
            return default;
        }

        if (two[0] < two[1])
        {
            return (two[0], two[1]);
        }

        reading.Findings.Add(Finding.Stop(
            "value-range", "`levels` go up: field below the first, bare paper above the second", "such as `levels = [35, 92]`", table.SpanOf("levels"), id));
        return default;
    }

    private static ScreenColour? Colour(string text, SourceSpan span, DeskReading reading, string id)
    {
        if (ScreenColour.Read(text) is { } colour)
        {
            return colour;
        }

        reading.Findings.Add(Finding.Stop("art-colour", $"{Shown.Code(text)} is no colour", ColourHint, span, id));
        return null;
    }
}
