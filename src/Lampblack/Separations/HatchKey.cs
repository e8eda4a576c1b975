using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Artwork;
using Lampblack.Quantities;

namespace Lampblack.Separations;

/// <summary>Which hatch stands for which ink of a desk where there is black only: the first ink that fills a shape in the file takes the first pattern, and so on.</summary>
public sealed class HatchKey
{
    // Mixtures closer to gray than this look alike on a black-only printer and on any other.
    private const double LeastChroma = 0.05;

    private readonly ImmutableArray<Ink> _inks;

    private HatchKey(ImmutableArray<Ink> inks) => _inks = inks;

    /// <summary>The key of all panels of a desk.</summary>
    /// <param name="artworks">The panels' shapes.</param>
    public static HatchKey Of(IEnumerable<PanelArtwork> artworks)
    {
        System.ArgumentNullException.ThrowIfNull(artworks);
        return new(
        [
            .. artworks.SelectMany(artwork => artwork.Marks).Where(CanHatch)
                .OrderBy(mark => mark.Origin.Span.Line).ThenBy(mark => mark.Origin.Span.Column)
                .Select(mark => mark.Style.Ink!).Distinct(),
        ]);
    }

    /// <summary>The inks that got a pattern, in their order; beyond <see cref="HatchPatterns.Count"/> patterns come again.</summary>
    public ImmutableArray<Ink> Inks => _inks;

    /// <summary>Whether a hatch can stand for a mark's colour: it is filled, large enough, and its ink is a colour; grays and bare paper stay what they are.</summary>
    internal static bool CanHatch(Mark mark) => mark.Filled && IsColour(mark.Style.Ink) && Hatch.Fits(mark.Shape, mark.Course);

    /// <summary>Whether an ink is neither bare paper nor a gray.</summary>
    internal static bool IsColour(Ink? ink)
    {
        if (ink is null || ink.Space == InkSpace.Gray)
        {
            return false;
        }

        var colours = ink.Amounts.Take(3).ToList();
        return colours.Max() - colours.Min() > LeastChroma;
    }

    /// <summary>The pattern of an ink; null where it has none.</summary>
    internal HatchPattern? PatternOf(Ink ink) => _inks.IndexOf(ink) is >= 0 and var place ? (HatchPattern)(place % HatchPatterns.Count) : null;
}
