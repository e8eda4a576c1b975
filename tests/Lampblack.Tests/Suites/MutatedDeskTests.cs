using System;
using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Text;
using System.Threading;
using Lampblack.Artwork;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Layout;
using Xunit;

namespace Lampblack.Tests.Suites;

/// <summary>Whatever a desk file holds: nothing is thrown, everything ends, and it is either built or stopped with a place in the file.</summary>
public sealed class MutatedDeskTests
{
    public static TheoryData<string> Examples => [.. ExampleDesks.Names];

    [Fact]
    public void There_are_examples_to_mutate() => Assert.NotEmpty(ExampleDesks.Names);

    [Theory]
    [MemberData(nameof(Examples))]
    public void A_mutated_desk_is_read_and_laid_out_or_stopped_at_a_place_in_the_file(string example)
    {
        var mutants = new DeskMutants(ExampleDesks.Bytes(example));
        var count = (ExampleDesks.IsLong ? 100_000 : 10_000) / ExampleDesks.Names.Length;
        var seen = new ConcurrentDictionary<string, int>(StringComparer.Ordinal);
        HangGuard.Run(
            count,
            number =>
            {
                var bytes = mutants.Of(number);
                var desk = DeskReader.Read("desk.toml", bytes);
                CheckPlaces(bytes, desk.Findings);
                var laid = DeskLayout.Place(desk.Value, FontShelf.Bundled);
                CheckPlaces(bytes, laid.Findings);
                var stopped = desk.HasStop || laid.HasStop;
                if (!stopped)
                {
                    Assert.NotEmpty(laid.Value.Panels);
                    _ = laid.Value.Panels.Select(PanelArtwork.Draw).Count(artwork => artwork.Marks.Length > 0);
                }

                Count(seen, stopped ? "stopped" : "laid out");
                foreach (var code in desk.Findings.Concat(laid.Findings).Select(finding => finding.Code).Distinct())
                {
                    Count(seen, "finding " + code);
                }
            },
            mutants.Describe);
        Tell(example, seen);

        // Mutants that are all refused, or all let through, would test little.
        Assert.InRange(seen["laid out"], count / 10, count * 9 / 10);
        Assert.InRange(seen.Keys.Count(key => key.StartsWith("finding ", StringComparison.Ordinal)), 20, 1000);
    }

    [Theory]
    [MemberData(nameof(Examples))]
    public void A_mutated_desk_is_built_or_stopped_with_nothing_written(string example)
    {
        var mutants = new DeskMutants(ExampleDesks.Bytes(example));
        var count = (ExampleDesks.IsLong ? 3_000 : 200) / ExampleDesks.Names.Length;
        var seen = new ConcurrentDictionary<string, int>(StringComparer.Ordinal);
        HangGuard.Run(
            count,
            number =>
            {
                // Numbers that the test above has not used in its everyday run.
                var bytes = mutants.Of(1_000_000 + number);
                var parts = number % 40 == 0 ? BuildParts.All : BuildParts.Print;
                var result = Build.Run(ExampleDesks.Source(example, bytes), new("A4", "option", Parts: parts), new Progress<string>(), CancellationToken.None);
                CheckPlaces(bytes, result.Findings);
                var stops = result.Findings.Where(finding => finding.Severity == Severity.Stop).ToList();
                Assert.Equal(stops.Count == 0, !result.Files.IsEmpty);
                Assert.All(stops, stop => Assert.NotNull(stop.Span));
                if (stops.Count == 0)
                {
                    Assert.All(result.Files, file => Assert.NotEmpty(file.Bytes));
                    Assert.Contains(result.Files, file => file.Path == "sheet-1/front.pdf");
                    Assert.Equal(parts == BuildParts.All, result.Files.Any(file => file.Path.EndsWith("/lit.png", StringComparison.Ordinal)));
                }

                Count(seen, stops.Count == 0 ? "built" : "stopped");
                foreach (var code in result.Findings.Select(finding => finding.Code).Distinct())
                {
                    Count(seen, "finding " + code);
                }
            },
            number => mutants.Describe(1_000_000 + number));
        Tell(example, seen);
        Assert.InRange(seen["built"], count / 10, count * 9 / 10);
    }

    /// <summary>Every place lies in the file, and its line and column are those of its offset, counted here anew.</summary>
    private static void CheckPlaces(byte[] bytes, ImmutableArray<Finding> findings)
    {
        var text = Encoding.UTF8.GetString(bytes.AsSpan().StartsWith(Encoding.UTF8.Preamble) ? bytes.AsSpan(3) : bytes);
        foreach (var finding in findings)
        {
            Assert.DoesNotContain(finding.Message + finding.Hint, char.IsControl);
            Assert.False(string.IsNullOrWhiteSpace(finding.Message));
            if (finding.Span is not { } span)
            {
                continue;
            }

            Assert.True(span.Offset >= 0 && span.Length >= 0 && span.Offset + span.Length <= text.Length, $"{finding}");
            var before = text.AsSpan(0, span.Offset);
            var line = before.Count('\n') + 1;
            var column = before[(before.LastIndexOf('\n') + 1)..].ToString().Count(unit => !char.IsLowSurrogate(unit)) + 1;
            Assert.True((line, column) == (span.Line, span.Column), $"{finding}: offset {span.Offset} is at {line}:{column}");
        }
    }

    private static void Count(ConcurrentDictionary<string, int> seen, string what) => seen.AddOrUpdate(what, 1, (_, before) => before + 1);

    private static void Tell(string example, ConcurrentDictionary<string, int> seen) => TestContext.Current.TestOutputHelper?.WriteLine(
        example + "\n" + string.Join('\n', seen.OrderBy(pair => pair.Key, StringComparer.Ordinal).Select(pair => string.Create(CultureInfo.InvariantCulture, $"{pair.Value,7} {pair.Key}"))));
}
