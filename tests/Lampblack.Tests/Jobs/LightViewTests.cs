using System;
using System.Globalization;
using System.Linq;
using System.Text;
using System.Threading;
using Lampblack.Edits;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Tests.Suites;
using Xunit;

namespace Lampblack.Tests.Jobs;

/// <summary>What the station for the light shows, and the edits that it makes. The desk is invented.</summary>
public sealed class LightViewTests
{
    private static readonly Lazy<LightView> Planned = new(() => View(LightFilesTests.Desk));

    private static LitPanel Panel => Assert.Single(Planned.Value.Panels);

    [Fact]
    public void A_panel_is_shown_with_its_plan_its_legends_and_its_cells()
    {
        Assert.Contains("cd/m2 in the mean", Panel.Sentence, StringComparison.Ordinal);
        Assert.NotEmpty(Panel.Proof);
        Assert.Equal(["main/head", "main/low"], Panel.Legends.Select(row => row.Item).Distinct());
        Assert.Single(Panel.Legends, row => row.Share.EndsWith(", brightest", StringComparison.Ordinal));
        Assert.Single(Panel.Legends, row => row.Share.EndsWith(", dimmest", StringComparison.Ordinal));
        var cell = Assert.Single(Panel.Cells);
        Assert.Equal(("main/door", "DOOR", "2"), (cell.TableAddress, cell.Words, cell.Light!.Value));
        Assert.Contains("output 2", cell.Share, StringComparison.Ordinal);
        Assert.Equal(Enumerable.Range(1, Panel.Emitters.Length).Select(number => number.ToString(CultureInfo.InvariantCulture)), Panel.Emitters.Select(emitter => emitter.Number));
        Assert.Contains(Panel.Emitters, emitter => emitter.Channel == "DOOR");
        Assert.NotEmpty(Planned.Value.Circuit);
        Assert.Contains("no mains inside", Planned.Value.Caution, StringComparison.Ordinal);
    }

    [Fact]
    public void The_drawing_has_tints_one_over_the_other_and_everything_that_stands_in_it()
    {
        var whats = Panel.Drawing.Shapes.Select(shape => shape.What).ToList();
        Assert.Equal(whats.Distinct(), whats);
        foreach (var what in new[] { "plate", "tint-0", "lines", "cells", "walls", "emitters", "legends", "frames", "names", "factors" })
        {
            Assert.Contains(what, whats);
        }

        Assert.True(whats.IndexOf("tint-0") < whats.IndexOf("lines") && whats.IndexOf("lines") < whats.IndexOf("legends"));
        Assert.All(Panel.Drawing.Shapes, shape => Assert.StartsWith("M", shape.Path, StringComparison.Ordinal));
    }

    [Fact]
    public void A_plan_is_kept_as_places_in_the_desk_judged_there_and_taken_out_to_the_byte()
    {
        Assert.False(Panel.IsKept);
        var keep = Assert.IsType<KeepEmitters>(Panel.Keep);
        var kept = Apply(LightFilesTests.Desk, keep);
        Assert.Equal(keep.Places.Length, kept.Split("  [[panel.emitter]]\n  at = [").Length - 1);
        Assert.StartsWith(LightFilesTests.Desk.TrimEnd(), kept, StringComparison.Ordinal);
        var judged = Assert.Single(View(kept).Panels);
        Assert.True(judged.IsKept);
        Assert.Contains("judged, not planned", judged.Proof, StringComparison.Ordinal);
        var general = Panel.Emitters.Where(emitter => emitter.Channel == "MAIN").Select(emitter => emitter.Place);
        Assert.Equal(general, judged.Emitters.Where(emitter => emitter.Channel == "MAIN").Select(emitter => emitter.Place));

        // As bright as planned: the current goes with the places.
        Assert.All(Panel.Legends.Zip(judged.Legends), pair => Assert.Equal(Luminance(pair.First), Luminance(pair.Second), 0.02 * Luminance(pair.First)));
        Assert.Equal(LightFilesTests.Desk, Apply(kept, judged.Keep!));
    }

    [Fact]
    public void An_item_s_light_is_written_as_a_word_or_as_the_number_of_an_output()
    {
        var row = Panel.Legends.First(row => row.Item == "main/low");
        Assert.Equal("general", row.Light!.Usual);
        Assert.Contains("light = 3\n", Apply(LightFilesTests.Desk, FactEdits.Of(row.TableAddress, row.Light, "3")), StringComparison.Ordinal);
        var own = Apply(LightFilesTests.Desk, FactEdits.Of(row.TableAddress, row.Light, "own"));
        Assert.Contains("light = \"own\"\n", own, StringComparison.Ordinal);
        Assert.Equal(["main/low", "main/door"], Assert.Single(View(own).Panels).Cells.Select(cell => cell.Item));
    }

    [Fact]
    public void Copies_of_a_row_lead_to_the_table_of_the_row()
    {
        var desk = LightFilesTests.Desk.Replace("height = 4\n  role", "height = 4\n  row = { count = 2, step = 20 }\n  role", StringComparison.Ordinal);
        Assert.Equal([("main/door.1", "main/door", "2"), ("main/door.2", "main/door", "2")], Assert.Single(View(desk).Panels).Cells.Select(cell => (cell.Item, cell.TableAddress, cell.Light!.Value)));
    }

    [Fact]
    public void What_a_plan_goes_by_is_offered_as_facts_of_the_desk()
    {
        var facts = Of(LightFilesTests.Desk).LightingFacts;
        Assert.Equal(
            ["lighting.emitter", "lighting.colour", "lighting.supply", "lighting.depth", "lighting.luminance", "lighting.evenness", "lighting.one-emitter", "lighting.walls", "lighting.floor"],
            facts.Select(fact => fact.Key));
        Assert.Equal(["emitter-3528", "40"], facts.Where(fact => fact.Key is "lighting.emitter" or "lighting.depth").Select(fact => fact.Value));
    }

    [Fact]
    public void A_desk_that_stops_is_not_planned() =>
        Assert.Empty(View(LightFilesTests.Desk.Replace("emitter-3528", "candle", StringComparison.Ordinal)).Panels);

    [Fact]
    public void Work_that_is_ended_ends() =>
        Assert.ThrowsAny<Exception>(() => Of(LightFilesTests.Desk).Light(new Progress<string>(), CancellationToken.None, new CancellationToken(canceled: true)));

    private static double Luminance(LitRow row) => double.Parse(row.Luminance, CultureInfo.InvariantCulture);

    private static DeskView Of(string desk) => DeskView.Of(ExampleDesks.Alone(Encoding.UTF8.GetBytes(desk)), new("A4", "option", Parts: BuildParts.None));

    private static LightView View(string desk) => Of(desk).Light(new Progress<string>(), CancellationToken.None, CancellationToken.None);

    private static string Apply(string desk, DeskEdit edit)
    {
        var result = Edit.Apply(ExampleDesks.Alone(Encoding.UTF8.GetBytes(desk)), edit);
        Assert.DoesNotContain(result.Findings, finding => finding.Severity == Severity.Stop);
        return Encoding.UTF8.GetString(result.Bytes.AsSpan());
    }
}
