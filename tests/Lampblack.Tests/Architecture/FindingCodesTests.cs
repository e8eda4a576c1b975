using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Xunit;

namespace Lampblack.Tests.Architecture;

public sealed class FindingCodesTests
{
    private static readonly Lazy<(ImmutableArray<WrittenCode> Codes, ImmutableArray<string> Offences)> LazyWritten = new(() =>
    {
        var all = LiveCode.Shells.Append(LiveCode.Host).Append(LiveCode.Core).Select(project => FindingCodes.Written(project.Compilation)).ToList();
        return ([.. all.SelectMany(one => one.Codes)], [.. all.SelectMany(one => one.Offences)]);
    });

    /// <summary>The manual's page, and the parts that are not merged into it yet.</summary>
    private static IEnumerable<SourceFile> Pages =>
        Repository.Sources("docs", ".md").Where(page => page.Path == "docs/findings.md" || page.Path.StartsWith("docs/findings.d/", StringComparison.Ordinal));

    [Fact]
    public void Every_finding_is_made_with_a_literal_code_in_kebab_case() => Offences.AssertNone(LazyWritten.Value.Offences);

    [Fact]
    public void Every_code_has_one_section_in_the_manual_and_every_section_a_code()
    {
        var (sections, offences) = FindingCodes.Sections(Pages);
        Offences.AssertNone([.. offences, .. FindingCodes.Unmatched(LazyWritten.Value.Codes, sections)]);
    }

    [Fact]
    public void Every_code_is_named_by_a_test()
    {
        // The examples in this folder are made up and test nothing of the core.
        var texts = Repository.Sources("tests", ".cs", ".toml", ".txt", ".json", ".csv", ".md")
            .Where(text => !text.Path.StartsWith("tests/Lampblack.Tests/Architecture/", StringComparison.Ordinal));
        Offences.AssertNone(FindingCodes.Unmentioned(LazyWritten.Value.Codes, texts));
    }

    [Theory]
    [InlineData("Finding.Stop(\"key-unknown\", \"m\")", "key-unknown")]
    [InlineData("Finding.Warn(\n\"key-unknown\",\n\"m\")", "key-unknown")]
    [InlineData("Lampblack.Findings.Finding.Note(\"key-unknown\", \"m\")", "key-unknown")]
    [InlineData("Finding.Note(message: \"m\", code: \"key-unknown\")", "key-unknown")]
    [InlineData("Finding.Note(many ? \"keys-unknown\" : \"key-unknown\", \"m\")", "keys-unknown key-unknown")]
    [InlineData("Finding.Note(many switch { true => \"keys-unknown\", _ => (\"key-unknown\") }, \"m\")", "keys-unknown key-unknown")]
    [InlineData("Finding.Stop(\"a\", \"m\").Equals(Finding.Stop(\"b\", \"m\"))", "a b")]
    [InlineData("Stop(\"opened\", \"m\")", "opened")]
    [InlineData("other.Stop(code)", "")]
    public void Codes_are_listed_however_the_call_is_written(string call, string expected)
    {
        var (codes, offences) = FindingCodes.Written(Compile(call));
        Offences.AssertNone(offences);
        Assert.Equal(expected, string.Join(' ', codes.Select(code => code.Code)));
    }

    [Theory]
    [InlineData("Finding.Stop(code, \"m\")", "a.cs(5): the code must be a literal in the call, so that it can be listed")]
    [InlineData("Finding.Stop(\"key-\" + code, \"m\")", "a.cs(5): the code must be a literal in the call, so that it can be listed")]
    [InlineData("Finding.Stop($\"key-{code}\", \"m\")", "a.cs(5): the code must be a literal in the call, so that it can be listed")]
    [InlineData("Finding.Stop(many ? code : \"a\", \"m\")", "a.cs(5): the code must be a literal in the call, so that it can be listed")]
    [InlineData("((Func<string, string, Finding>)Finding.Stop)(\"a\", \"m\")", "a.cs(5): the code must be a literal in the call, so that it can be listed")]
    [InlineData("new Finding(\"a\", \"m\")", "a.cs(5): findings are made by Finding.Stop, Finding.Warn or Finding.Note")]
    [InlineData("(Finding)new(\"a\", \"m\")", "a.cs(5): findings are made by Finding.Stop, Finding.Warn or Finding.Note")]
    [InlineData("Finding.Stop(\"KeyUnknown\", \"m\")", "a.cs(5): 'KeyUnknown' is not in kebab-case")]
    [InlineData("Finding.Stop(\"key--unknown\", \"m\")", "a.cs(5): 'key--unknown' is not in kebab-case")]
    public void A_finding_that_can_not_be_listed_is_an_offence(string call, string expected) =>
        Assert.Equal([expected], FindingCodes.Written(Compile(call)).Offences);

    [Fact]
    public void Sections_are_read_with_their_place_and_empty_or_double_ones_are_offences()
    {
        var (codes, offences) = FindingCodes.Sections([
            new("one.md", "# Findings\n\n## Reading\n\n### key-unknown\nSaid.\n\n### `key-twice`\n\n#### no code\n"),
            new("two.md", "### key-unknown\r\nSaid again.\r\n"),
        ]);
        Assert.Equal(["key-unknown", "key-twice", "key-unknown"], codes.Select(code => code.Code));
        Assert.Equal(["one.md(8): the section key-twice is empty", "two.md(1): key-unknown has a section already, at one.md(5)"], offences);
    }

    [Fact]
    public void A_code_without_a_section_and_a_section_without_a_code_are_offences() => Assert.Equal(
        ["a.cs(1): key-unknown has no section in docs/findings.md", "p.md(7): no source makes the finding key-gone"],
        FindingCodes.Unmatched(
            [new("key-unknown", "a.cs", 1), new("key-twice", "a.cs", 2), new("key-twice", "a.cs", 3)],
            [new("key-twice", "p.md", 3), new("key-gone", "p.md", 7)]));

    [Fact]
    public void A_code_is_named_by_a_whole_word_only() => Assert.Equal(
        ["a.cs(2): no test names the finding key"],
        FindingCodes.Unmentioned(
            [new("key-unknown", "a.cs", 1), new("key", "a.cs", 2)],
            [new("t.cs", "Check(\"key-unknown\");"), new("t.toml", "my-key = 1 # key-less, keys")]));

    private static Microsoft.CodeAnalysis.Compilation Compile(string expression)
    {
        var compilation = SourceCompiler.Compile(
            "Lampblack",
            [
                new("a.cs", $"using System;\nusing Lampblack.Findings;\nusing static Lampblack.Findings.Finding;\nnamespace Lampblack.Jobs;\npublic sealed class A {{ object M(string code, bool many, Other other) => {expression}; }}\npublic sealed class Other {{ public object Stop(string code) => code; }}"),
                new("f.cs", "namespace Lampblack.Findings;\npublic sealed record Finding(string Code, string Message)\n{\n"
                    + "public static Finding Stop(string code, string message) => new(code, message);\n"
                    + "public static Finding Warn(string code, string message) => new(code, message);\n"
                    + "public static Finding Note(string code, string message) => new(code, message);\n}"),
            ],
            LiveCode.References);
        Offences.AssertNone(SourceCompiler.Blind(compilation));
        return compilation;
    }
}
