using System;
using System.Collections.Generic;
using System.IO;
using System.Linq;

namespace Lampblack.Host;

/// <summary>Starts a folder with some files, and never touches one that is already there.</summary>
public static class NewFolder
{
    /// <summary>Writes files; where one of the names is taken nothing is written at all.</summary>
    /// <param name="folder">The folder; it is made where it does not exist.</param>
    /// <param name="files">Names relative to the folder, with '/', and contents.</param>
    /// <exception cref="FileProblemException">A name is taken, or the folder cannot be written.</exception>
    public static void Write(string folder, IEnumerable<(string Path, ReadOnlyMemory<byte> Bytes)> files)
    {
        ArgumentException.ThrowIfNullOrEmpty(folder);
        RelativeName.RefuseDevices(folder);
        (string Path, ReadOnlyMemory<byte> Bytes)[] all = [.. files];
        try
        {
            foreach (string path in all.Select(file => Path.Combine(folder, file.Path)).Where(RealPath.IsTaken))
            {
                throw new FileProblemException($"'{path}' is already there and is not overwritten; name another folder.");
            }

            foreach ((string path, ReadOnlyMemory<byte> bytes) in all)
            {
                string target = Path.Combine(folder, path);
                Directory.CreateDirectory(Path.GetDirectoryName(target)!);

                // CreateNew: also a file that appears in this very moment is not overwritten.
                using FileStream stream = new(target, FileMode.CreateNew, FileAccess.Write, FileShare.None);
                stream.Write(bytes.Span);
            }
        }
        catch (Exception exception) when (FileProblemException.IsRefusal(exception))
        {
            throw new FileProblemException($"Cannot write into '{folder}': {FileProblemException.Reason(exception)}.", exception);
        }
    }
}
