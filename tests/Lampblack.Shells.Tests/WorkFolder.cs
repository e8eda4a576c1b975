using System;
using System.IO;
using System.Linq;

namespace Lampblack.Shells.Tests;

/// <summary>A folder of its own for one test, gone afterwards. Its name has blanks and umlauts, as people's folders do.</summary>
internal sealed class WorkFolder : IDisposable
{
    internal string Full { get; } =
        Directory.CreateDirectory(Path.Combine(Path.GetTempPath(), $"lampblack Prüfung {Guid.NewGuid():N}")).FullName;

    internal string Below(string relative) => Path.Combine(Full, relative);

    internal void Put(string relative, string text)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(Below(relative))!);
        File.WriteAllText(Below(relative), text);
    }

    /// <summary>All files, relative, with '/', sorted; the program's own folder for the user is left out.</summary>
    internal string[] Files() =>
    [
        .. Directory.EnumerateFiles(Full, "*", SearchOption.AllDirectories)
            .Select(path => Path.GetRelativePath(Full, path).Replace('\\', '/'))
            .Where(path => !path.StartsWith("own folder/", StringComparison.Ordinal))
            .Order(StringComparer.Ordinal),
    ];

    /// <summary>All files and folders, also empty and hidden ones: what is left half-made shows here. Links are not looked into.</summary>
    internal string[] Everything() =>
    [
        .. Directory.EnumerateFileSystemEntries(
                Full, "*", new EnumerationOptions { RecurseSubdirectories = true, AttributesToSkip = FileAttributes.ReparsePoint })
            .Order(StringComparer.Ordinal),
    ];

    public void Dispose() => Directory.Delete(Full, recursive: true);
}
