using System;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Geometry;

namespace Lampblack.Photos;

/// <summary>
/// How much of paper's light the back's cells take away near the disc, by the photo's blur: without this the disc's edge would seem to lie further out towards cells,
/// and its middle aside, by some hundredths of a pixel.
/// </summary>
internal sealed class CellShade
{
    private const int Parts = 360;

    private readonly double[] _share = new double[Parts];
    private readonly Point<SheetSpace> _disc;
    private readonly double _sdMm;
    private readonly double _gainMm;

    /// <param name="cells">The cells that are dark.</param>
    /// <param name="disc">The disc's middle.</param>
    /// <param name="sdMm">The blur, as a normal spread.</param>
    /// <param name="gainMm">By how much toner grew.</param>
    public CellShade(int cells, Point<SheetSpace> disc, double sdMm, double gainMm)
    {
        (_disc, _sdMm, _gainMm) = (disc, Math.Max(0.01, sdMm), gainMm);
        var dark = new double[Parts];
        for (var part = 0; part < Parts; part++)
        {
            dark[part] = (cells >> (part / 30)) & 1;
        }

        // Spread along the ring as far as across it.
        var sdDegrees = Math.Max(0.5, _sdMm / RegisterMark.BackCellsInnerMm * 180 / Math.PI);
        var reach = (int)Math.Min(90, 3 * sdDegrees);
        var weights = Enumerable.Range(-reach, (2 * reach) + 1).Select(way => Math.Exp(-way * way / (2 * sdDegrees * sdDegrees))).ToArray();
        var sum = weights.Sum();
        for (var part = 0; part < Parts; part++)
        {
            for (var way = -reach; way <= reach; way++)
            {
                _share[part] += weights[way + reach] / sum * dark[(part + way + Parts) % Parts];
            }
        }
    }

    public double At(Point<SheetSpace> place)
    {
        var way = place - _disc;
        var r = way.LengthMm;
        var degrees = Math.Atan2(way.DyMm, way.DxMm) * 180 / Math.PI;
        var share = _share[(int)Math.Floor(degrees < 0 ? degrees + 360 : degrees) % Parts];
        return share * (Beyond((RegisterMark.BackCellsInnerMm - _gainMm - r) / _sdMm) - Beyond((RegisterMark.BackCellsOuterMm + _gainMm - r) / _sdMm));
    }

    /// <summary>The share of a normal spread that lies beyond z: M. Abramowitz and I. A. Stegun, Handbook of Mathematical Functions (1964), 26.2.17, off by less than 1e-7.</summary>
    private static double Beyond(double z)
    {
        if (z < 0)
        {
            return 1 - Beyond(-z);
        }

        var t = 1 / (1 + (0.2316419 * z));
        return Math.Exp(-z * z / 2) / Math.Sqrt(2 * Math.PI) * t * (0.319381530 + (t * (-0.356563782 + (t * (1.781477937 + (t * (-1.821255978 + (t * 1.330274429))))))));
    }
}
