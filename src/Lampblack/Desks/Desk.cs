using System.Collections.Immutable;
using Lampblack.Findings;
using Lampblack.Parts;
using Lampblack.Quantities;

namespace Lampblack.Desks;

/// <summary>In which order print, plate and holes come together; it decides marks, bleed and where the print is seen from.</summary>
public enum WorkOrder
{
    /// <summary>A: glue the print on the plate, snap, drill through both.</summary>
    GlueThenDrill,

    /// <summary>B: drill the plate, glue the print on, open its holes from behind.</summary>
    DrillThenGlue,

    /// <summary>C: the print lies behind the plate and is seen through it.</summary>
    PrintBehind,
}

/// <summary>What lies between a finger and the inside of the box, in mm; the paper comes from the printer, not from the desk.</summary>
/// <param name="PlateMm">The acrylic.</param>
/// <param name="GlueMm">The glue film.</param>
/// <param name="CoverMm">A clear cover in front of the print; 0 for none.</param>
/// <param name="DiffuserMm">A diffuser behind; 0 for none.</param>
public sealed record Stack(double PlateMm, double GlueMm, double CoverMm, double DiffuserMm)
{
    /// <summary>3 mm plate, 0.05 mm glue, nothing else. Common practice, no source.</summary>
    public static Stack Usual { get; } = new(3, 0.05, 0, 0);
}

/// <summary>A font file that the desk brings along.</summary>
/// <param name="Name">The name by which the desk calls it.</param>
/// <param name="File">Its path, relative to the desk file, with '/'.</param>
/// <param name="Span">Where it is named.</param>
public sealed record DeskFont(string Name, string File, SourceSpan Span);

/// <summary>The whole project: panels that share controller and light, as written.</summary>
/// <param name="Title">What the maker calls it.</param>
/// <param name="Order">The order of work.</param>
/// <param name="Stack">The layers.</param>
/// <param name="Light">The light behind the panels.</param>
/// <param name="Inks">The named inks, the desk's own included.</param>
/// <param name="Fonts">Font files that the desk brings along.</param>
/// <param name="Parts">The catalogue, the desk's own parts included.</param>
/// <param name="Panels">Its panels, in the order of the file.</param>
public sealed record Desk(
    string Title,
    WorkOrder Order,
    Stack Stack,
    EmitterColour Light,
    NamedInks Inks,
    ImmutableArray<DeskFont> Fonts,
    PartCatalogue Parts,
    ImmutableArray<Panel> Panels)
{
    /// <summary>How it is used.</summary>
    public Use Use { get; init; } = Use.Usual;

    /// <summary>How well its maker works, and what it has to bear.</summary>
    public Bench Bench { get; init; } = Bench.Usual;

    /// <summary>Room behind the panels, from the plate's back to what ends it; null where it is not known.</summary>
    public double? DepthMm { get; init; }

    /// <summary>How they are to be lit, and from what.</summary>
    public LightingWish Lighting { get; init; } = LightingWish.Unsaid;

    /// <summary>What they are wired to, and how; null where no wiring is wanted.</summary>
    public ControllerWish? Controller { get; init; }

    /// <summary>How the panels are to be cut from plates.</summary>
    public CuttingWish Cutting { get; init; } = CuttingWish.Unsaid;

    /// <summary>For whom the build book is written.</summary>
    public BookWish Book { get; init; } = BookWish.Usual;
}

/// <summary>One plate with its print.</summary>
/// <param name="Id">Its name in files and reports.</param>
/// <param name="Title">Its name for people; printed in the waste of its sheet.</param>
/// <param name="Span">Where it starts in the desk file.</param>
/// <param name="WidthMm">Width of the finished panel.</param>
/// <param name="HeightMm">Height of the finished panel.</param>
/// <param name="CornerMm">Radius of its corners.</param>
/// <param name="Field">Ink of the field; null for the printer's black build.</param>
/// <param name="Items">Everything on it: areas, rules, dials, controls, legends, each kind in the order of the file.</param>
/// <param name="Fixings">The holes that hold it, null where it has none.</param>
public sealed record Panel(
    string Id,
    string Title,
    SourceSpan Span,
    double WidthMm,
    double HeightMm,
    double CornerMm,
    Ink? Field,
    ImmutableArray<PanelItem> Items,
    Fixings? Fixings)
{
    /// <summary>Emitters where the maker wants them; empty where they are to be planned.</summary>
    public ImmutableArray<DeskEmitter> Emitters { get; init; } = [];

    /// <summary>Findings that its maker lets stand, for all that is on it.</summary>
    public ImmutableArray<Acceptance> Accepts { get; init; } = [];
}

/// <summary>The holes that hold a panel in its frame.</summary>
/// <param name="Part">The screw's part, which gives the hole.</param>
/// <param name="PlacesMm">The centres of the holes, in panel mm.</param>
/// <param name="Span">Where they are written.</param>
public sealed record Fixings(Part Part, ImmutableArray<(double XMm, double YMm)> PlacesMm, SourceSpan Span);
