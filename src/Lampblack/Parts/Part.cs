using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Parts;

/// <summary>
/// A component one can buy, by class and dimension: the hole it needs, what it covers in front, the room it takes behind.
/// All places are seen from the front; the anchor (the middle of the main hole) is the origin, y points up.
/// </summary>
public sealed record Part
{
    /// <summary>The paper is opened this much beyond the hole all round: hole + 1 mm in diameter (common practice, no source).</summary>
    private const double UsualPaperMarginMm = 0.5;

    private const int BarrelCorners = 24;

    /// <summary>What a desk file calls it: lower-case letters, digits and hyphens.</summary>
    public required string Id { get; init; }

    /// <summary>What it is, in plain words.</summary>
    public required string Name { get; init; }

    /// <summary>What kind of thing it is.</summary>
    public required PartClass Class { get; init; }

    /// <summary>The main opening.</summary>
    public required Cutout Cutout { get; init; }

    /// <summary>A notch in the edge of a round hole, if any.</summary>
    public KeyNotch? Key { get; init; }

    /// <summary>Holes beside the main one.</summary>
    public ImmutableArray<ExtraHole> ExtraHoles { get; init; } = [];

    /// <summary>What covers the panel in front for certain: nut, washer, flange or bezel; nothing where the hole's edge stays in sight.</summary>
    public Cutout? Bezel { get; init; }

    /// <summary>The usual knob on its shaft, larger than the nut; dials start outside it.</summary>
    public Figure? KnobDiameter { get; init; }

    /// <summary>The room behind the panel, if it needs any.</summary>
    public Body? Body { get; init; }

    /// <summary>Length of the threaded bushing from the part's shoulder.</summary>
    public Figure? BushingLength { get; init; }

    /// <summary>Thickest panel, paper and glue included, that it still clamps.</summary>
    public Figure? LargestPanelThickness { get; init; }

    /// <summary>The lever in front, if it is a toggle; it swings along y.</summary>
    public Lever? Lever { get; init; }

    /// <summary>Least distance from the middle of one to the next of its kind, where its maker names one.</summary>
    public Figure? LeastPitch { get; init; }

    /// <summary>How far a slider's lever runs.</summary>
    public Figure? Travel { get; init; }

    /// <summary>How many circuits it switches together; zero where it is no switch.</summary>
    public int Poles { get; init; }

    /// <summary>Where its lever, key or knob can stand, if it has fixed positions.</summary>
    public Positions? Positions { get; init; }

    /// <summary>Whole mechanical turn of a potentiometer in degrees; above 360 for one of several turns.</summary>
    public double? SweepDegrees { get; init; }

    /// <summary>Whether it springs back (a button when let go, a toggle from the positions its name puts in brackets).</summary>
    public bool Momentary { get; init; }

    /// <summary>Whether it stands under a hinged cover, so that nobody moves it by chance.</summary>
    public bool HasCover { get; init; }

    /// <summary>Whether it has a light of its own.</summary>
    public bool Illuminated { get; init; }

    /// <summary>Whether it is a lamp that is told its colour over a data line, from one to the next.</summary>
    public bool IsPixel { get; init; }

    /// <summary>Whether it is a display that shows letters in fixed places, and takes its data over six lines.</summary>
    public bool HasCharacters { get; init; }

    /// <summary>Whether its knob is also a push-button, unless the desk says otherwise.</summary>
    public bool PushesDefault { get; init; }

    /// <summary>How it is held, where the catalogue says otherwise than is usual for its class.</summary>
    public Mounting? OwnMounting { get; init; }

    /// <summary>How it is held in its hole; by its class from memory, where nobody says.</summary>
    public Mounting Mounting => OwnMounting ?? Class switch
    {
        PartClass.Screw => Mounting.ScrewThrough,
        PartClass.Plain => Body is null ? Mounting.Open : ExtraHoles.Length > 0 ? Mounting.SmallScrews : Mounting.BySheet,
        PartClass.Lamp => Bezel is null ? Mounting.PushedFromBehind : Mounting.ClipFromFront,
        _ when BushingLength is not null => Mounting.NutInFront,
        PartClass.Slider or PartClass.Connector or PartClass.Display or PartClass.Meter when ExtraHoles.Length > 0 => Mounting.SmallScrews,
        PartClass.PushButton or PartClass.KeySwitch or PartClass.Connector => Mounting.RingBehind,
        PartClass.Toggle or PartClass.Rotary or PartClass.Potentiometer or PartClass.Encoder => Mounting.NutInFront,
        _ => Mounting.BySheet,
    };

    /// <summary>The box behind the panel in the panel's plane, in mm; of size zero where there is no body.</summary>
    public Box<ItemSpace> BodyBox => Body is null
        ? default
        : new(-Body.Width.Mm / 2, -Body.Height.Mm / 2, Body.Width.Mm, Body.Height.Mm);

    /// <summary>The body's outline in the panel's plane; empty where there is no body. A barrel has corners that lie up to 0.9 % outside it.</summary>
    public Region<ItemSpace> BodyShape => Body switch
    {
        null => Region<ItemSpace>.Empty,
        { IsRound: false } => Region<ItemSpace>.Rectangle(BodyBox),
        { } barrel => Region<ItemSpace>.FromCorners([.. Enumerable.Range(0, BarrelCorners).Select(corner => default(Point<ItemSpace>).Polar(
            barrel.Width.Mm / 2 / Math.Cos(Math.PI / BarrelCorners), 360.0 * corner / BarrelCorners))]),
    };

    /// <summary>The main opening as one tells it in a workshop: "6.5 mm", "45 x 26 mm".</summary>
    public string DrillText => Cutout is FlattedCutout flatted
        ? $"{Cutout.Text(flatted.Diameter.Mm)} mm, {Cutout.Text(flatted.AcrossFlats.Mm)} mm across {(flatted.OneFlat ? "the flat" : "flats")}"
        : Cutout.SizeText + " mm";

    /// <summary>
    /// Direction of every position, counter-clockwise from the x axis, from 0 up to 360; the order runs clockwise from the first.
    /// Selectors are symmetric about straight up (90). Toggles go up (90), then, where there is a middle position, 0 (the lever
    /// points at the maker, its legend stands to the right), then down (270). Empty without fixed positions.
    /// </summary>
    public ImmutableArray<double> PositionDegrees => Positions is not { } set
        ? []
        : [.. Enumerable.Range(0, Math.Max(0, set.Count)).Select(index =>
            Whole(set.CentreDegrees + (set.StepDegrees * (((set.Count - 1) / 2.0) - index))))];

    /// <summary>
    /// Where a knob's turn starts and ends, counter-clockwise from the x axis: clockwise from the start, so the end is the smaller
    /// number (and may be negative); symmetric about straight up (90). Nothing for endless, straight and several-turn parts.
    /// </summary>
    public (double StartDegrees, double EndDegrees)? Sweep =>
        SweepDegrees is { } sweep && sweep is > 0 and <= 360 ? (90 + (sweep / 2), 90 - (sweep / 2)) : null;

    /// <summary>How far the bezel reaches past the edge of the main hole where it reaches least, in mm; nothing without a bezel.</summary>
    public double? CoverMm
    {
        get
        {
            var covered = Covered();
            if (covered.IsEmpty)
            {
                return null;
            }

            var around = Region<ItemSpace>.Rectangle(covered.Bounds.Grow(1)).Except(covered);
            return around.DistanceMm(MainHole());
        }
    }

    /// <summary>
    /// How far beyond the hole's edge the paper is opened, in mm, in steps of 0.1: half a millimetre, but at most half of what the
    /// bezel covers, and nothing where the paper's edge stays in sight (common practice, no source).
    /// </summary>
    public double PaperMarginMm
    {
        get
        {
            // The tiny extra keeps a cover of, say, 1 mm minus the chord error from losing a whole step.
            var margin = Math.Min(UsualPaperMarginMm, (CoverMm ?? 0) / 2);
            return Math.Floor((margin * 10) + 0.05) / 10;
        }
    }

    /// <summary>Diameter to punch the paper with, in mm; nothing where the opening is cut with a knife (rectangle, slot).</summary>
    public double? PaperPunchMm => Cutout switch
    {
        RoundCutout round => round.Diameter.Mm + (2 * PaperMarginMm),
        FlattedCutout flatted => flatted.Diameter.Mm + (2 * PaperMarginMm),
        _ => null,
    };

    /// <summary>Everything that is cut away: main opening, notch and extra holes.</summary>
    public Region<ItemSpace> Hole() => Region<ItemSpace>.Union(Holes());

    /// <summary>The separate openings: the main one with its notch first, then the extra holes in order.</summary>
    public ImmutableArray<Region<ItemSpace>> Holes() =>
    [
        MainHole(),
        .. ExtraHoles.Select(hole => Region<ItemSpace>.Disc(new(hole.XMm, hole.YMm), hole.Diameter.Mm / 2)),
    ];

    /// <summary>The same openings in the same order as lines with true arcs. Every size must be above zero, as <see cref="PartCheck"/> sees to.</summary>
    public ImmutableArray<ArcPath<ItemSpace>> HoleLines() =>
    [
        Key is { } key && Cutout is RoundCutout round ? NotchedLine(round.Diameter.Mm / 2, key) : Cutout.Line(),
        .. ExtraHoles.Select(hole => ArcPath<ItemSpace>.Circle(new(hole.XMm, hole.YMm), hole.Diameter.Mm / 2)),
    ];

    /// <summary>What the bezel covers; empty without one.</summary>
    public Region<ItemSpace> Covered() => Bezel?.Shape() ?? Region<ItemSpace>.Empty;

    /// <summary>What hand and eye meet in front: bezel and knob together; empty where there is neither.</summary>
    public Region<ItemSpace> Front() => KnobDiameter is { } knob
        ? Covered().Union(Region<ItemSpace>.Disc(default, knob.Mm / 2))
        : Covered();

    /// <summary>What the lever's tip passes over as it swings; empty without one.</summary>
    public Region<ItemSpace> LeverSweep()
    {
        if (Lever is not { } lever)
        {
            return Region<ItemSpace>.Empty;
        }

        var (reachMm, tipMm) = (lever.Length.Mm * Math.Sin(lever.SwingDegrees * Math.PI / 180), lever.Tip.Mm);
        return Region<ItemSpace>.RoundedRectangle(new(-tipMm / 2, -reachMm - (tipMm / 2), tipMm, (2 * reachMm) + tipMm), tipMm / 2);
    }

    /// <summary>Every figure of the part with its name, in a fixed order.</summary>
    public ImmutableArray<(string What, Figure Figure)> Figures()
    {
        var figures = ImmutableArray.CreateBuilder<(string What, Figure Figure)>();
        void Add(string what, Figure? figure)
        {
            if (figure is { } known)
            {
                figures.Add((what, known));
            }
        }

        void AddOutline(string what, Cutout? outline)
        {
            figures.AddRange(outline?.Figures.Select(pair => ($"{what} {pair.What}", pair.Figure)) ?? []);
            Add($"{what} tolerance", outline?.TolerancePlus);
        }

        AddOutline("hole", Cutout);
        Add("key width", Key?.Width);
        Add("key depth", Key?.Depth);
        figures.AddRange(ExtraHoles.Select((hole, index) => ($"extra hole {index + 1} diameter", hole.Diameter)));
        AddOutline("bezel", Bezel);
        Add("knob diameter", KnobDiameter);
        Add("body width", Body?.Width);
        Add("body height", Body?.Height);
        Add("body depth", Body?.Depth);
        Add("bushing length", BushingLength);
        Add("largest panel thickness", LargestPanelThickness);
        Add("travel", Travel);
        Add("lever length", Lever?.Length);
        Add("lever tip", Lever?.Tip);
        Add("least pitch", LeastPitch);
        return figures.ToImmutable();
    }

    private static double Whole(double degrees)
    {
        var turn = degrees % 360;
        return turn < 0 ? turn + 360 : turn;
    }

    private Region<ItemSpace> MainHole()
    {
        var hole = Cutout.Shape();
        if (Key is null || Cutout is not RoundCutout round)
        {
            return hole;
        }

        // The notch starts at the middle of the hole, so that no sliver stays between it and the circle.
        var notch = Region<ItemSpace>
            .Rectangle(new(0, -Key.Width.Mm / 2, (round.Diameter.Mm / 2) + Key.Depth.Mm, Key.Width.Mm))
            .Map(Affine<ItemSpace, ItemSpace>.Turn(Key.DirectionDegrees));
        return hole.Union(notch);
    }

    private static ArcPath<ItemSpace> NotchedLine(double radiusMm, KeyNotch key)
    {
        var half = key.Width.Mm / 2;
        var foot = Math.Sqrt((radiusMm * radiusMm) - (half * half));
        var turnDegrees = 360 - (2 * Math.Asin(half / radiusMm) * 180 / Math.PI);
        return new ArcPath<ItemSpace>(
        [
            new(new(foot, half), ArcPath<ItemSpace>.BulgeOf(turnDegrees)), new(new(foot, -half), 0),
            new(new(radiusMm + key.Depth.Mm, -half), 0), new(new(radiusMm + key.Depth.Mm, half), 0),
        ]).Map(Affine<ItemSpace, ItemSpace>.Turn(key.DirectionDegrees));
    }
}
