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
        string? temporary = null;
        try
        {
            // A link stays a link: what it leads to is exchanged.
            string file = RealPath.Of(desk.FilePath);
            if (BoundedReading.Read(file, DeskSource.LimitBytes) is not { Problem: null } now || !now.Bytes.AsSpan().SequenceEqual(desk.Source.Bytes.AsSpan()))
            {
                throw new FileProblemException($"'{desk.FilePath}' was changed by another program just now; nothing was written. Try again.");
            }

            FileInfo info = new(file);
            if (info.IsReadOnly)
            {
                throw new FileProblemException($"'{desk.FilePath}' is write-protected; nothing was written.");
            }

            temporary = TemporaryFiles.Write(Path.GetDirectoryName(file)!, bytes);
            if (!OperatingSystem.IsWindows())
            {
                File.SetUnixFileMode(temporary, File.GetUnixFileMode(file));
            }

            File.Move(temporary, file, overwrite: true);
        }
        catch (Exception exception) when (FileProblemException.IsRefusal(exception))
        {
            if (temporary is not null)
            {
                TemporaryFiles.Remove(temporary);
            }

            throw new FileProblemException($"Cannot write '{desk.FilePath}': {FileProblemException.Reason(exception)}. Nothing was changed.", exception);
        }
    }
}
