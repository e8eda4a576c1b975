using System;
using System.Collections.Immutable;
using Lampblack.Findings;
using Lampblack.Printers;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>Which of the outputs are wanted.</summary>
[Flags]
public enum BuildParts
{
    /// <summary>Nothing but the checks.</summary>
    None = 0,

    /// <summary>The PDF sheets.</summary>
    Print = 1,

    /// <summary>Pictures of the panels (SVG and PNG).</summary>
    Pictures = 2,

    /// <summary>What is needed at the bench: hole charts, templates, drawings for a cutter.</summary>
    Bench = 4,

    /// <summary>The build book and its bill.</summary>
    Book = 8,

    /// <summary>Everything.</summary>
    All = Print | Pictures | Bench | Book,
}

/// <summary>A desk file as the host read it.</summary>
/// <param name="Name">Its name for findings, such as <c>desk.toml</c>.</param>
/// <param name="Bytes">Its raw bytes; at most <see cref="LimitBytes"/>, the host refuses more.</param>
/// <param name="Files">The files beside it.</param>
public sealed record DeskSource(string Name, ImmutableArray<byte> Bytes, IDeskFiles Files)
{
    /// <summary>The largest desk file that is read: 2 MB.</summary>
    public const long LimitBytes = 2_000_000;

    /// <summary>Whether it was made here, so that nobody can look up a place in it.</summary>
    public bool IsMade { get; init; }
}

/// <summary>What the maker asked for.</summary>
/// <param name="Paper">Name of the paper size (<c>A4</c>, <c>Letter</c>, <c>Legal</c>, <c>A3</c>, <c>Tabloid</c>), any case.</param>
/// <param name="PaperFrom">Where that name comes from: <c>option</c>, <c>printer</c> or <c>region</c>.</param>
/// <param name="Black">Name of the black build (<c>full</c>, <c>safe</c>, <c>K</c>, <c>gray</c>, <c>rgb</c>); null for the default.</param>
/// <param name="SpreadMm">Spread of the openings in mm; null for the default.</param>
/// <param name="FillSheet">Whether spare copies of small panels fill the rest of the sheets.</param>
/// <param name="Parts">Which outputs are wanted.</param>
/// <param name="Printer">What was learned of the printer; null for a printer that nobody has measured.</param>
/// <param name="BracketStepMm">Step of a bracket for a copy shop, in mm; null for none.</param>
/// <param name="SecondPass">Sides that are printed twice.</param>
/// <param name="Film">Whether the mask is also wanted for a film.</param>
public sealed record BuildRequest(
    string Paper,
    string PaperFrom,
    string? Black = null,
    double? SpreadMm = null,
    bool FillSheet = false,
    BuildParts Parts = BuildParts.All,
    PrinterFile? Printer = null,
    double? BracketStepMm = null,
    SecondPass SecondPass = SecondPass.None,
    bool Film = false)
{
    /// <summary>
    /// <c>report.json</c> of the last build in the output folder; empty where there is none. Nothing that is written depends on it: it only serves to tell what
    /// changed, and to hold drilled controls where they are.
    /// </summary>
    public ImmutableArray<byte> LastReport { get; init; } = [];

    /// <summary>
    /// <see cref="WiringPlanFile.Path"/> of the last build in the output folder; empty where there is none. The pin plan keeps to it, so that wires that are
    /// soldered stay right.
    /// </summary>
    public ImmutableArray<byte> LastWiring { get; init; } = [];

    /// <summary>Panel id, '/', item id of a legend that is changed on a finished panel: two pages tell how; null for none.</summary>
    public string? Legend { get; init; }

    /// <summary>The share of sheets that is to come out whole, above 0 and below 1, where the printer's scatter decides on the spread; null for <see cref="UsualGoodShare"/>.</summary>
    public double? GoodShare { get; init; }

    /// <summary>The share of sheets that is to come out whole where nobody says another.</summary>
    public const double UsualGoodShare = 0.95;

    /// <summary>How far right of its place the mask is drawn in the pictures, seen from the front; nothing that is printed moves.</summary>
    public double MisregisterRightMm { get; init; }

    /// <summary>The same, upwards.</summary>
    public double MisregisterUpMm { get; init; }

    /// <summary>How many times as bright as the field the dimmest lit legend is to be; see <see cref="UsualContrastFactor"/>.</summary>
    public double ContrastFactor { get; init; } = UsualContrastFactor;

    /// <summary>The contrast wanted where nobody says: three times the 10:1 that NUREG-0700 prefers, as a lit field is looked at in the dark. The threefold is ours.</summary>
    public const double UsualContrastFactor = 30;

    /// <summary>By which word the printer was asked for: its name on the shelf, or a path. For examples of what to type; null where nobody typed one.</summary>
    public string? PrinterWord { get; init; }

    /// <summary>The step of a bracket where none is given, in mm.</summary>
    public const double UsualBracketStepMm = Bracket.UsualStepMm;
}

/// <summary>Sides that get a second pass of toner, fed other edge first.</summary>
[Flags]
public enum SecondPass
{
    /// <summary>Neither.</summary>
    None = 0,

    /// <summary>The front.</summary>
    Front = 1,

    /// <summary>The mask.</summary>
    Mask = 2,
}

/// <summary>Everything a build gives: files to write, among them <c>manifest.json</c> and <c>report.json</c>, and what was noticed.</summary>
/// <param name="Files">The files, in the order of their paths, the manifest last; empty where a finding stops the build.</param>
/// <param name="Findings">All findings, the heaviest first, then by place.</param>
/// <param name="Title">The desk's title.</param>
/// <param name="Summary">A few lines for the maker: panels, sheets, papers, pair codes.</param>
public sealed record BuildResult(
    ImmutableArray<OutputFile> Files,
    ImmutableArray<Finding> Findings,
    string Title,
    ImmutableArray<string> Summary)
{
    /// <summary>What changed since the last build; empty where there was none to compare with.</summary>
    public ImmutableArray<BuildChange> Changes { get; init; } = [];

    /// <summary>Each panel's spread by its id: how much larger its openings are than what shines, in mm.</summary>
    public ImmutableDictionary<string, double> SpreadsMm { get; init; } = ImmutableDictionary<string, double>.Empty;

    /// <summary>Where each sheet has its rows of dots, as typed back; empty where there are none.</summary>
    public ImmutableArray<string> DotPlaces { get; init; } = [];

    /// <summary>How the sheets are to be printed, for a page that leads through it; null where no print files were made.</summary>
    public PrintGuide? Guide => GuideWhenAsked?.Value;

    /// <summary>Made when it is asked for: most builds are not looked at in the workshop.</summary>
    internal Lazy<PrintGuide>? GuideWhenAsked { get; init; }

    /// <summary>The build book as a page shows it; null where none was written.</summary>
    public BookView? Book => BookWhenAsked?.Value;

    /// <summary>Made when it is asked for.</summary>
    internal Lazy<BookView>? BookWhenAsked { get; init; }

    /// <summary>The book before it was written down; null where none was.</summary>
    public MadeBook? MadeBook { get; init; }

    /// <summary>How the panels are cut from plates.</summary>
    public CutView? Cut => CutWhenAsked?.Value;

    /// <summary>Drawn when it is asked for.</summary>
    internal Lazy<CutView>? CutWhenAsked { get; init; }
}
