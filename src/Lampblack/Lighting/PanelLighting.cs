using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Illumination;
using Lampblack.Layout;
using Lampblack.Parts;

namespace Lampblack.Lighting;

/// <summary>How a panel is lit.</summary>
/// <param name="Laid">The panel.</param>
/// <param name="Type">The emitters' kind.</param>
/// <param name="Emitter">What one gives at full.</param>
/// <param name="Light">The box made ready.</param>
/// <param name="Units">The emitters of the common light, at the flux that they are driven with; strips in the pieces they are cut to.</param>
/// <param name="Legends">What shines by the common light.</param>
/// <param name="Cells">What has a light of its own.</param>
internal sealed record PanelLighting(
    LaidPanel Laid,
    EmitterType Type,
    EmitterFigures Emitter,
    BoxLight Light,
    ImmutableArray<EmitterUnit> Units,
    ImmutableArray<LitLegend> Legends,
    ImmutableArray<LitCell> Cells)
{
    /// <summary>All emitters of the common light.</summary>
    public ImmutableArray<Emitter> Emitters => [.. Units.SelectMany(unit => unit.Emitters)];

    /// <summary>What shines by the common light and yet gets none, wherever emitters stand: it lies right before a body.</summary>
    public ImmutableArray<LitLegend> Dark { get; init; } = [];

    /// <summary>All that is to shine by the common light, wherever it lies.</summary>
    public ImmutableArray<LitPiece> Common { get; init; } = [];

    /// <summary>The blocks of wood that the panel's screws go into.</summary>
    public ImmutableArray<ScrewBlock> Blocks { get; init; } = [];

    /// <summary>Which share of their current single emitters get; 1 for strips and pixels.</summary>
    public double DriveShare { get; init; } = 1;

    /// <summary>What was asked for.</summary>
    public required PlanWish Wish { get; init; }

    /// <summary>Whether we chose the places; else the maker did.</summary>
    public bool IsPlanned { get; init; }

    /// <summary>With fewer units than this no choice of the places on offer would do; 0 where that was not looked at.</summary>
    public int LeastUnits { get; init; }

    /// <summary>How many units an even grid takes that does as well; null where none does, or it was not looked for.</summary>
    public int? GridUnits { get; init; }

    /// <summary>Up to how many units even grids were tried; 0 where none was.</summary>
    public int GridsTriedTo { get; init; }

    /// <summary>Whether the depth is one that we took, as the desk says none.</summary>
    public bool IsDepthAssumed { get; init; }

    /// <summary>Whether the search was ended before its time.</summary>
    public bool IsStopped { get; init; }

    /// <summary>Whether any legend shines by the common light.</summary>
    public bool HasGeneral => !Legends.IsEmpty;

    /// <summary>The brightest legend.</summary>
    public LitLegend Brightest => Legends.MaxBy(legend => legend.CandelaPerM2)!;

    /// <summary>The dimmest legend.</summary>
    public LitLegend Dimmest => Legends.MinBy(legend => legend.CandelaPerM2)!;

    /// <summary>Brightest by dimmest; infinity where one is dark, 1 where nothing shines.</summary>
    public double EvennessFactor => !HasGeneral ? 1 : Dimmest.CandelaPerM2 > 0 ? Brightest.CandelaPerM2 / Dimmest.CandelaPerM2 : double.PositiveInfinity;

    /// <summary>Mean of all legends.</summary>
    public double MeanCandelaPerM2 => HasGeneral ? Legends.Average(legend => legend.CandelaPerM2) : 0;

    /// <summary>The largest share that a legend owes to one emitter.</summary>
    public double OneShare => HasGeneral ? Legends.Max(legend => legend.OneShare) : 0;

    /// <summary>Whether all that was asked for is there, and nothing that should shine stays dark.</summary>
    public bool IsMet => IsMetWhereOpen && Dark.IsEmpty;

    /// <summary>Whether all that was asked for is there, of what doesn't lie right before a body.</summary>
    public bool IsMetWhereOpen => !HasGeneral
        || (EvennessFactor <= Wish.MostEvennessFactor && new PlanFigures(EvennessFactor, MeanCandelaPerM2 * (1 + 1e-9), Wish.MostOneShare is null ? 0 : OneShare).Meets(Wish));
}

/// <summary>A light-tight cell with emitters of its own.</summary>
/// <param name="Item">The item that it lights.</param>
/// <param name="Words">What it says.</param>
/// <param name="Output">The output that switches it; 0 where none is named.</param>
/// <param name="Inside">The inner faces of its walls.</param>
/// <param name="Emitters">Its emitters, at the flux they are driven with.</param>
/// <param name="Legends">What it lights.</param>
/// <param name="DriveShare">Which share of their current single emitters get.</param>
/// <param name="LeakShare">What of the neighbours' light comes in while it is dark, as a share of theirs.</param>
internal sealed record LitCell(
    Origin Item, string Words, int Output, Box<PanelSpace> Inside, ImmutableArray<Emitter> Emitters, ImmutableArray<LitLegend> Legends, double DriveShare, double LeakShare)
{
    /// <summary>Mean of all it lights.</summary>
    public double MeanCandelaPerM2 => Legends.Average(legend => legend.CandelaPerM2);

    /// <summary>Brightest by dimmest.</summary>
    public double EvennessFactor => Legends.Max(legend => legend.CandelaPerM2) / Legends.Min(legend => legend.CandelaPerM2);
}
