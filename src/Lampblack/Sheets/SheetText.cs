using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Lettering;

namespace Lampblack.Sheets;

/// <summary>The two sides of a sheet.</summary>
internal enum Side
{
    Front,
    Back,
}

/// <summary>Small lettering in the waste. On the back it is mirrored in front view, so that it reads right on the page.</summary>
internal static class SheetText
{
    private const double SpacingShare = 0.04;

    /// <summary>No line that a sheet has room for is longer.</summary>
    private const int MostCharacters = 150;

    private static readonly Typeface Face = BundledFonts.Find("barlow-condensed-medium") ?? BundledFonts.Find(BundledFonts.Names[0])!;

    /// <summary>A line of text whose middle stands at a place.</summary>
    public static Region<SheetSpace> Centred(string text, double heightMm, Point<SheetSpace> middle, Side side, int quarterTurns = 0)
    {
        var run = TextOutline.Line(Face, text, heightMm, heightMm * SpacingShare, Resolution.SmallPrintErrorMm);
        return run.Shape.Map(Affine<ItemSpace, ItemSpace>.Shift(-run.WidthMm / 2, -heightMm / 2)
            .Then(Affine<ItemSpace, ItemSpace>.Scale(side == Side.Back ? -1 : 1, 1))
            .Then(Affine<ItemSpace, ItemSpace>.Turn(90 * quarterTurns))
            .Then(Affine<ItemSpace, SheetSpace>.Shift(middle.XMm, middle.YMm)));
    }

    /// <summary>A line of text that starts (as seen on its own side) at the end of a stretch: at its left on the front, at its right on the back.</summary>
    public static Region<SheetSpace> Starting(string text, double heightMm, Box<SheetSpace> within, Side side) =>
        Centred(text, heightMm, new(
            side == Side.Front ? within.LeftMm + (WidthMm(text, heightMm) / 2) : within.RightMm - (WidthMm(text, heightMm) / 2),
            within.Centre.YMm), side);

    /// <summary>Width of a line of text, in mm.</summary>
    public static double WidthMm(string text, double heightMm) => TextOutline.WidthMm(Face, text, heightMm, heightMm * SpacingShare);

    /// <summary>Height of capitals at which a text is no wider than allowed; the wanted height where it is not anyway.</summary>
    public static double FittingMm(string text, double heightMm, double widthMm) =>
        WidthMm(text, heightMm) is var wanted && wanted > widthMm ? heightMm * widthMm / wanted : heightMm;

    /// <summary>A text cut to a width.</summary>
    public static string Fitting(string text, double heightMm, double widthMm)
    {
        var clean = PrintableText.Clean(text);
        for (var length = Beginning(clean); length > 0; length -= char.IsLowSurrogate(clean[length - 1]) ? 2 : 1)
        {
            var cut = length == clean.Length ? clean : clean[..length] + "…";
            if (WidthMm(cut, heightMm) <= widthMm)
            {
                return cut;
            }
        }

        return string.Empty;
    }

    /// <summary>How much of a text is tried at most; no character of two halves is parted.</summary>
    private static int Beginning(string text)
    {
        var length = 0;
        for (var count = 0; count < MostCharacters && length < text.Length; count++)
        {
            length += char.IsHighSurrogate(text[length]) ? 2 : 1;
        }

        return length;
    }
}
