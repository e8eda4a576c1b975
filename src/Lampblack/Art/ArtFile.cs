using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Lettering;
using Lampblack.PictureArt;
using Lampblack.VectorArt;

namespace Lampblack.Art;

/// <summary>How large artwork says it is.</summary>
/// <param name="StatedWidthMm">Its width, in mm; null where it says none that can be meant.</param>
/// <param name="HeightShare">Its height as a share of its width.</param>
public readonly record struct ArtSize(double? StatedWidthMm, double HeightShare);

/// <summary>Artwork files: SVG, PNG and JPEG, told apart by their contents.</summary>
public static class ArtFile
{
    /// <summary>The largest file that is read: 200 MB for pictures; drawings are refused above 20 MB by their own reader.</summary>
    public const long LimitBytes = PictureLimits.MostBytes;

    /// <summary>How much the wanted width may differ from the drawing's own before it is asked about.</summary>
    private const double OtherSizeShare = 0.01;

    /// <summary>Reads artwork.</summary>
    /// <param name="bytes">The file; it must not change as long as the content is used.</param>
    /// <param name="fileName">Its name, for findings.</param>
    /// <param name="art">How it is to be read, and how large it is to be.</param>
    /// <param name="fonts">The desk's own fonts by name, for texts in drawings.</param>
    public static Checked<ArtContent?> Read(ReadOnlyMemory<byte> bytes, string fileName, ArtItem art, ImmutableSortedDictionary<string, Typeface> fonts)
    {
        ArgumentNullException.ThrowIfNull(art);
        var findings = new List<Finding>();
        if (bytes.IsEmpty)
        {
            return new(null, [Finding.Stop("art-file", $"{Shown.Code(fileName)} is empty", "export the artwork again and look whether the file has a size", art.FileSpan, art.Id)]);
        }

        var content = IsPicture(bytes.Span) ? OfPicture(bytes, fileName, art, findings) : OfDrawing(bytes, fileName, art, fonts, findings);
        return new(content, [.. findings.Select(finding => finding.Span is null ? finding with { Span = art.FileSpan, Item = finding.Item ?? art.Id } : finding)]);
    }

    /// <summary>How large a file says it is; a file that can't be used says nothing and is taken for a square, as reading it tells what is wrong.</summary>
    /// <param name="bytes">The file.</param>
    /// <param name="fileName">Its name.</param>
    public static ArtSize SizeOf(ReadOnlyMemory<byte> bytes, string fileName)
    {
        if (IsPicture(bytes.Span))
        {
            return PictureFile.Size(bytes, fileName) is { } picture
                ? new(picture.StatedWidthMm, (double)picture.HeightPx / picture.WidthPx)
                : new(null, 1);
        }

        return SvgReader.Size(bytes, fileName) is { } drawing
            ? new(drawing.StatedWidthMm, drawing.HeightMm / drawing.WidthMm)
            : new(null, 1);
    }

    /// <summary>Whether two widths differ by more than can be rounding: 1 %.</summary>
    public static bool Differs(double ownMm, double wantedMm) => Math.Abs(ownMm - wantedMm) > OtherSizeShare * wantedMm;

    /// <summary>Whether the file is a picture in dots by its first bytes.</summary>
    public static bool IsPicture(ReadOnlySpan<byte> bytes) => bytes is [0x89, (byte)'P', ..] or [0xFF, 0xD8, ..];

    private static ArtContent? OfPicture(ReadOnlyMemory<byte> bytes, string fileName, ArtItem art, List<Finding> findings)
    {
        var picture = PictureFile.Read(bytes, fileName);
        findings.AddRange(picture.Findings);
        if (picture.Value is not { } source)
        {
            return null;
        }

        var widthMm = art.WidthMm ?? (art.HeightMm is { } height ? height * source.WidthPx / source.HeightPx : source.StatedWidthMm);
        if (widthMm is null)
        {
            findings.Add(SizeUnknown(fileName, art));
            return null;
        }

        return PictureContent.Of(source, art.Reading, widthMm.Value, findings);
    }

    private static ArtContent? OfDrawing(ReadOnlyMemory<byte> bytes, string fileName, ArtItem art, ImmutableSortedDictionary<string, Typeface> fonts, List<Finding> findings)
    {
        var widthMm = art.WidthMm ?? (art.HeightMm is { } height && SvgReader.Size(bytes, fileName) is { } own ? height * own.WidthMm / own.HeightMm : null);
        var read = SvgReader.Read(bytes, fileName, new SvgOptions(widthMm) { Fonts = fonts });
        findings.AddRange(read.Findings);
        if (read.Value is not { } drawing)
        {
            return null;
        }

        var wanted = drawing.WidthMm;
        if ((art.WidthMm ?? art.HeightMm) is not null && drawing.StatedWidthMm is { } stated && Differs(stated, wanted))
        {
            findings.Add(Finding.Warn(
                "art-size-differs",
                string.Create(CultureInfo.InvariantCulture, $"{Shown.Code(fileName)} says it is {stated:0.0} mm wide, and {wanted:0.0} mm are asked for: which is right?"),
                string.Create(CultureInfo.InvariantCulture, $"ask for {stated:0.0} mm if it was drawn at true size; leave it if it was only exported at another"),
                art.FileSpan,
                art.Id));
        }

        if (!drawing.SizeIsStated && art.WidthMm is null && art.HeightMm is null)
        {
            findings.Add(SizeUnknown(fileName, art));
            return null;
        }

        return VectorContent.Of(drawing, fileName, art.Reading, art.FileSpan, findings);
    }

    private static Finding SizeUnknown(string fileName, ArtItem art) => Finding.Stop(
        "art-size-unknown", $"{Shown.Code(fileName)} does not say how large it is", "give its width in mm: `width` in the desk file, `--width` on the command line", art.FileSpan, art.Id);
}
