using System;
using System.Collections.Immutable;
using Lampblack.Findings;

namespace Lampblack.PictureArt;

/// <summary>Reads PNG (ISO/IEC 15948) and JPEG (ITU-T T.81) by their contents.</summary>
public static class PictureFile
{
    /// <summary>Reads a picture through once: what can't be used is found here. Sizes are looked at before anything is unpacked.</summary>
    /// <param name="bytes">The file; it must not change as long as the picture is used.</param>
    /// <param name="fileName">Its name, for messages; its ending says nothing but is compared.</param>
    public static Checked<SourcePicture?> Read(ReadOnlyMemory<byte> bytes, string fileName)
    {
        ArgumentNullException.ThrowIfNull(fileName);
        try
        {
            return Sound(bytes, fileName);
        }
        catch (PictureFault fault)
        {
            return new(null, [fault.Finding]);
        }
    }

    /// <summary>How large a picture is by its header; nothing where that can't be read. No dot is unpacked.</summary>
    /// <param name="bytes">The file.</param>
    /// <param name="fileName">Its name, for messages.</param>
    public static (int WidthPx, int HeightPx, double? StatedWidthMm)? Size(ReadOnlyMemory<byte> bytes, string fileName)
    {
        try
        {
            var header = Head(bytes, fileName).Header;
            var (width, height) = header.Turn.Size(header.Width, header.Height);
            var (x, y) = PictureSize.Plausible(header.DotsPerInchX, header.DotsPerInchY);
            return (width, height, (header.Turn.SwapsSides ? header.Height : header.Width) * 25.4 / (header.Turn.SwapsSides ? y : x));
        }
        catch (PictureFault)
        {
            return null;
        }
    }

    private static Checked<SourcePicture?> Sound(ReadOnlyMemory<byte> bytes, string fileName)
    {
        var (header, open) = Open(bytes, fileName);
        var census = new Census(header);
        var picture = new SourcePicture(fileName, bytes, header, census, open);
        picture.ForEachBand(census.Add);
        return new(picture, [.. Extension(header.Format, fileName), .. header.Notes]);
    }

    /// <summary>What a file says of itself, and how its rows are read; nothing is unpacked yet.</summary>
    /// <exception cref="PictureFault">It is too large or no picture that can be read.</exception>
    internal static (PictureHeader Header, Func<ReadOnlyMemory<byte>, IPictureRows> Open) Open(ReadOnlyMemory<byte> bytes, string fileName)
    {
        if (bytes.Length > PictureLimits.MostBytes)
        {
            throw new PictureFault(Finding.Stop(
                "art-too-large",
                $"{Shown.Quoted(fileName)} has {bytes.Length / 1_000_000} MB; 200 MB are the most.",
                "Export the artwork with 600 or 1200 dots to the inch, as PNG."));
        }

        return Head(bytes, fileName);
    }

    private static (PictureHeader Header, Func<ReadOnlyMemory<byte>, IPictureRows> Open) Head(ReadOnlyMemory<byte> bytes, string fileName)
    {
        var start = bytes.Span[..Math.Min(bytes.Length, PngReader.Signature.Length)];
        if (start.Length >= 2 && PngReader.Signature.StartsWith(start))
        {
            var layout = PngReader.Read(bytes, fileName);
            return (layout.Header, _ => new PngRows(layout, fileName));
        }

        if (start is [0xFF, 0xD8, ..])
        {
            var header = JpegReader.Read(bytes.Span, fileName);
            return (header, file => new JpegRows(file, header, fileName));
        }

        throw PictureFault.Form(fileName, "is neither a PNG nor a JPEG by its contents", "Export the artwork as PNG with 600 dots to the inch, or as SVG.");
    }

    private static ImmutableArray<Finding> Extension(string format, string fileName)
    {
        var ending = fileName[(fileName.LastIndexOf('.') + 1)..];
        var isRight = format == "PNG"
            ? ending.Equals("png", StringComparison.OrdinalIgnoreCase)
            : ending.Equals("jpg", StringComparison.OrdinalIgnoreCase) || ending.Equals("jpeg", StringComparison.OrdinalIgnoreCase);
        return isRight
            ? []
            : [Finding.Note("art-ending-wrong", $"{Shown.Quoted(fileName)} is a {format} by its contents and was read as one.", $"Give it the ending .{(format == "PNG" ? "png" : "jpg")}.")];
    }
}
