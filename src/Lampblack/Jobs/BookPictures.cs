using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Threading;
using Lampblack.Books;
using Lampblack.Circuits;
using Lampblack.Cutting;
using Lampblack.Fabrication;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Lighting;
using Lampblack.Wiring;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Jobs;

/// <summary>The pictures of a book, drawn for the size at which it shows them.</summary>
internal static class BookPictures
{
    private const double LargestSidePx = 800;
    private const double ManyPanelsSidePx = 560;
    private const int ManyPanels = 6;
    private const double WholeMm = 180;
    private const double HalfMm = 90;
    private static readonly ImmutableArray<string> FaceNames = ["day", "lit", "through", "through-off"];

    /// <summary>Faces of all panels as PNG: "dome/day", "dome/lit", and each sheet held to a lamp.</summary>
    public static ImmutableDictionary<string, ImmutableArray<byte>> Faces(BookInput input, CancellationToken cancellation) =>
        PictureFiles.Few(input.Laid.Desk.Light, input.Panels, input.Wish, FaceNames, input.Panels.Length > ManyPanels ? ManyPanelsSidePx : LargestSidePx, cancellation)
            .Where(file => FaceNames.Any(name => file.Path.EndsWith($"/{name}.png", StringComparison.Ordinal)))
            .ToImmutableDictionary(file => file.Path["panels/".Length..^".png".Length], file => file.Bytes, StringComparer.Ordinal);

    /// <summary>Faces as the book shows them, by name.</summary>
    public static IEnumerable<KeyValuePair<string, BookPicture>> OfFaces(BookInput input, ImmutableDictionary<string, ImmutableArray<byte>> faces)
    {
        foreach (var panel in input.Charts.Select(chart => chart.Laid.Panel))
        {
            var title = Text(panel.Title);
            yield return Face(panel.Id, "day", $"{title} by day.");
            yield return Face(panel.Id, "lit", $"{title} lit, in a dark room.");
            yield return Face(panel.Id, "through", $"{title} against a lamp, both sides in register.");
            yield return Face(panel.Id, "through-off", "The same with the mask off by all that it may be off.");
        }

        KeyValuePair<string, BookPicture> Face(string panel, string name, string caption) =>
            new($"{panel}/{name}", new($"<img src=\"data:image/png;base64,{Convert.ToBase64String(faces[$"{panel}/{name}"].AsSpan())}\" alt=\"{caption}\"/>", caption, HalfMm));
    }

    /// <summary>All that is drawn with lines, by name.</summary>
    public static ImmutableDictionary<string, BookPicture> Drawings(BookInput input, ImmutableArray<PanelLighting> lit, CancellationToken cancellation)
    {
        var tasks = new List<Func<(string Name, BookPicture Picture)>>();
        foreach (var chart in input.Charts)
        {
            var (id, title) = (chart.Laid.Panel.Id, Text(chart.Laid.Panel.Title));
            if (!chart.Holes.IsEmpty)
            {
                Drawn($"{id}/holes", () => Sketch(ChartPages.Drawing(chart), $"{title}: holes with their numbers, seen from the front"), $"{title}: the holes with their numbers, seen from the front. The black corner is the lower left one.", WholeMm);
                Drawn($"{id}/back", () => Sketch(BackView.Drawing(chart), $"{title} seen from behind: bodies of the parts"), $"{title} SEEN FROM BEHIND: the bodies of the parts, with the numbers of their holes.", WholeMm);
            }
        }

        foreach (var panel in lit)
        {
            Drawn($"{panel.Laid.Panel.Id}/emitters", () => Sketch(EmitterDrawing.Drawing(panel), $"{panel.Laid.Panel.Title}: where the emitters stand"), $"{Text(panel.Laid.Panel.Title)}: the emitters with their numbers, seen from the front.", WholeMm);
        }

        foreach (var (panel, loom) in input.Wiring?.Wires.Panels.Zip(input.Wiring.Looms).Where(pair => pair.First.Plug is not null) ?? [])
        {
            Drawn($"{panel.Laid.Panel.Id}/wires", () => Sketch(loom.Value.Drawing(), $"{panel.Laid.Panel.Title} seen from behind: wires"), $"{Text(panel.Laid.Panel.Title)} SEEN FROM BEHIND. {Text(LoomDrawing.Key)}", WholeMm);
        }

        if (input.Light.Circuit is { } circuit)
        {
            Drawn("circuit", () => Sketch(CircuitDrawing.Of(circuit, $"{input.Laid.Desk.Title}: lamps").Drawing(), "Circuit of the lamps"), "The circuit that feeds the lamps.", WholeMm);
        }

        if (input.Wiring is { } wiring && !wiring.Pins.Controls.IsEmpty)
        {
            Drawn("schematic", () => Sketch(Schematic.Of(wiring.Pins, wiring.Needs, wiring.Wires.Nets, input.Laid.Desk).Drawing(), "Schematic"), "How everything is joined, pin by pin.", WholeMm);
        }

        return tasks.AsParallel().AsOrdered().WithCancellation(cancellation).Select(task => task()).ToImmutableDictionary(pair => pair.Name, pair => pair.Picture, StringComparer.Ordinal);

        void Drawn(string name, Func<string> draw, string caption, double widthMm) => tasks.Add(() => (name, new(draw(), caption, widthMm)));
    }

    /// <summary>A plate with its cuts.</summary>
    public static BookPicture Plate(CutPlate plate, int index, int first, CutSheetPlan sheet) =>
        new(Sketch(CutFiles.Drawing("Plate", sheet, plate, index, first), string.Create(CultureInfo.InvariantCulture, $"Plate {index + 1} with its cuts")), string.Create(CultureInfo.InvariantCulture, $"Plate {index + 1} with its cuts, numbered in the order in which they are made."), HalfMm);

    /// <summary>A drawing within the page; no wider there than that.</summary>
    private static string Sketch<TSpace>(SvgDrawing<TSpace> drawing, string title)
        where TSpace : struct, ISpace => drawing.Sketch(WholeMm, title);
}
