using System.Linq;
using System.Text;
using Lampblack.Findings;
using Lampblack.SourceText;
using Xunit;

namespace Lampblack.Tests.SourceText;

public sealed class TomlPlaceTests
{
    [Theory]
    [InlineData("a = 1\nlegend = \"ON\"\n", 15, 4, 2, 10)]
    [InlineData("a = 1\r\nlegend = \"ON\"\r\n", 16, 4, 2, 10)]
    [InlineData("a = \"😀😀\"\nlegend = \"ON\"\n", 20, 4, 2, 10)]
    [InlineData("\"😀\".legend = \"ON\"\n", 14, 4, 1, 14)]
    [InlineData("é.legend = \"ON\"\n", null, 0, 0, 0)]
    [InlineData("a = { b = '😀', legend = \"ON\" }\n", 25, 4, 1, 25)]
    [InlineData("a = \"\"\"one\r\ntwo\"\"\"\r\n\tlegend = '''\r\nON'''\r\n", 30, 10, 3, 11)]
    [InlineData("legend = \"ON\"", 9, 4, 1, 10)]
    public void Offsets_count_units_and_columns_count_characters(string text, int? offset, int length, int line, int column)
    {
        foreach (var mark in new[] { "", "\uFEFF" })
        {
            var read = TreeText.Read(mark + text);
            var node = Everything(read.Value).OfType<TextNode>().SingleOrDefault(found => found.Value == "ON");
            Assert.Equal(offset is null ? null : new SourceSpan("desk.toml", offset.Value, length, line, column), node?.Span);
            if (node is not null)
            {
                Assert.Equal("\"ON\"", text.Substring(node.Span.Offset, node.Span.Length).Replace("'''", "\"", System.StringComparison.Ordinal).Replace("\r\n", "", System.StringComparison.Ordinal));
            }
        }
    }

    [Fact]
    public void Tables_stand_at_their_headers_and_braces()
    {
        const string Text = "a.b = 1\n[light]\n[x.y]\n[x]\n[[ knob ]] # first\n[[knob]]\nz = { q = 1 }\n";
        var root = TreeText.Read(Text).Value;
        Assert.Equal(("", 1, 1), Cut(Text, root.Span));
        Assert.Equal(("a", 1, 1), Cut(Text, root.Find("a")!.Span));
        Assert.Equal(("[light]", 2, 1), Cut(Text, root.Find("light")!.Span));
        var x = Assert.IsType<TableNode>(root.Find("x"));
        Assert.Equal(("[x]", 4, 1), Cut(Text, x.Span));
        Assert.Equal(("[x.y]", 3, 1), Cut(Text, x.Find("y")!.Span));
        var knobs = Assert.IsType<ListNode>(root.Find("knob"));
        Assert.Equal(("[[ knob ]]", 5, 1), Cut(Text, knobs.Span));
        Assert.Equal([("[[ knob ]]", 5, 1), ("[[knob]]", 6, 1)], knobs.Items.Select(item => Cut(Text, item.Span)));
        var inline = Assert.IsType<TableNode>(((TableNode)knobs.Items[1]).Find("z"));
        Assert.True(inline.Inline);
        Assert.Equal(("{ q = 1 }", 7, 5), Cut(Text, inline.Span));
    }

    [Fact]
    public void Keys_stand_at_their_own_part_of_a_dotted_key()
    {
        const string Text = "[a.'b c']\nx . \"y\".z = 1\n";
        var root = TreeText.Read(Text).Value;
        var keys = Everything(root).OfType<TableNode>().SelectMany(table => table.Entries).Select(entry => (entry.Key, Cut(Text, entry.KeySpan)));
        Assert.Equal(
            [("a", ("a", 1, 2)), ("b c", ("'b c'", 1, 4)), ("x", ("x", 2, 1)), ("y", ("\"y\"", 2, 5)), ("z", ("z", 2, 9))],
            keys);
    }

    [Fact]
    public void Places_behind_a_repair_are_the_users_own()
    {
        const string Text = "a = \"one\nb = [1, 2\nc = [ { x = 1\nf = 1\n[d\ne = \"ON\"\n";
        var read = TreeText.Read(Text);
        Assert.Equal([1, 2, 3, 5], read.Findings.Select(finding => finding.Span!.Line));
        var e = Assert.IsType<TableNode>(read.Value.Find("d")).Find("e")!;
        Assert.Equal(("\"ON\"", 6, 5), Cut(Text, e.Span));
        Assert.Equal(("[1, 2", 2, 5), Cut(Text, read.Value.Find("b")!.Span));
        Assert.Equal(("[d", 5, 1), Cut(Text, read.Value.Find("d")!.Span));
    }

    [Fact]
    public void Bytes_that_are_not_UTF_8_have_line_and_column()
    {
        byte[] bytes = [.. "a = 1\r\nlegend = \"😀 gr"u8, 0xFC, .. "n\"\nb = 2\n"u8];
        var read = TomlText.Read("desk.toml", bytes);
        var finding = Assert.Single(read.Findings);
        Assert.Equal("toml-encoding", finding.Code);
        Assert.Equal(new SourceSpan("desk.toml", 22, 1, 2, 15), finding.Span);
        Assert.Contains("0xFC", finding.Message, System.StringComparison.Ordinal);
        Assert.Equal(2, Assert.IsType<NumberNode>(read.Value.Find("b")).Value);
    }

    [Fact]
    public void A_file_in_UTF_16_is_named_as_such()
    {
        byte[] bytes = [.. Encoding.Unicode.GetPreamble(), .. Encoding.Unicode.GetBytes("a = 1\n")];
        var finding = Assert.Single(TomlText.Read("desk.toml", bytes).Findings);
        Assert.Equal("toml-encoding", finding.Code);
        Assert.Contains("UTF-16", finding.Message, System.StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("a = \"x\u0001y\"\n", "text-control-character", 1, 7)]
    [InlineData("a = \"x\\u0001y\"\n", "text-control-character", 1, 5)]
    [InlineData("a = 'x\u007Fy'\n", "text-control-character", 1, 7)]
    [InlineData("a = \"x\u0085y\"\n", "text-control-character", 1, 5)]
    [InlineData("a = \"x\\ey\"\n", "text-control-character", 1, 5)]
    [InlineData("a = \"\"\"x\ry\"\"\"\n", "text-control-character", 1, 9)]
    [InlineData("\"k\\u0007\" = 1\n", "text-control-character", 1, 1)]
    [InlineData("# x\u0001\n", "toml-syntax", 1, 4)]
    [InlineData("a = 1\f\n", "toml-syntax", 1, 6)]
    [InlineData("a = 1\rb = 2\r", "toml-syntax", 1, 6)]
    [InlineData("a\u00A0= 1\n", "toml-syntax", 1, 2)]
    [InlineData("a = 1\n\uFEFFb = 2\n", "toml-syntax", 2, 1)]
    [InlineData("a = \"x\uFFFDy\"\n", "toml-encoding", 1, 7)]
    public void Characters_that_nobody_can_see_are_found_where_they_are(string text, string code, int line, int column)
    {
        var read = TreeText.Read(text);
        var finding = Assert.Single(read.Findings);
        Assert.Equal((code, line, column), (finding.Code, finding.Span!.Line, finding.Span.Column));
        Assert.All(Everything(read.Value).OfType<TextNode>(), node => Assert.DoesNotContain(node.Value, c => char.IsControl(c)));
        Assert.DoesNotContain(finding.Message + finding.Hint, c => char.IsControl(c));
    }

    [Fact]
    public void Line_breaks_and_tabs_may_stand_in_a_text_and_breaks_are_alike()
    {
        var read = TreeText.Read("a = \"\"\"x\r\n\ty\"\"\"\r\n");
        Assert.Empty(read.Findings);
        Assert.Equal("x\n\ty", Assert.IsType<TextNode>(read.Value.Find("a")).Value);
    }

    internal static System.Collections.Generic.IEnumerable<Node> Everything(Node node) => node switch
    {
        TableNode table => table.Entries.SelectMany(entry => Everything(entry.Value)).Prepend(table),
        ListNode list => list.Items.SelectMany(Everything).Prepend(list),
        _ => [node],
    };

    private static (string Text, int Line, int Column) Cut(string text, SourceSpan span) =>
        (text.Substring(span.Offset, span.Length), span.Line, span.Column);
}
