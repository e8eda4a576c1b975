using System;
using System.Text;
using Lampblack.Bitmaps;
using Lampblack.Geometry;
using Lampblack.Tests.Register;
using SkiaSharp;
using Xunit;

namespace Lampblack.Tests.Art;

/// <summary>The same drawing as SVG and, drawn by an independent renderer (librsvg) at 1200 dpi without anti-aliasing, as PNG.</summary>
public sealed class SamePictureTests
{
    private const double DotMm = 25.4 / 1200;

    /// <summary>What openings may differ by: a dot for where the picture's own edges lie, and a quarter more, so that no slanting shift by the whole spread covers a dot's corner.</summary>
    private const double MostDots = 1.25;

    /// <summary>The grid on which both are compared: an eighth of a dot.</summary>
    private const double GridMm = 25.4 / 9600;

    private const double SideMm = 12;

    private const string Head = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"12mm\" height=\"12mm\" viewBox=\"0 0 1200 1200\" shape-rendering=\"crispEdges\"><rect width=\"1200\" height=\"1200\"/>";

    /// <summary>Edges of many directions, curves, a ring, thin and thick strokes with round ends, corners of 120 degrees and more.</summary>
    private const string Smooth = Head + """
        <g fill="none" stroke="#ffffff">
        <circle cx="310" cy="330" r="137" stroke-width="43"/>
        <path d="M985.1 362.7L855.6 501.7L670.4 459.0L614.9 277.3L744.4 138.3L929.6 181.0z" stroke-width="31" stroke-linejoin="round"/>
        <path d="M120 660c200 -130 310 170 520 40" stroke-width="27" stroke-linecap="round"/>
        </g>
        <g fill="#ffffff"><rect x="171" y="870" width="212" height="211" rx="20"/><path d="M749.2 973.4L707.7 1046.7L626.6 1069.2L553.3 1027.7L530.8 946.6L572.3 873.3L653.4 850.8L726.7 892.3z"/><ellipse cx="1000" cy="860" rx="120" ry="70" transform="rotate(20 1000 860)"/></g>
        </svg>
        """;

    /// <summary>Corners of 45 and 60 degrees, of a fill and of a stroke.</summary>
    private const string Sharp = Head + """
        <path fill="#ffffff" d="M200 200l300 130 -123.1 304.2z"/><path fill="none" stroke="#ffffff" stroke-width="40" d="M1036.7 871.7L694.6 925.9L818.7 602.5z"/></svg>
        """;

    /// <summary>What stays black within the rings' openings is 0.2 mm wide in the first, too little to print, and 0.5 mm in the second.</summary>
    private const string Rings = Head + """
        <g fill="none" stroke="#ffffff" stroke-width="40"><circle cx="310" cy="330" r="80"/><circle cx="800" cy="810" r="95"/></g></svg>
        """;

    /// <summary>Opening of the default spread, 23.6 dots.</summary>
    private const double SpreadMm = 0.5;

    [Theory]
    [InlineData("smooth", 0.75, MostDots)]
    [InlineData("rings", 0.75, MostDots)]

    // A tip thinner than a dot has no dots: of a corner of 45 degrees, a dot and a half are missing from both the picture and its opening.
    [InlineData("sharp", 1.01, 1.6)]
    public void Shown_areas_and_openings_of_both_are_the_same_to_the_dot(string which, double mostShownDots, double mostOpenDots)
    {
        var drawing = which switch { "smooth" => Smooth, "rings" => Rings, _ => Sharp };
        var vector = Separated("art.svg", Encoding.UTF8.GetBytes(drawing), SpreadMm).Panels[0].Shapes;
        var layer = Assert.Single(Separated("art.png", ArtSamples.Rendered(drawing, 567, 567), SpreadMm).Panels[0].Shapes.Dots);
        Assert.InRange(layer.Mark.MmPerDot, 0.0211, 0.0212);
        var shown = Farthest(Painted(vector.Lit), Painted(layer.Shown, layer.Placement)) / DotMm;
        var open = Farthest(Painted(vector.Openings), Painted(layer.Opening!, layer.Placement)) / DotMm;
        TestContext.Current.TestOutputHelper?.WriteLine(FormattableString.Invariant($"{which}: seen {shown:0.00} dots, openings {open:0.00} dots"));
        Assert.True(shown < mostShownDots, FormattableString.Invariant($"what is seen differs by {shown:0.00} dots"));
        Assert.True(open < mostOpenDots, FormattableString.Invariant($"openings differ by {open:0.00} dots"));
    }

    [Fact]
    public void The_comparison_sees_a_spread_that_differs_by_three_hundredths()
    {
        var vector = Separated("art.svg", Encoding.UTF8.GetBytes(Smooth), 0.53).Panels[0].Shapes;
        var layer = Separated("art.png", ArtSamples.Rendered(Smooth, 567, 567)).Panels[0].Shapes.Dots[0];
        Assert.True(Farthest(Painted(vector.Openings), Painted(layer.Opening!, layer.Placement)) > MostDots * DotMm);
    }

    private static SeparatedDesk Separated(string name, byte[] bytes, double spreadMm = SpreadMm)
    {
        var (desk, files) = ArtSamples.Desk(name, bytes, SideMm, SideMm);
        return SeparatedDesk.Of(desk, "full", spreadMm, ArtSamples.SmallPaper, files: files);
    }

    /// <summary>Hausdorff's distance between both and between what both leave free, so that narrow gaps count too.</summary>
    private static double Farthest(bool[] first, bool[] second)
    {
        var (notFirst, notSecond) = (Array.ConvertAll(first, set => !set), Array.ConvertAll(second, set => !set));
        return Math.Max(Distances.Farthest(first, second, Side), Distances.Farthest(notFirst, notSecond, Side)) * GridMm;
    }

    private static int Side => (int)(SideMm / GridMm);

    private static bool[] Painted(Region<PanelSpace> region)
    {
        using var builder = new SKPathBuilder();
        foreach (var border in region.Borders())
        {
            builder.AddPoly(Array.ConvertAll([.. border.Points], point => new SKPoint((float)(point.XMm / GridMm), (float)((SideMm - point.YMm) / GridMm))), true);
        }

        using var path = builder.Detach();
        using var bitmap = new SKBitmap(new SKImageInfo(Side, Side, SKColorType.Alpha8));
        using var canvas = new SKCanvas(bitmap);
        using var paint = new SKPaint { IsAntialias = false, Color = SKColors.Black };
        canvas.DrawPath(path, paint);
        return Array.ConvertAll(bitmap.GetPixelSpan().ToArray(), alpha => alpha > 0);
    }

    /// <summary>Each place of the grid by the dot that it lies in.</summary>
    private static bool[] Painted(BitRaster dots, Affine<DotSpace, PanelSpace> placement)
    {
        // No turn: columns and rows are found on their own.
        var back = placement.Inverse();
        var columns = new int[Side];
        var rows = new int[Side];
        for (var place = 0; place < Side; place++)
        {
            var dot = back.Apply(new((place + 0.5) * GridMm, SideMm - ((place + 0.5) * GridMm)));
            (columns[place], rows[place]) = ((int)Math.Floor(dot.XMm), (int)Math.Floor(dot.YMm));
        }

        var painted = new bool[Side * Side];
        for (var place = 0; place < painted.Length; place++)
        {
            painted[place] = dots[columns[place % Side], rows[place / Side]];
        }

        return painted;
    }
}
