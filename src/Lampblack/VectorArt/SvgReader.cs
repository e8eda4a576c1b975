using System;
using System.Globalization;
using Lampblack.Findings;

namespace Lampblack.VectorArt;

/// <summary>
/// Reads drawings in SVG: areas stay areas, strokes become areas, text becomes areas in the fonts at hand; only what can't be one is made dots.
/// Nothing outside the file is read, and no file can make it use more than a few hundred MB or seconds.
/// </summary>
public static class SvgReader
{
    /// <summary>Reads a drawing.</summary>
    /// <param name="svg">The file's bytes.</param>
    /// <param name="fileName">Its name, for findings.</param>
    /// <param name="options">How it is read.</param>
    /// <returns>The drawing; nothing, and one finding that says why, where there is none to be had.</returns>
    public static Checked<Drawing?> Read(ReadOnlyMemory<byte> svg, string fileName, SvgOptions options)
    {
        ArgumentNullException.ThrowIfNull(fileName);
        ArgumentNullException.ThrowIfNull(options);
        return Read(svg, fileName, options, page => page.Draw(), onlyOutermost: false);
    }

    /// <summary>How large a drawing is, and how wide it says it is; nothing where it can't be read. It is not drawn, unless only what it shows can tell.</summary>
    /// <param name="svg">The file's bytes.</param>
    /// <param name="fileName">Its name.</param>
    public static (double WidthMm, double HeightMm, double? StatedWidthMm)? Size(ReadOnlyMemory<byte> svg, string fileName)
    {
        // Usually the outermost element tells it; without a size there the drawing itself does.
        var size = Read(svg, fileName, new(), page => page.Measure(), onlyOutermost: true).Value;
        size ??= Read(svg, fileName, new(), page => page.Measure(), onlyOutermost: false).Value;
        return size is null ? null : (size.WidthMm, size.HeightMm, size.StatedWidthMm);
    }

    private static Checked<T?> Read<T>(ReadOnlyMemory<byte> svg, string fileName, SvgOptions options, Func<Page, T?> read, bool onlyOutermost)
        where T : class
    {
        var log = new FindingLog();
        var start = new SourceSpan(fileName, 0, 0, 1, 1);
        if (Refusal(svg.Span, start) is { } refusal)
        {
            return new(null, [refusal]);
        }

        var (text, problem) = SvgBytes.Decode(svg.Span);
        if (text is null)
        {
            return new(null, [Finding.Stop("svg-broken", $"The file {problem}.", "Save it as plain SVG in UTF-8.", start)]);
        }

        if (!text.AsSpan().TrimStart().StartsWith("<"))
        {
            return new(null, [Finding.Stop("svg-not-svg", "The file does not begin with a tag, so it is no SVG.", "Export the drawing as SVG.", start)]);
        }

        // A style sheet may give the outermost element another size.
        if (onlyOutermost && (text.Contains("<style", StringComparison.Ordinal) || text.Contains(":style", StringComparison.Ordinal)))
        {
            return new(null, []);
        }

        try
        {
            var root = SvgTree.Read(text, new(fileName, text), log, onlyOutermost);
            var result = root is null ? null : read(new Page(root, log, options));
            return new(result, log.All());
        }
        catch (TooMuchException tooMuch)
        {
            return new(null, [TooMuchFinding(tooMuch.What, start)]);
        }
    }

    private static Finding? Refusal(ReadOnlySpan<byte> bytes, SourceSpan start)
    {
        if (bytes.Length > Limits.FileBytes)
        {
            return Finding.Stop(
                "svg-too-much",
                string.Create(CultureInfo.InvariantCulture, $"The file has {bytes.Length / 1e6:0.0} MB; at most {Limits.FileBytes / 1_000_000} MB are read."),
                "Leave out embedded pictures, or make them smaller; a picture alone is better used as PNG or JPEG.",
                start);
        }

        if (SvgBytes.IsGzip(bytes))
        {
            return Finding.Stop(
                "svg-packed", "The file is compressed (SVGZ or another gzip file), which is not read.", "Save it as plain SVG: in the drawing program choose the file type without \"compressed\", or unpack it with gunzip.", start);
        }

        return SvgBytes.OtherKind(bytes) is { } kind
            ? Finding.Stop("svg-not-svg", $"The file is {kind}, not SVG.", "Export the drawing as SVG; use a picture as a picture, under its own name.", start)
            : null;
    }

    private static Finding TooMuchFinding(TooMuch what, SourceSpan start)
    {
        var (found, hint) = what switch
        {
            TooMuch.Elements => ($"more than {Limits.Elements} elements, copies by use included", "Simplify it: many small parts may be one path."),
            TooMuch.Corners => ($"more than {Limits.Corners} corners after curves are followed", "Simplify its paths in the drawing program."),
            TooMuch.Depth => ($"elements more than {Limits.Depth} deep in each other", "Ungroup it in the drawing program."),
            TooMuch.Meetings => ("lines that cross each other hundreds of thousands of times", "Simplify its paths, or join them in the drawing program."),
            TooMuch.Dots => (
                FormattableString.Invariant($"so many large filters, gradients, masks or see-through parts over each other that as dots they would be more than {Limits.PictureDots / 1_000_000} million even at {Limits.CoarsestDpi:0} to the inch"),
                "Put what has the same filter into one group and give that the filter, make filters' regions as small as what they are for, or export the artwork as PNG."),
            _ => ("style rules that would have to be tried more than 5 million times", "Export it with plain attributes instead of style sheets."),
        };
        return Finding.Stop("svg-too-much", $"The drawing has {found}; that is more than is read.", hint, start);
    }
}
