using System.Linq;
using Microsoft.CodeAnalysis;
using Xunit;

namespace Lampblack.Tests.Architecture;

public sealed class DependencyRulesTests
{
    private const string Zip = "System.IO.Compression";

    [Fact]
    public void A_folder_without_a_row_is_an_offence() => Assert.Equal(
        ["src/Lampblack/Stray: has no row in docs/architecture.md"],
        Planted.Check(new SourceFile("src/Lampblack/Stray/A.cs", "namespace Lampblack.Stray;\nclass A;")));

    [Fact]
    public void A_row_without_a_folder_is_an_offence() => Assert.Equal(
        ["docs/architecture.md(6): there is no folder src/Lampblack/Ghost"],
        Planted.Check(Planted.Table + "| Ghost | | - | - | |\n"));

    [Fact]
    public void A_second_row_for_a_folder_is_an_offence() => Assert.Equal(
        ["docs/architecture.md(6): Jobs has a row already"],
        Planted.Check(Planted.Table + "| Jobs | | - | - | |\n"));

    [Theory]
    [InlineData("| Geometry | | Layout | - | |\n| Layout | | Jobs | - | |\n| Jobs | | Jobs | - | |\n", "docs/architecture.md(5): unused permission: Jobs may use Jobs, but does not")]
    [InlineData("| Geometry | | Layout, Ghost | - | |\n| Layout | | Jobs | - | |\n| Jobs | | - | - | |\n", "docs/architecture.md(3): Geometry may use Ghost, which is no folder")]
    [InlineData("| Geometry | | Layout, Jobs | - | |\n| Layout | | Jobs | - | |\n| Jobs | | - | - | |\n", "docs/architecture.md(3): unused permission: Geometry may use Jobs, but does not")]
    public void A_permission_that_nobody_uses_is_an_offence(string rows, string expected) =>
        Assert.Equal([expected], Planted.Check(Planted.Head + rows));

    [Fact]
    public void A_using_line_alone_uses_no_permission() => Assert.Equal(
        ["docs/architecture.md(3): unused permission: Geometry may use Jobs, but does not"],
        Planted.Check(
            Planted.Table.Replace("Layout | - | |\n| Layout", "Layout, Jobs | - | |\n| Layout", System.StringComparison.Ordinal),
            new SourceFile(Planted.Path, "using Lampblack.Jobs;\nnamespace Lampblack.Geometry;\nclass X;")));

    [Theory]
    [InlineData("using System.IO.Compression;\nnamespace Lampblack.Geometry;\nclass X { ZLibStream? _it; } // HERE", "ZLibStream")]
    [InlineData("namespace Lampblack.Geometry;\nclass X { System.IO.Compression.ZLibStream? _it; } // HERE", "ZLibStream")]
    [InlineData("namespace Lampblack.Geometry;\nclass X { int M() => (int)System.IO.Compression.CompressionLevel.Fastest; } // HERE", "CompressionLevel.Fastest")]
    [InlineData("namespace Lampblack.Geometry;\n/// <summary>HERE <see cref=\"System.IO.Compression.ZLibStream\"/></summary>\nclass X;", "ZLibStream")]
    public void A_library_outside_its_folder_is_an_offence(string text, string seen)
    {
        var source = new SourceFile(Planted.Path, text);
        Assert.Equal(
            [$"{Planted.Path}({Planted.LineOfMark(source)}): Geometry must not use the library {Zip} ({seen})"],
            Planted.Check(source));
    }

    [Fact]
    public void A_library_behind_an_alias_is_seen_where_it_is_opened_and_where_it_is_used() => Assert.Equal(
        [$"{Planted.Path}(1): Geometry must not use the library {Zip} (ZLibStream)", $"{Planted.Path}(3): Geometry must not use the library {Zip} (ZLibStream)"],
        Planted.Check(new SourceFile(Planted.Path, "using Squeeze = System.IO.Compression.ZLibStream;\nnamespace Lampblack.Geometry;\nclass X { Squeeze? _it; }")));

    [Fact]
    public void A_library_behind_an_alias_of_its_namespace_is_seen() => Assert.Equal(
        [$"{Planted.Path}(3): Geometry must not use the library {Zip} (ZLibStream)"],
        Planted.Check(new SourceFile(Planted.Path, "using Squeeze = System.IO.Compression;\nnamespace Lampblack.Geometry;\nclass X { Squeeze.ZLibStream? _it; }")));

    [Theory]
    [InlineData("NetTopologySuite", "NetTopologySuite.Geometries.Coordinate")]
    [InlineData("NetTopologySuite.Geometries", "NetTopologySuite.Geometries.Coordinate")]
    [InlineData("Tomlyn, NetTopologySuite", "NetTopologySuite.Geometries.Coordinate")]
    public void A_library_is_free_in_the_folder_that_lists_a_prefix_of_it(string listed, string type) => Assert.DoesNotContain(
        Planted.Check(
            Planted.Table.Replace("| Layout | - |", $"| Layout | {listed} |", System.StringComparison.Ordinal),
            new SourceFile(Planted.Path, $"namespace Lampblack.Geometry;\nclass X {{ {type}? _it; }}")),
        offence => offence.Contains("must not use", System.StringComparison.Ordinal));

    [Theory]
    [InlineData("NetTopology")]
    [InlineData("NetTopologySuite.Operation")]
    [InlineData("System")]
    public void A_prefix_is_whole_names_and_never_a_free_one(string listed)
    {
        var found = Planted.Check(
            Planted.Table.Replace("| Layout | - |", $"| Layout | {listed} |", System.StringComparison.Ordinal),
            new SourceFile(Planted.Path, "namespace Lampblack.Geometry;\nclass X { NetTopologySuite.Geometries.Coordinate? _it; System.IO.Compression.ZLibStream? _other; }"));
        Assert.Contains($"{Planted.Path}(2): Geometry must not use the library NetTopologySuite.Geometries (Coordinate)", found);
        Assert.Contains($"{Planted.Path}(2): Geometry must not use the library {Zip} (ZLibStream)", found);
        Assert.Contains(found, offence => offence.StartsWith($"docs/architecture.md(3): unused library: Geometry may use {listed}, but", System.StringComparison.Ordinal));
    }

    [Fact]
    public void A_listed_library_that_nobody_uses_is_an_offence() => Assert.Equal(
        ["docs/architecture.md(5): unused library: Jobs may use Tomlyn, but does not"],
        Planted.Check(Planted.Table.Replace("| Jobs | | - | - |", "| Jobs | | - | Tomlyn |", System.StringComparison.Ordinal)));

    [Theory]
    [InlineData("System.Text.Json.JsonSerializer", "System.Text.Json")]
    [InlineData("System.Diagnostics.Process", "System.Diagnostics")]
    [InlineData("System.Net.Http.HttpClient", "System.Net.Http")]
    [InlineData("System.Reflection.Assembly", "System.Reflection")]
    [InlineData("System.IO.Pipes.PipeStream", "System.IO.Pipes")]
    public void What_lies_below_a_free_namespace_is_not_free(string type, string library) => Assert.Equal(
        [$"{Planted.Path}(2): Geometry must not use the library {library} ({type[(library.Length + 1)..]})"],
        Planted.Check(new SourceFile(Planted.Path, $"namespace Lampblack.Geometry;\nclass X {{ object M() => typeof({type}); }}")));

    [Theory]
    [InlineData("System.Collections.Frozen.FrozenSet")]
    [InlineData("System.Collections.Immutable.ImmutableArray")]
    [InlineData("System.Runtime.InteropServices.MemoryMarshal")]
    [InlineData("System.Text.StringBuilder")]
    [InlineData("System.IO.MemoryStream")]
    [InlineData("System.Diagnostics.CodeAnalysis.NotNullAttribute")]
    [InlineData("System.Threading.Tasks.Task")]
    public void Base_namespaces_are_free(string type) => Offences.AssertNone(
        Planted.Check(new SourceFile(Planted.Path, $"namespace Lampblack.Geometry;\nclass X {{ object M() => typeof({type}); }}")));

    [Fact]
    public void Folders_that_use_each_other_are_a_circle_even_where_the_table_permits_both_ways() => Assert.Equal(
        ["docs/architecture.md: folders use each other in a circle: Geometry -> Layout -> Jobs -> Geometry"],
        Planted.Check(
            Planted.Table.Replace("| Jobs | | - |", "| Jobs | | Geometry |", System.StringComparison.Ordinal),
            new SourceFile("src/Lampblack/Jobs/Back.cs", "namespace Lampblack.Jobs;\nclass X { object M() => Lampblack.Geometry.Clean.Use(); }")));

    [Fact]
    public void A_circle_of_forbidden_uses_is_told_beside_the_use() => Assert.Equal(
        [
            "src/Lampblack/Jobs/Back.cs(2): Jobs must not use Layout (Middle.Get)",
            "docs/architecture.md: folders use each other in a circle: Jobs -> Layout -> Jobs",
        ],
        Planted.Check(new SourceFile("src/Lampblack/Jobs/Back.cs", "namespace Lampblack.Jobs;\nclass X { object M() => Lampblack.Layout.Middle.Get(); }")));

    [Fact]
    public void A_global_using_hides_nothing() => Assert.Equal(
        [$"{Planted.Path}(2): Geometry must not use Jobs (Build.Run)"],
        Planted.Check(
            new SourceFile("src/Lampblack/Layout/Open.cs", "global using Lampblack.Jobs;\nnamespace Lampblack.Layout;\nclass Y;"),
            new SourceFile(Planted.Path, "namespace Lampblack.Geometry;\nclass X { int M() => Build.Run(); }")));

    [Fact]
    public void A_global_alias_hides_nothing() => Assert.Equal(
        [$"{Planted.Path}(2): Geometry must not use Jobs (Build.Run)"],
        Planted.Check(
            new SourceFile("src/Lampblack/Layout/Open.cs", "global using B = Lampblack.Jobs.Build;\nnamespace Lampblack.Layout;\nclass Y;"),
            new SourceFile(Planted.Path, "namespace Lampblack.Geometry;\nclass X { int M() => B.Run(); }")));

    [Fact]
    public void A_global_static_using_hides_nothing() => Assert.Equal(
        [$"{Planted.Path}(2): Geometry must not use Jobs (Build.Dpi, Build.Run)"],
        Planted.Check(
            new SourceFile("src/Lampblack/Layout/Open.cs", "global using static Lampblack.Jobs.Build;\nnamespace Lampblack.Layout;\nclass Y;"),
            new SourceFile(Planted.Path, "namespace Lampblack.Geometry;\nclass X { int M() => Run() + Dpi; }")));

    [Theory]
    [InlineData("using Lampblack.Jobs;\nnamespace Lampblack.Geometry;\nclass X { int M() => Build.Run(); }", 3, "Build.Run")]
    [InlineData("using It = Lampblack.Jobs.Build;\nnamespace Lampblack.Geometry;\nclass X;", 1, "Build")]
    [InlineData("using static Lampblack.Jobs.Build;\nnamespace Lampblack.Geometry;\nclass X;", 1, "Build")]
    [InlineData("using It = Lampblack.Jobs;\nnamespace Lampblack.Geometry;\nclass X { int M() => It.Build.Run(); }", 3, "Build.Run")]
    [InlineData("namespace Lampblack.Geometry;\nusing It = System.Collections.Generic.List<Lampblack.Jobs.Side>;\nclass X;", 2, "Side")]
    public void Usings_of_one_file_hide_nothing(string text, int line, string seen) => Assert.Equal(
        [$"{Planted.Path}({line}): Geometry must not use Jobs ({seen})"], Planted.Check(new SourceFile(Planted.Path, text)));

    [Fact]
    public void A_folder_below_a_folder_has_the_same_permission() => Assert.Equal(
        ["src/Lampblack/Geometry/Deep/X.cs(2): Geometry must not use Jobs (Build.Run)"],
        Planted.Check(new SourceFile("src/Lampblack/Geometry/Deep/X.cs", "namespace Lampblack.Geometry.Deep;\nclass X { int M() => Lampblack.Jobs.Build.Run(); object N() => Clean.Use(); }")));

    [Theory]
    [InlineData(Planted.Path, "namespace Lampblack.Jobs;\nclass X;", "(1): the namespace is Lampblack.Jobs, the folder says Lampblack.Geometry")]
    [InlineData(Planted.Path, "namespace Lampblack.Geometry\n{\nnamespace Deep\n{\nclass X;\n}\n}", "(3): the namespace is Lampblack.Geometry.Deep, the folder says Lampblack.Geometry")]
    [InlineData(Planted.Path, "namespace NetTopologySuite.Geometries;\nclass X;", "(1): the namespace is NetTopologySuite.Geometries, the folder says Lampblack.Geometry")]
    [InlineData(Planted.Path, "class X;", "(1): the namespace is none, the folder says Lampblack.Geometry")]
    [InlineData("src/Lampblack/Geometry/Deep/X.cs", "namespace Lampblack.Geometry;\nclass X;", "(1): the namespace is Lampblack.Geometry, the folder says Lampblack.Geometry.Deep")]
    public void A_namespace_that_is_not_the_folder_is_an_offence(string path, string text, string expected) =>
        Assert.Equal([path + expected], Planted.Check(new SourceFile(path, text)));

    [Fact]
    public void A_file_beside_the_folders_is_an_offence() => Assert.Equal(
        ["src/Lampblack/X.cs: lies in no folder, so no row of docs/architecture.md holds it"],
        Planted.Check(new SourceFile("src/Lampblack/X.cs", "namespace Lampblack;\nclass X;")));

    [Fact]
    public void What_can_not_be_bound_is_an_offence()
    {
        Assert.Contains(
            Planted.Check(Planted.InGeometry("class X { Unheard? _of; }")),
            offence => offence.StartsWith($"{Planted.Path}(8): can't be judged, as it does not compile here: CS0246", System.StringComparison.Ordinal));
        Assert.Contains(
            Planted.Check(Planted.InGeometry("/// <summary><see cref=\"Unheard\"/></summary>\nclass X;")),
            offence => offence.StartsWith($"{Planted.Path}(8): can't be judged, as it does not compile here: CS1574", System.StringComparison.Ordinal));
        Assert.Equal(
            [$"{Planted.Path}(8): code under #if can't be judged"],
            Planted.Check(Planted.InGeometry("#if NEVER\nclass X { int M() => Lampblack.Jobs.Build.Run(); }\n#endif\n")));
    }

    [Fact]
    public void Without_its_libraries_a_source_is_not_judged_clean() => Assert.NotEmpty(
        DependencyRules.Check(Planted.Clean, DependencyTable.Read(Planted.Table), Enumerable.Empty<MetadataReference>()));
}
