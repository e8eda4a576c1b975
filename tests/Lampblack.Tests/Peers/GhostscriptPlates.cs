using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.IO;

namespace Lampblack.Tests.Peers;

/// <summary>What each of the four inks prints on one page: one byte per pixel, 0 no ink, 255 full; row by row from the TOP left.</summary>
/// <param name="WidthPx">Width in pixels.</param>
/// <param name="HeightPx">Height in pixels.</param>
/// <param name="Cyan">The cyan plate.</param>
/// <param name="Magenta">The magenta plate.</param>
/// <param name="Yellow">The yellow plate.</param>
/// <param name="Black">The black plate.</param>
public sealed record InkPlates(int WidthPx, int HeightPx, byte[] Cyan, byte[] Magenta, byte[] Yellow, byte[] Black)
{
    /// <summary>The inks of one pixel; <paramref name="rowPx"/> counts from the top.</summary>
    public (byte Cyan, byte Magenta, byte Yellow, byte Black) At(int columnPx, int rowPx)
    {
        var index = (rowPx * WidthPx) + columnPx;
        return (Cyan[index], Magenta[index], Yellow[index], Black[index]);
    }

    /// <summary>The inks of the pixel that holds a place given in mm from the page's lower-left corner.</summary>
    /// <param name="xMm">To the right, in mm.</param>
    /// <param name="yMm">Upwards, in mm.</param>
    /// <param name="dpi">The resolution the plates were rendered at.</param>
    public (byte Cyan, byte Magenta, byte Yellow, byte Black) AtMm(double xMm, double yMm, int dpi) =>
        At((int)(xMm / 25.4 * dpi), HeightPx - 1 - (int)(yMm / 25.4 * dpi));
}

/// <summary>Ghostscript's separations of a PDF (device tiffsep, no anti-aliasing): what a printer's own interpreter would lay down, worked out by a program that is not ours.</summary>
public static class GhostscriptPlates
{
    /// <summary>Renders every page; skips the test where Ghostscript is missing (fails with LAMPBLACK_ALL=1).</summary>
    /// <param name="pdf">The PDF's bytes.</param>
    /// <param name="dpi">Pixels per inch, the same both ways. A4 at 600 makes four planes of 35 MB: take small pages or few.</param>
    /// <param name="rightPt">Moves all that is printed to the right on the page, in points; to mimic a printer that is out of register.</param>
    /// <param name="upPt">Moves it upwards, in points.</param>
    public static ImmutableArray<InkPlates> Render(ReadOnlySpan<byte> pdf, int dpi, double rightPt = 0, double upPt = 0)
    {
        OutsideProgram.Need("gs");
        using var folder = new ScratchFolder();
        folder.Write("in.pdf", pdf);
        var move = string.Create(CultureInfo.InvariantCulture, $"<</Install {{{rightPt:R} {upPt:R} translate}}>> setpagedevice");
        var run = OutsideProgram.RunWell(
            "gs",
            [
                "-q", "-dSAFER", "-dBATCH", "-dNOPAUSE", "-dPDFSTOPONERROR", "-sDEVICE=tiffsep", "-sCompression=pack",
                string.Create(CultureInfo.InvariantCulture, $"-r{dpi}"), "-o", "page%d.tif", "-c", move, "-f", "in.pdf",
            ],
            folder.FullPath,
            TimeSpan.FromSeconds(120));
        if (run.Output.Length + run.Errors.Length > 0)
        {
            throw new InvalidDataException($"gs complained: {run.Everything}");
        }

        var pages = new List<InkPlates>();
        while (File.Exists(folder.PathOf(Plate(pages.Count + 1, "Black"))))
        {
            var number = pages.Count + 1;
            var cyan = Read(folder, number, "Cyan");
            pages.Add(new(cyan.WidthPx, cyan.HeightPx, cyan.Lightness, Ink("Magenta"), Ink("Yellow"), Ink("Black")));
            byte[] Ink(string name) => Read(folder, number, name).Lightness;
        }

        return [.. pages];
    }

    private static string Plate(int page, string ink) => string.Create(CultureInfo.InvariantCulture, $"page{page}({ink}).tif");

    /// <summary>A plate as amounts of ink: the file shows it as a picture, white where there is none.</summary>
    private static TiffGray Read(ScratchFolder folder, int page, string ink)
    {
        var plate = TiffGray.Read(File.ReadAllBytes(folder.PathOf(Plate(page, ink))));
        foreach (ref var pixel in plate.Lightness.AsSpan())
        {
            pixel = (byte)(255 - pixel);
        }

        return plate;
    }
}
