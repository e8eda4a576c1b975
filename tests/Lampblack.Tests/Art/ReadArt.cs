using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using Lampblack.Art;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Lettering;
using Lampblack.Quantities;
using Xunit;

namespace Lampblack.Tests.Art;

/// <summary>Artwork read with the keys of a desk file, and what would be printed at a place of it.</summary>
internal sealed record ReadArt(ArtContent Content, ImmutableArray<Finding> Findings)
{
    public const string Field = "field";
    public const string Paper = "paper";

    public static ReadArt Of(string file, byte[] bytes, string keys)
    {
        var read = Any(file, bytes, keys);
        Assert.True(read.Value is not null, string.Join('\n', read.Findings));
        return new(read.Value, read.Findings);
    }

    public static ReadArt Of(string svg, bool isPicture, double widthMm, string keys, double heightMm = 10) => isPicture
        ? Of("art.png", ArtSamples.Rendered(svg, (int)Math.Round(widthMm / 25.4 * 600), (int)Math.Round(heightMm / 25.4 * 600)), FormattableString.Invariant($"width = {widthMm}\n{keys}"))
        : Of("art.svg", Encoding.UTF8.GetBytes(svg), FormattableString.Invariant($"width = {widthMm}\n{keys}"));

    public static Checked<ArtContent?> Any(string file, byte[] bytes, string keys)
    {
        var desk = DeskReader.Read("desk.toml", Encoding.UTF8.GetBytes($"lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [100, 100]\n[[panel.art]]\nfile = \"{file}\"\n{keys}\n"));
        Assert.Empty(desk.Findings);
        return ArtFile.Read(bytes, file, desk.Value.Panels[0].Items.OfType<ArtItem>().Single(), ImmutableSortedDictionary<string, Typeface>.Empty);
    }

    public IEnumerable<string> Codes => Findings.Where(finding => finding.Severity != Severity.Note).Select(finding => finding.Code);

    /// <summary>Field, paper, or the colour as <c>#rrggbb</c> (of an ink: its complement, K taken off all three).</summary>
    public string At(double xMm, double yMm)
    {
        for (var layer = Content.Layers.Length - 1; layer >= 0; layer--)
        {
            if (At(Content.Layers[layer], new(xMm, yMm)) is { } found)
            {
                return found;
            }
        }

        return Field;
    }

    /// <summary>Whether two colours differ by no more than so many codes.</summary>
    public static bool IsNear(string colour, string other, int codes = 6) => ScreenColour.Read(colour) is { } one && ScreenColour.Read(other) is { } two
        && Math.Abs(one.Red - two.Red) <= codes && Math.Abs(one.Green - two.Green) <= codes && Math.Abs(one.Blue - two.Blue) <= codes;

    private static string? At(ArtLayer layer, Point<ItemSpace> place)
    {
        if (layer is ArtArea area)
        {
            return !area.Shape.Contains(place) ? null : area.Ink is null ? Field : area.Ink == Ink.None ? Paper : Shown(area.Ink);
        }

        var dots = (ArtDots)layer;
        var (column, row) = Dot(dots.Placement, place);
        if (column < 0 || row < 0 || column >= dots.Shown.WidthDots || row >= dots.Shown.HeightDots || !dots.Shown[column, row])
        {
            return null;
        }

        if (dots.Colours is not { } colours)
        {
            return Paper;
        }

        var (x, y) = Dot(colours.Placement, place);
        var rgb = colours.Rgb.Span.Slice(3 * ((y * colours.WidthPx) + x), 3);
        return rgb is [255, 255, 255] ? Paper : new ScreenColour(rgb[0], rgb[1], rgb[2]).ToString();
    }

    private static (int Column, int Row) Dot(Affine<DotSpace, ItemSpace> placement, Point<ItemSpace> place)
    {
        var dot = placement.Inverse().Apply(place);
        return ((int)Math.Floor(dot.XMm), (int)Math.Floor(dot.YMm));
    }

    private static string Shown(Ink ink)
    {
        Assert.Equal(InkSpace.Cmyk, ink.Space);
        return new ScreenColour(Code(0), Code(1), Code(2)).ToString();

        byte Code(int index) => (byte)Math.Round(255 * (1 - Math.Min(1, ink.Amounts[index] + ink.Amounts[3])));
    }
}
