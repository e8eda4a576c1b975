using System;
using System.Collections.Generic;
using System.Linq;
using Xunit;

namespace Lampblack.Tests.Architecture;

public sealed class FileLengthTests
{
    private const int LimitLines = 350;

    /// <summary>Files that may be longer because they are tables, each with what it tabulates.</summary>
    private static readonly Dictionary<string, string> Tables = [];

    [Fact]
    public void No_source_is_longer_than_a_reader_can_hold_unless_it_is_a_table() => Offences.AssertNone(
        TooLong(Repository.Sources("src", ".cs", ".razor", ".js", ".css"), Tables));

    [Theory]
    [InlineData(350, false, 0)]
    [InlineData(351, false, 1)]
    [InlineData(351, true, 0)]
    [InlineData(350, true, 1)]
    public void A_long_file_needs_its_exception_and_a_short_one_must_not_have_it(int lines, bool listed, int count) => Assert.Equal(
        count,
        TooLong(
            [new("src/A.cs", string.Concat(Enumerable.Repeat("//\n", lines)))],
            listed ? new Dictionary<string, string> { ["src/A.cs"] = "a table of lines" } : []).Count());

    [Fact]
    public void An_exception_for_a_file_that_is_gone_is_an_offence() =>
        Assert.Single(TooLong([], new Dictionary<string, string> { ["src/A.cs"] = "a table of lines" }));

    private static IEnumerable<string> TooLong(IEnumerable<SourceFile> sources, Dictionary<string, string> tables)
    {
        var lines = sources.ToDictionary(source => source.Path, source => source.Text.TrimEnd().ReplaceLineEndings("\n").Split('\n').Length);
        return
        [
            .. lines.Where(file => file.Value > LimitLines && !tables.ContainsKey(file.Key))
                .Select(file => FormattableString.Invariant($"{file.Key}: {file.Value} lines, {LimitLines} are allowed")),
            .. tables.Keys.Where(path => lines.GetValueOrDefault(path) <= LimitLines)
                .Select(path => $"{path} is listed as a long table, but is not one"),
        ];
    }
}
