using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.IO;
using System.Linq;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;

namespace Lampblack.Tests.Architecture;

/// <summary>A project's sources, bound, and what they depend on.</summary>
/// <param name="Name">The project's folder below src, which is also its root namespace.</param>
/// <param name="Sources">Its C# sources and, in a browser shell, its pages.</param>
/// <param name="Compilation">Its C# sources, bound.</param>
/// <param name="Uses">What those depend on.</param>
internal sealed record BoundProject(string Name, ImmutableArray<SourceFile> Sources, CSharpCompilation Compilation, ImmutableArray<SymbolUse> Uses)
{
    /// <summary>Pages become code only in the build, so the C# beside them stays half bound here.</summary>
    public bool HasPages => Sources.Any(source => source.Path.EndsWith(".razor", StringComparison.Ordinal));
}

/// <summary>The repository's own projects, each bound once for all tests.</summary>
internal static class LiveCode
{
    private static readonly Lazy<ImmutableArray<MetadataReference>> LazyReferences = new(() =>
        [.. ((string)AppContext.GetData("TRUSTED_PLATFORM_ASSEMBLIES")!).Split(Path.PathSeparator)
            .Concat(Directory.EnumerateFiles(AppContext.BaseDirectory, "*.dll"))
            .DistinctBy(Path.GetFileName)
            .Where(file => !Path.GetFileName(file).StartsWith(SymbolUse.Root, StringComparison.OrdinalIgnoreCase))
            .Order(StringComparer.Ordinal)
            .Select(file => MetadataReference.CreateFromFile(file))]);

    private static readonly Lazy<BoundProject> LazyCore = new(() => Bind("Lampblack", []));

    private static readonly Lazy<BoundProject> LazyHost = new(() => Bind("Lampblack.Host", [Core]));

    private static readonly Lazy<ImmutableArray<BoundProject>> LazyShells = new(() =>
    {
        var workshop = Bind("Lampblack.Workshop", [Core, Host]);
        var cli = Bind("Lampblack.Cli", workshop.Sources.IsEmpty ? [Core, Host] : [Core, Host, workshop]);
        return workshop.Sources.IsEmpty ? [cli] : [cli, workshop];
    });

    /// <summary>The platform's assemblies and all libraries of the test program, without our own.</summary>
    public static ImmutableArray<MetadataReference> References => LazyReferences.Value;

    public static BoundProject Core => LazyCore.Value;

    public static BoundProject Host => LazyHost.Value;

    /// <summary>The command line and, where it exists, the workshop.</summary>
    public static ImmutableArray<BoundProject> Shells => LazyShells.Value;

    private static BoundProject Bind(string name, IReadOnlyList<BoundProject> beside)
    {
        var sources = Repository.Sources($"src/{name}", ".cs", ".razor");
        var known = References.Select(reference => Path.GetFileName(reference.Display)).ToHashSet();
        IEnumerable<MetadataReference> references =
        [
            .. References,
            .. beside.Select(project => project.Compilation.ToMetadataReference()),
            .. Packages.Assemblies($"src/{name}").Concat(WebAssemblies(sources))
                .Where(file => known.Add(Path.GetFileName(file)))
                .Select(file => MetadataReference.CreateFromFile(file)),
        ];
        var compilation = SourceCompiler.Compile(name, sources.Where(source => source.Path.EndsWith(".cs", StringComparison.Ordinal)), references);
        return new(name, sources, compilation, SymbolUses.Of(compilation));
    }

    /// <summary>The web framework is installed beside the runtime and belongs to no package.</summary>
    private static IEnumerable<string> WebAssemblies(ImmutableArray<SourceFile> sources)
    {
        var runtime = Path.GetDirectoryName(typeof(object).Assembly.Location)!;
        var web = Path.Combine(runtime, "..", "..", "Microsoft.AspNetCore.App", Path.GetFileName(runtime));
        return sources.Any(source => source.Text.Contains("Microsoft.AspNetCore", StringComparison.Ordinal)) && Directory.Exists(web)
            ? Directory.EnumerateFiles(web, "*.dll")
            : [];
    }
}
