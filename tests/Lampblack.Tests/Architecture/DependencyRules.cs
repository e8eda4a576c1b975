using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace Lampblack.Tests.Architecture;

/// <summary>Holds the core's sources to the dependency table.</summary>
internal static class DependencyRules
{
    public const string CoreFolder = "src/Lampblack";

    /// <summary>Base namespaces every folder may use, each alone.</summary>
    private static readonly ImmutableHashSet<string> Free =
    [
        "System", "System.Linq", "System.Text", "System.Text.RegularExpressions", "System.Globalization", "System.IO", "System.Threading",
        "System.Threading.Tasks", "System.Numerics", "System.Diagnostics.CodeAnalysis", "System.Buffers", "System.ComponentModel",
    ];

    /// <summary>Base namespaces every folder may use together with all below them.</summary>
    private static readonly ImmutableArray<string> FreeWithAllBelow = ["System.Collections", "System.Runtime"];

    /// <summary>All offences of made-up or real sources, in a fixed order.</summary>
    public static ImmutableArray<string> Check(IEnumerable<SourceFile> sources, DependencyTable table, IEnumerable<MetadataReference> references)
    {
        var compilation = SourceCompiler.Compile(SymbolUse.Root, sources, references);
        return [.. SourceCompiler.Blind(compilation), .. Check(compilation, SymbolUses.Of(compilation), table)];
    }

    /// <summary>The same for sources that are bound already.</summary>
    public static ImmutableArray<string> Check(CSharpCompilation core, ImmutableArray<SymbolUse> uses, DependencyTable table)
    {
        var places = core.SyntaxTrees.Select(tree => tree.FilePath).ToList();
        var folders = places.Select(FolderOf).OfType<string>().Distinct().Order(StringComparer.Ordinal).ToImmutableArray();
        return
        [
            .. places.Where(path => FolderOf(path) is null).Select(path => $"{path}: lies in no folder, so no row of {DependencyTable.Page} holds it"),
            .. WrongNamespaces(core),
            .. Rows(table, folders),
            .. ForbiddenFolders(core, uses, table),
            .. ForbiddenLibraries(core, uses, table),
            .. UnusedPermissions(core, uses, table, folders),
            .. Circles(core, uses, table),
        ];
    }

    /// <summary>Whether a namespace of a library is named by a row, or needs no naming.</summary>
    private static bool Covers(string prefix, string space) =>
        space == prefix || space.StartsWith(prefix + ".", StringComparison.Ordinal);

    private static bool IsFree(string space) => Free.Contains(space) || FreeWithAllBelow.Any(prefix => Covers(prefix, space));

    /// <summary>The first folder below the core's root; null for a file beside the folders.</summary>
    private static string? FolderOf(string path)
    {
        var parts = path[(CoreFolder.Length + 1)..].Split('/');
        return parts.Length > 1 ? parts[0] : null;
    }

    private static IEnumerable<string> WrongNamespaces(CSharpCompilation core)
    {
        foreach (var tree in core.SyntaxTrees)
        {
            var folder = tree.FilePath[..tree.FilePath.LastIndexOf('/')];
            var expected = SymbolUse.Root + folder[CoreFolder.Length..].Replace('/', '.');
            var model = core.GetSemanticModel(tree);
            foreach (var member in tree.GetRoot().DescendantNodes(node => node is CompilationUnitSyntax or BaseNamespaceDeclarationSyntax).OfType<MemberDeclarationSyntax>())
            {
                var found = member switch
                {
                    BaseNamespaceDeclarationSyntax space when space.Members.Any(inner => inner is not BaseNamespaceDeclarationSyntax) =>
                        model.GetDeclaredSymbol(space)!.ToDisplayString(),
                    BaseTypeDeclarationSyntax or DelegateDeclarationSyntax when member.Parent is CompilationUnitSyntax => "none",
                    _ => expected,
                };
                if (found != expected)
                {
                    yield return $"{tree.FilePath}({LineOf(member)}): the namespace is {found}, the folder says {expected}";
                }
            }
        }
    }

    private static IEnumerable<string> Rows(DependencyTable table, ImmutableArray<string> folders)
    {
        foreach (var folder in folders.Except(table.Rows.Select(row => row.Folder)))
        {
            yield return $"{CoreFolder}/{folder}: has no row in {DependencyTable.Page}";
        }

        foreach (var row in table.Rows)
        {
            if (!folders.Contains(row.Folder))
            {
                yield return $"{At(row)}: there is no folder {CoreFolder}/{row.Folder}";
            }

            if (table.Rows.First(other => other.Folder == row.Folder) != row)
            {
                yield return $"{At(row)}: {row.Folder} has a row already";
            }
        }
    }

    private static IEnumerable<string> ForbiddenFolders(CSharpCompilation core, ImmutableArray<SymbolUse> uses, DependencyTable table) =>
        from use in uses
        let row = RowOf(table, use)
        where row is not null && IsOwn(core, use) && use.Folder is { } folder && folder != row.Folder && !row.MayUse.Contains(folder)
        group use.Name by (use.Path, use.Line, From: row.Folder, To: use.Folder) into found
        select $"{found.Key.Path}({found.Key.Line}): {found.Key.From} must not use {found.Key.To} ({Offences.Names(found)})";

    private static IEnumerable<string> ForbiddenLibraries(CSharpCompilation core, ImmutableArray<SymbolUse> uses, DependencyTable table) =>
        from use in uses
        let row = RowOf(table, use)
        where row is not null && !IsOwn(core, use) && !IsFree(use.Namespace) && !Listed(row).Any(prefix => Covers(prefix, use.Namespace))
        group use.Name by (use.Path, use.Line, row.Folder, use.Namespace) into found
        select $"{found.Key.Path}({found.Key.Line}): {found.Key.Folder} must not use the library {Shown(found.Key.Namespace)} ({Offences.Names(found)})";

    private static IEnumerable<string> UnusedPermissions(
        CSharpCompilation core, ImmutableArray<SymbolUse> uses, DependencyTable table, ImmutableArray<string> folders)
    {
        var usesByFolder = uses.ToLookup(use => FolderOf(use.Path));
        foreach (var row in table.Rows)
        {
            var own = usesByFolder[row.Folder];
            foreach (var folder in row.MayUse)
            {
                if (!folders.Contains(folder))
                {
                    yield return $"{At(row)}: {row.Folder} may use {folder}, which is no folder";
                }
                else if (folder == row.Folder || !own.Any(use => IsOwn(core, use) && use.Folder == folder))
                {
                    yield return $"{At(row)}: unused permission: {row.Folder} may use {folder}, but does not";
                }
            }

            // What is free is free already, so naming it counts as naming nothing.
            foreach (var library in row.Libraries.Where(library => IsFree(library)
                || !own.Any(use => !IsOwn(core, use) && !IsFree(use.Namespace) && Covers(library, use.Namespace))))
            {
                yield return $"{At(row)}: unused library: {row.Folder} may use {library}, but {(IsFree(library) ? "so may everyone" : "does not")}";
            }
        }
    }

    /// <summary>Permitted and real uses together: neither may lead back to where it began.</summary>
    private static IEnumerable<string> Circles(CSharpCompilation core, ImmutableArray<SymbolUse> uses, DependencyTable table)
    {
        var edges = table.Rows.SelectMany(row => row.MayUse.Select(folder => (From: row.Folder, To: folder)))
            .Concat(uses.Where(use => IsOwn(core, use) && use.Folder is not null && FolderOf(use.Path) is not null)
                .Select(use => (From: FolderOf(use.Path)!, To: use.Folder!)))
            .Where(edge => edge.From != edge.To)
            .Distinct()
            .ToLookup(edge => edge.From, edge => edge.To);
        var told = new HashSet<string>();
        foreach (var start in edges.Select(group => group.Key).Order(StringComparer.Ordinal))
        {
            if (!told.Contains(start) && ShortestWayBack(start, edges) is { } way)
            {
                told.UnionWith(way);
                yield return $"{DependencyTable.Page}: folders use each other in a circle: {string.Join(" -> ", way)}";
            }
        }
    }

    private static List<string>? ShortestWayBack(string start, ILookup<string, string> edges)
    {
        var ways = new Queue<ImmutableList<string>>([[start]]);
        var seen = new HashSet<string>();
        while (ways.TryDequeue(out var way))
        {
            foreach (var next in edges[way[^1]].Order(StringComparer.Ordinal))
            {
                if (next == start)
                {
                    return [.. way, start];
                }

                if (seen.Add(next))
                {
                    ways.Enqueue(way.Add(next));
                }
            }
        }

        return null;
    }

    private static DependencyRow? RowOf(DependencyTable table, SymbolUse use)
    {
        var folder = FolderOf(use.Path);
        return table.Rows.FirstOrDefault(row => row.Folder == folder);
    }

    private static IEnumerable<string> Listed(DependencyRow row) => row.Libraries.Where(library => !IsFree(library));

    private static bool IsOwn(CSharpCompilation core, SymbolUse use) => use.Assembly == core.AssemblyName;

    private static string Shown(string space) => space.Length == 0 ? "without a namespace" : space;

    private static string At(DependencyRow row) => $"{DependencyTable.Page}({row.Line})";

    private static int LineOf(SyntaxNode node) => node.GetLocation().GetLineSpan().StartLinePosition.Line + 1;
}
