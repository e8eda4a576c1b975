using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Edits;
using Xunit;

namespace Lampblack.Tests.Edits;

/// <summary>Edits of the first kinds, each with the exact text that comes of it. All desks are invented.</summary>
public sealed class EditTextTests
{
    private const string Head = "lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [120, 60]\n";

    private const string Shared = "lampblack = 1\npanel = [{ id = \"p\", size = [120, 60], control = [\n  { id = \"a\", part = \"hole-6\", at = [20, 20] },\n  { id = \"b\", part = \"hole-6\", at = [40, 20] },\n  { id = \"c\", part = \"hole-6\", at = [60, 20] }, { id = \"d\", part = \"hole-6\", at = [80, 20] },\n] }]\n";
    private const string Inline = "lampblack = 1\npanel = [{ id = \"p\", size = [120, 60], control = [\n  { id = \"a\", part = \"hole-6\", at = [20, 20] }, # first\n  # the other\n  { part = \"hole-6\", at = [60, 20], legend = \"B\" },\n] }]\n";

    private const string Plates = "# what is in the shed\n[[stock]]\nid = \"shed\"\nsize = [300, 200]\nprice = 4.50\n[[stock]]\nsize = [500, \"20 in\"] # from the shop\n";

    private const string Braces = "lampblack = 1\nstock = [{ id = \"shed\", size = [300, 200] }, { size = [500, 500], count = 1 }]\n";

    private const string Two = """
        lampblack = 1

        # the kiln's board 🔥
        [[panel]]
        id = "p"
        size = [120, 60]

          # heats
          [[panel.control]]
          id = "a" # named
          part = "pot-9mm"
          at = [20, 20]   # left, then up
          legend = "GLAZE"
          dial.from = 0
          dial.to = 10
          # gap = 3

          # cools
          [[panel.control]]
          part = "hole-6"
          at = ["1 in", '30 mm']

            [panel.control.row]
            count = 2 # as bought
            step = 10

        [[panel]]
        id = "q"
        size = [50, 50]
        """;

    private static readonly Dictionary<string, EditCase> Cases = new()
    {
        ["a place"] = new(Head + "[[panel.control]]\nid = \"a\"\npart = \"hole-6\"\nat = [ 20, # x\n  30.50 ] # é\n", Move("p/a", 3, -0.25), Head + "[[panel.control]]\nid = \"a\"\npart = \"hole-6\"\nat = [ 23, # x\n  30.25 ] # é\n", "a moved 3 mm right and 0.25 mm down", "p/a"),
        ["only what changes"] = new(Head + "[[panel.legend]]\nid = \"w\"\ntext = \"RAIN\"\nat = [1e1, 30]\n", Move("p/w", 0, 1), Head + "[[panel.legend]]\nid = \"w\"\ntext = \"RAIN\"\nat = [1e1, 31]\n", "RAIN moved 1 mm up"),
        ["by nothing"] = new(Head + "[[panel.legend]]\ntext = \"RAIN\"\nat = [10, 30]\n", Move("p/legend-1", 0, 0), Head + "[[panel.legend]]\ntext = \"RAIN\"\nat = [10, 30]\n", "", "p/legend-1"),
        ["an id is written down"] = new(Head + "\t[[panel.legend]] # rain\r\n\ttext = \"RAIN\"\r\n\tat = [10, 30]\r\n", Move("p/legend-1", 1, 0), Head + "\t[[panel.legend]] # rain\r\n\tid = \"legend-1\"\r\n\ttext = \"RAIN\"\r\n\tat = [11, 30]\r\n", "", "p/legend-1"),
        ["an item between braces"] = new(Inline, Move("p/control-2", 1, 1), Inline.Replace("{ part = \"hole-6\", at = [60, 20]", "{ id = \"control-2\", part = \"hole-6\", at = [61, 21]", StringComparison.Ordinal)),
        ["inches that fit"] = new(Head + "[[panel.legend]]\nid = \"w\"\ntext = \"RAIN\"\nat = [\"1/4 in\", '1\"']\n", Move("p/w", 1.5875, 25.4), Head + "[[panel.legend]]\nid = \"w\"\ntext = \"RAIN\"\nat = [\"0.3125 in\", '2\"']\n"),
        ["inches that don't"] = new(Head + "[[panel.legend]]\nid = \"w\"\ntext = \"RAIN\"\nat = [\"1/4 in\", \"2,5cm\"]\n", Move("p/w", 3, 3), Head + "[[panel.legend]]\nid = \"w\"\ntext = \"RAIN\"\nat = [\"9.35 mm\", \"2,8cm\"]\n"),
        ["a comma that would be read in two ways"] = new(Head + "[[panel.legend]]\nid = \"w\"\ntext = \"RAIN\"\nat = [\"6,35 mm\", 1]\n", Move("p/w", 0.005, 0), Head + "[[panel.legend]]\nid = \"w\"\ntext = \"RAIN\"\nat = [\"6.355 mm\", 1]\n"),
        ["a line"] = new(Head + "[[panel.rule]]\nid = \"r\"\nline = [[10, 15], # start\n  [\"40 mm\", 15], [60.0, 40]]\nwidth = 2\n", Move("p/r", 1, 2), Head + "[[panel.rule]]\nid = \"r\"\nline = [[11, 17], # start\n  [\"41 mm\", 17], [61.0, 42]]\nwidth = 2\n"),
        ["an arc, a box, a disc and corners"] = new(
            Head + "[[panel.rule]]\nid = \"r\"\narc = [30, 28, 15]\nfrom = 10\n[[panel.area]]\nid = \"b\"\nbox = [1, 2, 30, 40]\n[[panel.area]]\nid = \"d\"\ndisc = [10, 10, 5]\n[[panel.area]]\nid = \"c\"\ncorners = [[1, 1], [9, 1], [5, 5]]\n",
            new MoveItems([new("p/r", 1, 1), new("p/b", 1, 1), new("p/d", 1, 1), new("p/c", 1, 1)]),
            Head + "[[panel.rule]]\nid = \"r\"\narc = [31, 29, 15]\nfrom = 10\n[[panel.area]]\nid = \"b\"\nbox = [2, 3, 30, 40]\n[[panel.area]]\nid = \"d\"\ndisc = [11, 11, 5]\n[[panel.area]]\nid = \"c\"\ncorners = [[2, 2], [10, 2], [6, 6]]\n",
            "4 items moved 1 mm right and 1 mm up"),
        ["art in the corner"] = new(Head + "[[panel.art]]\nfile = \"a.svg\" # drawn\nwidth = 20\n", Move("p/art-1", 3, 4.5), Head + "[[panel.art]]\nid = \"art-1\"\nfile = \"a.svg\" # drawn\nat = [3, 4.5]\nwidth = 20\n"),
        ["a copy moves its row"] = new(Two, Move("p/control-2.2", 2.54, 0), Two.Replace("  part = \"hole-6\"\n", "  id = \"control-2\"\n  part = \"hole-6\"\n", StringComparison.Ordinal).Replace("\"1 in\"", "\"1.1 in\"", StringComparison.Ordinal), "control-2 moved 2.54 mm right", "p/control-2"),
        ["a fixing"] = new(Head + "fixings = { hole = 4.2, at = [[8, 30], # left\n [92, 30]] }\n", Move("p/fixing-2", -2, 0), Head + "fixings = { hole = 4.2, at = [[8, 30], # left\n [90, 30]] }\n", "fixing moved 2 mm left"),
        ["a fixing of an inset"] = new(Head + "fixings.inset = 6 # all round\n", Move("p/fixing-4", -2, 0), Head + "fixings.at = [[6, 6], [114, 6], [6, 54], [112, 54]] # all round\n"),
        ["a legend"] = new(Two, new SetWords("p/a", ["KILN"]), Two.Replace("GLAZE", "KILN", StringComparison.Ordinal), "GLAZE now reads KILN", "p/a"),
        ["a legend in single quotes, of two lines"] = new(Head + "[[panel.legend]]\nid = 'w'\ntext = 'RAIN'\nat = [10, 30]\n", new SetWords("p/w", ["IT'S", "\"WET\""]), Head + "[[panel.legend]]\nid = 'w'\ntext = [\"IT'S\", \"\\\"WET\\\"\"]\nat = [10, 30]\n"),
        ["lines one by one"] = new(Head + "[[panel.legend]]\nid = 'w'\ntext = [ 'NOT', # no\n 'FOR', 'RAIN' ]\nat = [10, 30]\n", new SetWords("p/w", ["NOT", "RAIN"]), Head + "[[panel.legend]]\nid = 'w'\ntext = [ 'NOT', # no\n 'RAIN' ]\nat = [10, 30]\n"),
        ["a legend that was not there"] = new(Head + "[[panel.control]]\nid = \"a\"\npart = \"hole-6\"\nat = [20, 20] # here\nink = \"amber\"", new SetWords("p/a", ["KILN"]), Head + "[[panel.control]]\nid = \"a\"\npart = \"hole-6\"\nat = [20, 20] # here\nlegend = \"KILN\"\nink = \"amber\""),
        ["a legend taken away"] = new(Two, new SetWords("p/a", []), Two.Replace("  legend = \"GLAZE\"\n", "", StringComparison.Ordinal), "words of GLAZE taken away"),
        ["one copy of a row"] = new(Head + "[[panel.control]]\nid = \"a\"\npart = \"hole-6\"\nat = [20, 20]\nrow = { count = 3, step = 20 }\nlegend = \"UP\"\n", new SetWords("p/a.2", ["DOWN"]), Head + "[[panel.control]]\nid = \"a\"\npart = \"hole-6\"\nat = [20, 20]\nrow = { count = 3, step = 20 }\nlegends = [\"UP\", \"DOWN\", \"UP\"]\n", "UP.2 now reads DOWN"),
        ["one of several texts"] = new(Head + "[[panel.legend]]\nid = \"a\"\nat = [20, 20]\nrow = { count = 2, step = 20 }\ntexts = [\"1\", # one\n '2']\n", new SetWords("p/a", ["2", "B"], Copy: 2), Head + "[[panel.legend]]\nid = \"a\"\nat = [20, 20]\nrow = { count = 2, step = 20 }\ntexts = [\"1\", # one\n \"2\\nB\"]\n"),
        ["a state"] = new(Head + "[[panel.control]]\nid = \"a\"\npart = \"toggle-mini-on-off-on\"\nat = [20, 20]\nstates = [\"OPEN\", # up\n \"STOP\", \"SHUT\"]\n", new SetWords("p/a", ["HALT"], State: 2), Head + "[[panel.control]]\nid = \"a\"\npart = \"toggle-mini-on-off-on\"\nat = [20, 20]\nstates = [\"OPEN\", # up\n \"HALT\", \"SHUT\"]\n", "state 2 of a now reads HALT"),
        ["the first state"] = new(Head + "[[panel.control]]\nid = \"a\"\npart = \"toggle-mini-on-off-on\"\nat = [20, 20]\n", new SetWords("p/a", ["SHUT"], State: 3), Head + "[[panel.control]]\nid = \"a\"\npart = \"toggle-mini-on-off-on\"\nat = [20, 20]\nstates = [\"\", \"\", \"SHUT\"]\n"),
        ["a key"] = new(Two, new SetKey("p/a", "height", new KeyNumber(4.5)), Two.Replace("  dial.to = 10\n", "  dial.to = 10\n  height = 4.5\n", StringComparison.Ordinal), "height of GLAZE set to 4.5", "p/a"),
        ["a dotted key beside others"] = new(Two, new SetKey("p/a", "dial.major", new KeyNumber(2)), Two.Replace("  dial.to = 10\n", "  dial.to = 10\n  dial.major = 2\n", StringComparison.Ordinal)),
        ["a dotted key that is there"] = new(Two, new SetKey("p/a", "dial.to", new KeyNumber(100)), Two.Replace("dial.to = 10", "dial.to = 100", StringComparison.Ordinal)),
        ["a dotted key taken away"] = new(Two, new SetKey("p/a", "dial.to", null), Two.Replace("  dial.to = 10\n", "", StringComparison.Ordinal), "dial.to of GLAZE taken away"),
        ["all dotted keys taken away"] = new(Two, new SetKey("p/a", "dial", null), Two.Replace("  dial.from = 0\n  dial.to = 10\n", "", StringComparison.Ordinal)),
        ["a key under a sub-header"] = new(Two, new SetKey("p/control-2", "row.count", new KeyNumber(3)), Two.Replace("count = 2", "count = 3", StringComparison.Ordinal).Replace("  part = \"hole-6\"\n", "  id = \"control-2\"\n  part = \"hole-6\"\n", StringComparison.Ordinal)),
        ["a sub-header taken away"] = new(Two, new SetKey("p/control-2", "row", null), Two.Replace("\n\n    [panel.control.row]\n    count = 2 # as bought\n    step = 10", "", StringComparison.Ordinal).Replace("  part = \"hole-6\"\n", "  id = \"control-2\"\n  part = \"hole-6\"\n", StringComparison.Ordinal)),
        ["a table that was not there"] = new(Head + "[[panel.control]]\nid = \"a\"\npart = \"pot-9mm\"\nat = [20, 20]\n", new SetKey("p/a", "dial.labels.\"0\"", KeyValue.Of("OFF")), Head + "[[panel.control]]\nid = \"a\"\npart = \"pot-9mm\"\nat = [20, 20]\ndial = { labels = { 0 = \"OFF\" } }\n"),
        ["a length with a unit"] = new(Head + "[[panel.legend]]\nid = \"w\"\ntext = \"RAIN\"\nat = [10, 30]\nheight = \"1/8 in\"\n", new SetKey("p/w", "height", new KeyNumber(6.35)), Head + "[[panel.legend]]\nid = \"w\"\ntext = \"RAIN\"\nat = [10, 30]\nheight = \"0.25 in\"\n"),
        ["a panel's key"] = new(Two, new SetKey("q", "title", KeyValue.Of("Größe")), Two.Replace("id = \"q\"\n", "id = \"q\"\ntitle = \"Größe\"\n", StringComparison.Ordinal), "title of q set to Größe", "q"),
        ["a panel's size"] = new(Two, new SetKey("q", "size", new KeyList([new KeyNumber(60), new KeyNumber(50)])), Two.Replace("[50, 50]", "[60, 50]", StringComparison.Ordinal)),
        ["the top"] = new(Two, new SetKey("", "title", KeyValue.Of("Kiln")), Two.Replace("lampblack = 1\n", "lampblack = 1\ntitle = \"Kiln\"\n", StringComparison.Ordinal), "title set to Kiln"),
        ["a table of the top that was not there"] = new(Two, new SetKey("", "lighting.colour", KeyValue.Of("red")), Two.Replace("# the kiln's", "[lighting]\ncolour = \"red\"\n\n# the kiln's", StringComparison.Ordinal)),
        ["a table of the top"] = new("lampblack = 1\n[lighting]\nsupply = \"12 V\" # mains is far\n\n" + Head[14..], new SetKey("lighting", "colour", KeyValue.Of("red")), "lampblack = 1\n[lighting]\nsupply = \"12 V\" # mains is far\ncolour = \"red\"\n\n" + Head[14..]),
        ["an id"] = new(Two, new SetKey("p/control-2", "id", KeyValue.Of("fan")), Two.Replace("  part = \"hole-6\"\n  at = [\"1 in\", '30 mm']\n", "  id = \"fan\"\n  part = \"hole-6\"\n  at = [\"1 in\", '30 mm']\n", StringComparison.Ordinal), "", "p/fan"),
        ["a key between braces taken away"] = new(Inline, new SetKey("p/control-2", "legend", null), Inline.Replace(", legend = \"B\"", "", StringComparison.Ordinal).Replace("{ part", "{ id = \"control-2\", part", StringComparison.Ordinal)),
        ["a value that is there"] = new(Two, new SetKey("p/control-2", "part", KeyValue.Of("hole-6")), Two),
        ["an item"] = new(Two, new AddItem("p", "legend", [("text", KeyValue.Of("HOT 🔥")), ("at", new KeyList([new KeyNumber(30), new KeyNumber(40.00004)]))]), Two.Replace("    step = 10\n", "    step = 10\n\n  [[panel.legend]]\n  id = \"legend-1\"\n  text = \"HOT 🔥\"\n  at = [30, 40]\n", StringComparison.Ordinal), "legend HOT 🔥 added", "p/legend-1"),
        ["an item at the end of the file"] = new(Two, new AddItem("q", "control", [("id", KeyValue.Of("x")), ("part", KeyValue.Of("hole-6")), ("at", new KeyList([new KeyNumber(30), new KeyNumber(40)]))]), Two + "\n\n  [[panel.control]]\n  id = \"x\"\n  part = \"hole-6\"\n  at = [30, 40]", "", "q/x"),
        ["an item in a dense file with other line ends"] = new((Head + "[[panel.legend]]\ntext = \"A\"\nat = [1, 1]\n").Replace("\n", "\r\n", StringComparison.Ordinal), new AddItem("p", "area", [("disc", new KeyList([new KeyNumber(9), new KeyNumber(9), new KeyNumber(1)]))]), (Head + "[[panel.legend]]\ntext = \"A\"\nat = [1, 1]\n[[panel.area]]\nid = \"area-1\"\ndisc = [9, 9, 1]\n").Replace("\n", "\r\n", StringComparison.Ordinal)),
        ["an item between braces added"] = new(Inline, new AddItem("p", "control", [("part", KeyValue.Of("hole-6")), ("at", new KeyList([new KeyNumber(30), new KeyNumber(40)]))]), Inline.Replace("legend = \"B\" },\n", "legend = \"B\" },\n  { id = \"control-3\", part = \"hole-6\", at = [30, 40] },\n", StringComparison.Ordinal)),
        ["another kind between braces"] = new(Inline, new AddItem("p", "legend", [("text", KeyValue.Of("X")), ("at", new KeyList([new KeyNumber(30), new KeyNumber(40)]))]), Inline.Replace("\n] }]", "\n], legend = [{ id = \"legend-1\", text = \"X\", at = [30, 40] }] }]", StringComparison.Ordinal)),
        ["a removal takes its remarks"] = new(Two, Remove("p/a"), Two.Replace(Two[Two.IndexOf("\n  # heats", StringComparison.Ordinal)..Two.IndexOf("\n  # cools", StringComparison.Ordinal)], "", StringComparison.Ordinal), "GLAZE removed"),
        ["a removal takes its sub-header"] = new(Two, Remove("p/control-2"), Two.Replace(Two[Two.IndexOf("\n  # cools", StringComparison.Ordinal)..Two.IndexOf("\n[[panel]]\nid = \"q\"", StringComparison.Ordinal)], "", StringComparison.Ordinal)),
        ["the first plates"] = new(Two, new AddPlate(300, 400.5), Two.Replace("# the kiln's", "[[stock]]\nsize = [300, 400.5]\n\n# the kiln's", StringComparison.Ordinal), "plates 300 x 400.5 mm added"),
        ["plates behind the way of cutting"] = new("lampblack = 1\n[cutting]\nway = \"saw\" # a table saw\n\n" + Head[14..], new AddPlate(300, 400), "lampblack = 1\n[cutting]\nway = \"saw\" # a table saw\n\n[[stock]]\nsize = [300, 400]\n\n" + Head[14..]),
        ["plates behind others"] = new(Head + Plates, new AddPlate(300, 400), Head + Plates + "[[stock]]\nsize = [300, 400]\n"),
        ["plates between braces"] = new(Braces + Head[14..], new AddPlate(300, 400), Braces.Replace("count = 1 }]", "count = 1 }, { size = [300, 400] }]", StringComparison.Ordinal) + Head[14..]),
        ["plates whose usual name is taken"] = new(Head + "[[stock]]\nid = \"plate-2\"\nsize = [99, 99]\n", new AddPlate(300, 400), Head + "[[stock]]\nid = \"plate-2\"\nsize = [99, 99]\n[[stock]]\nid = \"plate-1\"\nsize = [300, 400]\n"),
        ["how many plates there are"] = new(Head + Plates, new SetKey("stock[2]", "count", new KeyNumber(3)), Head + Plates.Replace("[500, \"20 in\"] # from the shop\n", "[500, \"20 in\"] # from the shop\ncount = 3\n", StringComparison.Ordinal), "count of plate-2 set to 3"),
        ["the size of plates"] = new(Head + Plates, new SetKey("stock[2]", "size", new KeyList([new KeyNumber(500), new KeyNumber(254)])), Head + Plates.Replace("20 in", "10 in", StringComparison.Ordinal)),
        ["what plates cost, taken away"] = new(Head + Plates, new SetKey("stock[1]", "price", null), Head + Plates.Replace("price = 4.50\n", "", StringComparison.Ordinal), "price of shed taken away"),
        ["plates taken off"] = new(Head + Plates, Remove("stock[1]"), Head + Plates[Plates.IndexOf("[[stock]]\nsize", StringComparison.Ordinal)..], "shed removed"),
        ["plates between braces taken off"] = new(Braces + Head[14..], Remove("stock[1]"), Braces.Replace("{ id = \"shed\", size = [300, 200] }, ", "", StringComparison.Ordinal) + Head[14..], "shed removed"),
        ["a cut's width, the first word about cutting"] = new(Two, new SetKey("", "cutting.kerf", new KeyNumber(2.5)), Two.Replace("# the kiln's", "[cutting]\nkerf = 2.5\n\n# the kiln's", StringComparison.Ordinal)),
        ["a panel"] = new(Two, Remove("q"), Two[..Two.IndexOf("\n\n[[panel]]\nid = \"q\"", StringComparison.Ordinal)], "q removed"),
        ["a remark that belongs to the item below"] = new(Head + "[[panel.legend]]\nid = \"a\"\ntext = \"A\"\nat = [1, 1]\n# of B\n[[panel.legend]]\nid = \"b\"\ntext = \"B\"\nat = [1, 1]\n", Remove("p/a"), Head + "# of B\n[[panel.legend]]\nid = \"b\"\ntext = \"B\"\nat = [1, 1]\n"),
        ["two at once"] = new(Two, Remove("p/a", "p/control-2"), Two.Replace(Two[Two.IndexOf("\n  # heats", StringComparison.Ordinal)..Two.IndexOf("\n[[panel]]\nid = \"q\"", StringComparison.Ordinal)], "", StringComparison.Ordinal), "2 items removed"),
        ["between braces, the first"] = new(Inline, Remove("p/a"), Inline.Replace("  { id = \"a\", part = \"hole-6\", at = [20, 20] }, # first\n", "", StringComparison.Ordinal)),
        ["between braces, the last"] = new(Inline, Remove("p/control-2"), Inline.Replace("  # the other\n  { part = \"hole-6\", at = [60, 20], legend = \"B\" },\n", "", StringComparison.Ordinal)),
        ["between braces, one on a line of its own and the first of the next line"] = new(
            Shared, Remove("p/b", "p/c"), Shared.Replace("{ id = \"b\", part = \"hole-6\", at = [40, 20] },\n  { id = \"c\", part = \"hole-6\", at = [60, 20] }, ", "", StringComparison.Ordinal)),
        ["between braces, all"] = new(Inline, Remove("p/control-2", "p/a"), Inline.Replace(Inline[(Inline.IndexOf("control = [", StringComparison.Ordinal) + 11)..Inline.IndexOf("] }]", StringComparison.Ordinal)], "", StringComparison.Ordinal)),
        ["a fixing removed"] = new(Head + "fixings = { inset = 6 }\n", Remove("p/fixing-1"), Head + "fixings = { at = [[114, 6], [6, 54], [114, 54]] }\n"),
        ["two of three fixings"] = new(Head + "fixings = { at = [[9, 9], [20, 9], [9, 20]] }\n", Remove("p/fixing-1", "p/fixing-2"), Head + "fixings = { at = [[9, 20]] }\n"),
        ["all fixings"] = new(Head + "fixings = { at = [[9, 9]] } # gone\n", Remove("p/fixing-1"), Head + "# gone\n"),
    };

    public static TheoryData<string> Names => [.. Cases.Keys];

    [Theory]
    [MemberData(nameof(Names))]
    public void An_edit_exchanges_what_it_says_and_nothing_else(string name) => Cases[name].Check();

    [Theory]
    [InlineData("[[panel.control]]\nid = \"a\"\npart = \"hole-6\"\nat.x = 3\n", "p/a")]
    [InlineData("[[panel.control]]\nid = \"a\"\npart = \"hole-6\"\nat = [3]\n", "p/a")]
    [InlineData("[[panel.control]]\nid = \"a\"\npart = \"hole-6\"\nat = [\"5 parsec\", 3]\n", "p/a")]
    [InlineData("[[panel.control]]\nid = \"a\"\npart = \"hole-6\"\nat = [20, 20]\n", "p/b")]
    [InlineData("[[panel.control]]\nid = \"a\"\npart = \"hole-6\"\nat = [20, 20]\n", "p")]
    [InlineData("[[panel.control]]\nid = \"a\"\npart = \"hole-6\"\nat = [2999.5, 20]\n", "p/a")]
    [InlineData("[[panel.control]]\nid = \"a\"\npart = \"hole-6\"\nat = [20, 20\n", "p/a")]
    [InlineData("[[panel.control]]\nid = \"a\"\npart = \"hole-6\"\nat = [20, 20] # \uD800\n", "p/a")]
    public void What_cannot_be_moved_is_told_and_left_alone(string items, string address)
    {
        var old = System.Text.Encoding.UTF8.GetBytes(Head + items);
        old = items.Contains('\uD800', StringComparison.Ordinal) ? [.. old, 0xFF, (byte)'\n'] : old;
        var result = EditCase.Apply(old, Move(address, 1, 1));
        Assert.Equal(["edit-refused"], result.Findings.Select(finding => finding.Code));
        Assert.Equal(old, result.Bytes.ToArray());
        Assert.Empty(result.Changes);
        Assert.Empty(result.Items);
        Assert.True(result.IsRefused);
    }

    [Fact]
    public void An_edit_that_would_stop_the_desk_is_refused_with_the_reason()
    {
        var result = EditCase.Apply(Two, new SetKey("p/a", "part", KeyValue.Of("no-such-part")));
        Assert.Contains("no-such-part", Assert.Single(result.Findings).Message, StringComparison.Ordinal);
        Assert.True(result.IsRefused);
    }

    [Fact]
    public void A_drilled_control_is_edited_and_what_that_costs_is_told()
    {
        const string Desk = Head + "[[panel.control]]\nid = \"a\"\npart = \"hole-6\"\nat = [20, 20]\ndrilled = [0.1, 0]\n";
        foreach (var (edit, word) in new (DeskEdit, string)[]
        {
            (Move("p/a", 1, 0), "moved"), (Remove("p/a"), "removed"), (new SetKey("p/a", "part", KeyValue.Of("hole-10")), "another hole"),
            (new SetKey("p/a", "turn", new KeyNumber(90)), ""), (new SetWords("p/a", ["KILN"]), ""), (new SetKey("p/a", "drilled", null), ""), (new SetKey("p/a", "id", KeyValue.Of("b")), ""),
        })
        {
            var result = EditCase.Apply(Desk, edit);
            Assert.NotEmpty(result.Changes);
            Assert.Equal(word.Length > 0 ? ["Warn edit-drilled"] : [], result.Findings.Select(finding => $"{finding.Severity} {finding.Code}"));
            Assert.Contains(word, result.Findings.FirstOrDefault()?.Message ?? "", StringComparison.Ordinal);
        }
    }

    private static MoveItems Move(string item, double dxMm, double dyMm) => new([new(item, dxMm, dyMm)]);

    private static RemoveItems Remove(params string[] items) => new([.. items]);
}
