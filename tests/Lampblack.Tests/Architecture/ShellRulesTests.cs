using System.Collections.Immutable;
using System.Linq;
using Xunit;

namespace Lampblack.Tests.Architecture;

public sealed class ShellRulesTests
{
    private const string Core = """
        namespace Lampblack.Jobs { public static class Build { public static int Run() => 1; public static Lampblack.Layout.Row Row() => new(); } }
        namespace Lampblack.Findings { public enum Severity { Note } }
        namespace Lampblack.Quantities { public sealed class Ink; }
        namespace Lampblack.Geometry { public struct Point<T>; public struct Box<T>; public struct PanelSpace; public sealed class Region<T>; }
        namespace Lampblack.Layout { public sealed class Row { public int Count => 1; } }
        """;

    private static readonly BoundProject Host = Bind("Lampblack.Host", [new("src/Lampblack.Host/Disk.cs", "namespace Lampblack.Host;\npublic static class Disk { public static int Read() => 1; }")]);

    [Theory]
    [InlineData("Lampblack.Cli", "Lampblack.Jobs.Build.Run()")]
    [InlineData("Lampblack.Cli", "Lampblack.Findings.Severity.Note")]
    [InlineData("Lampblack.Cli", "new Lampblack.Quantities.Ink()")]
    [InlineData("Lampblack.Cli", "new Lampblack.Geometry.Point<Lampblack.Geometry.PanelSpace>()")]
    [InlineData("Lampblack.Cli", "new Lampblack.Geometry.Box<Lampblack.Geometry.PanelSpace>()")]
    [InlineData("Lampblack.Cli", "Lampblack.Host.Disk.Read()")]
    [InlineData("Lampblack.Workshop", "Lampblack.Host.Disk.Read()")]
    [InlineData("Lampblack.Host", "Lampblack.Jobs.Build.Run()")]
    public void The_doors_are_open(string project, string expression) => Offences.AssertNone(ShellRules.Check(With(project, expression)));

    [Theory]
    [InlineData("Lampblack.Cli", "new Lampblack.Layout.Row()", "Lampblack.Layout.Row")]
    [InlineData("Lampblack.Cli", "nameof(Lampblack.Layout.Row)", "Lampblack.Layout.Row")]
    [InlineData("Lampblack.Cli", "Lampblack.Jobs.Build.Row().Count", "Lampblack.Layout.Row.Count")]
    [InlineData("Lampblack.Cli", "new Lampblack.Geometry.Region<int>()", "Lampblack.Geometry.Region")]
    [InlineData("Lampblack.Workshop", "new Lampblack.Layout.Row()", "Lampblack.Layout.Row")]
    [InlineData("Lampblack.Host", "new Lampblack.Layout.Row()", "Lampblack.Layout.Row")]
    [InlineData("Lampblack.Host", "new Lampblack.Geometry.Point<int>()", "Lampblack.Geometry.Point")]
    public void Anything_else_of_the_core_is_an_offence(string project, string expression, string seen) => Assert.Equal(
        [$"src/{project}/A.cs(2): {project} must not use {seen}"], ShellRules.Check(With(project, expression)));

    [Theory]
    [InlineData("@using Lampblack.Jobs\n@using Lampblack.Findings\n<p>@Lampblack.Geometry.Point</p>", null)]
    [InlineData("<p>\n@using Lampblack.Layout\n</p>", "src/Lampblack.Workshop/Page.razor(2): Lampblack.Workshop must not use Lampblack.Layout")]
    [InlineData("@using Lampblack.Geometry", "src/Lampblack.Workshop/Page.razor(1): Lampblack.Workshop must not use Lampblack.Geometry")]
    [InlineData("@code { object M() => new Lampblack.Layout.Row(); }", "src/Lampblack.Workshop/Page.razor(1): Lampblack.Workshop must not use Lampblack.Layout.Row")]
    [InlineData("@inherits Lampblack.Jobsy.X", "src/Lampblack.Workshop/Page.razor(1): Lampblack.Workshop must not use Lampblack.Jobsy.X")]
    public void Pages_of_the_workshop_are_read_for_what_they_open(string page, string? expected) => Assert.Equal(
        expected is null ? [] : [expected],
        ShellRules.Check(Bind("Lampblack.Workshop", [new("src/Lampblack.Workshop/Page.razor", page)])));

    private static BoundProject With(string project, string expression) => Bind(
        project,
        [new($"src/{project}/A.cs", $"namespace {project};\npublic static class A {{ public static object M() => {expression}; }}")],
        project == "Lampblack.Host" ? [] : [Host]);

    private static BoundProject Bind(string name, ImmutableArray<SourceFile> sources, params ImmutableArray<BoundProject> beside)
    {
        var core = SourceCompiler.Compile("Lampblack", [new("src/Lampblack/All.cs", Core)], LiveCode.References);
        var compilation = SourceCompiler.Compile(
            name,
            sources.Where(source => source.Path.EndsWith(".cs", System.StringComparison.Ordinal)),
            [.. LiveCode.References, core.ToMetadataReference(), .. beside.Select(project => project.Compilation.ToMetadataReference())]);
        Offences.AssertNone(SourceCompiler.Blind(compilation));
        return new(name, sources, compilation, SymbolUses.Of(compilation));
    }
}
