using System.Collections.Generic;
using System.Collections.Immutable;

namespace Lampblack.Formats;

/// <summary>Packed bytes that stand in a file once, however many pages show them.</summary>
/// <param name="Head">The entries of the stream's dictionary, but for its length and for what names other objects.</param>
/// <param name="Bytes">The bytes.</param>
internal abstract record PackedPart(ImmutableArray<byte> Head, ImmutableArray<byte> Bytes);

/// <summary>Numbers each page, and behind it those of its drawings and images that no earlier page has.</summary>
internal sealed class PdfParts
{
    private readonly Dictionary<PackedPart, int> _drawings = new(ReferenceEqualityComparer.Instance);
    private readonly Dictionary<string, int> _images = [];

    public PdfParts(ImmutableArray<PackedPage> pages, int next)
    {
        var numbers = ImmutableArray.CreateBuilder<int>(pages.Length);
        foreach (var page in pages)
        {
            numbers.Add(next++);
            foreach (var part in Of(page))
            {
                next += (part is PackedImage image ? _images.TryAdd(image.Name, next) : _drawings.TryAdd(part, next)) ? 1 : 0;
            }
        }

        Pages = numbers.MoveToImmutable();
    }

    /// <summary>The numbers of the pages.</summary>
    public ImmutableArray<int> Pages { get; }

    /// <summary>The number of a part. Images of the same dots are one, whoever packed them.</summary>
    public int this[PackedPart part] => part is PackedImage image ? _images[image.Name] : _drawings[part];

    /// <summary>What a page shows, in the order in which it is numbered and written; the same part may come more than once.</summary>
    public static IEnumerable<PackedPart> Of(PackedPage page)
    {
        foreach (var drawing in page.Drawings)
        {
            yield return drawing;
            foreach (var image in drawing.Images)
            {
                yield return image;
                if (image.Mask is not null)
                {
                    yield return image.Mask;
                }
            }
        }
    }
}
