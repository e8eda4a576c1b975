using Lampblack.Geometry;
using Lampblack.Lettering;

namespace Lampblack.Tests.Register;

/// <summary>A line of the small lettering in a sheet's waste, as it must stand on a page to be read.</summary>
internal static class SmallLetters
{
    internal static Region<PageSpace> Centred(string text, double heightMm, Point<PageSpace> middle)
    {
        var run = TextOutline.Line(BundledFonts.Find("barlow-condensed-medium")!, text, heightMm, heightMm * 0.04, Resolution.SmallPrintErrorMm);
        return run.Shape.Map(Affine<ItemSpace, PageSpace>.Shift(middle.XMm - (run.WidthMm / 2), middle.YMm - (heightMm / 2)));
    }
}
