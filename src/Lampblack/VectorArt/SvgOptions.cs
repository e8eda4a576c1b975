using System;
using System.Collections.Immutable;
using Lampblack.Lettering;

namespace Lampblack.VectorArt;

/// <summary>How a drawing is read.</summary>
/// <param name="WidthMm">How wide it is to be, in mm, its height following; null for the size it says itself. Curves are followed for that size.</param>
/// <param name="PictureDpi">How finely is drawn what can't be kept as areas: dots for each inch, 72 to 2400.</param>
/// <param name="Language">The language that a switch in the file is read for: two or three letters.</param>
public sealed record SvgOptions(double? WidthMm = null, double PictureDpi = 1200, string Language = "en")
{
    /// <summary>Fonts of the user by their family's name, beside the bundled ones.</summary>
    public ImmutableSortedDictionary<string, Typeface> Fonts { get; init; } = ImmutableSortedDictionary.Create<string, Typeface>(StringComparer.OrdinalIgnoreCase);
}
