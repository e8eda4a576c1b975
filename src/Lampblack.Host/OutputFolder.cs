using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.IO;
using System.Threading;
using Lampblack.Jobs;

namespace Lampblack.Host;

/// <summary>
/// The folder that a build writes into. Files are written aside, then renamed into place, the manifest last. Only files of an earlier
/// build that still have the bytes it wrote are replaced or removed; any other file in the way is kept under another name.
/// </summary>
public sealed class OutputFolder : IDisposable
{
    private readonly string folder;
    private readonly FolderLock held;

    private OutputFolder(string folder, FolderLock held)
    {
        this.folder = folder;
        this.held = held;
    }

    /// <summary>How long a build waits for another one in the same folder: writing takes a moment, making the sheets some seconds.</summary>
    public static TimeSpan UsualPatience => TimeSpan.FromSeconds(60);

    /// <summary>Opens a folder for writing and keeps other builds out of it. Makes the folder where it does not exist.</summary>
    /// <param name="path">The folder.</param>
    /// <param name="patience">How long to wait for another build that has it open.</param>
    /// <param name="waiting">Called once when there is something to wait for.</param>
    /// <param name="cancellation">Stops the waiting.</param>
    /// <exception cref="FileProblemException">The folder cannot be written, or another build did not finish in time.</exception>
    /// <exception cref="OperationCanceledException">The waiting was stopped.</exception>
    public static OutputFolder Open(string path, TimeSpan patience, Action waiting, CancellationToken cancellation)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        ArgumentNullException.ThrowIfNull(waiting);
        RelativeName.RefuseDevices(path);
        try
        {
            for (string? here = path; here is { Length: > 0 }; here = Path.GetDirectoryName(here))
            {
                if (File.Exists(here))
                {
                    throw new FileProblemException($"'{here}' is a file; the output needs a folder.");
                }
            }

            string folder = RealPath.Of(path);
            FolderLock? held = FolderLock.Take(folder, patience, waiting, cancellation);
            return held is null
                ? throw new FileProblemException($"Another build is writing into '{path}'; wait until it is done, or name another folder with -o.")
                : new(folder, held);
        }
        catch (Exception exception) when (FileProblemException.IsRefusal(exception))
        {
            throw new FileProblemException($"Cannot write into the folder '{path}': {FileProblemException.Reason(exception)}.", exception);
        }
    }

    /// <summary>The largest report that is read for a comparison.</summary>
    private const long ReportLimitBytes = 32_000_000;

    /// <summary>The report of the last build in a folder; empty where there is none that can be read, which is no fault.</summary>
    /// <param name="path">The folder.</param>
    public static ImmutableArray<byte> LastReport(string path) => Last(path, "report.json");

    /// <summary>The pin plan of the last build in a folder; empty where there is none that can be read.</summary>
    /// <param name="path">The folder.</param>
    public static ImmutableArray<byte> LastWiring(string path) => Last(path, WiringPlanFile.Path);

    private static ImmutableArray<byte> Last(string path, string name)
    {
        ArgumentNullException.ThrowIfNull(path);
        try
        {
            string report = Path.Combine(RealPath.Of(path), name);
            return new FileInfo(report) is { Exists: true, LinkTarget: null } && BoundedReading.Read(report, ReportLimitBytes) is { Problem: null } reading
                ? reading.Bytes
                : [];
        }
        catch (Exception exception) when (FileProblemException.IsRefusal(exception))
        {
            return [];
        }
    }

    /// <summary>Puts a build's files in place of an earlier build's.</summary>
    /// <param name="files">All files of the build, among them <c>manifest.json</c>, which lists the others.</param>
    /// <param name="cancellation">Stops the work before the first file is put in place; afterwards it is finished.</param>
    /// <exception cref="FileProblemException">A file cannot be written; the earlier build's files are then still in place.</exception>
    /// <exception cref="OperationCanceledException">The work was stopped; the earlier build's files are still in place.</exception>
    /// <exception cref="ArgumentException">The files are not a build: a name leaves the folder, stands twice, or is missing in the manifest.</exception>
    public OutputWriting Write(IReadOnlyList<OutputFile> files, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(files);
        string last = folder;
        try
        {
            FileExchange exchange = new(folder, files);
            return exchange.Run(name => last = name, cancellation);
        }
        catch (Exception exception) when (FileProblemException.IsRefusal(exception))
        {
            throw new FileProblemException($"Cannot write '{last}': {FileProblemException.Reason(exception)}. Nothing was changed.", exception);
        }
    }

    /// <summary>Lets other builds in again. Folders that were made for this build and stayed empty are removed.</summary>
    public void Dispose() => held.Dispose();
}
