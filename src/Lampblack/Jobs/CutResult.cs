using System.Collections.Immutable;
using System.Text.Json;
using Lampblack.Cutting;
using Lampblack.Desks;
using Lampblack.Findings;

namespace Lampblack.Jobs;

/// <summary>What the maker asked of a cut plan.</summary>
/// <param name="Paper">Name of the paper size for the page of each plate.</param>
/// <param name="MostSteps">Steps after which the search ends with the best plan so far.</param>
public sealed record CutRequest(string Paper, long MostSteps = CutRequest.UsualSteps)
{
    /// <summary>Some 20 seconds on a usual machine.</summary>
    public const long UsualSteps = 400_000_000;

    /// <summary>As long as it takes; the caller stops it.</summary>
    public const long Endless = long.MaxValue;
}

/// <summary>A cut plan, and what was noticed.</summary>
/// <param name="Title">What it is for.</param>
/// <param name="Findings">What was noticed.</param>
/// <param name="Files">Drawings of the plates, with a manifest; empty where nothing is cut.</param>
/// <param name="Lines">The plan in words.</param>
public sealed record CutResult(string Title, ImmutableArray<Finding> Findings, ImmutableArray<OutputFile> Files, ImmutableArray<string> Lines)
{
    internal CutResult(string title, ImmutableArray<Finding> findings, ImmutableArray<OutputFile> files, CutSheetPlan plan)
        : this(title, findings, files, CutWords.Lines(plan)) => Plan = plan;

    /// <summary>The plan, for other jobs.</summary>
    public CutSheetPlan Plan { get; } = CutSheetPlan.Nothing;

    /// <summary>Whether all that could be proven is: no better plan is there.</summary>
    public bool IsProven => Plan.Plan.IsProven;

    /// <summary>Whether the search was stopped from outside.</summary>
    public bool IsStopped => Plan.Plan.IsStopped;

    /// <summary>Whether anything is cut.</summary>
    public bool HasPlates => !Plan.Plan.Plates.IsEmpty;

    /// <summary>Writes the plan's figures as properties of the current object.</summary>
    /// <param name="json">The writer.</param>
    public void WriteTo(Utf8JsonWriter json) => CutReport.Write(json, Plan);
}

/// <summary>A plan together with how it is carried out.</summary>
/// <param name="Plan">The plan.</param>
/// <param name="Way">Snapped or sawn; null where nobody said.</param>
/// <param name="IsAssumed">Whether the plates are a guess.</param>
/// <param name="TrimMm">How much is to be filed off each side.</param>
/// <param name="Rules">The rules it was made by.</param>
public sealed record CutSheetPlan(CutPlan Plan, CuttingWay? Way, bool IsAssumed, double TrimMm, CutRules Rules)
{
    /// <summary>Nothing to cut.</summary>
    public static CutSheetPlan Nothing { get; } = new(new([], 0, 0, 0, true, false, []), null, false, 0, new(0, 0, true));
}
