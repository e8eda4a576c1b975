using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.IO;
using System.Linq;

namespace Lampblack.Tests.Architecture;

/// <summary>The checkout that the tests were built from.</summary>
internal static class Repository
{
    private static readonly ImmutableArray<string> BuildFolders = ["bin", "obj", "node_modules", "TestResults"];

    private static readonly Lazy<string> LazyRoot = new(() =>
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Lampblack.slnx")))
            {
                return folder.FullName;
            }
        }

        throw new DirectoryNotFoundException($"no Lampblack.slnx in or above {AppContext.BaseDirectory}");
    });

    public static string Root => LazyRoot.Value;

    public static bool Has(string path) => Path.Exists(Path.Combine(Root, path));

    public static string Read(string path) => File.ReadAllText(Path.Combine(Root, path));

    /// <summary>All sources below a folder with one of the given endings, in the order of their paths; none where the folder is not there.</summary>
    public static ImmutableArray<SourceFile> Sources(string folder, params string[] endings) => Directory.Exists(Path.Combine(Root, folder))
        ? [.. Files(new(Path.Combine(Root, folder)))
            .Where(file => endings.Contains(file.Extension))
            .Select(file => new SourceFile(Path.GetRelativePath(Root, file.FullName).Replace('\\', '/'), File.ReadAllText(file.FullName)))
            .OrderBy(source => source.Path, StringComparer.Ordinal)]
        : [];

    private static IEnumerable<FileInfo> Files(DirectoryInfo folder) =>
        folder.EnumerateFiles().Concat(folder.EnumerateDirectories().Where(below => !BuildFolders.Contains(below.Name)).SelectMany(Files));
}
