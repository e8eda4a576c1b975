using System;
using System.Collections.Concurrent;
using System.Collections.Generic;
using System.IO;
using System.Linq;
using System.Security.Cryptography;
using System.Threading;

namespace Lampblack.Host;

/// <summary>Keeps two builds from writing into one folder at once. The system itself frees the lock when a process ends, however it ends.</summary>
internal sealed class FolderLock : IDisposable
{
    /// <summary>The lock file's name; it exists only while a build runs.</summary>
    internal const string FileName = ".lampblack-lock";

    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(100);

    /// <summary>So often in a row other builds may take the folder away before it is believed that it cannot be made; five seconds with the pauses.</summary>
    private const int MostVanishings = 50;

    private static readonly ConcurrentBag<FileStream> Abandoned = [];

    private readonly FileStream stream;

    private readonly HashSet<string> newFolders;

    private FolderLock(FileStream stream, HashSet<string> newFolders)
    {
        this.stream = stream;
        this.newFolders = newFolders;
    }

    /// <summary>Takes the lock, waiting for another build to finish.</summary>
    /// <param name="folder">The folder; it is made where it does not exist.</param>
    /// <param name="patience">How long to wait.</param>
    /// <param name="waiting">Called once when there is something to wait for.</param>
    /// <param name="cancellation">Stops the waiting.</param>
    /// <returns>The lock; null where the other build did not finish in time.</returns>
    internal static FolderLock? Take(string folder, TimeSpan patience, Action waiting, CancellationToken cancellation)
    {
        long end = Environment.TickCount64 + (long)patience.TotalMilliseconds;
        bool told = false;
        int vanishings = 0;
        HashSet<string> made = new(StringComparer.Ordinal);
        try
        {
            while (true)
            {
                cancellation.ThrowIfCancellationRequested();

                // Made anew each time: another build that wrote nothing takes a folder that it made away with it.
                made.UnionWith(Missing(folder));
                if (TryTake(folder, ref vanishings) is { } stream)
                {
                    return new(stream, made);
                }

                if (Environment.TickCount64 >= end)
                {
                    return null;
                }

                if (!told)
                {
                    told = true;
                    waiting();
                }

                cancellation.WaitHandle.WaitOne(Pause);
            }
        }
        catch
        {
            RemoveEmpty(made);
            throw;
        }
    }

    /// <summary>Lets others in. Folders that were made for this lock and stayed empty are removed.</summary>
    public void Dispose()
    {
        stream.Dispose();
        RemoveEmpty(newFolders);
    }

    // The folder itself and those above it that do not exist.
    private static IEnumerable<string> Missing(string folder)
    {
        for (string? here = folder; here is not null && !Path.Exists(here); here = Path.GetDirectoryName(here))
        {
            yield return here;
        }
    }

    private static void RemoveEmpty(IEnumerable<string> folders)
    {
        try
        {
            foreach (string folder in folders.OrderByDescending(path => path.Length).Where(Directory.Exists))
            {
                Directory.Delete(folder, recursive: false);
            }
        }
        catch (Exception exception) when (FileProblemException.IsRefusal(exception))
        {
            // Not empty: it holds the build's result, or something of somebody else.
        }
    }

    private static FileStream? TryTake(string folder, ref int vanishings)
    {
        string path = Path.Combine(folder, FileName);
        FileStream stream;
        try
        {
            Directory.CreateDirectory(folder);
            stream = new(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, bufferSize: 0, FileOptions.DeleteOnClose);
        }
        catch (IOException exception) when (IsHeld(exception))
        {
            vanishings = 0;
            return null;
        }
        catch (IOException exception) when (vanishings < MostVanishings && IsGoneAgain(exception, folder))
        {
            vanishings++;
            return null;
        }

        // On Unix the file may have been unlinked by its last holder between our opening and our locking it; then a third build could
        // lock a new file of the same name. The random length tells whether the name still stands for the file that we hold.
        long length = RandomNumberGenerator.GetInt32(1, 1 << 20);
        stream.SetLength(length);
        FileInfo named = new(path);
        if (named.Exists && named.Length == length)
        {
            return stream;
        }

        // Closing would unlink the other build's file, so this one is only abandoned: its handle is closed by the process's end at the latest.
        Abandoned.Add(stream);
        return null;
    }

    private static bool IsHeld(IOException exception)
    {
        // EWOULDBLOCK is 11 on Linux and 35 on macOS; ERROR_SHARING_VIOLATION is 32.
        int number = exception.HResult & 0xFFFF;
        return exception.GetType() == typeof(IOException) && number is 11 or 35 or 32;
    }

    // The folder was taken away just now: between making it and opening a file in it, or while the system was looking what stood in the way
    // of making it (EEXIST is 17, ERROR_ALREADY_EXISTS is 183).
    // A folder that can never be made (below a file, on a drive that is not there) fails alike, but there is nothing to wait for.
    private static bool IsGoneAgain(IOException exception, string folder) =>
        exception is DirectoryNotFoundException or FileNotFoundException
            ? Directory.Exists(Path.GetDirectoryName(Missing(folder).LastOrDefault(folder)))
            : (exception.HResult & 0xFFFF) is 17 or 183 && !File.Exists(folder);
}
