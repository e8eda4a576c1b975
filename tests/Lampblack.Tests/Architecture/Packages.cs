using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.IO;
using System.Linq;
using System.Text.Json;

namespace Lampblack.Tests.Architecture;

/// <summary>The package files that a project was restored with, as its restore wrote them down.</summary>
internal static class Packages
{
    /// <summary>Files of one package whose path in the package starts and ends so; none where the project was not restored.</summary>
    public static ImmutableArray<string> Files(string project, string package, string start, string end) =>
        [.. Entries(project, "libraries")
            .Where(library => library.Name.StartsWith(package + "/", StringComparison.OrdinalIgnoreCase))
            .SelectMany(library => library.Value.GetProperty("files").EnumerateArray().Select(file => (library.Name, File: file.GetString()!)))
            .Where(found => found.File.StartsWith(start, StringComparison.Ordinal) && found.File.EndsWith(end, StringComparison.Ordinal))
            .Select(found => Find(project, found.Name, found.File))
            .OfType<string>()];

    /// <summary>The assemblies a project is compiled against; none where it was not restored.</summary>
    public static ImmutableArray<string> Assemblies(string project) =>
        [.. Entries(project, "targets").Take(1)
            .SelectMany(target => target.Value.EnumerateObject())
            .Where(library => library.Value.GetProperty("type").GetString() == "package" && library.Value.TryGetProperty("compile", out _))
            .SelectMany(library => library.Value.GetProperty("compile").EnumerateObject().Select(file => (library.Name, File: file.Name)))
            .Where(found => found.File.EndsWith(".dll", StringComparison.Ordinal))
            .Select(found => Find(project, found.Name, found.File))
            .OfType<string>()];

    private static string? Find(string project, string library, string file) => Entries(project, "packageFolders")
        .Select(folder => Path.Combine(folder.Name, library.ToLowerInvariant(), file))
        .FirstOrDefault(File.Exists);

    private static IEnumerable<JsonProperty> Entries(string project, string name)
    {
        var assets = $"{project}/obj/project.assets.json";
        return Repository.Has(assets) ? JsonDocument.Parse(Repository.Read(assets)).RootElement.GetProperty(name).EnumerateObject() : [];
    }
}
