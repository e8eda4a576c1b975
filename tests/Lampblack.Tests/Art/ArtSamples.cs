using System;
using System.Collections.Generic;
using System.IO;
using System.Text;
using Lampblack.Quantities;
using Lampblack.Tests.Peers;
using Lampblack.Tests.Register;
using SkiaSharp;

namespace Lampblack.Tests.Art;

/// <summary>Artwork that the tests draw themselves, and desks with one such panel.</summary>
internal static class ArtSamples
{
    /// <summary>White letters on navy, one of them over a gradient that ends where it is as dark as the field.</summary>
    public const string Letters = """
        <svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="30mm" viewBox="0 0 40 30">
        <defs><linearGradient id="g"><stop offset="0" stop-color="#e0452c"/><stop offset="0.6" stop-color="#e8a33d"/><stop offset="1" stop-color="#0b1a3a"/></linearGradient></defs>
        <rect width="40" height="30" fill="#0b1a3a"/>
        <rect x="6" y="18" width="28" height="7" fill="url(#g)"/>
        <g fill="none" stroke="#ffffff" stroke-width="1.1">
        <path d="M6 4v10M6 4.55h5M6 9h4M6 13.45h5"/>
        <circle cx="18" cy="9" r="4.2"/>
        <path d="M25 4l3.5 10 3.5 -10" stroke-linejoin="round"/>
        <path d="M11 15l4 8 4 -8" stroke-width="0.6"/>
        </g>
        </svg>
        """;

    /// <summary>A sheet whose sides are whole numbers of dots at 600 dpi: about A5, as large plates take long.</summary>
    public static readonly PaperSize SmallPaper = new("A5 in whole dots", 3496 * 25.4 / SeparatedDesk.Dpi, 4960 * 25.4 / SeparatedDesk.Dpi);

    /// <summary>An embedded picture from black to orange beside white bars and under a ring.</summary>
    public static string Embedded()
    {
        using var bitmap = new SKBitmap(new SKImageInfo(240, 160, SKColorType.Rgba8888, SKAlphaType.Unpremul));
        for (var y = 0; y < bitmap.Height; y++)
        {
            for (var x = 0; x < bitmap.Width; x++)
            {
                var share = 0.5 + (0.5 * Math.Sin(x / 17.0) * Math.Cos(y / 13.0));
                bitmap.SetPixel(x, y, new((byte)(10 + (235 * share)), (byte)(10 + (140 * share)), (byte)(12 + (30 * share))));
            }
        }

        var png = Convert.ToBase64String(bitmap.Encode(SKEncodedImageFormat.Png, 100).AsSpan());
        return $"""
            <svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="30mm" viewBox="0 0 40 30">
            <rect width="40" height="30" fill="#101010"/>
            <rect x="3" y="6" width="4" height="14" fill="#ffffff"/>
            <image x="7" y="6" width="21" height="14" href="data:image/png;base64,{png}"/>
            <circle cx="28" cy="13" r="5" fill="none" stroke="#ffffff" stroke-width="0.8"/>
            </svg>
            """;
    }

    /// <summary>A drawing of 40 mm that holds nothing but a picture of another one, as some programs export.</summary>
    public static string OnePicture(string svg) => $"""
        <svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="10mm" viewBox="0 0 40 10">
        <image width="40" height="10" href="data:image/png;base64,{Convert.ToBase64String(Rendered(svg, 945, 236))}"/></svg>
        """;

    /// <summary>A drawing as an independent renderer (librsvg) shows it.</summary>
    public static byte[] Rendered(string svg, int widthPx, int heightPx)
    {
        using var folder = new ScratchFolder();
        folder.Write("in.svg", Encoding.UTF8.GetBytes(svg));
        OutsideProgram.RunWell("rsvg-convert", ["-w", $"{widthPx}", "-h", $"{heightPx}", "-o", "out.png", "in.svg"], folder.FullPath);
        return File.ReadAllBytes(folder.PathOf("out.png"));
    }

    /// <summary>A desk with one panel and one piece of artwork that fills it.</summary>
    /// <param name="file">The artwork's file name.</param>
    /// <param name="bytes">The artwork.</param>
    /// <param name="widthMm">The panel's width.</param>
    /// <param name="heightMm">The panel's height.</param>
    /// <param name="keys">Keys of the artwork.</param>
    /// <param name="items">More items of the panel.</param>
    public static (byte[] Toml, GivenFiles Files) Desk(string file, byte[] bytes, double widthMm, double heightMm, string keys = "", string items = "") => (
        Encoding.UTF8.GetBytes(FormattableString.Invariant($"""
            lampblack = 1
            title = "Art"
            [[panel]]
            id = "p"
            size = [{widthMm}, {heightMm}]
            [[panel.art]]
            id = "a"
            file = "{file}"
            width = {widthMm}
            {keys}
            {items}
            """)),
        new((file, bytes)));

    /// <summary>The artwork of the tests on both sides, by name: the two kinds of the example, and two drawings with dots in them.</summary>
    public static SeparatedDesk Separated(string name, double spreadMm = 0.5, string black = "full", string keys = "")
    {
        var (desk, files) = name switch
        {
            "gauge.svg" => Desk(name, Gauge(name), 90, 90, $"holes = \"hole\"\n{keys}"),
            "gauge.png" => Desk(name, Gauge(name), 90, 90, $"hole-colour = \"#ff00ff\"\n{keys}"),
            "letters.svg" => Desk(name, Encoding.UTF8.GetBytes(Letters), 40, 30, keys),
            "letters.png" => Desk(name, Rendered(Letters, 1890, 1417), 40, 30, keys),
            "embedded.svg" => Desk(name, Encoding.UTF8.GetBytes(Embedded()), 40, 30, keys),
            _ => throw new KeyNotFoundException(name),
        };
        return SeparatedDesk.Of(desk, black, spreadMm, SmallPaper, files: files);
    }

    public static byte[] Gauge(string name) => File.ReadAllBytes(Path.Combine(SeparatedDesk.Folder("gauge"), name));
}
