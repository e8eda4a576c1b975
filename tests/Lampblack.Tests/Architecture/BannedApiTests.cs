using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Runtime.Loader;
using System.Threading;
using System.Threading.Tasks;
using System.Xml.Linq;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Diagnostics;
using Xunit;

namespace Lampblack.Tests.Architecture;

/// <summary>The core has no file, clock, terminal, environment, culture or chance: the list of banned things says so, and the build enforces it.</summary>
public sealed class BannedApiTests
{
    private const string List = "BannedSymbols.txt";

    private const string Package = "Microsoft.CodeAnalysis.BannedApiAnalyzers";

    private const string Rule = "RS0030";

    /// <summary>Types that lead out of the program. The list may hold more, never less.</summary>
    private static readonly ImmutableArray<string> NeverInTheCore =
    [
        "System.IO.File", "System.IO.Directory", "System.IO.FileInfo", "System.IO.DirectoryInfo", "System.IO.FileStream", "System.IO.Path",
        "System.Console", "System.Environment", "System.Random", "System.Diagnostics.Stopwatch",
    ];

    /// <summary>Further ways out that a core could take without any of those; free namespaces hold them all.</summary>
    private static readonly ImmutableArray<string> SideDoors =
    [
        "System.TimeProvider", "System.AppContext", "System.AppDomain", "System.IO.RandomAccess", "System.IO.DriveInfo", "System.IO.FileSystemWatcher",
        "System.IO.FileSystemInfo", "System.Threading.Timer", "System.Threading.PeriodicTimer", "System.TimeZoneInfo",
    ];

    /// <summary>One use of each kind; the analyzer has to see all of these.</summary>
    private static readonly ImmutableArray<string> Banned =
    [
        "System.IO.File.Exists(\"a\")",
        "System.IO.Directory.Exists(\"a\")",
        "System.IO.Path.GetTempPath()",
        "System.Console.Out",
        "System.Environment.NewLine",
        "new System.Random(1)",
        "System.Diagnostics.Stopwatch.GetTimestamp()",
        "System.DateTime.UtcNow",
        "System.DateTimeOffset.Now",
        "System.Guid.NewGuid()",
        "System.Globalization.CultureInfo.CurrentCulture",
        "double.Parse(\"1\")",
        "1.5.ToString()",
        "System.Math.Round(1.5)",
        "\"a\".ToUpper()",
    ];

    /// <summary>And none of these.</summary>
    private static readonly ImmutableArray<string> Allowed =
    [
        "System.Globalization.CultureInfo.InvariantCulture",
        "System.Math.Round(1.5, System.MidpointRounding.AwayFromZero)",
        "new System.IO.MemoryStream()",
    ];

    [Fact]
    public void Nothing_in_the_core_leads_out_of_the_program() => Offences.AssertNone(WaysOut(LiveCode.Core.Uses));

    [Fact]
    public void Ways_out_are_seen()
    {
        var compilation = SourceCompiler.Compile(
            "Lampblack",
            [new("a.cs", "class A { object M() => System.IO.File.Exists(\"a\");\nobject N() => System.TimeProvider.System;\nobject O() => new System.IO.MemoryStream(); }")],
            LiveCode.References);
        Assert.Equal(["a.cs(1): System.IO.File leads out of the program", "a.cs(2): System.TimeProvider leads out of the program"], WaysOut(SymbolUses.Of(compilation)));
    }

    [Fact]
    public void The_list_holds_every_type_that_leads_out() =>
        Assert.Empty(NeverInTheCore.Select(type => "T:" + type).Except(Entries().Select(entry => entry.Id)));

    [Fact]
    public void Every_entry_of_the_list_names_something_real_and_says_what_to_do_instead()
    {
        var compilation = SourceCompiler.Compile("Lampblack", [], LiveCode.References);
        Offences.AssertNone(Entries()
            .Where(entry => DocumentationCommentId.GetFirstSymbolForDeclarationId(entry.Id, compilation) is null || entry.Message.Length == 0)
            .Select(entry => $"{List}: {entry.Id} names nothing, or says nothing"));
    }

    [Fact]
    public void The_core_is_built_with_the_analyzer_and_the_list()
    {
        var project = XDocument.Parse(Repository.Read("src/Lampblack/Lampblack.csproj"));
        Assert.Contains(project.Descendants("PackageReference"), item => item.Attribute("Include")?.Value == Package);
        Assert.Contains(project.Descendants("AdditionalFiles"), item => item.Attribute("Include")?.Value == "../../" + List);
    }

    [Fact]
    public void Nobody_switches_the_ban_off()
    {
        IEnumerable<SourceFile> settings =
        [
            .. Repository.Sources("src", ".cs", ".csproj", ".props", ".targets", ".editorconfig", ".globalconfig"),
            new("Directory.Build.props", Repository.Read("Directory.Build.props")),
            new(".editorconfig", Repository.Read(".editorconfig")),
        ];
        Assert.Empty(settings.Where(file => file.Text.Contains(Rule, StringComparison.Ordinal)).Select(file => file.Path));
        Assert.Contains("<TreatWarningsAsErrors>true</TreatWarningsAsErrors>", Repository.Read("Directory.Build.props"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_analyzer_that_the_core_is_restored_with_sees_planted_uses()
    {
        // Each on its own line, so that the lines of what is reported tell which were seen.
        var lines = Banned.AddRange(Allowed);
        var text = string.Concat(lines.Index().Select(line => $"class A{line.Index} {{ object M() => {line.Item}; }}\n"));
        var compilation = SourceCompiler.Compile("Lampblack", [new("a.cs", text)], LiveCode.References);
        Offences.AssertNone(SourceCompiler.Blind(compilation));
        var found = await compilation
            .WithAnalyzers([Analyzer()], new AnalyzerOptions([new TextFile(List, Repository.Read(List))]))
            .GetAnalyzerDiagnosticsAsync(TestContext.Current.CancellationToken);
        Assert.All(found, diagnostic => Assert.Equal(Rule, diagnostic.Id));
        Assert.Equal(Banned, found.Select(diagnostic => diagnostic.Location.GetLineSpan().StartLinePosition.Line).Distinct().Order().Select(line => lines[line]));
    }

    private static IEnumerable<string> WaysOut(IEnumerable<SymbolUse> uses) =>
        from use in uses
        let type = $"{use.Namespace}.{use.Type}"
        where NeverInTheCore.Contains(type) || SideDoors.Contains(type)
        group use by (use.Path, use.Line, Type: type) into same
        select $"{same.Key.Path}({same.Key.Line}): {same.Key.Type} leads out of the program";

    private static IEnumerable<(string Id, string Message)> Entries() =>
        Repository.Read(List).ReplaceLineEndings("\n").Split('\n', StringSplitOptions.RemoveEmptyEntries)
            .Select(line => line.Split(';', 2)).Select(parts => (parts[0].Trim(), parts.Length > 1 ? parts[1].Trim() : ""));

    /// <remarks>The package holds code fixes too, which need assemblies that only an editor has; so the one type is asked for by its name.</remarks>
    private static DiagnosticAnalyzer Analyzer()
    {
        var type = Packages.Files("src/Lampblack", Package, "analyzers/dotnet/cs/", "BannedApiAnalyzers.dll")
            .Select(AssemblyLoadContext.Default.LoadFromAssemblyPath).ToList()
            .Select(assembly => assembly.GetType("Microsoft.CodeAnalysis.CSharp.BannedApiAnalyzers.CSharpSymbolIsBannedAnalyzer"))
            .Single(found => found is not null);
        return (DiagnosticAnalyzer)Activator.CreateInstance(type!)!;
    }

    private sealed class TextFile(string path, string text) : AdditionalText
    {
        public override string Path => path;

        public override Microsoft.CodeAnalysis.Text.SourceText GetText(CancellationToken cancellationToken = default) => Microsoft.CodeAnalysis.Text.SourceText.From(text);
    }
}
