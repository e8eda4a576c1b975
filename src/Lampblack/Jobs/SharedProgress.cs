using System;
using System.Threading;

namespace Lampblack.Jobs;

/// <summary>Progress that several tasks report at the same time; whoever is told is told of one thing after the other.</summary>
internal sealed class SharedProgress : IProgress<string>
{
    private readonly IProgress<string> _progress;
    private readonly Lock _gate = new();

    private SharedProgress(IProgress<string> progress) => _progress = progress;

    /// <summary>The same progress, safe to share.</summary>
    public static SharedProgress Of(IProgress<string> progress) => progress as SharedProgress ?? new(progress);

    public void Report(string value)
    {
        lock (_gate)
        {
            _progress.Report(value);
        }
    }
}
