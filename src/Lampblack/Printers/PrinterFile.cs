using System;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Printers;

/// <summary>What a maker has told and learned about one path through one printer. Another slot, paper, turning or setting is another file.</summary>
/// <param name="Name">The printer's name as the maker calls it.</param>
/// <param name="Path">The path that everything below belongs to.</param>
/// <param name="Turns">Answers of which-way sheets, the oldest first; the last one counts.</param>
/// <param name="Register">Where side 2 was seen to land, the oldest first; see <see cref="RegisterEntry"/>.</param>
/// <param name="Bars">Measured lengths of the 100 mm bars, the oldest first.</param>
/// <param name="Coverage">What rubbing, folding and taping told, the oldest first.</param>
public sealed record PrinterFile(
    string Name,
    PrinterPath Path,
    ImmutableArray<TurnEntry> Turns,
    ImmutableArray<RegisterEntry> Register,
    ImmutableArray<BarEntry> Bars,
    ImmutableArray<CoverageEntry> Coverage)
{
    /// <summary>A file of which nothing has been learned yet.</summary>
    public static PrinterFile New(string name, PrinterPath path) => new(name, path, [], [], [], []);

    /// <summary>The format's version that is written.</summary>
    public const int Version = 1;

    /// <summary>What printing costs, written by hand.</summary>
    public PrintCost Cost { get; init; } = PrintCost.Unknown;

    /// <summary>How dark the black wedge's patches were on calibration sheets, the oldest first.</summary>
    public ImmutableArray<WedgeEntry> Wedges { get; init; } = [];

    /// <summary>How much toner grew at the edges of black on calibration sheets, the oldest first.</summary>
    public ImmutableArray<GainEntry> Gains { get; init; } = [];

    /// <summary>Where the colours lay on calibration sheets, the oldest first.</summary>
    public ImmutableArray<PlanesEntry> Planes { get; init; } = [];

    /// <summary>
    /// The last number whose sheets nobody can tell any more what was undone on, because something of it was forgotten; 0 where nothing ever was. Numbers are
    /// never given anew, so that no old sheet is taken for a new one.
    /// </summary>
    public int Forgotten { get; init; }

    /// <summary>
    /// The number that is printed on sheets made with all that the file holds, as in <c>register 3</c>: one more for each lesson that moves something on a sheet,
    /// be it of the register or of the width; 0 before the first.
    /// </summary>
    public int Revision => Revisions[^1];

    /// <summary>All numbers that sheets can say which can be learned from, the lowest first: what was undone on them is still known.</summary>
    public ImmutableArray<int> Revisions =>
    [
        .. RegisterNumbers.Concat(Bars.Select(bar => bar.Number)).Append(Forgotten == 0 ? 0 : Forgotten + 1).Append(0)
            .Where(number => number == 0 || number > Forgotten).Distinct().Order(),
    ];

    /// <summary>The numbers of the register entries. One that has none of its own follows the one before.</summary>
    public ImmutableArray<int> RegisterNumbers
    {
        get
        {
            var numbers = ImmutableArray.CreateBuilder<int>(Register.Length);
            foreach (var entry in Register)
            {
                var next = numbers.Count == 0 ? 1 : numbers[^1] + 1;
                numbers.Add(entry.Number > 0 ? entry.Number : next);
            }

            return numbers.MoveToImmutable();
        }
    }

    /// <summary>Whether sheets that say this number can be learned from: what was undone on them is still known.</summary>
    /// <param name="revision">The number.</param>
    public bool Knows(int revision) => revision == 0 || (revision > Forgotten && revision <= Revision);

    /// <summary>
    /// Whether the back page needs a half-turn, as the last which-way sheet with a tick in A or B told. Where none was read: for a printer that takes the
    /// long edge first and is turned by hand, same edge first.
    /// </summary>
    public bool HalfTurnOfBack => Turns.LastOrDefault(turn => turn.Tick != Tick.Front) is { } told
        ? told.Tick == Tick.B
        : Path is { Edge: FirstEdge.Long, Turning: Turning.ByHand };

    /// <summary>Which face is printed, as the last answer told that said so.</summary>
    public PrintedFace Face => Turns.LastOrDefault(turn => turn.Face != PrintedFace.Unknown)?.Face ?? PrintedFace.Unknown;
}

/// <summary>The edge of the sheet that goes into the printer first.</summary>
public enum FirstEdge
{
    /// <summary>Nobody said.</summary>
    Unknown,

    /// <summary>The short edge, the usual way.</summary>
    Short,

    /// <summary>The long edge.</summary>
    Long,
}

/// <summary>Who turns the sheet between the sides.</summary>
public enum Turning
{
    /// <summary>The maker, by hand.</summary>
    ByHand,

    /// <summary>The printer.</summary>
    Automatic,
}

/// <summary>Which side is printed first.</summary>
public enum SideOrder
{
    /// <summary>The front, then the mask.</summary>
    FrontFirst,

    /// <summary>The mask, then the front.</summary>
    MaskFirst,
}

/// <summary>One way through the printer.</summary>
/// <param name="Colour">Whether it prints colours; false for a printer with black only.</param>
/// <param name="Slot">The slot or tray as the maker calls it; null where nobody said.</param>
/// <param name="Paper">Name of the paper size.</param>
/// <param name="WeightGramsPerM2">The paper's weight, in g/m2; null where nobody said.</param>
/// <param name="Edge">Which edge goes in first.</param>
/// <param name="Turning">Who turns the sheet.</param>
/// <param name="Order">Which side is printed first.</param>
/// <param name="HeavySetting">The driver's setting for heavy paper as the maker calls it; null where nobody said.</param>
/// <param name="MarginMm">Unprintable border.</param>
/// <param name="LeadingEdgeMm">Strip at the leading edge that stays free of heavy toner.</param>
public sealed record PrinterPath(
    bool Colour,
    string? Slot,
    string Paper,
    double? WeightGramsPerM2,
    FirstEdge Edge,
    Turning Turning,
    SideOrder Order,
    string? HeavySetting,
    double MarginMm,
    double LeadingEdgeMm);

/// <summary>Where the tick of a which-way sheet was seen. Which-way sheets are always made without a half-turn, so an answer stands for itself.</summary>
public enum Tick
{
    /// <summary>In box A, through the paper: same edge first is right.</summary>
    A,

    /// <summary>In box B, through the paper: the back page needs a half-turn.</summary>
    B,

    /// <summary>On the side of the arrow: the wrong face was printed.</summary>
    Front,
}

/// <summary>The face that is printed of a sheet as it lies in the slot.</summary>
public enum PrintedFace
{
    /// <summary>Nobody said.</summary>
    Unknown,

    /// <summary>The face that lies up.</summary>
    Upper,

    /// <summary>The face that lies down.</summary>
    Lower,
}

/// <summary>One thing that was learned.</summary>
public abstract record PrinterEntry
{
    /// <summary>The day on which it was learned, as the maker's program told it; null where it told none.</summary>
    public DateOnly? Date { get; init; }
}

/// <summary>An answer of a which-way sheet.</summary>
/// <param name="Tick">Where the tick was.</param>
/// <param name="Face">Which face is printed, from the pencil cross on the upper one.</param>
public sealed record TurnEntry(Tick Tick, PrintedFace Face) : PrinterEntry;

/// <summary>What one look at one sheet (or one bracket) told of the place of side 2, with everything undone that the sheet had been made with.</summary>
/// <param name="From">How it was read: <c>readings</c>, <c>dots</c>, <c>both</c>, <c>bracket</c>, <c>verniers</c> or <c>photos</c>.</param>
/// <param name="Readings">The single readings; at least one.</param>
/// <param name="Number">What sheets say behind <c>register</c> on which this and all before it is undone; 0 for one more than the entry before.</param>
public sealed record RegisterEntry(string From, ImmutableArray<RegisterReading> Readings, int Number = 0) : PrinterEntry
{
    /// <summary>The number that the calibration sheet carries among its copies; null where it was not read, or the entry is of another kind of sheet.</summary>
    public int? Copy { get; init; }

    /// <summary>How far what was read lies off the best shift, turn, stretch and shear, root mean square over the marks; null where it was not told.</summary>
    public double? RmsMm { get; init; }

    /// <summary>Entries with the same number above 0, in any of the lists, are of one sheet of paper; 0 for a sheet of its own.</summary>
    public int Sheet { get; init; }
}

/// <summary>How far side 2 lies off at one place of the sheet, in front view; right and up count positive.</summary>
/// <param name="XMm">Where side 2 would have been with nothing off, from the sheet's middle.</param>
/// <param name="YMm">The same, upwards.</param>
/// <param name="RightMm">How far it lies to the right of that; null where only the other was read.</param>
/// <param name="UpMm">How far it lies above that; null where only the other was read.</param>
/// <param name="SdMm">Standard deviation of either, in mm; above 0.</param>
public sealed record RegisterReading(double XMm, double YMm, double? RightMm, double? UpMm, double SdMm);

/// <summary>How long the bars of 100 mm across the sheet are, measured with a ruler, with everything undone that the sheet had been made with.</summary>
/// <param name="FrontMm">The front's; null where it was not measured.</param>
/// <param name="BackMm">The back's; null where it was not measured.</param>
/// <param name="Number">What sheets say behind <c>register</c> on which this is undone.</param>
public sealed record BarEntry(double? FrontMm, double? BackMm, int Number = 1) : PrinterEntry
{
    /// <summary>How long a calibration sheet's upright bar of 250 mm is; null where it was not measured. Nothing is undone on such a sheet.</summary>
    public double? AlongMm { get; init; }

    /// <summary>The same of its level bar of 180 mm.</summary>
    public double? AcrossMm { get; init; }
}

/// <summary>How dark the patches of one calibration sheet were.</summary>
/// <param name="Patches">Those that were measured, and those of which a lower bound is known; at least one.</param>
public sealed record WedgeEntry(ImmutableArray<PatchDensity> Patches) : PrinterEntry
{
    /// <inheritdoc cref="RegisterEntry.Sheet"/>
    public int Sheet { get; init; }
}

/// <summary>How much toner grew on one calibration sheet: how much further each edge of black lies than it was meant. Negative where it fell short.</summary>
/// <param name="AcrossMm">At edges that run up the sheet.</param>
/// <param name="AlongMm">At edges that run across the sheet.</param>
/// <param name="SdMm">Standard deviation of either; above 0.</param>
public sealed record GainEntry(double AcrossMm, double AlongMm, double SdMm) : PrinterEntry
{
    /// <inheritdoc cref="RegisterEntry.Sheet"/>
    public int Sheet { get; init; }
}

/// <summary>Where the colours lay on one calibration sheet.</summary>
/// <param name="Readings">The single readings; at least one.</param>
public sealed record PlanesEntry(ImmutableArray<PlaneReading> Readings) : PrinterEntry
{
    /// <inheritdoc cref="RegisterEntry.Sheet"/>
    public int Sheet { get; init; }
}

/// <summary>How far a colour lies off its black at one place of the sheet, in front view.</summary>
/// <param name="Letter">The colour: C, M or Y.</param>
/// <param name="XMm">The place, from the sheet's middle to the right.</param>
/// <param name="YMm">The same, upwards.</param>
/// <param name="RightMm">How far the colour lies to the right of where it belongs.</param>
/// <param name="UpMm">How far it lies above it.</param>
/// <param name="SdMm">Standard deviation of either; above 0.</param>
public sealed record PlaneReading(char Letter, double XMm, double YMm, double RightMm, double UpMm, double SdMm);

/// <summary>What a coverage row told: total coverages (2.4 is 240 %) that flaked when rubbed, folded or taped, and those that held.</summary>
/// <param name="Flaked">Those that flaked.</param>
/// <param name="Held">Those that held.</param>
public sealed record CoverageEntry(ImmutableArray<double> Flaked, ImmutableArray<double> Held) : PrinterEntry;
