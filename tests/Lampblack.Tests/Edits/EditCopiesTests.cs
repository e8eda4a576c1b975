using System;
using System.Collections.Generic;
using Lampblack.Edits;
using Xunit;

namespace Lampblack.Tests.Edits;

/// <summary>Turns, copies, rows and new panels, each with the exact text that comes of it. All desks are invented.</summary>
public sealed class EditCopiesTests
{
    private const string Head = "lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [120, 60]\n";

    private const string Lamp = "\n  # a lamp 🔥\n  [[panel.control]]\n  id = \"lamp\"\n  part = \"hole-6\"   # plain\n  at = [20, 20]\n";

    private const string Row = "\n  # three\n  [[panel.control]]\n  id = \"go\"\n  part = \"hole-6\"\n  at = [\"20 mm\", 20.0]\n  row = { count = 3, step = [10, 1] } # close\n  legends = [\"A\", \"\", \"C\\nD\"]\n";

    private static readonly Dictionary<string, EditCase> Cases = new()
    {
        ["a turn"] = new(Head + Lamp, new TurnItems(["p/lamp"], -90), Head + Lamp.Replace("20]\n", "20]\n  turn = -90\n", StringComparison.Ordinal), "lamp turned 90 degrees left", "p/lamp"),
        ["a turn more"] = new(Head + Lamp + "  turn = 170 # over\n", new TurnItems(["p/lamp"], 20), Head + Lamp + "  turn = -170 # over\n", "lamp turned 20 degrees right"),
        ["a full turn"] = new(Head + Lamp + "  turn = 270\n", new TurnItems(["p/lamp"], 360), Head + Lamp + "  turn = 270\n"),
        ["a panel behind all others"] = new(Head + Lamp + "  # gap = 3\n\n# the end\n", new AddPanel("q", "Größe", 100, 50.5), Head + Lamp + "  # gap = 3\n\n[[panel]]\nid = \"q\"\ntitle = \"Größe\"\nsize = [100, 50.5]\n\n# the end\n", "panel q added", "q"),
        ["the first panel"] = new("lampblack = 1\r\n# nothing yet\r\n", new AddPanel("q", "", 100, 50), "lampblack = 1\r\n# nothing yet\r\n\r\n[[panel]]\r\nid = \"q\"\r\nsize = [100, 50]\r\n"),
        ["a panel between braces"] = new("lampblack = 1\npanel = [\n  { id = \"p\", size = [50, 50] }\n]\n", new AddPanel("q", "", 100, 50), "lampblack = 1\npanel = [\n  { id = \"p\", size = [50, 50] },\n  { id = \"q\", size = [100, 50] }\n]\n"),
        ["a copy"] = new(Head + Lamp + "  drilled = [0, 0.1]\n", new CopyItems(["p/lamp"], 10, 0), Head + Lamp + "  drilled = [0, 0.1]\n" + Lamp.Replace("\"lamp\"", "\"lamp-2\"", StringComparison.Ordinal).Replace("[20,", "[30,", StringComparison.Ordinal), "lamp copied", "p/lamp-2"),
        ["a copy of a copy, and one without an id"] = new(
            Head + Lamp.Replace("lamp\"", "lamp-7\"", StringComparison.Ordinal) + "\n  [[panel.legend]]\n  text = \"X\"\n  at = [1, 1]\n",
            new CopyItems(["p/legend-1", "p/lamp-7"], 0, 5),
            Head + Lamp.Replace("lamp\"", "lamp-7\"", StringComparison.Ordinal) + "\n  [[panel.legend]]\n  text = \"X\"\n  at = [1, 1]\n"
                + Lamp.Replace("lamp\"", "lamp-8\"", StringComparison.Ordinal).Replace("20]", "25]", StringComparison.Ordinal) + "\n  [[panel.legend]]\n  id = \"legend-2\"\n  text = \"X\"\n  at = [1, 6]\n",
            "2 items copied",
            "p/lamp-8 p/legend-2"),
        ["a copy with its sub-header"] = new(Head + Lamp + "\n    # its copies\n    [panel.control.row]\n    count = 2\n    step = 9\n", new CopyItems(["p/lamp"], 0, 20), Head + Lamp + "\n    # its copies\n    [panel.control.row]\n    count = 2\n    step = 9\n" + (Lamp + "\n    # its copies\n    [panel.control.row]\n    count = 2\n    step = 9\n").Replace("\"lamp\"", "\"lamp-2\"", StringComparison.Ordinal).Replace(", 20]", ", 40]", StringComparison.Ordinal)),
        ["a copy between braces"] = new("lampblack = 1\npanel = [{ id = \"p\", size = [50, 50], legend = [{ text = \"X\", at = [1, 1] }] }]\n", new CopyItems(["p/legend-1"], 1, 1), "lampblack = 1\npanel = [{ id = \"p\", size = [50, 50], legend = [{ text = \"X\", at = [1, 1] }, { id = \"legend-2\", text = \"X\", at = [2, 2] }] }]\n"),
        ["a row"] = new(Head + Lamp, new Repeat("p/lamp", 4, 1, 15.5, 0), Head + Lamp.Replace("20]\n", "20]\n  row = { count = 4, step = 15.5 }\n", StringComparison.Ordinal), "lamp repeated 4 times"),
        ["a row that climbs"] = new(Head + Lamp, new Repeat("p/lamp", 4, 1, 15, 2), Head + Lamp.Replace("20]\n", "20]\n  row = { count = 4, step = [15, 2] }\n", StringComparison.Ordinal)),
        ["a row made longer"] = new(Head + Row, new Repeat("p/go", 4, 1, 10, 1), Head + Row.Replace("count = 3", "count = 4", StringComparison.Ordinal).Replace("\"C\\nD\"]", "\"C\\nD\", \"\"]", StringComparison.Ordinal)),
        ["a row made a grid"] = new(Head + Row, new Repeat("p/go", 2, 2, 10, 12), Head + "\n  # three\n  [[panel.control]]\n  id = \"go\"\n  part = \"hole-6\"\n  at = [\"20 mm\", 20.0]\n  grid = { columns = 2, rows = 2, step = [10, 12] }\n  # close\n  legends = [\"A\", \"\", \"\", \"\"]\n", "go repeated in 2 columns and 2 rows"),
        ["single again"] = new(Head + Row, new Repeat("p/go", 1, 1, 0, 0), Head + Row.Replace("  row = { count = 3, step = [10, 1] } # close\n  legends = [\"A\", \"\", \"C\\nD\"]\n", "  # close\n  legend = \"A\"\n", StringComparison.Ordinal), "go is single again"),
        ["a row split"] = new(
            Head + Row + Lamp,
            new SplitCopies("p/go"),
            Head + One(1, "\"20 mm\", 20.0", "  legend = \"A\"\n") + One(2, "\"30 mm\", 21.0", "") + One(3, "\"40 mm\", 22.0", "  legend = \"C\\nD\"\n") + Lamp,
            "go split into 3 single items",
            "p/go-1 p/go-2 p/go-3"),
        ["a grid split behind one without an id"] = new(
            Head + "[[panel.area]]\ndisc = [10, 40, 1]\n  [panel.area.grid]\n  columns = 2\n  rows = 2\n  step = 5\n[[panel.area]]\ndisc = [1, 1, 1]\n",
            new SplitCopies("p/area-1"),
            Head + "[[panel.area]]\nid = \"area-1-1\"\ndisc = [10, 40, 1]\n[[panel.area]]\ndisc = [1, 1, 1]\n[[panel.area]]\nid = \"area-1-2\"\ndisc = [15, 40, 1]\n[[panel.area]]\nid = \"area-1-3\"\ndisc = [10, 35, 1]\n[[panel.area]]\nid = \"area-1-4\"\ndisc = [15, 35, 1]\n"),
        ["a row between braces split"] = new(
            "lampblack = 1\npanel = [{ id = \"p\", size = [50, 50], legend = [\n  { id = \"n\", texts = [\"1\", \"2\"], at = [1, 1], row = { count = 2, step = 9 } },\n] }]\n",
            new SplitCopies("p/n"),
            "lampblack = 1\npanel = [{ id = \"p\", size = [50, 50], legend = [\n  { id = \"n-1\", text = \"1\", at = [1, 1] }, { id = \"n-2\", text = \"2\", at = [10, 1] },\n] }]\n"),
    };

    public static TheoryData<string> Names => [.. Cases.Keys];

    [Theory]
    [MemberData(nameof(Names))]
    public void An_edit_exchanges_what_it_says_and_nothing_else(string name) => Cases[name].Check();

    [Fact]
    public void What_cannot_be_done_is_told_and_left_alone()
    {
        const string Desk = Head + "[[panel.area]]\nid = \"a\"\ndisc = [9, 9, 1]\n[[panel.control]]\nid = \"c\"\npart = \"hole-6\"\nat = [20, 20]\ndrilled = [0, 0.1]\n[[panel.control]]\nid = \"r\"\npart = \"hole-6\"\nat = [20, 40]\nrow = { count = 2, step = 9 }\n";
        foreach (var edit in new DeskEdit[]
        {
            new TurnItems(["p/a"], 90), new TurnItems(["p/c"], double.NaN), new Repeat("p/a", 0, 1, 1, 1), new Repeat("p/c", 3, 1, 10, 0), new Repeat("p/a", 3, 1, 0.01, 0), new SplitCopies("p/c"), new SplitCopies("p"),
            new AddPanel("p", "", 50, 50), new AddPanel("Q", "", 50, 50), new AddPanel("q", "", 5, 50), new AddPanel("q", "", double.PositiveInfinity, 50), new CopyItems(["p"], 1, 1), new CopyItems(["p/c"], 9999, 1),
            new RemoveItems(["p"]), new RemoveItems(["p/r.2"]), new RemoveItems(["lampblack"]), new AddItem("p", "control", [("part", KeyValue.Of("hole-6"))]), new AddItem("p", "knob", []), new AddItem("x", "area", []),
            new AddItem("p", "area", [("id", KeyValue.Of("c")), ("disc", new KeyList([new KeyNumber(1), new KeyNumber(1), new KeyNumber(1)]))]), new AddItem("p", "area", [("disc", new KeyNumber(double.NaN))]),
            new SetKey("p/c", "", KeyValue.Of("x")), new SetKey("p/c", "a..b", KeyValue.Of("x")), new SetKey("p/c", "at.x", new KeyNumber(3)), new SetKey("p/c", "heigth", new KeyNumber(3)), new SetKey("p/c", "height", new KeyNumber(double.NaN)),
            new SetWords("p/a", ["X"]), new SetWords("p/c", ["X"], State: 1), new SetWords("p/r", ["X"], Copy: 3), new SetWords("p/c", ["X\u0001"]), new MoveItems([new("p/a", double.NaN, 1)]), new MoveItems([new("p/r.1", 1, 1), new("p/r.2", 2, 2)]),
            new MoveItems([new("p/fixing-1", 1, 1)]), new SetKey("", "lampblack", null),
        })
        {
            var result = EditCase.Apply(Desk, edit);
            Assert.True(result.IsRefused, edit.ToString());
            Assert.Equal("edit-refused", Assert.Single(result.Findings).Code);
            Assert.Equal(Desk, System.Text.Encoding.UTF8.GetString(result.Bytes.AsSpan()));
            Assert.Empty(result.Changes);
            Assert.StartsWith("Not possible: ", EditCase.Cost(Desk, edit), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void An_edit_tells_what_it_costs_before_it_is_made()
    {
        const string Desk = Head + "[[panel.control]]\nid = \"a\"\npart = \"hole-6\"\nat = [20, 20]\ndrilled = [0, 0.1]\n[[panel.control]]\nid = \"b\"\npart = \"hole-6\"\nat = [20, 40]\n";
        foreach (var (edit, sentence) in new (DeskEdit, string)[]
        {
            (new SetWords("p/a", ["KILN"]), "A new print only."),
            (new SetKey("p/a", "id", KeyValue.Of("c")), "A new print only. Wiring changes: p/a."),
            (new MoveItems([new("p/b", 1, 0)]), "A new print, and a new hole where the plate is drilled already: p/b."),
            (new MoveItems([new("p/a", 1, 0)]), "A new plate, as holes that are drilled no longer fit: p/a."),
            (new SetKey("p", "size", new KeyList([new KeyNumber(130), new KeyNumber(60)])), "A new plate, as holes that are drilled no longer fit: p."),
            (new RemoveItems(["p/a"]), "A new plate, as holes that are drilled no longer fit: p/a. Wiring changes: p/a."),
            (new CopyItems(["p/a"], 40, 0), "A new print, and a new hole where the plate is drilled already: p/a-2. Wiring changes: p/a-2."),
            (new SetKey("p/b", "part", KeyValue.Of("toggle-mini-on-on")), "A new print, and a new hole where the plate is drilled already: p/b. Wiring changes: p/b."),
            (new MoveItems([new("p/a", 0, 0)]), "Nothing changes."),
        })
        {
            Assert.Equal(sentence, EditCase.Cost(Desk, edit));
        }
    }

    private static string One(int number, string at, string legend) =>
        FormattableString.Invariant($"\n  # three\n  [[panel.control]]\n  id = \"go-{number}\"\n  part = \"hole-6\"\n  at = [{at}]\n  # close\n{legend}");
}
