using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Illumination;

/// <summary>Something one can put into the box: a single emitter, or the shortest piece of a strip that can be cut off.</summary>
/// <param name="Emitters">Its emitters.</param>
/// <param name="Footprint">The floor it takes.</param>
public sealed record EmitterUnit(ImmutableArray<Emitter> Emitters, Box<PanelSpace> Footprint);

/// <summary>What is asked of a plan.</summary>
/// <param name="MostEvennessFactor">The brightest legend at most so many times as bright as the dimmest.</param>
/// <param name="LeastMeanCandelaPerM2">What legends must reach in the mean, all units at full.</param>
/// <param name="MostOneShare">No legend may owe more of its light to one emitter; null where that doesn't matter.</param>
public sealed record PlanWish(double MostEvennessFactor, double LeastMeanCandelaPerM2, double? MostOneShare);

/// <summary>What all units that could be taken give to all legends.</summary>
/// <param name="Units">The units.</param>
/// <param name="CandelaPerM2">For each unit the luminance of each legend with that unit alone at full.</param>
/// <param name="LargestCandelaPerM2">The same of the one emitter of the unit that gives it most.</param>
public sealed record UnitLights(ImmutableArray<EmitterUnit> Units, float[][] CandelaPerM2, float[][] LargestCandelaPerM2)
{
    /// <summary>What gets less than this share of what a usual legend gets, whatever stands where, is in the dark: no plan can be made for it.</summary>
    private const float DarkShare = 0.05f;

    /// <summary>The legends that some place lights; all others lie right before a body.</summary>
    public ImmutableArray<int> Reached()
    {
        var most = Enumerable.Range(0, CandelaPerM2[0].Length).Select(piece => CandelaPerM2.Max(light => light[piece])).ToArray();
        var usual = most.Order().ElementAt(most.Length / 2);
        return [.. Enumerable.Range(0, most.Length).Where(piece => most[piece] > DarkShare * usual)];
    }

    /// <summary>The same for some of the legends.</summary>
    /// <param name="pieces">Which ones.</param>
    public UnitLights Only(ImmutableArray<int> pieces)
    {
        return new(Units, Picked(CandelaPerM2), Picked(LargestCandelaPerM2));

        float[][] Picked(float[][] lights) => [.. lights.Select(light => pieces.Select(piece => light[piece]).ToArray())];
    }
}

/// <summary>How good a choice of units is.</summary>
/// <param name="EvennessFactor">Brightest by dimmest.</param>
/// <param name="MeanCandelaPerM2">Mean of all legends, at full.</param>
/// <param name="OneShare">The largest share that a legend owes to one emitter.</param>
public sealed record PlanFigures(double EvennessFactor, double MeanCandelaPerM2, double OneShare)
{
    /// <summary>Whether it is what was asked for.</summary>
    public bool Meets(PlanWish wish) => wish is not null
        && EvennessFactor <= wish.MostEvennessFactor && MeanCandelaPerM2 >= wish.LeastMeanCandelaPerM2 && (wish.MostOneShare is not { } share || OneShare <= share);
}

/// <summary>A choice of units.</summary>
/// <param name="Units">Which ones, by their place in the list.</param>
/// <param name="Figures">How good it is.</param>
/// <param name="IsMet">Whether it is what was asked for; else it is the evenest one found.</param>
/// <param name="LeastUnits">With fewer units than this none of the places would do: all choices were gone through, or they give too little light.</param>
/// <param name="IsStopped">Whether the search was ended before its time.</param>
public sealed record UnitChoice(ImmutableArray<int> Units, PlanFigures Figures, bool IsMet, int LeastUnits, bool IsStopped);
