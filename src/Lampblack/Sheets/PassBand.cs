using System.Collections.Immutable;
using System.Globalization;
using Lampblack.Geometry;

namespace Lampblack.Sheets;

/// <summary>The line beside the dot rows: how many dots may shine on this very sheet, and where on the sheet the rows stand.</summary>
/// <param name="SpreadMm">The spread of the sheet's openings.</param>
/// <param name="RowsAt">The middle of the dot rows.</param>
internal sealed record PassBand(double SpreadMm, Point<SheetSpace> RowsAt) : Gauge("pass-band")
{
    private const double TextMm = 1.5;

    public override ImmutableArray<(double WidthMm, double HeightMm)> Sizes => [(37.4, 4.6), (4.6, 37.4)];

    public override GaugeDrawing Draw(Box<SheetSpace> box, GaugeInks inks)
    {
        var first = PassLimits.MostDots(SpreadMm) switch
        {
            < 0 => "pass: no dot shines, better no sliver at all",
            0 => "pass: no dot shines in any row",
            var most => string.Create(CultureInfo.InvariantCulture, $"pass: at most {most} shine in every row"),
        };
        var second = string.Create(
            CultureInfo.InvariantCulture, $"and the scales within {PassLimits.MostReadingMm(SpreadMm):0.0} mm  \u00b7  place {DotPlace.Text(RowsAt)}");
        var flat = box.WidthMm > box.HeightMm;
        return new(
            [
                Area(
                    inks.Mark,
                    SheetText.Centred(first, TextMm, At(1.2), Side.Front, flat ? 0 : 1),
                    SheetText.Centred(second, TextMm, At(-1.2), Side.Front, flat ? 0 : 1)),
            ],
            []);

        // Turned by a quarter counter-clockwise, up is to the left.
        Point<SheetSpace> At(double upMm) => flat ? new(box.Centre.XMm, box.Centre.YMm + upMm) : new(box.Centre.XMm - upMm, box.Centre.YMm);
    }
}
