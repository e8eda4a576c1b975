using System;
using System.Collections.Generic;
using System.Linq;
using System.Threading;
using System.Threading.Tasks;

namespace Lampblack.Jobs;

/// <summary>
/// Files that are made beside the rest of a build, each lot as soon as all it needs is there: many a step of a build keeps one core busy only.
/// Two lots at a time, as more would take more memory than time they save.
/// </summary>
public sealed class FilesInMaking : IDisposable
{
    private const int AtOnce = 2;
    private readonly CancellationTokenSource _ending;
    private readonly SemaphoreSlim _places = new(AtOnce);
    private readonly List<Task<List<OutputFile>>> _lots = [];

    /// <summary>Nothing is being made yet.</summary>
    /// <param name="cancellation">Ends the making.</param>
    public FilesInMaking(CancellationToken cancellation) => _ending = CancellationTokenSource.CreateLinkedTokenSource(cancellation);

    /// <summary>Begins a lot, as soon as one of the two places is free.</summary>
    /// <param name="make">Makes it; gets what ends the making.</param>
    public void Begin(Func<CancellationToken, IEnumerable<OutputFile>> make)
    {
        ArgumentNullException.ThrowIfNull(make);
        var ending = _ending.Token;
        _lots.Add(Task.Run(
            async () =>
            {
                await _places.WaitAsync(ending).ConfigureAwait(false);
                try
                {
                    return make(ending).ToList();
                }
                finally
                {
                    _places.Release();
                }
            },
            ending));
    }

    /// <summary>All files of all lots, in the order in which the lots were begun.</summary>
    /// <exception cref="OperationCanceledException">The making was ended.</exception>
    public IEnumerable<OutputFile> Finish() => _lots.SelectMany(lot => lot.GetAwaiter().GetResult()).ToList();

    /// <summary>What is still being made is given up; nothing of it goes on afterwards.</summary>
    public void Dispose()
    {
        _ending.Cancel();
        // What a lot that was given up complains of matters to nobody.
        Task.WhenAll(_lots).ContinueWith(all => all.Exception, CancellationToken.None, TaskContinuationOptions.ExecuteSynchronously, TaskScheduler.Default).GetAwaiter().GetResult();
        _ending.Dispose();
        _places.Dispose();
    }
}
