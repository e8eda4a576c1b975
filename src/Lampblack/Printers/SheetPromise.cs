using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Numerics;
using Lampblack.Quantities;

namespace Lampblack.Printers;

/// <summary>
/// How many sheets come out whole: every opening of every panel on the sheet still behind all of its legend. Promised per sheet and not per place, by 10,000
/// sheets that the printer may print next, always the same ones for the same printer file.
/// </summary>
public sealed class SheetPromise
{
    private const int Sheets = 10_000;

    // One more hundredth of a millimetre costs nothing, and no printer holds a smaller step.
    private const double StepMm = 0.01;

    private readonly double[][] _sheets;
    private readonly double _middleXMm;
    private readonly double _middleYMm;

    private SheetPromise(double[][] sheets, double middleXMm, double middleYMm)
    {
        _sheets = sheets;
        _middleXMm = middleXMm;
        _middleYMm = middleYMm;
    }

    /// <summary>The sheets that a printer may print next.</summary>
    /// <param name="estimate">What is known of its register, and undone.</param>
    /// <param name="paper">The paper.</param>
    public static SheetPromise Of(RegisterEstimate estimate, PaperSize paper)
    {
        ArgumentNullException.ThrowIfNull(estimate);
        ArgumentNullException.ThrowIfNull(paper);
        return new(PredictedGroups.Of(estimate.Known, Sheets), paper.WidthMm / 2, paper.HeightMm / 2);
    }

    /// <summary>The smallest spreads with which the wanted share of sheets comes out whole, one for each panel of a sheet.</summary>
    /// <remarks>
    /// Each panel alone is then whole on one and the same share of sheets, somewhat above the one wanted, so that a panel far from the sheet's middle gets more
    /// than one near it.
    /// </remarks>
    /// <param name="panels">For each panel, places that take in all of its openings.</param>
    /// <param name="share">The share, above 0 and below 1.</param>
    /// <param name="leastMm">No spread is smaller than this.</param>
    public ImmutableArray<double> SpreadsMm(ImmutableArray<ImmutableArray<Point<SheetSpace>>> panels, double share, double leastMm)
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(share, 0);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(share, 1);
        var worst = panels.Select(WorstMm).ToArray();
        var sorted = worst.Select(sheets => sheets.Order().ToArray()).ToArray();
        var wanted = (int)Math.Ceiling(share * Sheets);
        var rank = wanted;
        while (rank < Sheets && Whole(worst, Spreads(rank)) < wanted)
        {
            rank++;
        }

        return Spreads(rank);

        ImmutableArray<double> Spreads(int rank) =>
            [.. sorted.Select(sheets => Math.Max(leastMm, Math.Round(Math.Ceiling((sheets[rank - 1] / StepMm) - 1e-9) * StepMm, 2, MidpointRounding.AwayFromZero)))];
    }

    /// <summary>The share of sheets that come out whole with given spreads.</summary>
    /// <param name="panels">For each panel, places that take in all of its openings.</param>
    /// <param name="spreadsMm">The spread of each.</param>
    public double Share(ImmutableArray<ImmutableArray<Point<SheetSpace>>> panels, ImmutableArray<double> spreadsMm) =>
        Whole([.. panels.Select(WorstMm)], spreadsMm) / (double)Sheets;

    /// <summary>How many sheets to print so that one of them comes out whole 19 times out of 20.</summary>
    /// <param name="share">The share of sheets that come out whole.</param>
    /// <returns>Null where that would be more than a hundred.</returns>
    public static int? SheetsForOne(double share) => share switch
    {
        >= 0.95 => 1,
        < 0.03 => null,
        _ => (int)Math.Ceiling(Math.Log(0.05) / Math.Log(1 - share)),
    };

    private static int Whole(double[][] worst, ImmutableArray<double> spreadsMm) =>
        Enumerable.Range(0, Sheets).Count(sheet => worst.Index().All(panel => panel.Item[sheet] <= spreadsMm[panel.Index] + 1e-9));

    // How far off a place lies is a convex function of the place, so the corners of the hull tell the worst.
    private double[] WorstMm(ImmutableArray<Point<SheetSpace>> places)
    {
        var corners = Hull.Of(places).Select(place => (X: place.XMm - _middleXMm, Y: place.YMm - _middleYMm)).ToArray();
        return
        [
            .. _sheets.Select(off => Math.Sqrt(corners.Select(corner => Squared(
                off[0] - (off[2] * corner.Y) + (off[3] * corner.X) + (off[5] * corner.Y),
                off[1] + (off[2] * corner.X) + (off[4] * corner.Y) + (off[5] * corner.X))).DefaultIfEmpty(0).Max())),
        ];
    }

    private static double Squared(double x, double y) => (x * x) + (y * y);
}
