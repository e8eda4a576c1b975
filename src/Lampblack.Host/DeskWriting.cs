using System;
using System.Collections.Immutable;
using System.IO;
using Lampblack.Jobs;

namespace Lampblack.Host;

/// <summary>Puts an edited desk file in place of the one it was made from.</summary>
public static class DeskWriting
{
    /// <summary>Writes it aside, then renames it: the file is at every moment either the old or the new one.</summary>
    /// <param name="desk">The desk as it was read.</param>
    /// <param name="bytes">Its new bytes.</param>
    /// <exception cref="FileProblemException">It cannot be written, or somebody else changed it meanwhile; it is then as it was.</exception>
    public static void Write(OpenedDesk desk, ImmutableArray<byte> bytes)
    {
        ArgumentNullException.ThrowIfNull(desk);
        try
        {
            // A link stays a link: what it leads to is exchanged.
            string file = RealPath.Of(desk.FilePath);
            if (BoundedReading.Read(file, DeskSource.LimitBytes) is not { Problem: null } now || !ByteChanges.AreSame(now.Bytes, desk.Source.Bytes))
            {
                throw new FileProblemException($"'{desk.FilePath}' was changed by another program just now; nothing was written. Try again.");
            }

            Put(new(), file, desk.FilePath, Path.GetDirectoryName(file)!, bytes);
        }
        catch (Exception exception) when (FileProblemException.IsRefusal(exception))
        {
            throw new FileProblemException($"Cannot write '{desk.FilePath}': {FileProblemException.Reason(exception)}. Nothing was changed.", exception);
        }
    }

    /// <summary>Exchanges a file for new bytes; what the system refuses is thrown as it comes, and the file is then as it was.</summary>
    /// <param name="disk">The disk.</param>
    /// <param name="file">The file's real path.</param>
    /// <param name="shown">Its path for messages.</param>
    /// <param name="aside">Where the new bytes are written first: a folder of the same disk.</param>
    /// <param name="bytes">Its new bytes.</param>
    internal static void Put(JournalDisk disk, string file, string shown, string aside, ImmutableArray<byte> bytes)
    {
        if (new FileInfo(file) is { Exists: true, IsReadOnly: true })
        {
            throw new FileProblemException($"'{shown}' is write-protected; nothing was written.");
        }

        string? temporary = null;
        try
        {
            temporary = disk.WriteAside(aside, bytes);
            if (!OperatingSystem.IsWindows() && File.Exists(file))
            {
                File.SetUnixFileMode(temporary, File.GetUnixFileMode(file));
            }

            disk.Rename(temporary, file);
        }
        catch
        {
            if (temporary is not null)
            {
                TemporaryFiles.Remove(temporary);
            }

            throw;
        }
    }
}
