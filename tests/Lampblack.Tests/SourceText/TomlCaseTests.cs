using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Xunit;

namespace Lampblack.Tests.SourceText;

/// <summary>
/// Runs case files. A case is a line <c>=== name</c>, the text, a line <c>---</c>, then what must come of it: a line for each finding,
/// <c>(line,column)+length code: message</c>, and a last line with the tree. The text's last line break belongs to it.
/// </summary>
public sealed class TomlCaseTests
{
    /// <summary>Names of all cases.</summary>
    public static TheoryData<string, string> Names()
    {
        var names = new TheoryData<string, string>();
        foreach (var file in new[] { "rules.txt", "faults.txt" })
        {
            foreach (var (name, _, _) in Cases(file))
            {
                names.Add(file, name);
            }
        }

        return names;
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void A_text_gives_just_the_findings_and_the_tree_of_its_case(string file, string name)
    {
        var (_, text, expected) = Cases(file).Single(found => found.Name == name);
        var read = TreeText.Read(text);
        var actual = read.Findings.Select(finding => string.Create(
            CultureInfo.InvariantCulture,
            $"({finding.Span!.Line},{finding.Span.Column})+{finding.Span.Length} {finding.Code}: {finding.Message}"));
        Assert.Equal(expected, [.. actual, TreeText.Of(read.Value)]);
        Assert.All(read.Findings, finding => Assert.NotEmpty(finding.Hint));
    }

    [Fact]
    public void No_two_cases_have_one_name() => Assert.All(["rules.txt", "faults.txt"], file =>
        Assert.Equal(Cases(file).Count, Cases(file).Select(found => found.Name).Distinct().Count()));

    private static List<(string Name, string Text, List<string> Expected)> Cases(string file)
    {
        var cases = new List<(string, string, List<string>)>();
        foreach (var block in TreeText.File(file).ReplaceLineEndings("\n").Split("\n=== ").Skip(1))
        {
            var nameEnd = block.IndexOf('\n', StringComparison.Ordinal);
            var parts = block[(nameEnd + 1)..].Split("---\n");
            Assert.True(parts.Length == 2, $"the case {block[..nameEnd]} has no single line of ---");
            cases.Add((block[..nameEnd], parts[0], [.. parts[1].Split('\n').Where(line => line.Length > 0)]));
        }

        return cases;
    }
}
