using System.Collections.Immutable;
using Lampblack.Findings;

namespace Lampblack.Host;

/// <summary>What happened to the output folder.</summary>
/// <param name="Written">Paths of files that are new or changed, relative to the folder, with '/', in the order given.</param>
/// <param name="Unchanged">Paths of files that already held the same bytes and were left alone.</param>
/// <param name="Removed">Paths of an earlier build's files that are no longer made and were removed.</param>
/// <param name="Findings">What the maker should know: files that were in the way and kept, and files left behind.</param>
public sealed record OutputWriting(
    ImmutableArray<string> Written,
    ImmutableArray<string> Unchanged,
    ImmutableArray<string> Removed,
    ImmutableArray<Finding> Findings);
