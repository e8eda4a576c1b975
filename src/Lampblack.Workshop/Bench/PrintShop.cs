using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.IO;
using System.IO.Compression;
using System.Linq;
using System.Threading;
using System.Threading.Tasks;
using Lampblack.Findings;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Workshop.Bench;

/// <summary>What was made for the maker to take: sheets of a desk, or sheets for learning a printer.</summary>
/// <param name="Number">Counts what was made since the workshop was opened.</param>
/// <param name="Files">The files.</param>
/// <param name="Folder">Where they were written.</param>
/// <param name="Result">The build they come from; null for sheets that belong to no desk.</param>
public sealed record MadeFiles(int Number, ImmutableArray<OutputFile> Files, string Folder, BuildResult? Result);

/// <summary>Makes print files, one job after the other, and keeps the newest for the page to fetch.</summary>
public sealed class PrintShop : IDisposable
{
    /// <summary>The name under which all files of a job are fetched together.</summary>
    public const string AllTogether = "all.zip";

    private const int Kept = 6;
    private static readonly DateTimeOffset NoDate = new(1980, 1, 1, 0, 0, 0, TimeSpan.Zero);

    private readonly Lock _lock = new();
    private readonly List<MadeFiles> _made = [];
    private CancellationTokenSource? _working;
    private int _count;

    /// <summary>What it is doing, in a few words; null when it rests.</summary>
    public string? Doing { get; private set; }

    /// <summary>The last build; null where none was made since the workshop was opened.</summary>
    public MadeFiles? Newest { get; private set; }

    /// <summary>Why the last job came to nothing; null where it didn't.</summary>
    public string? Problem { get; private set; }

    /// <summary>What stopped the last build; empty where nothing did.</summary>
    public ImmutableArray<Finding> Stops { get; private set; } = [];

    /// <summary>Builds a desk and writes it beside the desk file, as the command line does.</summary>
    /// <param name="source">The desk.</param>
    /// <param name="request">How.</param>
    /// <param name="folder">Where to.</param>
    /// <param name="changed">Told whenever there is something new to show.</param>
    public async Task Make(DeskSource source, BuildRequest request, string folder, Action changed)
    {
        CancellationTokenSource working = new();
        lock (_lock)
        {
            if (Doing is not null)
            {
                working.Dispose();
                return;
            }

            (_working, Doing, Problem, Stops) = (working, "starting", null, []);
        }

        changed();
        try
        {
            await Task.Run(() => Work(source, request, folder, changed, working.Token), CancellationToken.None).ConfigureAwait(false);
        }
        catch (OperationCanceledException)
        {
            Problem = "Stopped. No half-written file was left.";
        }
        catch (FileProblemException problem)
        {
            Problem = problem.Message;
        }
        finally
        {
            lock (_lock)
            {
                (_working, Doing) = (null, null);
            }

            working.Dispose();
            changed();
        }
    }

    /// <summary>Stops the job at work.</summary>
    public void Stop()
    {
        lock (_lock)
        {
            _working?.Cancel();
        }
    }

    /// <summary>Keeps files that were made elsewhere for the page to fetch.</summary>
    public MadeFiles Keep(ImmutableArray<OutputFile> files, string folder, BuildResult? result)
    {
        lock (_lock)
        {
            MadeFiles made = new(++_count, files, folder, result);
            _made.Add(made);
            if (_made.Count > Kept)
            {
                _made.RemoveAt(0);
            }

            return made;
        }
    }

    /// <summary>A file of a job; null where there is none.</summary>
    public OutputFile? Find(int number, string path)
    {
        MadeFiles? made;
        lock (_lock)
        {
            made = _made.FirstOrDefault(one => one.Number == number);
        }

        return made is not null && path == AllTogether ? Packed(made) : made?.Files.FirstOrDefault(file => file.Path == path);
    }

    /// <inheritdoc />
    public void Dispose() => Stop();

    private void Work(DeskSource source, BuildRequest request, string folder, Action changed, CancellationToken cancellation)
    {
        ToldAtOnce progress = new(words =>
        {
            Doing = words;
            changed();
        });
        using OutputFolder place = OutputFolder.Open(folder, OutputFolder.UsualPatience, () => progress.Report($"waiting for another build that writes into {folder}"), cancellation);
        BuildResult result = Build.Run(source, request with { LastReport = OutputFolder.LastReport(folder), LastWiring = OutputFolder.LastWiring(folder) }, progress, cancellation);
        if (result.Files.IsEmpty)
        {
            Stops = [.. result.Findings.Where(finding => finding.Severity == Severity.Stop)];
            return;
        }

        progress.Report($"writing into {folder}");
        place.Write(result.Files, cancellation);
        _ = result.Guide;
        Newest = Keep(result.Files, folder, result);
    }

    private static OutputFile Packed(MadeFiles made)
    {
        using MemoryStream stream = new();
        using (ZipArchive archive = new(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (OutputFile file in made.Files)
            {
                // Most of it is packed already.
                ZipArchiveEntry entry = archive.CreateEntry(file.Path, CompressionLevel.Fastest);
                entry.LastWriteTime = NoDate;
                using Stream content = entry.Open();
                content.Write(file.Bytes.AsSpan());
            }
        }

        return new(AllTogether, "all of it", [.. stream.ToArray()]);
    }
}
