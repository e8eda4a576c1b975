using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using System.Xml.Linq;
using Lampblack.Books;
using Lampblack.Geometry;

namespace Lampblack.Tests.Books;

/// <summary>A picture of a lamp board's back, read back from its lines: places are mm as printed, y down.</summary>
internal sealed record BoardPicture(string Seen, List<List<Point<PageSpace>>> Wires, List<(Point<PageSpace> Plus, Point<PageSpace> Minus)> Legs, List<(string Words, Point<PageSpace> At, bool IsLight)> Words)
{
    /// <summary>Those of a panel, or of all.</summary>
    public static List<BoardPicture> Of(Book book, string panel = "") =>
        [.. ExampleBooks.Pictures(book).Where(picture => picture.Content.Contains($"The lamp board of {panel}", StringComparison.Ordinal) && picture.Content.Contains("seen from behind", StringComparison.Ordinal)).Select(picture => Read(XElement.Parse(picture.Content)))];

    /// <summary>Straight pieces of a wire.</summary>
    public static IEnumerable<(Point<PageSpace> From, Point<PageSpace> To)> Pieces(List<Point<PageSpace>> wire) => wire.Zip(wire.Skip(1));

    private static BoardPicture Read(XElement drawing)
    {
        List<XElement> all = [.. drawing.Descendants()];
        var legs = all.Where(element => element.Name.LocalName == "circle" && Number(element, "r") == 0.75).Select(element => new Point<PageSpace>(Number(element, "cx"), Number(element, "cy"))).Chunk(2).Select(pair => (pair[0], pair[1])).ToList();
        return new(
            all.First(element => element.Name.LocalName == "title").Value,
            [.. all.Where(element => element.Name.LocalName == "path" && element.Attribute("stroke-width")?.Value == "0.5" && element.Attribute("fill") is null).Select(element => Corners(element.Attribute("d")!.Value))],
            legs,
            [.. all.Where(element => element.Name.LocalName == "text").Select(element => (element.Value, new Point<PageSpace>(Number(element, "x"), Number(element, "y") - 0.9), element.Attribute("fill")!.Value == "#fff"))]);
    }

    private static List<Point<PageSpace>> Corners(string path) =>
        [.. path[1..].Split('L').Select(corner => corner.Split(' ')).Select(corner => new Point<PageSpace>(double.Parse(corner[0], CultureInfo.InvariantCulture), double.Parse(corner[1], CultureInfo.InvariantCulture)))];

    private static double Number(XElement element, string name) => double.Parse(element.Attribute(name)!.Value, CultureInfo.InvariantCulture);
}
