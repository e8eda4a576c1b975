using System;
using System.IO;
using System.Linq;
using System.Text;

namespace Lampblack.Tests.Host;

/// <summary>A folder of its own for one test, gone afterwards.</summary>
internal sealed class WorkFolder : IDisposable
{
    internal WorkFolder(string name = "lampblack test ü") =>
        Full = Directory.CreateDirectory(Path.Combine(Path.GetTempPath(), $"{name} {Guid.NewGuid():N}")).FullName;

    internal string Full { get; }

    internal string Below(string relative) => Path.Combine(Full, relative.Replace('/', Path.DirectorySeparatorChar));

    internal void Put(string relative, string text)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(Below(relative))!);
        File.WriteAllText(Below(relative), text, new UTF8Encoding(false));
    }

    internal string Text(string relative) => File.ReadAllText(Below(relative));

    /// <summary>All files, relative, with '/', sorted.</summary>
    internal string[] Files() =>
    [
        .. Directory.EnumerateFileSystemEntries(Full, "*", SearchOption.AllDirectories)
            .Where(path => !Directory.Exists(path) || new FileInfo(path).LinkTarget is not null)
            .Select(path => Path.GetRelativePath(Full, path).Replace('\\', '/'))
            .Order(StringComparer.Ordinal),
    ];

    public void Dispose() => Directory.Delete(Full, recursive: true);
}
