using System;
using System.Collections.Immutable;

namespace Lampblack.Formats;

/// <summary>A page whose drawing is already packed: most of the work on a file, done once for all files that hold the page.</summary>
public sealed class PackedPage
{
    private PackedPage(PdfPage page, ImmutableArray<byte> content) => (Page, Content) = (page, content);

    /// <summary>The page.</summary>
    public PdfPage Page { get; }

    /// <summary>Its drawing operators, deflated.</summary>
    internal ImmutableArray<byte> Content { get; }

    /// <summary>Packs a page.</summary>
    /// <exception cref="ArgumentException">
    /// The page is wider than tall or larger than 5080 mm; a trim or bleed box is off it; a coordinate is not a number within 100 m.
    /// </exception>
    public static PackedPage Of(PdfPage page)
    {
        ArgumentNullException.ThrowIfNull(page);
        return page.Problem() is { } problem
            ? throw new ArgumentException(problem, nameof(page))
            : new(page, Deflate.Zlib(PdfContent.Write(page.Areas).Written));
    }
}
