using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Findings;
using Lampblack.SourceText;
using Xunit;

namespace Lampblack.Tests.SourceText;

public sealed class TableReaderTests
{
    private static readonly (string Word, DayOfWeek Value)[] Days = [("monday", DayOfWeek.Monday), ("tuesday", DayOfWeek.Tuesday)];

    private readonly List<Finding> _findings = [];

    [Fact]
    public void What_is_written_well_comes_out_without_findings()
    {
        var reader = Reader("""
            id = "yard"
            states = ["OPEN", "SHUT"]
            legend = "ON"
            corner = "1/4 in"
            size = [240, "12 cm"]
            inset = 6
            at = [30, -40.5]
            fixings = [[5, 5], [235, "115 mm"]]
            gain = 1.5
            count = 3.0
            lit = true
            day = "tuesday"
            light = { volts = 12 }
            knobs = [{ id = "a" }, { id = "b" }]
            made = 2024-05-06
            """);
        Assert.Equal("yard", reader.RequiredText("id"));
        Assert.Equal(["OPEN", "SHUT"], reader.Texts("states").Select(text => text.Value));
        Assert.Equal(["ON"], reader.Texts("legend").Select(text => text.Value));
        Assert.Equal(6.35, reader.LengthMm("corner", 0, 10));
        Assert.Equal([240.0, 120.0], reader.LengthsMm("size", 2, 2, 5, 2000)!.Value);
        Assert.Equal([6.0], reader.LengthsMm("inset", 1, 4, 0, 10)!.Value);
        Assert.Equal((30.0, -40.5), reader.PlaceMm("at", -100, 100));
        Assert.Equal([(5.0, 5.0), (235.0, 115.0)], reader.PlacesMm("fixings", 1, 9, 0, 300));
        Assert.Equal(1.5, reader.Number("gain", 0, 2));
        Assert.Equal(3, reader.Whole("count", 0, 5));
        Assert.True(reader.Flag("lit"));
        Assert.Equal(DayOfWeek.Tuesday, reader.Choice("day", Days));
        Assert.Equal(12, reader.Table("light")!.Whole("volts", 0, 24));
        Assert.Equal(["a", "b"], reader.Tables("knobs").Select(knob => knob.Text("id")));
        Assert.IsType<TimeNode>(reader.Raw("made"));
        reader.Finish();
        Assert.Empty(_findings);
    }

    [Fact]
    public void Keys_that_are_not_there_give_nothing_and_no_finding()
    {
        var reader = Reader("");
        Assert.Null(reader.Text("a"));
        Assert.Empty(reader.Texts("a"));
        Assert.Null(reader.LengthMm("a", 0, 1));
        Assert.Null(reader.LengthsMm("a", 1, 2, 0, 1));
        Assert.Null(reader.PlaceMm("a", 0, 1));
        Assert.Empty(reader.PlacesMm("a", 1, 2, 0, 1));
        Assert.Null(reader.Number("a", 0, 1));
        Assert.Null(reader.Whole("a", 0, 1));
        Assert.Null(reader.Flag("a"));
        Assert.Null(reader.Choice("a", Days));
        Assert.Null(reader.Table("a"));
        Assert.Empty(reader.Tables("a"));
        Assert.Null(reader.Raw("a"));
        Assert.False(reader.Has("a"));
        Assert.Equal(reader.Span, reader.SpanOf("a"));
        reader.Finish();
        Assert.Empty(_findings);
    }

    [Theory]
    [InlineData("x = 1", "value-kind", "`x` must be a text, found the number 1", "Put it between double quotes: `x = \"1\"`.")]
    [InlineData("x = true", "value-kind", "`x` must be a text, found true", "Put it between double quotes: `x = \"true\"`.")]
    [InlineData("x = \"  \"", "text-empty", "`x` is empty", "Write a text between the quotes, or delete the line.")]
    public void A_text_is_a_text(string text, string code, string message, string hint) =>
        Check(text, reader => Assert.Null(reader.Text("x")), code, message, hint);

    [Fact]
    public void An_empty_text_is_taken_where_it_may_be()
    {
        Assert.Equal("", Reader("x = \"\"").Text("x", allowEmpty: true));
        Assert.Empty(_findings);
    }

    [Theory]
    [InlineData("x = \"12 ft\"", "length-unreadable", "`x` = \"12 ft\" has no unit that is known: mm, cm, m, in, \", pt, um")]
    [InlineData("x = \"1,250 mm\"", "length-unreadable", "`x` = \"1,250 mm\" can be read in two ways, as 1.250 mm or as 1250 mm; write it without the comma")]
    [InlineData("x = 1e9", "value-range", "`x` must be between 5 mm and 2000 mm, found 1e9")]
    [InlineData("x = 4.999", "value-range", "`x` must be between 5 mm and 2000 mm, found 4.999")]
    [InlineData("x = \"10 m\"", "value-range", "`x` must be between 5 mm and 2000 mm, found 10 m (10000 mm)")]
    [InlineData("x = true", "value-kind", "`x` must be a length, found true")]
    [InlineData("x = [1]", "value-kind", "`x` must be a length, found a list")]
    public void A_length_is_readable_and_within_its_limits(string text, string code, string message) =>
        Check(text, reader => Assert.Null(reader.LengthMm("x", 5, 2000)), code, message);

    [Theory]
    [InlineData("x = 5", 5)]
    [InlineData("x = 2000.0", 2000)]
    [InlineData("x = \"2 m\"", 2000)]
    public void The_limits_themselves_are_allowed(string text, double expectedMm)
    {
        Assert.Equal(expectedMm, Reader(text).RequiredLengthMm("x", 5, 2000));
        Assert.Empty(_findings);
    }

    [Theory]
    [InlineData("x = [1, 2, 3]", "value-range", "`x` must have 2 lengths, found 3")]
    [InlineData("x = [1]", "value-range", "`x` must have 2 lengths, found 1")]
    [InlineData("x = [1, \"z\"]", "length-unreadable", "`x` = \"z\" has no number")]
    [InlineData("x = [1, 200]", "value-range", "`x` must be between 0 mm and 100 mm, found 200")]
    [InlineData("x = 7", "value-kind", "`x` must be a place [x, y], found the number 7")]
    public void A_place_is_two_lengths(string text, string code, string message) =>
        Check(text, reader => Assert.Null(reader.PlaceMm("x", 0, 100)), code, message);

    [Theory]
    [InlineData("x = [[1, 2]]", "value-range", "`x` must have 2 to 3 places, found 1", 0)]
    [InlineData("x = [[1, 2], [3], [4, 5]]", "value-range", "`x` must have 2 lengths, found 1", 2)]
    [InlineData("x = [1, [2, 3]]", "value-kind", "`x` must be a place [x, y], found the number 1", 1)]
    [InlineData("x = \"all\"", "value-kind", "`x` must be a list of places, found the text \"all\"", 0)]
    public void Faulty_places_are_left_out(string text, string code, string message, int left) =>
        Check(text, reader => Assert.Equal(left, reader.PlacesMm("x", 2, 3, 0, 100).Length), code, message);

    [Theory]
    [InlineData("x = 7", "value-kind", "`x` must be a list of lengths, found the number 7")]
    [InlineData("x = []", "value-range", "`x` must have at least 2 lengths, found 0")]
    public void A_list_of_lengths_is_a_list(string text, string code, string message) =>
        Check(text, reader => Assert.Null(reader.LengthsMm("x", 2, int.MaxValue, 0, 100)), code, message);

    [Theory]
    [InlineData("x = 2.5", "value-kind", "`x` must be a whole number, found the number 2.5")]
    [InlineData("x = \"2\"", "value-kind", "`x` must be a whole number, found the text \"2\"")]
    [InlineData("x = 1_000", "value-range", "`x` must be between 0 and 9, found 1_000")]
    [InlineData("x = 9223372036854775807", "value-range", "`x` must be between 0 and 9, found 9223372036854775807")]
    public void A_whole_number_is_whole(string text, string code, string message) =>
        Check(text, reader => Assert.Null(reader.Whole("x", 0, 9)), code, message);

    [Theory]
    [InlineData(0, double.PositiveInfinity, "`x` must be at least 0, found -1.5")]
    [InlineData(double.NegativeInfinity, -2, "`x` must be at most -2, found -1.5")]
    [InlineData(0.25, 1, "`x` must be between 0.25 and 1, found -1.5")]
    public void Open_limits_are_not_spelled_out(double min, double max, string message) =>
        Check("x = -1.5", reader => Assert.Null(reader.Number("x", min, max)), "value-range", message);

    [Fact]
    public void A_flag_is_no_text() => Check(
        "x = \"yes\"",
        reader => Assert.Null(reader.Flag("x")),
        "value-kind",
        "`x` must be true or false, found the text \"yes\"",
        "Write `x = true` or `x = false`, without quotes.");

    [Theory]
    [InlineData("Tuesday", "Did you mean \"tuesday\"?")]
    [InlineData("tusday", "Did you mean \"tuesday\"?")]
    [InlineData("soon", "Write one of them, with the same small and capital letters.")]
    public void A_choice_is_one_of_its_words(string word, string hint) => Check(
        $"x = \"{word}\"",
        reader => Assert.Null(reader.Choice("x", Days)),
        "choice-unknown",
        $"`x` must be one of \"monday\", \"tuesday\", found \"{word}\"",
        hint);

    [Fact]
    public void What_is_required_and_missing_is_named_with_an_example()
    {
        var reader = Reader("[light]\n");
        var light = reader.Table("light", "the light")!;
        Assert.Null(light.RequiredText("id"));
        Assert.Null(light.RequiredLengthMm("depth", 0, 1));
        Assert.Equal(
            [("key-missing", "`id` is missing in the light", "Add it, for example `id = \"id\"`."), ("key-missing", "`depth` is missing in the light", "Add it, for example `depth = 12.5`.")],
            _findings.Select(finding => (finding.Code, finding.Message, finding.Hint)));
        Assert.All(_findings, finding => Assert.Equal(light.Span, finding.Span));
    }

    [Fact]
    public void A_key_that_nobody_asked_for_is_reported_with_the_nearest_one()
    {
        var reader = Reader("legnd = 1\nid = \"x\"\nthickness = 3\n");
        reader.Text("id");
        reader.Text("legend");
        reader.Finish();
        reader.Finish();
        Assert.Equal(
            [("`legnd` is not a key of the desk", "Did you mean `legend`?", 1), ("`thickness` is not a key of the desk", "Its keys are `id`, `legend`.", 3)],
            _findings.Select(finding => (finding.Message, finding.Hint, finding.Span!.Line)));
        Assert.All(_findings, finding => Assert.Equal("key-unknown", finding.Code));
    }

    [Fact]
    public void A_value_that_was_reported_on_reading_is_not_reported_again()
    {
        var reader = Reader("a = ON\nb = 12 mm\nc = [1, x]\nd = nan\ne = [[1, 2], [3, y]]\nf = [{ id = z }]\n", expectFaults: true);
        Assert.Null(reader.RequiredText("a"));
        Assert.Empty(reader.Texts("a"));
        Assert.Null(reader.RequiredLengthMm("b", 0, 1));
        Assert.Null(reader.PlaceMm("c", 0, 9));
        Assert.Null(reader.LengthsMm("c", 2, 2, 0, 9));
        Assert.Null(reader.Number("d", 0, 1));
        Assert.Null(reader.Whole("d", 0, 1));
        Assert.Null(reader.Flag("d"));
        Assert.Null(reader.Choice("d", Days));
        Assert.Null(reader.Table("d"));
        Assert.Empty(reader.Tables("d"));
        Assert.Null(reader.Raw("d"));
        Assert.True(reader.Has("d"));
        Assert.Equal([(1.0, 2.0)], reader.PlacesMm("e", 2, 2, 0, 9));
        Assert.Null(Assert.Single(reader.Tables("f")).RequiredText("id"));
        reader.Finish();
        Assert.Empty(_findings);
    }

    [Fact]
    public void Single_and_double_brackets_mixed_up_are_explained()
    {
        var reader = Reader("[panel]\nid = \"a\"\n[[light]]\n");
        Assert.Equal("a", Assert.Single(reader.Tables("panel")).Text("id"));
        Assert.Null(reader.Table("light"));
        Assert.Equal(
            [("`panel` must be a list of tables, found a table", "Write [[panel]] with two brackets, or `panel = [ { … } ]`."), ("`light` must be one table, found a list", "Write [light] with single brackets, once.")],
            _findings.Select(finding => (finding.Message, finding.Hint)));
    }

    [Fact]
    public void A_header_is_named_with_the_tables_that_it_lies_in()
    {
        var reader = Reader("[[panel]]\n[panel.legend]\nid = \"a\"\n[[panel.text]]\n");
        var panel = Assert.Single(reader.Tables("panel"));
        Assert.Single(panel.Tables("legend"));
        Assert.Null(panel.Table("text"));
        Assert.Equal(["Write [[panel.legend]] with two brackets, or `legend = [ { … } ]`.", "Write [panel.text] with single brackets, once."], _findings.Select(finding => finding.Hint));
    }

    [Fact]
    public void All_keys_are_named_and_a_table_that_stands_too_high_is_sent_where_it_belongs()
    {
        var reader = Reader("zzzzzzzz = 1\n[[control]]\n[[contrl]]\n");
        foreach (var index in Enumerable.Range(0, 20))
        {
            reader.Has($"key-{index}");
        }

        reader.Finish("panel", ["control", "legend"]);
        Assert.Equal($"Its keys are {string.Join(", ", Enumerable.Range(0, 20).Select(index => $"`key-{index}`"))}.", _findings[0].Hint);
        Assert.Equal(["It belongs to a panel: write [[panel.control]] below its [[panel]].", "It belongs to a panel: write [[panel.control]] below its [[panel]]."], _findings.Skip(1).Select(finding => finding.Hint));
    }

    [Fact]
    public void Tables_are_counted_from_one_and_carry_the_items_id()
    {
        var reader = Reader("[[panel]]\n[[panel]]\nx = 1\n");
        reader.Item = "desk";
        var second = reader.Tables("panel")[1];
        Assert.Equal("`panel` 2", second.What);
        second.Item = "desk/two";
        second.Finish();
        Assert.Equal("desk/two", Assert.Single(_findings).Item);
    }

    private TableReader Reader(string text, bool expectFaults = false)
    {
        var read = TreeText.Read(text);
        Assert.Equal(expectFaults, !read.Findings.IsEmpty);
        return new TableReader(read.Value, "the desk", _findings);
    }

    private void Check(string text, Action<TableReader> ask, string code, string message, string? hint = null)
    {
        ask(Reader("# one line before\n" + text));
        var finding = Assert.Single(_findings);
        Assert.Equal((Severity.Stop, code, message), (finding.Severity, finding.Code, finding.Message));
        Assert.Equal(2, finding.Span!.Line);
        Assert.NotEmpty(finding.Hint);
        Assert.Equal(hint ?? finding.Hint, finding.Hint);
    }
}
