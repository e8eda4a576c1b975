using System;
using System.Linq;
using System.Text;
using Lampblack.Jobs;
using Lampblack.Tests.Suites;
using Xunit;

namespace Lampblack.Tests.Workshop;

/// <summary>Facts on tags are what the file says, and what is written on a tag is what the file says then.</summary>
public sealed class ItemFactTests
{
    private static readonly BuildRequest Request = new("A4", "option", Parts: BuildParts.None);

    private const string Desk = """
        lampblack = 1
        [[panel]]
        id = "p"
        size = [120, 60]
          [[panel.control]]
          id = "heat"
          part = "pot-9mm"
          at = [25, "1 in"]
          legend = "HEAT"
          dial = { from = 0, to = 10, major = 2 }
          [[panel.control]]
          id = "pump"
          part = "toggle-mini-on-on"
          at = [60, 25]
          row = { count = 2, step = 30 }
          legends = ["ONE", "TWO"]
          states = ["ON", "OFF"]
        """;

    [Theory]
    [InlineData("p/heat", "legend", "HEAT")]
    [InlineData("p/heat", "at", "25, 1 in")]
    [InlineData("p/heat", "dial.to", "10")]
    [InlineData("p/heat", "ink", "")]
    [InlineData("p/pump", "legends", "ONE, TWO")]
    [InlineData("p/pump", "row.count", "2")]
    public void A_tag_says_what_the_file_says(string item, string key, string value) => Assert.Equal(value, Fact(Desk, item, key).Value);

    [Theory]
    [InlineData("p/heat", "legend", "HEATER\nTWO", "legend = [\"HEATER\", \"TWO\"]")]
    [InlineData("p/heat", "ink", "amber", "ink = \"amber\"")]
    [InlineData("p/heat", "gap", "1/8 in", "gap = \"1/8 in\"")]
    [InlineData("p/heat", "gap", "3.5", "gap = 3.5")]
    [InlineData("p/heat", "at", "30, 20", "at = [30, \"0.7874 in\"]")]
    [InlineData("p/heat", "dial.to", "12", "to = 12")]
    [InlineData("p/heat", "dial.ranges", "8 to 10 amber", "ranges = [{ from = 8, to = 10, ink = \"amber\" }]")]
    [InlineData("p/pump", "states", "OPEN, SHUT", "states = [\"OPEN\", \"SHUT\"]")]
    [InlineData("p/pump", "row.step", "28", "step = 28")]
    public void What_is_written_on_a_tag_stands_in_the_file(string item, string key, string typed, string written)
    {
        var source = ExampleDesks.Alone(Encoding.UTF8.GetBytes(Desk));
        var result = Edit.Apply(source, FactEdits.Of(item, Fact(Desk, item, key), typed));
        Assert.Empty(result.Findings.Where(finding => finding.Severity == Lampblack.Findings.Severity.Stop).Select(finding => finding.Message));
        Assert.Contains(written, Encoding.UTF8.GetString(result.Bytes.AsSpan()), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("p/heat", "ink", "mauvish")]
    [InlineData("p/heat", "gap", "a bit")]
    [InlineData("p/heat", "dial.to", "ten")]
    [InlineData("p/heat", "dial.ranges", "8")]
    [InlineData("p/heat", "part", "no-such-part")]
    public void What_the_desk_cannot_read_is_refused_with_a_reason(string item, string key, string typed)
    {
        var source = ExampleDesks.Alone(Encoding.UTF8.GetBytes(Desk));
        var result = Edit.Apply(source, FactEdits.Of(item, Fact(Desk, item, key), typed));
        Assert.True(result.IsRefused);
        Assert.Equal(source.Bytes.AsEnumerable(), result.Bytes);
    }

    [Fact]
    public void An_emptied_tag_takes_the_key_away()
    {
        var with = Desk.Replace("legend = \"HEAT\"", "legend = \"HEAT\"\n  gap = 4", StringComparison.Ordinal);
        var result = Edit.Apply(ExampleDesks.Alone(Encoding.UTF8.GetBytes(with)), FactEdits.Of("p/heat", Fact(with, "p/heat", "gap"), " "));
        Assert.Equal(Desk, Encoding.UTF8.GetString(result.Bytes.AsSpan()));
    }

    [Fact]
    public void Every_item_of_the_examples_has_facts_that_can_be_read()
    {
        foreach (var example in new[] { "dome-desk", "yard-board", "kiln", "gauge" })
        {
            var view = DeskView.Of(ExampleDesks.Source(example), Request);
            Assert.All(view.Panels.SelectMany(panel => panel.Items).Where(item => item.Kind != ItemKind.Fixing), item => Assert.Contains(view.FactsOf(item.TableAddress), fact => fact.Key == "role"));
            Assert.Equal(["title", "lighting.colour"], view.DeskFacts.Select(fact => fact.Key));
        }
    }

    [Fact]
    public void The_shelf_has_every_part_that_can_be_put_on_a_panel_once()
    {
        var drawers = PartShelf.Of(View(Desk));
        var parts = drawers.SelectMany(drawer => drawer.Parts).ToList();
        Assert.Equal(Lampblack.Parts.PartCatalogue.BuiltIn.All.Where(part => part.Class != Lampblack.Parts.PartClass.Screw).Select(part => part.Id).Order(StringComparer.Ordinal), parts.Select(part => part.Id).Order(StringComparer.Ordinal));
        Assert.All(parts, part => Assert.True(part.Hole.Length > 0 && part.WidthMm > 0 && part.HeightMm > 0, part.Id));
        Assert.Distinct(drawers.Select(drawer => drawer.Name));
    }

    [Fact]
    public void Plates_and_the_way_of_cutting_say_what_the_file_says()
    {
        Assert.Equal([("cutting.way", "", ""), ("cutting.kerf", "", "0"), ("cutting.spares", "", "0")], View(Desk).CuttingFacts.Select(fact => (fact.Key, fact.Value, fact.Usual)));
        Assert.Empty(View(Desk).Plates);
        const string Cutting = "[cutting]\nway = \"saw\"\nspares = { p = 2 }\n[[stock]]\nsize = [300, \"20 in\"]\nprice = 4.5\n[[stock]]\nid = \"shed\"\nsize = [200, 150]\ncount = 3\nthickness = 4\n";
        var view = View(Desk + "\n" + Cutting);
        Assert.Equal([("cutting.way", "saw", ""), ("cutting.kerf", "", "3"), ("cutting.spares.p", "2", "0")], view.CuttingFacts.Select(fact => (fact.Key, fact.Value, fact.Usual)));
        Assert.Equal([("stock[1]", "plate-1"), ("stock[2]", "shed")], view.Plates.Select(plates => (plates.Address, plates.Name)));
        Assert.Equal(["300, 20 in", "", "4.5", ""], view.Plates[0].Facts.Select(fact => fact.Value));
        Assert.Equal(["200, 150", "3", "", "4"], view.Plates[1].Facts.Select(fact => fact.Value));
        Assert.Equal(["", "as needed", "0", "3"], view.Plates[1].Facts.Select(fact => fact.Usual));
        Assert.Equal(new Lampblack.Edits.AddPlate(200, 150), view.AnotherPlate);
        Assert.Equal(new Lampblack.Edits.AddPlate(300, 400), View(Desk).AnotherPlate);
    }

    [Theory]
    [InlineData("size", "250 x 200", "size = [250, 200]")]
    [InlineData("size", "10 in x 8 in", "size = [\"10 in\", \"8 in\"]")]
    [InlineData("size", "250, 200", "size = [250, 200]")]
    [InlineData("count", "4", "count = 4")]
    [InlineData("price", "2.75", "price = 2.75")]
    [InlineData("thickness", "1/8 in", "thickness = \"1/8 in\"")]
    public void What_is_written_of_plates_stands_in_the_file(string key, string typed, string written)
    {
        var desk = Desk + "\n[[stock]]\nsize = [99, 98]\n";
        var plates = View(desk).Plates.Single();
        var result = Edit.Apply(ExampleDesks.Alone(Encoding.UTF8.GetBytes(desk)), FactEdits.Of(plates.Address, plates.Facts.Single(fact => fact.Key == key), typed));
        Assert.Empty(result.Findings.Where(finding => finding.Severity == Lampblack.Findings.Severity.Stop).Select(finding => finding.Message));
        Assert.Contains(written, Encoding.UTF8.GetString(result.Bytes.AsSpan()), StringComparison.Ordinal);
    }

    private static DeskView View(string desk) => DeskView.Of(ExampleDesks.Alone(Encoding.UTF8.GetBytes(desk)), Request);

    private static ItemFact Fact(string desk, string item, string key) => View(desk).FactsOf(item).Single(fact => fact.Key == key);
}
