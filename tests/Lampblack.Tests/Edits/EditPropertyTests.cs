using System;
using System.Collections.Generic;
using System.Linq;
using System.Text;
using CsCheck;
using Lampblack.Desks;
using Lampblack.Edits;
using Lampblack.Findings;
using Lampblack.Tests.Suites;
using Xunit;

namespace Lampblack.Tests.Edits;

/// <summary>Random edits of examples and of desks that are written in every way: the text and the desk change by what was asked, and by nothing else.</summary>
public sealed class EditPropertyTests
{
    private static readonly int Rounds = ExampleDesks.IsLong ? 20_000 : 1_500;

    [Fact]
    public void A_scribbled_desk_changes_by_what_was_asked_and_by_nothing_else()
    {
        var done = new Dictionary<string, int>();
        Gen.Int[0, 1_000_000_000].Sample(
            seed =>
            {
                var bytes = Encoding.UTF8.GetBytes(ScribbledDesk.Of(seed));
                Row(bytes, new(seed + 1), 4, done);
            },
            iter: Rounds,
            threads: 1);

        // Every kind of edit was made many times.
        Assert.Equal(9, done.Keys.Count(name => name != "none" && name != "refused"));
        Assert.True(done.All(kind => kind.Key == "refused" || kind.Value >= Rounds / 40), string.Join(", ", done));
        Assert.True(done.GetValueOrDefault("refused") <= done.Values.Sum() / 50, string.Join(", ", done));
    }

    [Fact]
    public void An_example_changes_by_what_was_asked_and_by_nothing_else()
    {
        var done = new Dictionary<string, int>();
        foreach (var name in ExampleDesks.Names)
        {
            for (var seed = 0; seed < Rounds / 100; seed++)
            {
                Row(ExampleDesks.Bytes(name), new(seed), 3, done);
            }
        }
    }

    [Fact]
    public void Damaged_desks_are_edited_or_left_alone_and_nothing_is_thrown()
    {
        var (changed, refused) = (0, 0);
        foreach (var name in ExampleDesks.Names)
        {
            var mutants = new DeskMutants(ExampleDesks.Bytes(name));
            var whole = DeskReader.Read("desk.toml", ExampleDesks.Bytes(name)).Value;
            for (var number = 0; number < Rounds / 4; number++)
            {
                var bytes = mutants.Of(number);
                var read = DeskReader.Read("desk.toml", bytes).Value;
                var random = new Random(number);
                var edit = EditModel.Of(random.Next(2) == 0 && read.Panels.Any(panel => !panel.Items.IsEmpty) ? read : whole, random)?.Edit ?? new MoveItems([new("main/fixing-1", 1, 1)]);
                var result = EditCase.Apply(bytes, edit);
                EditCase.AssertChanges(bytes, result);
                Assert.True(!result.IsRefused || result.Changes.IsEmpty);
                changed += result.Changes.IsEmpty ? 0 : 1;
                refused += result.IsRefused ? 1 : 0;
            }
        }

        Assert.True(changed > Rounds / 20 && refused > Rounds / 20, $"{changed} changed, {refused} refused");
    }

    /// <summary>Several edits upon each other.</summary>
    private static void Row(byte[] bytes, Random random, int length, Dictionary<string, int> done)
    {
        for (var step = 0; step < length; step++)
        {
            var before = DeskReader.Read("desk.toml", bytes);
            Assert.Empty(before.Findings.Where(finding => finding.Severity == Severity.Stop).Select(finding => finding.Message));
            if (EditModel.Of(before.Value, random) is not { } model)
            {
                continue;
            }

            var result = EditCase.Apply(bytes, model.Edit);
            EditCase.AssertChanges(bytes, result);
            var kind = result.IsRefused ? "refused" : model.Edit.GetType().Name;
            done[kind] = done.GetValueOrDefault(kind) + 1;
            if (result.IsRefused)
            {
                Assert.True(IsExpected(result.Findings[0].Message), $"{model.Edit}: {result.Findings[0].Message}\n{Encoding.UTF8.GetString(bytes)}");
                continue;
            }

            var after = DeskReader.Read("desk.toml", result.Bytes.AsSpan());
            DeskPrint.AssertAlike(model.Or is { } or && DeskPrint.AreAlike(or, after.Value, model.WithIds) ? or : model.After, after.Value, model.WithIds);
            Assert.All(result.Items, name => Assert.Contains(after.Value.Panels, panel => panel.Items.Any(item => $"{panel.Id}/{item.Id}" == name)));
            bytes = [.. result.Bytes];
        }
    }

    /// <summary>What a random edit may be refused for: copies on one spot, too many marks.</summary>
    private static bool IsExpected(string message) => message.Contains("the desk file could not be used afterwards", StringComparison.Ordinal);
}
