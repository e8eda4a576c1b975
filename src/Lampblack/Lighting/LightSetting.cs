using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Artwork;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Illumination;
using Lampblack.Layout;
using Lampblack.Parts;

namespace Lampblack.Lighting;

/// <summary>What a panel's light depends on, gathered from desk, panel and printer.</summary>
/// <param name="Artwork">The panel.</param>
/// <param name="Wish">What the desk asks for.</param>
/// <param name="Type">The emitters.</param>
/// <param name="Figures">What one gives.</param>
/// <param name="Luminance">Of a mark's style its luminance for each lux behind the mask.</param>
internal sealed record LightSetting(PanelArtwork Artwork, LightingWish Wish, EmitterType Type, EmitterFigures Figures, Func<MarkStyle, double> Luminance)
{
    /// <summary>Where the desk does not say: a shallow box, from memory.</summary>
    private const double UsualDepthMm = 40;

    /// <summary>A screw's head and a spacer around it, behind the panel. From memory.</summary>
    private const double FixingRadiusMm = 4;

    /// <summary>Between the deepest body and emitters under it.</summary>
    private const double ClearMm = 1;

    /// <summary>Between a block of wood and a body beside it. From memory.</summary>
    private const double BlockClearMm = 0.5;

    /// <summary>What a mean luminance is aimed at: beside eyes that are used to the dark 3.4 cd/m2 at full (1 fL, the order of panels lit for the night), else 25, what white paper shows at 100 lx. Common practice, no source.</summary>
    public const double DimCandelaPerM2 = 3.4;
    public const double RoomCandelaPerM2 = 25;

    /// <summary>How deep the box is, from the panel's back to its floor.</summary>
    public required double FloorMm { get; init; }

    /// <summary>Whether that is our guess.</summary>
    public bool IsDepthAssumed { get; init; }

    /// <summary>Whether the current of emitters that the desk places is ours to choose, as it names no light for any of them.</summary>
    public bool DrivesGiven { get; init; }

    /// <summary>The emitters that were placed by hand, as they are written.</summary>
    public ImmutableArray<DeskEmitter> Placed { get; init; } = [];

    /// <summary>What the mask's back throws back.</summary>
    public required double MaskReflectance { get; init; }

    /// <summary>The plate, through which light wanders sideways; 0 where the mask is behind it.</summary>
    public required double PlateMm { get; init; }

    /// <summary>The lamps' colour.</summary>
    public required EmitterColour Colour { get; init; }

    /// <summary>Mean luminance wanted at full.</summary>
    public required double WantedCandelaPerM2 { get; init; }

    /// <summary>From the panel's back to where emitters start to shine.</summary>
    public double EmitterMm => Math.Max(2, FloorMm - Type.RaisedMm);

    /// <summary>The box's inner faces.</summary>
    public Box<PanelSpace> Inside => Inner(Artwork.Laid.Outline.Bounds);

    /// <summary>What the search is asked for.</summary>
    public PlanWish PlanWish => new(Wish.EvennessFactor, WantedCandelaPerM2, Wish.MostOneShare);

    /// <summary>A panel's setting.</summary>
    public static LightSetting Of(PanelArtwork artwork, Desk desk, EmitterType type, Func<MarkStyle, double> luminance, double maskReflectance)
    {
        var wish = desk.Lighting;
        var deepest = artwork.Laid.Parts.Select(part => part.Part.Body?.Depth.Mm ?? 0).DefaultIfEmpty(0).Max();
        return new(artwork, wish, type, type.Colours[desk.Light], luminance)
        {
            FloorMm = desk.DepthMm ?? Math.Max(UsualDepthMm, Math.Ceiling(deepest + type.RaisedMm + ClearMm)),
            IsDepthAssumed = desk.DepthMm is null,
            MaskReflectance = maskReflectance,
            Colour = desk.Light,
            PlateMm = desk.Order == WorkOrder.PrintBehind ? 0 : desk.Stack.PlateMm,
            WantedCandelaPerM2 = wish.WantedCandelaPerM2 ?? (desk.Use.Dim ? DimCandelaPerM2 : RoomCandelaPerM2),
        };
    }

    /// <summary>The same for light-tight cells, which take single emitters only.</summary>
    public LightSetting ForCells() => Type.Form == EmitterForm.Single
        ? this
        : this with { Type = EmitterTypes.InCells, Figures = EmitterTypes.InCells.Colours[Colour] };

    /// <summary>The parts' bodies, as they stand in the light's way.</summary>
    public ImmutableArray<OpaqueBody> Bodies() =>
    [
        .. Artwork.Laid.Parts.Where(part => part.Part.Body is not null)
            .Select(part => (Shape: part.Body(), part.Part.Body!.Depth.Mm))
            .Where(body => !body.Shape.IsEmpty)
            .Select(body => new OpaqueBody(Hull.Of(body.Shape.Borders()[0].Points), Math.Min(body.Mm, FloorMm))),
    ];

    /// <summary>What stands on the floor: bodies that reach it, and screws.</summary>
    public ImmutableArray<Region<PanelSpace>> Taken() =>
    [
        .. Artwork.Laid.Parts.Where(part => part.Part.Body is { } body && body.Depth.Mm > EmitterMm - ClearMm).Select(part => part.Body()),
        .. Artwork.Laid.Parts.Where(part => part.Part.Class == PartClass.Screw || part.Part == Artwork.Laid.Panel.Fixings?.Part).Select(part => Region<PanelSpace>.Disc(part.Centre, FixingRadiusMm)),
    ];

    /// <summary>The blocks for the panel's screws: they keep off bodies, cells and emitters that the maker placed, and as far as they can off what shines.</summary>
    /// <param name="cells">The cells' outer faces.</param>
    /// <param name="given">Emitters that are there already.</param>
    /// <param name="lit">What shines by the common light.</param>
    public ImmutableArray<ScrewBlock> Blocks(ImmutableArray<Box<PanelSpace>> cells, ImmutableArray<Emitter> given, ImmutableArray<LitPiece> lit)
    {
        var bodies = Artwork.Laid.Parts.Where(part => part.Part.Body is not null).Select(part => (part.Origin.Item, Shape: part.Body())).Where(body => !body.Shape.IsEmpty).ToList();
        string? Blocker(Box<PanelSpace> area)
        {
            var (near, wide) = (Region<PanelSpace>.Rectangle(area.Grow(BlockClearMm)), area.Grow(ScrewBlock.PastMm));
            return bodies.Find(body => body.Shape.Bounds.Overlaps(area, -BlockClearMm) && body.Shape.Touches(near)) is { Shape: not null } body ? $"the body of {Shown.Code(body.Item)} is there"
                : cells.Any(cell => cell.Overlaps(area, -1e-6)) ? "a cell is there"
                : given.FirstOrDefault(emitter => new Box<PanelSpace>(emitter.At.XMm, emitter.At.YMm, 0, 0).Grow(Type.HeightMm / 2).Overlaps(wide, -1e-6)) is { } emitter
                    ? string.Create(CultureInfo.InvariantCulture, $"the emitter at {emitter.At.XMm:0.##}, {emitter.At.YMm:0.##} is there")
                    : null;
        }

        return ScrewBlock.Of(Artwork.Laid, Inside, Blocker, area => lit.SelectMany(piece => piece.Places).Select(place => DistanceMm(area, place.At)).DefaultIfEmpty(double.PositiveInfinity).Min());
    }

    /// <summary>The box with all bodies; cells and the blocks for screws stand in it like bodies.</summary>
    public LightBox Box(ImmutableArray<Box<PanelSpace>> cells, ImmutableArray<ScrewBlock> blocks) => new(Inside, EmitterMm, Wish.WallReflectance, Wish.FloorReflectance, MaskReflectance)
    {
        Bodies =
        [
            .. Bodies(),
            .. cells.Select(cell => new OpaqueBody(Corners(cell), FloorMm)),
            .. blocks.Where(block => block.Blocker is null).Select(block => new OpaqueBody(Corners(block.Area), Math.Min(ScrewBlock.HighMm, FloorMm)) { IsWhite = true }),
        ],
        Diffuser = Wish.Diffuser is { } sheet ? new(Math.Min(sheet.GapMm, EmitterMm - 1), sheet.Transmittance, sheet.Reflectance) : null,
    };

    private static ImmutableArray<Point<PanelSpace>> Corners(Box<PanelSpace> box) =>
        [new(box.LeftMm, box.BottomMm), new(box.RightMm, box.BottomMm), new(box.RightMm, box.TopMm), new(box.LeftMm, box.TopMm)];

    private static double DistanceMm(Box<PanelSpace> area, Point<PanelSpace> at) =>
        at.DistanceMm(new(Math.Clamp(at.XMm, area.LeftMm, area.RightMm), Math.Clamp(at.YMm, area.BottomMm, area.TopMm)));

    private Box<PanelSpace> Inner(Box<PanelSpace> outline)
    {
        var inset = Math.Min(Wish.InsetMm, (Math.Min(outline.WidthMm, outline.HeightMm) / 2) - 2);
        return outline.Grow(-Math.Max(0, inset));
    }
}
