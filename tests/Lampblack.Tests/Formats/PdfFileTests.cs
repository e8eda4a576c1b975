using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Text;
using CsCheck;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Quantities;
using Xunit;

namespace Lampblack.Tests.Formats;

/// <summary>What the file says, seen in its bytes.</summary>
public sealed class PdfFileTests
{
    private static readonly PdfOptions Options = new("Dome desk", PdfSides.OneSided);

    [Fact]
    public void The_same_pages_give_the_same_bytes_in_every_culture()
    {
        var page = PdfSamples.A4(new Painted<PageSpace>(PdfSamples.Holed(), Ink.Cmyk(0.6, 0.4, 0.4, 1)));
        var first = PdfFile.Write([page], Options);
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("sv-SE"); // decimal comma and a minus sign of its own
            Assert.Equal(first, PdfFile.Write([page], Options));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Other_contents_have_another_identifier()
    {
        static string Identifier(ImmutableArray<byte> file) => Encoding.Latin1.GetString(file.AsSpan()).Split("/ID [<")[1][..32];
        var page = PdfSamples.A4(new Painted<PageSpace>(PdfSamples.Holed(), Ink.FullK));
        var moved = page with { Areas = [new(PdfSamples.Holed().Map(Affine<PageSpace, PageSpace>.Shift(0.0002, 0)), Ink.FullK)] };
        Assert.NotEqual(Identifier(PdfFile.Write([page], Options)), Identifier(PdfFile.Write([moved], Options)));
        Assert.NotEqual(Identifier(PdfFile.Write([page], Options)), Identifier(PdfFile.Write([page], Options with { Title = "Kiln" })));
    }

    [Fact]
    public void There_is_no_date_and_no_turn()
    {
        var text = Encoding.Latin1.GetString(PdfFile.Write([PdfSamples.A4(), PdfSamples.A4()], Options).AsSpan());
        Assert.DoesNotContain("Date", text, StringComparison.Ordinal);
        Assert.DoesNotContain("/Rotate", text, StringComparison.Ordinal);
    }

    // 72 points are 25.4 mm; the third decimal of a point is 0.35 µm.
    [Theory]
    [InlineData(25.4, "72")]
    [InlineData(10, "28.346")]
    [InlineData(210, "595.276")]
    [InlineData(297, "841.89")]
    [InlineData(0, "0")]
    [InlineData(0.0001, "0")]
    [InlineData(0.0002, "0.001")]
    [InlineData(0.00004, "0")]
    [InlineData(-0.00004, "0")]
    [InlineData(-1, "-2.835")]
    [InlineData(-0.0001, "0")]
    [InlineData(-0.0002, "-0.001")]
    [InlineData(4.2333, "12")]
    [InlineData(127, "360")]
    public void Millimetres_become_points(double mm, string points)
    {
        ArgumentNullException.ThrowIfNull(points);
        var region = Region<PageSpace>.Rectangle(new(mm, 500, 50, 50));
        var content = Assert.Single(PdfSamples.Contents(PdfSamples.File(region, Ink.FullK)));
        Assert.Contains($"\n{points} 1417.323 m\n", content, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_corner_is_written_within_a_fifth_of_a_micrometre() =>
        Gen.Double[-300, 600].Array[6].Sample(numbers =>
        {
            var corners = numbers.Chunk(2).Select(pair => new Point<PageSpace>(pair[0], pair[1])).ToImmutableArray();
            var region = Region<PageSpace>.FromCorners(corners);
            var lines = PdfSamples.Contents(PdfSamples.File(region, Ink.FullK))[0].Split('\n')
                .Where(line => line.EndsWith(" m", StringComparison.Ordinal) || line.EndsWith(" l", StringComparison.Ordinal))
                .Select(line => line.Split(' ').Take(2).Select(word => double.Parse(word, CultureInfo.InvariantCulture) * PdfSamples.MmPerPoint).ToArray())
                .ToArray();
            var points = region.IsEmpty ? [] : region.Borders().SelectMany(border => border.Points).ToArray();
            Assert.Equal(points.Length, lines.Length);
            for (var index = 0; index < points.Length; index++)
            {
                Assert.InRange(lines[index][0] - points[index].XMm, -1.8e-4, 1.8e-4);
                Assert.InRange(lines[index][1] - points[index].YMm, -1.8e-4, 1.8e-4);
            }
        });

    [Fact]
    public void The_content_is_plain_paths_and_names_an_ink_only_where_it_changes()
    {
        var square = PdfSamples.Rectangle(25.4, 25.4, 25.4, 25.4);
        var page = PdfSamples.A4(
            new(square, Ink.Cmyk(1, 1, 1, 1)), new(Region<PageSpace>.Empty, Ink.Gray(1)), new(square, Ink.Cmyk(1, 1, 1, 1)),
            new(square, Ink.Cmyk(0.6, 0.4, 0.4, 1)), new(square, Ink.Gray(0)), new(square, Ink.Rgb(0, 0.25, 1d / 3)));
        const string path = "72 72 m\n144 72 l\n144 144 l\n72 144 l\nh\nf\n";
        Assert.Equal(
            $"1 1 1 1 k\n{path}{path}0.6 0.4 0.4 1 k\n{path}0 g\n{path}0 0.25 0.3333 rg\n{path}",
            Assert.Single(PdfSamples.Contents(PdfFile.Write([page], Options))));
    }

    [Fact]
    public void A_page_that_would_be_turned_or_misread_is_refused()
    {
        var page = PdfSamples.A4();
        Refused(page with { WidthMm = 297, HeightMm = 210 }, "upright");
        Refused(page with { WidthMm = 0 }, "larger than 0");
        Refused(page with { HeightMm = double.NaN }, "larger than 0");
        Refused(page with { HeightMm = 5081 }, "5080");
        Refused(page with { Trim = new(300, 0, 10, 10) }, "trim");
        Refused(page with { Bleed = new(0, -20, 10, 10) }, "bleed");
        Refused(page with { Areas = default }, "areas");
        Refused(page with { Areas = [new(PdfSamples.Rectangle(0, 0, 200_000, 1), Ink.FullK)] }, "coordinate");
        Assert.Throws<ArgumentException>(() => PdfFile.Write([], Options));
        Assert.NotEmpty(PdfFile.Write([page with { HeightMm = 210 }], Options));
    }

    private static void Refused(PdfPage page, string why) =>
        Assert.Contains(why, Assert.Throws<ArgumentException>(() => PdfFile.Write([PdfSamples.A4(), page], Options)).Message, StringComparison.Ordinal);
}
