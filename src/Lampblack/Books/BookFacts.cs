using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Circuits;
using Lampblack.Fabrication;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Parts;
using Lampblack.Quantities;
using Lampblack.Wiring;

namespace Lampblack.Books;

/// <summary>Everything that a book is written from: what all other folders found out about a desk.</summary>
public sealed record BookFacts
{
    private readonly LampBoards _boards = new();

    /// <summary>For whom.</summary>
    public required BookMaker Maker { get; init; }

    /// <summary>The desk in its places.</summary>
    public required LaidDesk Laid { get; init; }

    /// <summary>The hole chart of every panel.</summary>
    public required ImmutableArray<HoleChart> Charts { get; init; }

    /// <summary>The sheets, and what the printer asks for.</summary>
    public required BookPrint Print { get; init; }

    /// <summary>The plates to cut.</summary>
    public required ImmutableArray<BookPlate> Plates { get; init; }

    /// <summary>How much larger panels are cut on every side.</summary>
    public double TrimMm { get; init; }

    /// <summary>All emitters; empty where no light is planned.</summary>
    public ImmutableArray<BookLamp> Lamps { get; init; } = [];

    /// <summary>Boxes for light of one's own.</summary>
    public ImmutableArray<BookCell> Cells { get; init; } = [];

    /// <summary>What the lamps are; null where no light is planned.</summary>
    public EmitterType? LampType { get; init; }

    /// <summary>What the lamps are, in plain words; empty where no light is planned.</summary>
    public string LampKind => LampType?.Name ?? string.Empty;

    /// <summary>How far the floor with the emitters lies behind the plate.</summary>
    public double BoxDepthMm { get; init; }

    /// <summary>The insides of the boxes, panel by panel.</summary>
    public ImmutableArray<BookBox> Boxes { get; init; } = [];

    /// <summary>How many times as bright the brightest legend will be as the dimmest; 0 where no light is planned.</summary>
    public double EvennessFactor { get; init; }

    /// <summary>Words of which letters are dim because a body stands in their light, panel by panel, the dimmest first.</summary>
    public ImmutableArray<BookShadow> Shadows { get; init; } = [];

    /// <summary>The circuit; null where nothing is fed.</summary>
    public CircuitPlan? Circuit { get; init; }

    /// <summary>The wiring; null where the desk has no controller.</summary>
    public BookWiring? Wiring { get; init; }

    /// <summary>The lamp boards.</summary>
    internal ImmutableArray<LampBoard> LampBoards => _boards.Of(this).Boards;

    /// <summary>The wires of the lamps' circuit.</summary>
    internal LampWires LampWires => _boards.Of(this).Wires!;

    /// <summary>The pictures of panels and plans, by name: "dome/day", "dome/lit", "dome/looms", and "circuit/1", "circuit/2" for a circuit with pixels in drawings that fit a page.</summary>
    public ImmutableDictionary<string, BookPicture> Pictures { get; init; } = ImmutableDictionary<string, BookPicture>.Empty;

    /// <summary>What the last line of every sheet's cost says; empty where it is not known.</summary>
    public string TonerSentence { get; init; } = string.Empty;

    /// <summary>The share of a black cartridge that one set of sheets takes.</summary>
    public double BlackCartridgeShare { get; init; }

    /// <summary>The share of one colour cartridge that one set takes.</summary>
    public double ColourCartridgeShare { get; init; }

    /// <summary>What the printer file says that toner of one set costs; null where it says nothing.</summary>
    public double? TonerPrice { get; init; }

    /// <summary>What it says that a sheet costs; null where it says nothing.</summary>
    public double? SheetPrice { get; init; }

    /// <summary>In which currency; null where it does not say.</summary>
    public string? PrinterCurrency { get; init; }

    /// <summary>A length for a ruler, in the maker's unit.</summary>
    /// <param name="mm">The length.</param>
    public string Ruler(double mm) => LengthWords.ForRuler(mm, Maker.Unit);

    /// <summary>A length for a caliper, in the maker's unit.</summary>
    /// <param name="mm">The length.</param>
    public string Exact(double mm) => LengthWords.Exact(mm, Maker.Unit);

    /// <summary>A length without its unit.</summary>
    /// <param name="mm">The length.</param>
    public string Number(double mm) => LengthWords.Number(mm, Maker.Unit);

    /// <summary>Width by height, for a ruler.</summary>
    /// <param name="widthMm">The width.</param>
    /// <param name="heightMm">The height.</param>
    public string Size(double widthMm, double heightMm)
    {
        var unit = $" {LengthWords.Name(Maker.Unit)}";
        return $"{Ruler(widthMm)[..^unit.Length]} x {Ruler(heightMm)}";
    }

    /// <summary>A picture, where it was made.</summary>
    /// <param name="names">Its names.</param>
    public PictureRow? Picture(params string[] names)
    {
        ArgumentNullException.ThrowIfNull(names);
        ImmutableArray<BookPicture> found = [.. names.Where(Pictures.ContainsKey).Select(name => Pictures[name])];
        return found.IsEmpty ? null : new(found);
    }
}

/// <summary>What the printer's part of a job says, as markup that is safe in a page.</summary>
/// <param name="Printer">For which printer, and what is known of it.</param>
/// <param name="Paper">The paper's name.</param>
/// <param name="Weight">Its weight, both ways of telling it.</param>
/// <param name="Sheets">The sheets.</param>
/// <param name="MostDots">How many dots of a row may shine.</param>
/// <param name="IsWayKnown">Whether a which-way sheet was read.</param>
/// <param name="LearnExample">What is typed of what was seen.</param>
/// <param name="Right">How the tick looks that is right.</param>
/// <param name="Wrong">How it looks wrong.</param>
/// <param name="Hinges">Where each print is hinged on its plate, panel by panel.</param>
public sealed record BookPrint(
    string Printer,
    string Paper,
    string Weight,
    ImmutableArray<BookSheet> Sheets,
    int MostDots,
    bool IsWayKnown,
    string LearnExample,
    BookPicture Right,
    ImmutableArray<BookPicture> Wrong,
    ImmutableArray<BookHinge> Hinges)
{
    /// <summary>What is printed on the strip that stays on for the hinge: the book calls it so, too.</summary>
    public required string HingeWord { get; init; }

    /// <summary>The place that is printed with the first sheet's rows of dots; null where it has none.</summary>
    public string? RowsPlace { get; init; }

    /// <summary>What the numbers in <see cref="LearnExample"/> are; empty where it has none.</summary>
    public string RowsPlaceTold => RowsPlace is null ? string.Empty : $" ({RowsPlace} is the place that is printed with the rows, N to W are the dots that shine)";
}

/// <summary>On which side a print is hinged on its plate, so that there is plate to tape it to.</summary>
/// <param name="Id">The panel's id; titles may be alike.</param>
/// <param name="Panel">The panel's title.</param>
/// <param name="Plate">The plate's number.</param>
/// <param name="Side">Which side of the panel's place in the plate's drawing: "left", "right", "upper", "lower".</param>
/// <param name="RoomMm">How far the plate goes on there, up to its edge or the next panel.</param>
/// <param name="IsPrinted">Whether the strip that is printed for it comes to lie there.</param>
/// <param name="HasStrip">Whether the sheet has such a strip at all.</param>
public sealed record BookHinge(string Id, string Panel, int Plate, string Side, double RoomMm, bool IsPrinted, bool HasStrip);

/// <summary>A sheet to print.</summary>
/// <param name="Id">Its name.</param>
/// <param name="PairCode">Printed on both sides.</param>
/// <param name="Panels">The ids of the panels on it, copies counted once.</param>
/// <param name="Front">Its front.</param>
/// <param name="Mask">Its mask as it comes out.</param>
/// <param name="Steps">What to do at the printer, as markup.</param>
public sealed record BookSheet(string Id, string PairCode, ImmutableArray<string> Panels, BookPicture Front, BookPicture Mask, ImmutableArray<string> Steps);

/// <summary>A plate to cut.</summary>
/// <param name="Number">From 1.</param>
/// <param name="Title">Its name and size.</param>
/// <param name="StockId">What it is called where plates are listed.</param>
/// <param name="WidthMm">Its width.</param>
/// <param name="HeightMm">Its height.</param>
/// <param name="Price">What it costs; 0 where that is not told.</param>
/// <param name="Cuts">Its cuts, each with its number and its sentence.</param>
/// <param name="Picture">The plate with its cuts.</param>
/// <param name="Hinged">The plate with the strips by which the prints are hinged on it.</param>
public sealed record BookPlate(int Number, string Title, string StockId, double WidthMm, double HeightMm, double Price, ImmutableArray<(int Number, string Sentence)> Cuts, BookPicture Picture, BookPicture Hinged);

/// <summary>An emitter.</summary>
/// <param name="Panel">The panel's id.</param>
/// <param name="Number">Its number there.</param>
/// <param name="XMm">Its middle, from the panel's lower left corner, seen from the front.</param>
/// <param name="YMm">The same, upwards.</param>
/// <param name="Channel">What it is fed with.</param>
public sealed record BookLamp(string Panel, int Number, double XMm, double YMm, string Channel);

/// <summary>A light-tight box round one legend's own emitter.</summary>
/// <param name="Panel">The panel's id.</param>
/// <param name="Words">What the legend says.</param>
/// <param name="Inside">The inner faces of its walls, seen from the front.</param>
/// <param name="Emitters">How many emitters stand in it.</param>
public sealed record BookCell(string Panel, string Words, Box<PanelSpace> Inside, int Emitters)
{
    /// <summary>Its inner width.</summary>
    public double WidthMm => Inside.WidthMm;

    /// <summary>Its inner height.</summary>
    public double HeightMm => Inside.HeightMm;
}

/// <summary>A legend that a body stands in the light of.</summary>
/// <param name="Panel">The panel's title.</param>
/// <param name="Words">What it says.</param>
/// <param name="Item">The item that it belongs to.</param>
/// <param name="LeastShare">How much light its darkest letter gets, as a share of the mean of its panel.</param>
/// <param name="IsDark">Whether it stays dark as a whole, as the plan knows.</param>
public sealed record BookShadow(string Panel, string Words, string Item, double LeastShare, bool IsDark);

/// <summary>The inside of the box behind a panel.</summary>
/// <param name="Id">The panel's id.</param>
/// <param name="Panel">The panel's title.</param>
/// <param name="Inside">Its inner faces, seen from the front.</param>
public sealed record BookBox(string Id, string Panel, Box<PanelSpace> Inside)
{
    /// <summary>Its width inside.</summary>
    public double WidthMm => Inside.WidthMm;

    /// <summary>Its height inside.</summary>
    public double HeightMm => Inside.HeightMm;

    /// <summary>The blocks of wood that its panel's screws go into.</summary>
    public ImmutableArray<ScrewBlock> Blocks { get; init; } = [];
}

/// <summary>The wiring of the desk.</summary>
/// <param name="Needs">What is wired.</param>
/// <param name="Pins">Which pin does what.</param>
/// <param name="Wires">The wires.</param>
public sealed record BookWiring(ImmutableArray<WiredNeed> Needs, PinPlan Pins, DeskWires Wires)
{
    /// <summary>Whether anything answers to the roll, and the controller so has firmware: displays and pixels alone do not.</summary>
    public bool IsCalled => !Pins.Controls.IsEmpty || Pins.Controllers.Any(plan => !plan.Dimmers.IsEmpty);

    /// <summary>Whether a panel has wires of its own.</summary>
    internal bool HasPlugs => Wires.Panels.Any(panel => panel.Plug is not null);
}
