using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Threading;
using Lampblack.Books;
using Lampblack.Circuits;
using Lampblack.Cutting;
using Lampblack.Formats;
using Lampblack.Geometry;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Jobs;

/// <summary>The pictures of a book, drawn for the size at which it shows them.</summary>
internal static class BookPictures
{
    // Panels share the room of a book: the more there are, the smaller their pictures.
    private static double LargestSidePx(int panels) => panels switch { > 6 => 560, > 3 => 640, _ => 800 };

    private const string Hidden = "lit-hidden";
    private const double WholeMm = 180;

    // A page has room for 240 mm at the width of 180; what is less high finds room beneath other things.
    private const double TallestCircuitMm = 165.0 / WholeMm * CircuitDrawing.WidthMm;

    private const double HalfMm = 90;
    private static readonly ImmutableArray<string> FaceNames = ["day", "lit", Hidden, "through", "through-off"];

    /// <summary>Faces of all panels as PNG: "dome/day", "dome/lit", and each sheet held to a lamp.</summary>
    public static ImmutableDictionary<string, ImmutableArray<byte>> Faces(BookInput input, CancellationToken cancellation) =>
        PictureFiles.Few(input.Laid.Desk.Light, input.Panels, input.Wish, FaceNames, LargestSidePx(input.Panels.Length), cancellation)
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
            if (faces.ContainsKey($"{panel.Id}/{Hidden}"))
            {
                yield return Face(panel.Id, Hidden, $"{title} lit, with the lamps of its hidden legends on.");
            }

            yield return Face(panel.Id, "through", $"{title} against a lamp, both sides in register.");
            yield return Face(panel.Id, "through-off", "The same with the mask off by all that it may be off.");
        }

        KeyValuePair<string, BookPicture> Face(string panel, string name, string caption) =>
            new($"{panel}/{name}", new(SharedPictures.Of(faces[$"{panel}/{name}"], caption), caption, HalfMm));
    }

    /// <summary>All that is drawn with lines, by name.</summary>
    public static ImmutableDictionary<string, BookPicture> Drawings(BookInput input, CancellationToken cancellation)
    {
        var tasks = new List<Func<(string Name, BookPicture Picture)>>();
        foreach (var (chart, wires) in input.Charts.Join(input.Wiring?.Wires.Panels.Where(panel => panel.Plug is not null) ?? [], chart => chart.Laid.Panel.Id, panel => panel.Laid.Panel.Id, (chart, panel) => (chart, panel)))
        {
            var (id, title) = (chart.Laid.Panel.Id, Text(chart.Laid.Panel.Title));
            Drawn($"{id}/looms", () => Sketch(LoomOverview.Of(chart, wires, WholeMm), $"{title} seen from behind: looms, and the parts by the numbers of their holes", ActPen.Fitting($"BACK of {chart.Laid.Panel.Title}, up is up", WholeMm - 6, 3)), $"{title} SEEN FROM BEHIND: where the looms run (the thicker, the more wires), the tags that they end at (small black squares), and the parts by the numbers of their holes.", WholeMm);
        }

        // Strings and strips are drawn as they are soldered; what stands before pixels is not.
        if (input.Light.Circuit is { HasPixels: true } circuit)
        {
            foreach (var (index, pages) in CircuitPages(circuit, input.Laid.Desk.Title).Index())
            {
                tasks.Add(() => ($"circuit/{Digits(index + 1)}", new BookPicture(Sketch(pages.Drawing.Drawing(), "Circuit of the lamps"), $"The circuit that feeds the lamps: {Text(pages.Of)}.", WholeMm) { IsTall = true }));
            }
        }

        return tasks.AsParallel().AsOrdered().WithCancellation(cancellation).Select(task => task()).ToImmutableDictionary(pair => pair.Name, pair => pair.Picture, StringComparer.Ordinal);

        void Drawn(string name, Func<string> draw, string caption, double widthMm) => tasks.Add(() => (name, new(draw(), caption, widthMm)));
    }

    /// <summary>A plate with its cuts.</summary>
    public static BookPicture Plate(CutPlate plate, int index, int first, CutSheetPlan sheet) =>
        new(Sketch(CutFiles.Shown(sheet, plate, index, first), $"Plate {Digits(index + 1)} with its cuts"), $"Plate {Digits(index + 1)} with its cuts, numbered in the order in which they are made.", HalfMm);

    /// <summary>The same, with the strips by which the prints are hinged on it.</summary>
    public static BookPicture Hinged(CutPlate plate, int index, int first, BookInput input, ImmutableArray<BookHinge> hinges) => new(
        Sketch(BookHinges.Drawn(CutFiles.Shown(input.Cut, plate, index, first), plate, index + 1, hinges), $"Plate {Digits(index + 1)}: where each print lies and where it is hinged"),
        $"Plate {Digits(index + 1)}, seen from the front: where each print comes to lie. The striped strip is where it is hinged.",
        HalfMm);

    /// <summary>The lamps' circuit in as few drawings as keep their letters readable on a page.</summary>
    private static List<(CircuitDrawing Drawing, string Of)> CircuitPages(CircuitPlan plan, string title)
    {
        var pages = new List<(CircuitDrawing, string)>();
        for (var first = 0; first < plan.Channels.Length;)
        {
            var count = 1;
            var drawing = CircuitDrawing.Of(plan, $"{title}: lamps", first, count);
            while (first + count < plan.Channels.Length && CircuitDrawing.Of(plan, $"{title}: lamps", first, count + 1) is var more && more.HeightMm <= TallestCircuitMm)
            {
                (drawing, count) = (more, count + 1);
            }

            pages.Add((drawing, string.Join(", ", plan.Channels.Skip(first).Take(count).Select(channel => channel.Channel.Name))));
            first += count;
        }

        return pages;
    }

    private static string Digits(int number) => number.ToString(CultureInfo.InvariantCulture);

    /// <summary>A drawing within the page; no wider there than that.</summary>
    private static string Sketch<TSpace>(SvgDrawing<TSpace> drawing, string title, string head = "")
        where TSpace : struct, ISpace => drawing.Sketch(WholeMm, title, head);
}
