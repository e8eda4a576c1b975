using System;
using System.Collections.Generic;
using System.IO;
using Lampblack.Findings;
using SkiaSharp;

namespace Lampblack.VectorArt;

/// <content>Embedded pictures.</content>
internal sealed partial class Drawer
{
    private void DrawImage(SvgElement element, Frame frame, List<Node> into)
    {
        var href = element["href"]?.Trim() ?? string.Empty;
        if (href.Length == 0 || frame.Style.Get("visibility") is "hidden" or "collapse")
        {
            return;
        }

        if (!href.StartsWith("data:", StringComparison.OrdinalIgnoreCase))
        {
            log.External("a picture", href, element.Place);
            return;
        }

        if (Bytes(href) is not { } bytes || SizeOf(bytes) is not var (dotsWide, dotsHigh))
        {
            TellPicture(element, "can't be read as PNG, JPEG, WebP or GIF");
            return;
        }

        if ((long)dotsWide * dotsHigh > Limits.EmbeddedDots)
        {
            TellPicture(element, FormattableString.Invariant($"has {dotsWide} x {dotsHigh} dots; at most {Limits.EmbeddedDots / 1_000_000} million are read"));
            return;
        }

        var (width, height) = (Size(element, frame, "width", frame.Viewport.Width), Size(element, frame, "height", frame.Viewport.Height));

        // One that is not said follows from the picture's shape.
        var view = new Viewport(width ?? height * dotsWide / dotsHigh ?? dotsWide, height ?? width * dotsHigh / dotsWide ?? dotsHigh);
        if (!(view.Width > 0 && view.Height > 0))
        {
            return;
        }

        var map = frame.Map * Matrix.Shift(Size(element, frame, "x", frame.Viewport.Width) ?? 0, Size(element, frame, "y", frame.Viewport.Height) ?? 0);
        var toMm = map * new ViewBox(0, 0, dotsWide, dotsHigh).Fit(view, element["preserveAspectRatio"]);
        var shape = Outlines.Rectangle(0, 0, dotsWide, dotsHigh, toMm).Intersect(Outlines.Rectangle(0, 0, view.Width, view.Height, map));
        shape = frame.Clip is { } clip ? shape.Intersect(clip) : shape;
        if (!shape.IsEmpty)
        {
            into.Add(new ImageNode(element, bytes, toMm, shape, 1, (element["image-rendering"] ?? frame.Style.Own("image-rendering")) is "pixelated" or "crisp-edges" or "optimizeSpeed"));
        }
    }

    private void TellPicture(SvgElement element, string what) => log.Add(Finding.Stop(
        "svg-picture",
        $"The picture embedded in {element.Shown} {what}; it is left out.",
        "Embed it as PNG or JPEG, no larger than it is needed: twice the dots of the print are enough.",
        element.Place));

    /// <summary>Width and height by the picture's own header; nothing is unpacked.</summary>
    private static (int Width, int Height)? SizeOf(byte[] bytes)
    {
        using var stream = new MemoryStream(bytes);
        using var codec = SKCodec.Create(stream);
        return codec?.Info is { Width: > 0, Height: > 0 } info ? (info.Width, info.Height) : null;
    }

    private static byte[]? Bytes(string url)
    {
        var comma = url.IndexOf(',', StringComparison.Ordinal);
        if (comma < 0)
        {
            return null;
        }

        if (!url.AsSpan(0, comma).TrimEnd().EndsWith(";base64", StringComparison.OrdinalIgnoreCase))
        {
            return System.Text.Encoding.Latin1.GetBytes(Uri.UnescapeDataString(url[(comma + 1)..]));
        }

        var text = url.AsSpan(comma + 1);
        var bytes = new byte[((text.Length / 4) + 1) * 3];
        return Convert.TryFromBase64Chars(text, bytes, out var length) || Convert.TryFromBase64String(Uri.UnescapeDataString(text.ToString()), bytes, out length) ? bytes[..length] : null;
    }
}
