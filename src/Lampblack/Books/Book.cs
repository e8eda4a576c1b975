using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Quantities;

namespace Lampblack.Books;

/// <summary>How the maker's sheets are printed.</summary>
public enum PrintWay
{
    /// <summary>On a printer that nobody has told us anything of.</summary>
    Untold,

    /// <summary>One side after the other, laid back by hand.</summary>
    ByHand,

    /// <summary>On a printer that turns the sheet itself.</summary>
    TurnsItself,

    /// <summary>At a copy shop.</summary>
    CopyShop,
}

/// <summary>For whom a book is: everything that changes it beyond the desk.</summary>
/// <param name="Order">The order of work.</param>
/// <param name="Print">How the sheets are printed.</param>
/// <param name="IsBlackOnly">Whether there is black toner alone.</param>
/// <param name="IsLeftHanded">Whether the left hand leads.</param>
/// <param name="Unit">The unit of lengths.</param>
/// <param name="Cutting">How plates are cut.</param>
/// <param name="IsBrief">Whether explanations are left out.</param>
public sealed record BookMaker(WorkOrder Order, PrintWay Print, bool IsBlackOnly, bool IsLeftHanded, LengthUnit Unit, CuttingWay Cutting, bool IsBrief)
{
    /// <summary>The hand that leads.</summary>
    public string Hand => IsLeftHanded ? "left" : "right";

    /// <summary>The other one.</summary>
    public string OtherHand => IsLeftHanded ? "right" : "left";

    /// <summary>The ways that this maker goes, as steps name them.</summary>
    public ImmutableHashSet<string> Ways =>
    [
        Order switch { WorkOrder.GlueThenDrill => Way.OrderA, WorkOrder.DrillThenGlue => Way.OrderB, _ => Way.OrderC },
        Print switch { PrintWay.CopyShop => Way.CopyShop, PrintWay.TurnsItself => Way.TurnsItself, PrintWay.ByHand => Way.ByHand, _ => Way.Untold },
        Print == PrintWay.CopyShop ? Way.CopyShop : Way.OwnPrinter,
        IsBlackOnly ? Way.BlackOnly : Way.Colour,
        IsLeftHanded ? Way.LeftHand : Way.RightHand,
        Unit == LengthUnit.Inch ? Way.Inch : Way.Millimetre,
        Cutting == CuttingWay.Saw ? Way.Saw : Way.Snap,
        IsBrief ? Way.Brief : Way.Full,
    ];
}

/// <summary>The names of the ways on which makers part.</summary>
public static class Way
{
#pragma warning disable CS1591 // The names say it.
    public const string OrderA = "order-a";
    public const string OrderB = "order-b";
    public const string OrderC = "order-c";
    public const string OwnPrinter = "own-printer";
    public const string CopyShop = "copy-shop";
    public const string Untold = "printer-untold";
    public const string ByHand = "by-hand";
    public const string TurnsItself = "turns-itself";
    public const string BlackOnly = "black-only";
    public const string Colour = "colour";
    public const string LeftHand = "left-hand";
    public const string RightHand = "right-hand";
    public const string Millimetre = "mm";
    public const string Inch = "inch";
    public const string Saw = "saw";
    public const string Snap = "snap";
    public const string Brief = "brief";
    public const string Full = "full";
#pragma warning restore CS1591
}

/// <summary>What a step leaves on the bench, and later steps need.</summary>
public enum Made
{
#pragma warning disable CS1591 // The names say it.
    Goods,
    PartsChecked,
    WayKnown,
    LayoutTried,
    Sheet,
    SheetPassed,
    TonerHolds,
    PrintReady,
    Glued,
    Plate,
    PaperOpen,
    Holes,
    HolesMeasured,
    EdgesBlack,
    FaceCoated,
    ControlsFitted,
    Box,
    LampsPlaced,
    LampsFed,
    LampsIn,
    Cells,
    WiresSoldered,
    BoardWired,
    WiresTested,
    Flashed,
    ChipsIn,
    RollCalled,
    Housed,
    Lit,
    Closed,
#pragma warning restore CS1591
}

/// <summary>A whole book.</summary>
/// <param name="Title">What the desk is called.</param>
/// <param name="Code">Made from its contents: two prints with the same code are the same book.</param>
/// <param name="Maker">For whom it is.</param>
/// <param name="Chapters">Its chapters: what it will be, the cautions, then the work in its order.</param>
public sealed record Book(string Title, string Code, BookMaker Maker, ImmutableArray<BookChapter> Chapters)
{
    /// <summary>All steps, in working order.</summary>
    public IEnumerable<BookStep> Steps => Chapters.SelectMany(chapter => chapter.Steps);
}

/// <summary>A chapter.</summary>
/// <param name="Id">Its name within the page.</param>
/// <param name="Title">Its title.</param>
/// <param name="Number">From 1; null for one that is only read.</param>
/// <param name="Blocks">What stands before its steps.</param>
/// <param name="Steps">Its steps, in working order.</param>
public sealed record BookChapter(string Id, string Title, int? Number, ImmutableArray<BookBlock> Blocks, ImmutableArray<BookStep> Steps)
{
    /// <summary>A chapter of work; its number follows from its place in the book.</summary>
    /// <param name="id">Its name within the page.</param>
    /// <param name="title">Its title.</param>
    /// <param name="steps">Its steps.</param>
    public BookChapter(string id, string title, ImmutableArray<BookStep> steps)
        : this(id, title, null, [], steps)
    {
    }

    /// <summary>Its title with its number, where it has one.</summary>
    public string Heading => Number is { } number ? string.Create(CultureInfo.InvariantCulture, $"{number}. {Title}") : Title;

    /// <summary>How long its steps take, in minutes: the sum of what stands at each.</summary>
    public double Minutes => Steps.Sum(step => BuildBook.Rounded(step.Minutes));

    /// <summary>How long glue and paint dry in it, in minutes.</summary>
    public double WaitMinutes => Steps.Sum(step => BuildBook.Rounded(step.WaitMinutes));
}

/// <summary>A step: what one does without getting up.</summary>
/// <param name="Id">Its name within the page.</param>
/// <param name="Title">What is done, as an order.</param>
/// <param name="Minutes">How long it takes.</param>
/// <param name="Blocks">What to do, with pictures and lists.</param>
/// <param name="Gate">When to go on.</param>
public sealed record BookStep(string Id, string Title, double Minutes, ImmutableArray<BookBlock> Blocks, BookGate Gate)
{
    /// <summary>How long glue or paint dries afterwards, in minutes.</summary>
    public double WaitMinutes { get; init; }

    /// <summary>Tools that its words name.</summary>
    public ImmutableArray<BookTool> Tools { get; init; } = [];

    /// <summary>Tools to lay out: those of its words, and what its cautions ask one to wear.</summary>
    public ImmutableArray<BookTool> AllTools => BookTool.Gathered(Tools.Concat(Cautions.SelectMany(caution => caution.Gear)));

    /// <summary>Materials to lay out, as markup.</summary>
    public ImmutableArray<string> Materials { get; init; } = [];

    /// <summary>What can hurt in this step.</summary>
    public ImmutableArray<Caution> Cautions { get; init; } = [];

    /// <summary>What must be there before.</summary>
    public ImmutableArray<Made> Needs { get; init; } = [];

    /// <summary>What is there afterwards.</summary>
    public ImmutableArray<Made> Makes { get; init; } = [];

    /// <summary>Steps before it whose picture it shows again, on purpose.</summary>
    public ImmutableArray<SamePicture> ShowsAgain { get; init; } = [];

    /// <summary>The ways (<see cref="Way"/>) on which alone it stands; empty for all.</summary>
    public ImmutableArray<string> OnlyOn { get; init; } = [];
}

/// <summary>A picture that two steps share on purpose.</summary>
/// <param name="Step">The step that showed it first.</param>
/// <param name="Because">Why the same thing is looked at twice.</param>
public sealed record SamePicture(string Step, string Because);

/// <summary>A test that says stop or go.</summary>
/// <param name="GoOnIf">What must be seen or measured, as markup.</param>
/// <param name="Otherwise">What to do where it is not, as markup.</param>
public sealed record BookGate(string GoOnIf, string Otherwise);

/// <summary>Something in a step.</summary>
public abstract record BookBlock
{
    /// <summary>Whether it explains what an experienced maker knows; left out of a brief book.</summary>
    public bool IsExplanation { get; init; }
}

/// <summary>A paragraph.</summary>
/// <param name="Markup">Its text, as markup.</param>
public sealed record Paragraph(string Markup) : BookBlock;

/// <summary>What to do, one after the other.</summary>
/// <param name="Markups">Each, as markup.</param>
public sealed record Doings(ImmutableArray<string> Markups) : BookBlock;

/// <summary>Pictures beside each other, as many as there is room for.</summary>
/// <param name="All">The pictures.</param>
public sealed record PictureRow(ImmutableArray<BookPicture> All) : BookBlock;

/// <summary>Cautions, each with its words.</summary>
/// <param name="All">The cautions.</param>
public sealed record CautionList(ImmutableArray<Caution> All) : BookBlock;

/// <summary>A picture.</summary>
/// <param name="Content">An image or a drawing, as markup with its alternative text.</param>
/// <param name="Caption">What it shows and where to look, as markup.</param>
/// <param name="WidthMm">How wide it is where there is room.</param>
public sealed record BookPicture(string Content, string Caption, double WidthMm)
{
    /// <summary>Whether it may take most of a page: its letters are too small for less.</summary>
    public bool IsTall { get; init; }
}

/// <summary>All tools of a book, each with its sizes and the steps that take it in hand.</summary>
/// <param name="Caption">What it lists, as markup.</param>
/// <param name="All">The tools.</param>
public sealed record ToolList(string Caption, ImmutableArray<ToolUse> All) : BookBlock;

/// <summary>A tool in the list of all.</summary>
/// <param name="Tool">The tool.</param>
/// <param name="Steps">The numbers of the steps, such as "6.2".</param>
public sealed record ToolUse(BookTool Tool, ImmutableArray<string> Steps);

/// <summary>A table.</summary>
/// <param name="Caption">What it lists, as markup.</param>
/// <param name="Heads">Its columns.</param>
/// <param name="Rows">Its rows.</param>
/// <param name="IsTicked">Whether each row is ticked off.</param>
public sealed record BookTable(string Caption, ImmutableArray<string> Heads, ImmutableArray<BookRow> Rows, bool IsTicked) : BookBlock;

/// <summary>A row.</summary>
/// <param name="Kind">What kind of thing it is about: "hole", "wire"; empty for none.</param>
/// <param name="Key">Which one: every thing of a desk stands in one row of its book.</param>
/// <param name="Cells">Its cells, as markup.</param>
public sealed record BookRow(string Kind, string Key, ImmutableArray<string> Cells);
