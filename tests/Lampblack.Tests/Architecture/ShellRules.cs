using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Text.RegularExpressions;

namespace Lampblack.Tests.Architecture;

/// <summary>Holds the host and the shells to the core's doors.</summary>
internal static partial class ShellRules
{
    /// <summary>Core folders that are open to the projects above, whole.</summary>
    private static readonly ImmutableArray<string> OpenFolders = ["Jobs", "Edits", "Findings", "Quantities"];

    /// <summary>What else the shells may name of the core: points and boxes, and the spaces they are in.</summary>
    private static readonly ImmutableArray<string> OpenToShells =
    [
        "Lampblack.Geometry.Point", "Lampblack.Geometry.Box", "Lampblack.Geometry.ISpace", "Lampblack.Geometry.PanelSpace",
        "Lampblack.Geometry.SheetSpace", "Lampblack.Geometry.PageSpace", "Lampblack.Geometry.ItemSpace",
    ];

    /// <summary>Documents that the projects above carry from one door to the next without looking into them.</summary>
    private static readonly ImmutableArray<string> Carried = ["Lampblack.Printers.PrinterFile"];

    private static readonly ImmutableDictionary<string, ImmutableArray<string>> Projects = new Dictionary<string, ImmutableArray<string>>
    {
        ["Lampblack.Host"] = [],
        ["Lampblack.Workshop"] = ["Lampblack.Host"],
        ["Lampblack.Cli"] = ["Lampblack.Host", "Lampblack.Workshop"], // the program hosts the workshop
    }.ToImmutableDictionary();

    public static ImmutableArray<string> Check(BoundProject project)
    {
        var named = project.Uses
            .Where(use => use.Assembly != project.Name)
            .Select(use => (use.Path, use.Line, Type: Joined(use.Namespace, use.Type), Name: Joined(use.Namespace, use.Name)));
        var written =
            from source in project.Sources
            where source.Path.EndsWith(".razor", StringComparison.Ordinal)
            from found in source.Text.ReplaceLineEndings("\n").Split('\n').Index()
            from Match match in OwnName().Matches(found.Item)
            select (source.Path, Line: found.Index + 1, Type: match.Value, Name: match.Value);
        return
        [
            .. from use in named.Concat(written)
            where IsOurs(use.Type) && !IsOpen(project.Name, use.Type)
            group use.Name by (use.Path, use.Line) into names
            select $"{names.Key.Path}({names.Key.Line}): {project.Name} must not use {Offences.Names(names)}",
        ];
    }

    private static bool IsOurs(string type) => type.StartsWith(SymbolUse.Root + ".", StringComparison.Ordinal);

    private static bool IsOpen(string project, string type) =>
        OpenFolders.Select(folder => $"{SymbolUse.Root}.{folder}")
            .Concat(project == "Lampblack.Host" ? [] : OpenToShells)
            .Concat(Carried)
            .Concat(Projects[project])
            .Append(project)
            .Any(open => type == open || type.StartsWith(open + ".", StringComparison.Ordinal));

    private static string Joined(string space, string name) => space.Length == 0 ? name : $"{space}.{name}";

    /// <summary>A page can name what is ours only by opening a namespace or by writing it in full; both begin like this.</summary>
    [GeneratedRegex(@"\bLampblack(\.\w+)+")]
    private static partial Regex OwnName();
}
