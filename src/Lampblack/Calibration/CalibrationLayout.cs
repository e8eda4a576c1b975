using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Quantities;
using Lampblack.Sheets;

namespace Lampblack.Calibration;

/// <summary>
/// Which room each group of the calibration sheet has. Between the rows of register marks there are five lanes as wide as the rows, between the marks of a row
/// three cells, on the left and at the foot a strip for a bar. Lanes are filled from their upper edge down; all that is left is field.
/// </summary>
internal sealed class CalibrationLayout
{
    /// <summary>From the top of a lane's content to its foot: what the lowest lanes (Letter's) have room for.</summary>
    private const double ContentMm = 25.6;

    private const double LaneAirMm = 1;
    private const double VernierPairMm = VernierDrawing.AcrossWidthMm + 1 + VernierDrawing.UprightWidthMm;

    // Past the turn mark's clear squares, and short of them.
    private const double TurnClearMm = 26;
    private const double BetweenTurnsMm = 14;

    private readonly CalibrationPlan _plan;

    public CalibrationLayout(CalibrationPlan plan, bool isBlackOnly)
    {
        _plan = plan;
        var (left, right, middle) = (_plan.Marks[0].Place.XMm - RegisterMark.HalfSquareMm, _plan.Marks[3].Place.XMm + RegisterMark.HalfSquareMm, plan.Paper.WidthMm / 2);
        AlongBar = new(left - 7.6, 19.5, 7, 251);
        AcrossBar = new(middle - 90.5, 8.4, 181, 8.6);
        Box<SheetSpace> Content(int lane, double from, double to) => new(from, LaneTopMm(lane) - ContentMm, to - from, ContentMm);
        Verniers =
        [
            new(1, Content(5, left, left + VernierPairMm)), new(2, Content(5, right - VernierPairMm, right)),
            new(3, Content(3, middle - (VernierPairMm / 2), middle + (VernierPairMm / 2))),
            new(4, Content(1, left, left + VernierPairMm)), new(5, Content(1, right - VernierPairMm, right)),
        ];
        Steps = Content(5, left + VernierPairMm + 2, right - VernierPairMm - 2);
        WedgeFront = Content(4, left, middle - TurnClearMm);
        WedgeBack = Content(4, middle + TurnClearMm, right);
        WedgeBoth = Content(3, left, middle - (VernierPairMm / 2) - 1);
        WedgeSteps = Content(3, middle + (VernierPairMm / 2) + 1, right);
        Gain = Content(2, left, middle - TurnClearMm);
        Caution = Box<SheetSpace>.Between(new(Steps.LeftMm, plan.BackCode.TopMm + 3.6), new(Steps.RightMm, plan.BackCode.TopMm + 7.2));
        Reading = Content(2, middle + TurnClearMm, right);
        WedgeFront = Table(WedgeFront, CalibrationPatches.Blacks(isBlackOnly).Length + 1);
        WedgeBack = Table(WedgeBack, CalibrationPatches.Blacks(isBlackOnly).Length + 1);
        WedgeBoth = Table(WedgeBoth, CalibrationPatches.Blacks(isBlackOnly).Length + 1);
        WedgeSteps = WedgeSteps with { WidthMm = CalibrationPatches.WidthMm(CalibrationPatches.Coverages.Length + 1) };
        Gain = Gain with { WidthMm = CalibrationGauges.GainWidthMm, BottomMm = Gain.TopMm - CalibrationGauges.GainHeightMm, HeightMm = CalibrationGauges.GainHeightMm };
        var upper = Content(4, middle - BetweenTurnsMm, middle + BetweenTurnsMm);
        var lower = Content(2, middle - BetweenTurnsMm, middle + BetweenTurnsMm);
        PlanesTop = Upper(upper);
        Beside = Lower(upper);
        PlanesBottom = Upper(lower);
        Opaque = Lower(lower);
        BackTitle = Cells[1];
        Groups = [.. AllGroups(isBlackOnly)];
    }

    /// <summary>The paper.</summary>
    public PaperSize Paper => _plan.Paper;

    /// <summary>The bar along the sheet, upright on its left.</summary>
    public Box<SheetSpace> AlongBar { get; }

    /// <summary>The bar across the sheet, at its foot.</summary>
    public Box<SheetSpace> AcrossBar { get; }

    /// <summary>The five pairs of verniers: upper left, upper right, middle, lower left, lower right.</summary>
    public ImmutableArray<VernierPair> Verniers { get; }

    /// <summary>Title and steps.</summary>
    public Box<SheetSpace> Steps { get; }

    /// <summary>A line about the fuser, above the codes.</summary>
    public Box<SheetSpace> Caution { get; }

    /// <summary>How to read a vernier.</summary>
    public Box<SheetSpace> Reading { get; }

    public Box<SheetSpace> WedgeFront { get; }

    public Box<SheetSpace> WedgeBack { get; }

    public Box<SheetSpace> WedgeBoth { get; }

    /// <summary>Coverage from 100 to 400 %.</summary>
    public Box<SheetSpace> WedgeSteps { get; }

    public Box<SheetSpace> Gain { get; }

    public Box<SheetSpace> PlanesTop { get; }

    public Box<SheetSpace> PlanesBottom { get; }

    /// <summary>K beside the field.</summary>
    public Box<SheetSpace> Beside { get; }

    /// <summary>The darkest there is.</summary>
    public Box<SheetSpace> Opaque { get; }

    /// <summary>Where the back says what it is, behind field of the front.</summary>
    public Box<SheetSpace> BackTitle { get; }

    /// <summary>The register marks.</summary>
    public ImmutableArray<RegisterMark> Marks => _plan.Marks;

    /// <summary>What the back has field behind: nobody needs a lamp for it.</summary>
    public ImmutableArray<Box<SheetSpace>> BehindField => [Steps, Caution, Reading, AlongBar, AcrossBar];

    /// <summary>Everything on the sheet, by name.</summary>
    public ImmutableArray<PlacedGauge> Groups { get; }

    /// <summary>The cells between the marks of a row, from the lowest row up.</summary>
    private ImmutableArray<Box<SheetSpace>> Cells =>
    [
        .. from pair in _plan.Marks.Zip(_plan.Marks.Skip(1))
           where pair.First.Number % 4 != 0
           select Box<SheetSpace>.Between(
               new(pair.First.Place.XMm + RegisterMark.HalfSquareMm + 1.5, pair.First.Place.YMm - RegisterMark.HalfSquareMm + 1),
               new(pair.Second.Place.XMm - RegisterMark.HalfSquareMm - 1.5, pair.Second.Place.YMm + RegisterMark.HalfSquareMm - 1)),
    ];

    private double LaneTopMm(int lane) => _plan.Marks[lane * 4].Place.YMm - RegisterMark.HalfSquareMm - LaneAirMm;

    /// <summary>As much of a room as a wedge of two rows needs.</summary>
    private static Box<SheetSpace> Table(Box<SheetSpace> room, int columns) => Box<SheetSpace>.Between(
        new(room.LeftMm, room.TopMm - CalibrationPatches.HeightMm), new(room.LeftMm + CalibrationPatches.WidthMm(columns), room.TopMm));

    private static Box<SheetSpace> Upper(Box<SheetSpace> content) => new(content.LeftMm, content.TopMm - 12.2, content.WidthMm, 12.2);

    private static Box<SheetSpace> Lower(Box<SheetSpace> content) => content with { HeightMm = content.HeightMm - 13.2 };

    private IEnumerable<PlacedGauge> AllGroups(bool isBlackOnly)
    {
        foreach (var mark in _plan.Marks)
        {
            yield return new($"mark {mark.Number}", new Box<SheetSpace>(mark.Place.XMm, mark.Place.YMm, 0, 0).Grow(RegisterMark.HalfSquareMm));
        }

        foreach (var (index, place) in _plan.TurnPlaces.Index())
        {
            yield return new($"turn place {index + 1}", new Box<SheetSpace>(place.XMm, place.YMm, 0, 0).Grow(CalibrationPlan.HalfTurnPlaceMm));
        }

        yield return new("front code", _plan.FrontCode.Grow(SheetCode.AirMm));
        yield return new("back code", _plan.BackCode.Grow(SheetCode.AirMm));
        yield return new("bar along", AlongBar);
        yield return new("bar across", AcrossBar);
        foreach (var pair in Verniers)
        {
            yield return new($"vernier {pair.Number}x", pair.Across.Box);
            yield return new($"vernier {pair.Number}y", pair.Upright.Box);
        }

        foreach (var (name, box) in new[] { ("steps", Steps), ("caution", Caution), ("reading", Reading), ("front", WedgeFront), ("back", WedgeBack), ("both", WedgeBoth), ("gain", Gain), ("opaque", Opaque) })
        {
            yield return new(name, box);
        }

        foreach (var (name, box) in isBlackOnly ? [] : new[] { ("coverage", WedgeSteps), ("planes top", PlanesTop), ("planes bottom", PlanesBottom), ("beside", Beside) })
        {
            yield return new(name, box);
        }

        yield return new("back title", BackTitle);
    }
}
