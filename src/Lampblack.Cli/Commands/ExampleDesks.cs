using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.IO;
using System.Linq;

namespace Lampblack.Cli.Commands;

/// <summary>A file of an example.</summary>
/// <param name="Path">Relative to the example's folder, with '/'.</param>
/// <param name="Bytes">Its contents.</param>
internal sealed record ExampleFile(string Path, byte[] Bytes);

/// <summary>The example desks that travel in the program.</summary>
internal static class ExampleDesks
{
    /// <summary>The example with nothing in it but a panel.</summary>
    internal const string Plain = "plain";

    private const string Prefix = "examples/";

    // Embedding on Windows writes the folders of a name with '\'.
    private static readonly ImmutableSortedDictionary<string, string> ResourceByPath = typeof(ExampleDesks).Assembly.GetManifestResourceNames()
        .Select(resource => (Resource: resource, Path: resource.Replace('\\', '/')))
        .Where(pair => pair.Path.StartsWith(Prefix, StringComparison.Ordinal))
        .ToImmutableSortedDictionary(pair => pair.Path[Prefix.Length..], pair => pair.Resource, StringComparer.Ordinal);

    /// <summary>The examples' names, the plain one last.</summary>
    internal static ImmutableArray<string> Names { get; } =
    [
        .. ResourceByPath.Keys
            .Where(path => path.EndsWith("/desk.toml", StringComparison.Ordinal))
            .Select(path => path[..path.IndexOf('/', StringComparison.Ordinal)])
            .Where(name => name != Plain),
        Plain,
    ];

    /// <summary>An example's files in the order of their names.</summary>
    /// <param name="name">One of <see cref="Names"/>.</param>
    internal static IEnumerable<ExampleFile> FilesOf(string name)
    {
        string start = name + "/";
        foreach ((string path, string resource) in ResourceByPath.Where(pair => pair.Key.StartsWith(start, StringComparison.Ordinal)))
        {
            using Stream stream = typeof(ExampleDesks).Assembly.GetManifestResourceStream(resource)!;
            using MemoryStream bytes = new();
            stream.CopyTo(bytes);
            yield return new(path[start.Length..], bytes.ToArray());
        }
    }
}
