using System;
using System.IO;
using System.IO.Compression;
using System.Linq;
using System.Runtime.InteropServices;
using System.Text;
using BenchmarkDotNet.Attributes;
using Lampblack.Artwork;
using Lampblack.Desks;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Imaging;
using Lampblack.Layout;
using Lampblack.Optics;
using Lampblack.Printers;
using Lampblack.Separations;
using Lampblack.SourceText;
using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.Buffer;
using NetTopologySuite.Operation.Union;
using SkiaSharp;
using Tomlyn.Parsing;

namespace Lampblack.Bench;

/// <summary>Our deflate beside the platform's, on half a megabyte like a page's drawing operators.</summary>
public class DeflatePeers
{
    private readonly byte[] _content = Encoding.ASCII.GetBytes(string.Concat(
        new Letters().All.Borders().SelectMany(border => border.Points).Select(point => FormattableString.Invariant($"{point.XMm * 72 / 25.4:0.####} {point.YMm * 72 / 25.4:0.####} l\n"))));

    /// <summary>Ours: the same bytes on every machine.</summary>
    [Benchmark(Baseline = true)]
    public int Ours() => Deflate.Zlib(_content).Length;

    /// <summary>The platform's, at its usual effort.</summary>
    [Benchmark]
    public long Platform()
    {
        using var packed = new MemoryStream();
        using (var stream = new ZLibStream(packed, CompressionLevel.Optimal, leaveOpen: true))
        {
            stream.Write(_content);
        }

        return packed.Length;
    }
}

/// <summary>Joining 2000 letters, few of which touch.</summary>
public class UnionPeers
{
    private readonly Letters _letters = new();

    /// <summary>Ours: only what meets is overlaid.</summary>
    [Benchmark(Baseline = true)]
    public int Ours() => Region<ItemSpace>.Union(_letters.Regions).CornerCount;

    /// <summary>The library's own way to join many shapes.</summary>
    [Benchmark]
    public int Library() => UnaryUnionOp.Union(_letters.Polygons.Cast<NetTopologySuite.Geometries.Geometry>()).NumPoints;
}

/// <summary>Growing 2000 letters by half a millimetre.</summary>
public class SpreadPeers
{
    private readonly Letters _letters = new();
    private readonly BufferParameters _round = new(Resolution.ChordsPerCircle(0.5) / 4);

    /// <summary>Ours: clusters, alike ones once, corners left out within 4 µm.</summary>
    [Benchmark(Baseline = true)]
    public int Ours() => _letters.All.Grow(0.5).CornerCount;

    /// <summary>The library's buffer of all at once, its arcs within about 2 µm.</summary>
    [Benchmark]
    public int Library() => _letters.MultiPolygon.Buffer(0.5, _round).NumPoints;
}

/// <summary>A picture of a panel as PNG.</summary>
public class PngPeers
{
    private Picture _picture = null!;
    private SKBitmap _bitmap = null!;

    /// <summary>Draws the picture.</summary>
    [GlobalSetup]
    public void Prepare()
    {
        var printer = PrinterProperties.Unmeasured;
        var laid = DeskLayout.Place(DeskReader.Read("desk.toml", Desks.Dome).Value, FontShelf.Bundled).Value;
        var separation = Separator.Separate(PanelArtwork.Draw(laid.Panels[0]), printer, printer.Builds[0], printer.SpreadMm).Value;
        _picture = PanelPictures.Day(PanelRaster.Of(PictureLayers.Finished(separation), 0.125, new(PaperOptics.Heavy, InkOptics.Assumed)));
        _bitmap = new SKBitmap(_picture.WidthPx, _picture.HeightPx, SKColorType.Rgba8888, SKAlphaType.Opaque);
        Marshal.Copy(_picture.Rgba.ToArray(), 0, _bitmap.GetPixels(), _picture.Rgba.Length);
    }

    /// <summary>Ours: one filter, the platform's fastest deflate.</summary>
    [Benchmark(Baseline = true)]
    public int Ours() => PngFile.Write(_picture).Length;

    /// <summary>The drawing library's encoder as it comes.</summary>
    [Benchmark]
    public long Library()
    {
        using var data = _bitmap.Encode(SKEncodedImageFormat.Png, 100);
        return data.Size;
    }

    /// <summary>The drawing library's encoder with our filter and effort.</summary>
    [Benchmark]
    public long LibraryAlike()
    {
        using var pixels = _bitmap.PeekPixels();
        using var data = pixels!.Encode(new SKPngEncoderOptions(SKPngEncoderFilterFlags.Up, 1));
        return data.Size;
    }
}

/// <summary>Reading the desk of 400 controls.</summary>
public class TomlPeers
{
    private readonly string _text = Encoding.UTF8.GetString(Desks.Many);

    /// <summary>Ours: the library's syntax tree, turned into nodes with places, every fault a finding.</summary>
    [Benchmark(Baseline = true)]
    public int Ours() => TomlText.Read("desk.toml", Desks.Many).Findings.Length;

    /// <summary>The library's syntax tree alone.</summary>
    [Benchmark]
    public int Library() => SyntaxParser.Parse(_text, "", false).Diagnostics.Count;
}
