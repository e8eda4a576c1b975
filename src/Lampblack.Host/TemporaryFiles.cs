using System;
using System.Collections.Immutable;
using System.IO;
using System.Linq;
using System.Security.Cryptography;

namespace Lampblack.Host;

/// <summary>Our own temporary files: named so that they can never be taken for the maker's, and swept away by the next build.</summary>
internal static class TemporaryFiles
{
    private const string Prefix = ".lampblack-tmp-";
    private const int Digits = 16;

    /// <summary>A name nobody uses yet.</summary>
    internal static string NewName() => Prefix + RandomNumberGenerator.GetHexString(Digits, lowercase: true);

    /// <summary>Whether a file's name is one of ours, exactly.</summary>
    /// <param name="name">The name without folders.</param>
    internal static bool IsOurs(string name) =>
        name.Length == Prefix.Length + Digits
        && name.StartsWith(Prefix, StringComparison.Ordinal)
        && name.AsSpan(Prefix.Length).IndexOfAnyExcept("0123456789abcdef") < 0;

    /// <summary>Writes bytes to a new temporary file and makes sure that they are on the disk.</summary>
    /// <param name="folder">The folder of the file that it will become, so that renaming needs no copy.</param>
    /// <param name="bytes">The contents.</param>
    /// <returns>The temporary file's path.</returns>
    internal static string Write(string folder, ImmutableArray<byte> bytes)
    {
        string path = Path.Combine(folder, NewName());
        try
        {
            using FileStream stream = new(path, FileMode.CreateNew, FileAccess.Write, FileShare.None, bufferSize: 0);
            stream.Write(bytes.AsSpan());
            stream.Flush(flushToDisk: true);
            return path;
        }
        catch
        {
            Remove(path);
            throw;
        }
    }

    /// <summary>Removes what a stopped build left in a folder.</summary>
    /// <param name="folder">The folder; nothing happens where it does not exist.</param>
    internal static void Sweep(string folder)
    {
        if (!Directory.Exists(folder))
        {
            return;
        }

        foreach (string path in Directory.EnumerateFiles(folder, Prefix + "*").ToArray())
        {
            if (IsOurs(Path.GetFileName(path)))
            {
                Remove(path);
            }
        }
    }

    /// <summary>Removes a file; one that cannot be removed is left for the next sweep.</summary>
    /// <param name="path">The file.</param>
    internal static void Remove(string path)
    {
        try
        {
            File.Delete(path);
        }
        catch (Exception exception) when (FileProblemException.IsRefusal(exception))
        {
            // Litter is a blemish; failing a finished build over it would be worse.
        }
    }
}
