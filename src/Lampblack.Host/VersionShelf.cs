using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.IO;
using System.Linq;
using Lampblack.Jobs;

namespace Lampblack.Host;

/// <summary>The last states of a desk file as whole files, so that any of them can be had back without this program.</summary>
/// <param name="disk">The disk.</param>
/// <param name="folder">The folder that they lie in.</param>
/// <param name="stem">The desk file's name without its ending.</param>
internal sealed class VersionShelf(JournalDisk disk, string folder, string stem)
{
    /// <summary>How many are kept.</summary>
    internal const int Most = 20;

    private const string Ending = ".toml";

    /// <summary>Keeps a state, where it isn't the newest already, and drops the oldest. What the disk refuses is given up: the journal holds the same.</summary>
    internal void Keep(ImmutableArray<byte> bytes)
    {
        try
        {
            List<(int Number, string Path)> versions = All();
            string hash = Short(JournalEntry.HashOf(bytes));
            if (versions.Count > 0 && versions[^1].Path.EndsWith(hash + Ending, StringComparison.Ordinal))
            {
                return;
            }

            Directory.CreateDirectory(folder);
            int number = versions.Count == 0 ? 1 : versions[^1].Number + 1;
            string path = Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"{stem}-{number:000000}-{hash}{Ending}"));
            disk.Rename(disk.WriteAside(folder, bytes), path);
            foreach ((int _, string old) in versions.Take(versions.Count + 1 - Most))
            {
                TemporaryFiles.Remove(old);
            }
        }
        catch (Exception exception) when (FileProblemException.IsRefusal(exception))
        {
            // A second copy of what the journal holds; without it everything still works.
        }
    }

    /// <summary>The file that holds a state; null where it is no longer kept.</summary>
    internal (string Path, ImmutableArray<byte> Bytes)? Find(string hash)
    {
        foreach ((int _, string path) in All().Where(version => version.Path.EndsWith(Short(hash) + Ending, StringComparison.Ordinal)).Reverse())
        {
            if (BoundedReading.Read(path, DeskSource.LimitBytes) is { Problem: null } read && JournalEntry.HashOf(read.Bytes) == hash)
            {
                return (path, read.Bytes);
            }
        }

        return null;
    }

    /// <summary>The part of a hash that stands in a name.</summary>
    internal static string Short(string hash) => hash[..12];

    private List<(int Number, string Path)> All() => !Directory.Exists(folder)
        ? []
        : [
            .. Directory.EnumerateFiles(folder, stem + "-*" + Ending)
                .Select(path => (Number: NumberOf(Path.GetFileName(path)), Path: path))
                .Where(version => version.Number > 0)
                .OrderBy(version => version.Number),
        ];

    private int NumberOf(string name)
    {
        string[] parts = name.Length > stem.Length ? name[(stem.Length + 1)..].Split('-') : [];
        return parts.Length == 2 && int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out int number) ? number : 0;
    }
}
