using System.Collections.Generic;
using System.Collections.Immutable;

namespace Lampblack.Formats;

/// <summary>Packed bytes that stand in a file once, however many pages show them.</summary>
/// <param name="Head">The entries of the stream's dictionary, but for its length and for what names other objects.</param>
/// <param name="Bytes">The bytes.</param>
internal abstract record PackedPart(ImmutableArray<byte> Head, ImmutableArray<byte> Bytes);

/// <summary>A part that pages draw by a name.</summary>
/// <param name="Name">Made from what it shows, so that parts of one name are one, whoever packed them.</param>
/// <param name="Head">The entries of the stream's dictionary, but for its length and for what names other objects.</param>
/// <param name="Bytes">The bytes.</param>
internal abstract record NamedPart(string Name, ImmutableArray<byte> Head, ImmutableArray<byte> Bytes) : PackedPart(Head, Bytes);

/// <summary>Numbers each page, and behind it those of its drawings, images and stamps that no earlier page has.</summary>
internal sealed class PdfParts
{
    private readonly Dictionary<PackedPart, int> _drawings = new(ReferenceEqualityComparer.Instance);
    private readonly Dictionary<string, int> _named = [];

    public PdfParts(ImmutableArray<PackedPage> pages, int next)
    {
        var numbers = ImmutableArray.CreateBuilder<int>(pages.Length);
        foreach (var page in pages)
        {
            numbers.Add(next++);
            foreach (var part in Of(page))
            {
                next += (part is NamedPart named ? _named.TryAdd(named.Name, next) : _drawings.TryAdd(part, next)) ? 1 : 0;
            }
        }

        Pages = numbers.MoveToImmutable();
    }

    /// <summary>The numbers of the pages.</summary>
    public ImmutableArray<int> Pages { get; }

    /// <summary>The number of a part.</summary>
    public int this[PackedPart part] => part is NamedPart named ? _named[named.Name] : _drawings[part];

    /// <summary>What a page shows, in the order in which it is numbered and written; the same part may come more than once.</summary>
    public static IEnumerable<PackedPart> Of(PackedPage page)
    {
        foreach (var drawing in page.Drawings)
        {
            yield return drawing;
            foreach (var (_, part) in drawing.Named)
            {
                yield return part;
                if (part is PackedImage { Mask: { } mask })
                {
                    yield return mask;
                }
            }
        }
    }
}
