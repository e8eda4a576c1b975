using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Formats;

/// <summary>Drawing operators, deflated. One drawing may stand on many pages; a file holds it once.</summary>
/// <param name="Bytes">The deflated bytes.</param>
/// <param name="Named">The images and stamps that it draws, and what it calls them.</param>
internal sealed record PackedDrawing(ImmutableArray<byte> Bytes, ImmutableArray<(string Called, NamedPart Part)> Named) : PackedPart([.. "/Filter /FlateDecode"u8], Bytes);

/// <summary>A page whose drawing is already packed: most of the work on a file, done once for all files and pages that hold it.</summary>
public sealed class PackedPage
{
    private PackedPage(PdfPage page, ImmutableArray<PackedDrawing> drawings) => (Page, Drawings) = (page, drawings);

    /// <summary>The page.</summary>
    public PdfPage Page { get; }

    /// <summary>Its drawings, one after the other.</summary>
    internal ImmutableArray<PackedDrawing> Drawings { get; }

    /// <summary>Packs a page.</summary>
    /// <exception cref="ArgumentException">
    /// The page is wider than tall or larger than 5080 mm; a trim or bleed box is off it; a coordinate is not a number within 100 m.
    /// </exception>
    public static PackedPage Of(PdfPage page)
    {
        ArgumentNullException.ThrowIfNull(page);
        return page.Problem() is { } problem
            ? throw new ArgumentException(problem, nameof(page))
            : new(page, [Pack(new ByteText(BytesOf(page.Areas)), page.Areas)]);
    }

    /// <summary>
    /// Packs a page with many alike pieces, letters above all: each is drawn once and stamped in its places, which takes a few numbers instead of all its corners. Places are rounded to a thousandth of a point,
    /// so that corners come out within 0.4 µm of where a page without stamps has them; sheets to be held against each other are packed without.
    /// </summary>
    /// <exception cref="ArgumentException">As of a page without stamps.</exception>
    public static PackedPage WithStamps(PdfPage page)
    {
        ArgumentNullException.ThrowIfNull(page);
        if (page.Problem() is { } problem)
        {
            throw new ArgumentException(problem, nameof(page));
        }

        var content = new ByteText(1 << 16);
        var named = PdfContent.Write(content, page.Areas, PdfStamps.Of(page.Areas));
        return new(page, [new(Deflate.Zlib(content.Written), named)]);
    }

    /// <summary>Another page with the same drawing, moved as a whole, and more over it. The drawing is not packed again.</summary>
    /// <param name="move">How far everything on the page is moved, its trim and bleed boxes too.</param>
    /// <param name="over">What is printed over it, not moved.</param>
    public PackedPage With(Vector<PageSpace> move, ImmutableArray<Painted<PageSpace>> over)
    {
        var page = Page with
        {
            Trim = Moved(Page.Trim, move),
            Bleed = Moved(Page.Bleed, move),
        };
        var top = new ByteText(1 << 12);
        if (move == default)
        {
            return new(page, [.. Drawings, Pack(top, over)]);
        }

        // The state before the move is kept and restored, so that what lies over it is not moved (ISO 32000-1 clause 8.4.2).
        var before = new ByteText(1 << 6).Add("q 1 0 0 1 "u8).AddPoints(move.DxMm).Add(" "u8).AddPoints(move.DyMm).Add(" cm\n"u8);
        return new(page, [Pack(before, []), .. Drawings, Pack(top.Add("Q\n"u8), over)]);
    }

    private static Box<PageSpace> Moved(Box<PageSpace> box, Vector<PageSpace> move) => box with { LeftMm = box.LeftMm + move.DxMm, BottomMm = box.BottomMm + move.DyMm };

    /// <summary>About what the areas take: a corner some 16 bytes. Room that grows by doubling is copied again and again.</summary>
    private static int BytesOf(ImmutableArray<Painted<PageSpace>> areas) => (int)Math.Min(1 << 26, 1024 + areas.Sum(area => 12 + (16L * area.Region.CornerCount)));

    private static PackedDrawing Pack(ByteText content, ImmutableArray<Painted<PageSpace>> areas)
    {
        var named = PdfContent.Write(content, areas);
        return new(Deflate.Zlib(content.Written), named);
    }
}
