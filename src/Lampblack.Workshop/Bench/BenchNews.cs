using System.Collections.Immutable;
using Lampblack.Jobs;

namespace Lampblack.Workshop.Bench;

/// <summary>What became of the desk, told to every page that shows it.</summary>
/// <param name="Faces">For each panel whose face looks different: windows that make the old picture the new one; null where all of it is to be fetched anew.</param>
/// <param name="Words">What was done, for a screen reader; empty where nothing is to be said.</param>
public sealed record BenchNews(ImmutableDictionary<string, ImmutableArray<FacePictures>?> Faces, string Words)
{
    /// <summary>Nothing but findings, notices or settings changed.</summary>
    public static BenchNews Quiet { get; } = new(ImmutableDictionary<string, ImmutableArray<FacePictures>?>.Empty, string.Empty);
}
