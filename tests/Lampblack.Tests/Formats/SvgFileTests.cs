using System;
using System.Collections.Immutable;
using System.Globalization;
using System.IO;
using System.Linq;
using System.Text;
using System.Xml;
using System.Xml.Linq;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Tests.Bitmaps;
using SkiaSharp;
using Xunit;

namespace Lampblack.Tests.Formats;

public sealed class SvgFileTests
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    private static readonly Region<PanelSpace> Square = Region<PanelSpace>.Rectangle(new(10, 20, 30, 40));
    private static readonly Region<PanelSpace> Holed = Square.Except(Region<PanelSpace>.Disc(new(20, 35), 5));

    [Fact]
    public void A_drawing_has_its_true_size_and_y_points_down()
    {
        var bytes = SvgFile.Write(180, 110.25, "Dome", [new SvgLayer<PanelSpace>("field", "Field", Square, "#101010")]);
        Assert.Equal(
            """
            <?xml version="1.0" encoding="UTF-8"?>
            <svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="180mm" height="110.25mm" viewBox="0 0 180 110.25">
            <title>Dome</title>
            <g id="field">
            <title>Field</title>
            <path fill-rule="evenodd" fill="#101010" d="M10 90.25 40 90.25 40 50.25 10 50.25Z"/>
            </g>
            </svg>

            """.ReplaceLineEndings("\n"),
            Encoding.UTF8.GetString(bytes.AsSpan()));
    }

    [Fact]
    public void Another_path_reader_finds_the_same_area_and_the_hole_open()
    {
        // SkiaSharp reads path data of SVG on its own.
        var drawing = Read(SvgFile.Write(60, 80, "t", [new SvgLayer<PanelSpace>("a", "A", Holed, "#000000")]));
        using var path = SKPath.ParseSvgPathData(drawing.Descendants(Svg + "path").Single().Attribute("d")!.Value);
        path.FillType = SKPathFillType.EvenOdd;
        Assert.Equal(new SKRect(10, 20, 40, 60), path.TightBounds);
        Assert.True(path.Contains(12, 58));
        Assert.True(path.Contains(20, 50.2f));
        Assert.False(path.Contains(20, 49.8f));
        Assert.False(path.Contains(20, 45));
        Assert.False(path.Contains(20, 62));
    }

    [Fact]
    public void A_stencil_is_an_embedded_picture_in_its_place_in_the_colour_of_its_layer()
    {
        var dots = Grid.Pack(Grid.Random(new Random(5), 77, 30, 0.4));
        var layer = new SvgLayer<PanelSpace>("a", "A", Region<PanelSpace>.Empty, "#c81e0a") { Stencil = (dots, new(0.5, 0, 10, 0, -0.5, 70)) };
        var image = Read(SvgFile.Write(60, 80, "t", [layer])).Descendants(Svg + "image").Single();
        Assert.Equal("matrix(38.5 0 0 15 10 10)", image.Attribute("transform")!.Value);

        // SkiaSharp reads PNG on its own, checksums included.
        using var picture = SKBitmap.Decode(Convert.FromBase64String(image.Attribute("href")!.Value["data:image/png;base64,".Length..]));
        Assert.Equal((77, 30), (picture.Width, picture.Height));
        for (var x = 0; x < 77; x++)
        {
            for (var y = 0; y < 30; y++)
            {
                var seen = picture.GetPixel(x, y);
                Assert.Equal(dots[x, y] ? new SKColor(200, 30, 10, 255) : SKColor.Empty, seen.Alpha == 0 ? SKColor.Empty : seen);
            }
        }
    }

    [Theory]
    [InlineData("a < b & \"c\" > 'd' ]]>", "a < b & \"c\" > 'd' ]]>")]
    [InlineData("Öfen 🔥 窯", "Öfen 🔥 窯")]
    [InlineData("a\0b\u0007c\r\nd\u0085e\uFFFFf", "abc  def")]
    public void Any_title_is_safe(string title, string expected)
    {
        var drawing = Read(SvgFile.Write(10, 10, title, [new SvgLayer<PanelSpace>("x", title, Region<PanelSpace>.Empty, "#123abc")]));
        Assert.Equal([expected, expected], drawing.Descendants(Svg + "title").Select(element => element.Value));
        Assert.Empty(drawing.Descendants(Svg + "path"));
    }

    [Fact]
    public void Half_a_surrogate_pair_in_a_title_is_shown_as_unknown()
    {
        // Built here: an attribute can't hold it.
        var drawing = Read(SvgFile.Write(10, 10, "lone " + (char)0xD800 + " half", ImmutableArray<SvgLayer<PanelSpace>>.Empty));
        Assert.Equal("lone \uFFFD half", drawing.Root!.Element(Svg + "title")!.Value);
    }

    [Fact]
    public void Layers_keep_their_order_and_any_id_without_spaces()
    {
        var drawing = Read(SvgFile.Write(10, 10, "t", [Layer("b\"<&'"), Layer("a")]));
        Assert.Equal(["b\"<&'", "a"], drawing.Descendants(Svg + "g").Select(element => element.Attribute("id")!.Value));
        Assert.Equal(["#0a0b0c", "#0a0b0c"], drawing.Descendants(Svg + "path").Select(element => element.Attribute("fill")!.Value));
    }

    [Fact]
    public void What_would_not_be_a_drawing_is_refused()
    {
        Assert.Throws<ArgumentException>(() => SvgFile.Write(0, 10, "t", [Layer("a")]));
        Assert.Throws<ArgumentException>(() => SvgFile.Write(10, double.NaN, "t", [Layer("a")]));
        Assert.Throws<ArgumentException>(() => SvgFile.Write(10, 10, "t", [Layer("a b")]));
        Assert.Throws<ArgumentException>(() => SvgFile.Write(10, 10, "t", [Layer("")]));
        Assert.Throws<ArgumentException>(() => SvgFile.Write(10, 10, "t", [Layer("a"), Layer("a")]));
        Assert.Throws<ArgumentException>(() => SvgFile.Write(10, 10, "t", [Layer("a") with { Fill = "red" }]));
        Assert.Throws<ArgumentException>(() => SvgFile.Write(10, 10, "t", [Layer("a") with { Fill = "#12345g" }]));
    }

    [Fact]
    public void The_culture_does_not_change_a_byte()
    {
        var before = CultureInfo.CurrentCulture;
        var first = SvgFile.Write(180, 110.25, "Dome", [Layer("a")]);
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("sv-SE");
            Assert.Equal(first, SvgFile.Write(180, 110.25, "Dome", [Layer("a")]));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    private static SvgLayer<PanelSpace> Layer(string id) => new(id, "Layer", Holed, "#0a0b0c");

    private static XDocument Read(ImmutableArray<byte> bytes)
    {
        using var reader = XmlReader.Create(new MemoryStream([.. bytes]), new XmlReaderSettings { DtdProcessing = DtdProcessing.Prohibit, CheckCharacters = true });
        return XDocument.Load(reader);
    }
}
