using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Geometry;
using SkiaSharp;

namespace Lampblack.Tests.Photos;

/// <summary>
/// A printed hole template as a room's light shows it, alone or with a drilled plate on it. The page is what is really printed, filled by another library's painter;
/// the plate is this file's own: a slab with upright holes, whose walls are seen where one looks aslant.
/// </summary>
internal sealed class DrawnPlate
{
    private const double DotsPerMm = 20;

    private readonly TemplatePlan _plan;
    private readonly (double X, double Y, double Radius)[] _holes;
    private readonly Affine<SheetSpace, PanelSpace> _toPanel;
    private readonly byte[] _page;
    private readonly int _width;
    private readonly int _height;

    /// <param name="plan">The page.</param>
    /// <param name="holes">The holes as drilled, on the panel.</param>
    public DrawnPlate(TemplatePlan plan, ImmutableArray<PanelHole> holes)
    {
        _plan = plan;
        _holes = [.. holes.Select(hole => (Place: plan.Map.Apply(hole.Centre), hole.RadiusMm)).Select(hole => (hole.Place.XMm, hole.Place.YMm, hole.RadiusMm))];
        _toPanel = plan.Map.Inverse();
        (_width, _height) = ((int)(plan.Paper.WidthMm * DotsPerMm), (int)(plan.Paper.HeightMm * DotsPerMm));
        using var bitmap = new SKBitmap(new SKImageInfo(_width, _height, SKColorType.Gray8, SKAlphaType.Opaque));
        using var canvas = new SKCanvas(bitmap);
        canvas.Clear(SKColors.White);
        using var black = new SKPaint { Color = SKColors.Black, IsAntialias = true };
        foreach (var region in TemplatePage.Draw(plan))
        {
            using var builder = new SKPathBuilder { FillType = SKPathFillType.EvenOdd };
            foreach (var border in region.Borders())
            {
                builder.AddPoly([.. border.Points.Select(point => new SKPoint((float)(point.XMm * DotsPerMm), (float)((plan.Paper.HeightMm - point.YMm) * DotsPerMm)))], true);
            }

            using var path = builder.Detach();
            canvas.DrawPath(path, black);
        }

        canvas.Flush();
        _page = bitmap.GetPixelSpan().ToArray();
    }

    public TemplatePlan Plan => _plan;

    /// <summary>The plate's thickness where it lies on the page; 0 for the felt pen's work on the page alone.</summary>
    public double PlateMm { get; init; }

    /// <summary>How bright the plate is, and its holes' walls.</summary>
    public double Plate { get; init; } = 0.75;

    public double Wall { get; init; } = 0.7;

    /// <summary>How dark the felt pen is.</summary>
    public double Pen { get; init; } = 0.06;

    /// <summary>How unevenly the felt pen was led: by so much its edge wanders.</summary>
    public double PenWandersMm { get; init; }

    public double Toner { get; init; } = 0.05;

    /// <summary>How far a page that is not flat is seen moved, to and fro along its height.</summary>
    public double BentMm { get; init; }

    /// <summary>Holes that nobody filled.</summary>
    public int Unfilled { get; init; } = -1;

    /// <summary>Whether there is paper.</summary>
    public bool IsPaper(double x, double y) => x >= 0 && y >= 0 && x <= _plan.Paper.WidthMm && y <= _plan.Paper.HeightMm;

    /// <summary>The light of what a ray meets that comes down from above.</summary>
    /// <param name="at">Where the ray goes through the plane that lies so far above the page.</param>
    public double Light(Func<double, (double X, double Y)> at)
    {
        var (x, y) = at(0);
        x += BentMm * Math.Sin(y / 30) * Math.Cos(x / 20);
        if (PlateMm == 0)
        {
            return IsPaper(x, y) ? Math.Min(Paper(x, y), IsFilled(x, y) ? Pen : 1) : 0.25;
        }

        var (ux, uy) = at(PlateMm);
        var back = _toPanel.Apply(new Point<SheetSpace>(ux, uy));
        if (back.XMm >= 0 && back.YMm >= 0 && back.XMm <= _plan.Panel.WidthMm && back.YMm <= _plan.Panel.HeightMm)
        {
            var hole = Array.FindIndex(_holes, one => Far(one, ux, uy) < one.Radius);
            return hole < 0 ? Plate : Far(_holes[hole], x, y) < _holes[hole].Radius ? Paper(x, y) : Wall;
        }

        return IsPaper(x, y) ? Paper(x, y) : 0.25;
    }

    private static double Far((double X, double Y, double Radius) hole, double x, double y) => Math.Sqrt(((x - hole.X) * (x - hole.X)) + ((y - hole.Y) * (y - hole.Y)));

    private bool IsFilled(double x, double y)
    {
        for (var index = 0; index < _holes.Length; index++)
        {
            var far = Far(_holes[index], x, y);
            if (index != Unfilled && far < _holes[index].Radius)
            {
                var angle = Math.Atan2(y - _holes[index].Y, x - _holes[index].X);
                return far < _holes[index].Radius - (PenWandersMm * (0.5 + (0.5 * Math.Sin((5 * angle) + index)) + (0.3 * Math.Sin((11 * angle) + (2 * index)))));
            }
        }

        return false;
    }

    private double Paper(double x, double y)
    {
        var (column, row) = ((x * DotsPerMm) - 0.5, ((_plan.Paper.HeightMm - y) * DotsPerMm) - 0.5);
        var (left, top) = (Math.Clamp((int)column, 0, _width - 2), Math.Clamp((int)row, 0, _height - 2));
        var (u, v) = (Math.Clamp(column - left, 0, 1), Math.Clamp(row - top, 0, 1));
        var at = (top * _width) + left;
        var upper = _page[at] + (u * (_page[at + 1] - _page[at]));
        var lower = _page[at + _width] + (u * (_page[at + _width + 1] - _page[at + _width]));
        return Toner + ((0.85 - Toner) * (upper + (v * (lower - upper))) / 255);
    }
}
