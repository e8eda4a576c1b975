using System;
using System.Linq;
using Lampblack.Desks;
using Lampblack.PictureArt;
using Lampblack.Quantities;
using Lampblack.VectorArt;

namespace Lampblack.Art;

/// <summary>What becomes of a colour that is not field.</summary>
internal static class ArtColour
{
    /// <summary>Lightness (CIE L*) above which what has hardly any colour is bare paper, where the maker says nothing. Ours.</summary>
    public const double UsualPaperAboveLightness = 90;

    /// <summary>Colours whose codes differ by no more than this are nearly gray. Ours.</summary>
    private const int NearlyGray = 12;

    /// <summary>How far codes may lie from those of a colour that the maker named.</summary>
    private const int NamedWithin = 24;

    /// <summary>Whether a colour is as good as a named one; anti-aliased edges and JPEG shift codes a little.</summary>
    public static bool IsLike(ScreenColour colour, ScreenColour named) =>
        Math.Abs(colour.Red - named.Red) <= NamedWithin && Math.Abs(colour.Green - named.Green) <= NamedWithin && Math.Abs(colour.Blue - named.Blue) <= NamedWithin;

    /// <summary>Whether it has hardly any colour.</summary>
    public static bool IsGray(ScreenColour colour) =>
        Math.Max(colour.Red, Math.Max(colour.Green, colour.Blue)) - Math.Min(colour.Red, Math.Min(colour.Green, colour.Blue)) <= NearlyGray;

    /// <summary>Whether a drawn colour is light, as what shines is.</summary>
    public static bool IsLight(DrawnColour colour) => Lightness.IsLight(colour.Red, colour.Green, colour.Blue);

    /// <summary>Whether it is left as bare paper.</summary>
    public static bool IsPaper(ScreenColour colour, ArtReading reading)
    {
        return !reading.Colours
            || (reading.Kept.Length > 0 && !reading.Kept.Any(kept => IsLike(colour, kept)))
            || (IsGray(colour) && Lightness.Of(colour.Red, colour.Green, colour.Blue) >= (reading.PaperAboveLightness ?? UsualPaperAboveLightness));
    }

    /// <summary>Its ink: the complement in three inks (ISO 32000-1 clause 10.3.4, without black generation), K alone for grays, bare paper where it is that.</summary>
    public static Ink InkOf(ScreenColour colour, ArtReading reading)
    {
        if (IsPaper(colour, reading))
        {
            return Ink.None;
        }

        return colour.Red == colour.Green && colour.Green == colour.Blue
            ? Ink.Cmyk(0, 0, 0, Share(colour.Red))
            : Ink.Cmyk(Share(colour.Red), Share(colour.Green), Share(colour.Blue), 0);
    }

    /// <summary>How light it is to what is behind: a strong colour lets as much through as a gray of its strongest part.</summary>
    public static double Gain(ScreenColour colour, bool inverted) => inverted
        ? 100 - Lightness.OfGrey(Math.Min(colour.Red, Math.Min(colour.Green, colour.Blue)))
        : Lightness.OfGrey(Math.Max(colour.Red, Math.Max(colour.Green, colour.Blue)));

    private static double Share(byte code) => Math.Round(1 - (code / 255.0), 4, MidpointRounding.AwayFromZero);
}
