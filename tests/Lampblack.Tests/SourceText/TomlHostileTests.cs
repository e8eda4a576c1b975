using System;
using System.Linq;
using System.Text;
using Lampblack.Findings;
using Lampblack.SourceText;
using Xunit;

namespace Lampblack.Tests.SourceText;

/// <summary>Whatever a file holds, reading it ends, quickly, with findings that have places.</summary>
public sealed class TomlHostileTests
{
    [Fact]
    public void Twenty_thousand_slips_of_the_pen_give_no_exception_and_every_finding_a_place()
    {
        var faultless = 0;
        foreach (var text in Mutants.Of(TreeText.File("sample.txt"), 20_000, 1))
        {
            var bytes = Encoding.UTF8.GetBytes(text);
            var read = TomlText.Read("desk.toml", bytes);
            faultless += read.Findings.IsEmpty ? 1 : 0;
            Check(Encoding.UTF8.GetString(bytes), read);
        }

        // A reader that calls everything or nothing faulty would pass the rest.
        Assert.InRange(faultless, 2_000, 10_000);
    }

    [Fact]
    public void Any_bytes_at_all_give_no_exception()
    {
        var random = new Mutants.Generator(7);
        for (var i = 0; i < 3_000; i++)
        {
            var bytes = new byte[random.Next(60)];
            for (var j = 0; j < bytes.Length; j++)
            {
                bytes[j] = random.Next(3) == 0 ? (byte)random.Next(256) : (byte)"\"'[]{}=.,#\\\n\r ab1-"[random.Next(18)];
            }

            var read = TomlText.Read("desk.toml", bytes);
            Assert.All(read.Findings, finding => Assert.True(finding.Span is { Line: > 0, Column: > 0 }));
        }
    }

    [Theory]
    [InlineData("[", 70)]
    [InlineData("{a=", 70)]
    [InlineData("[{a=", 20)]
    public void Nesting_too_deep_is_found(string opening, int times)
    {
        var read = TreeText.Read("ok = 1\na = " + Repeat(opening, times));
        var finding = Assert.Single(read.Findings);
        Assert.Equal(("toml-depth", 2), (finding.Code, finding.Span!.Line));
    }

    [Theory]
    [InlineData("k", ".k", " = 1\n", 40)]
    [InlineData("[k", ".k", "]\n", 40)]
    [InlineData("[[k", ".k", "]]\n", 40)]
    public void Dotted_names_too_deep_are_found(string first, string more, string last, int times)
    {
        var read = TreeText.Read("ok = 1\n" + first + Repeat(more, times) + last);
        var finding = Assert.Single(read.Findings);
        Assert.Equal(("toml-depth", 2), (finding.Code, finding.Span!.Line));
        Assert.NotNull(read.Value.Find("ok"));
    }

    [Fact]
    public void Nesting_up_to_the_limit_is_read()
    {
        var read = TreeText.Read("a = " + new string('[', TomlText.MaxDepth) + new string(']', TomlText.MaxDepth) + "\n");
        Assert.Empty(read.Findings);
        Assert.Equal(TomlText.MaxDepth, TomlPlaceTests.Everything(read.Value).OfType<ListNode>().Count());
    }

    [Theory]
    [InlineData("[[a]]\n", "", "toml-too-large")]
    [InlineData("a=1\n", "", "toml-too-large")]
    [InlineData("a=12345678\n", "", "key-twice")]
    [InlineData("[a]\nb=1234567890\n", "", "key-twice")]
    [InlineData("1,", "a=[", "toml-too-large")]
    [InlineData(".a", "a", "toml-depth")]
    [InlineData("ON\n", "", "toml-syntax")]
    [InlineData("=", "", "toml-too-large")]
    [InlineData("\\q", "a=\"", "toml-syntax")]
    [InlineData("a=1\r", "", "toml-syntax")]
    [InlineData("\"", "", "toml-syntax")]
    [InlineData("\uFFFD", "", "toml-encoding")]
    public void Two_megabytes_of_anything_end_soon(string part, string begin, string code)
    {
        var text = begin + Repeat(part, (TomlText.MaxBytes / Encoding.UTF8.GetByteCount(part)) - begin.Length);
        var read = TreeText.Read(text);
        Check(text, read);
        Assert.Contains(read.Findings, finding => finding.Code == code);
        Assert.InRange(read.Findings.Length, 1, 201);
    }

    [Fact]
    public void A_file_too_large_is_not_read()
    {
        var read = TomlText.Read("desk.toml", new byte[TomlText.MaxBytes + 1]);
        Assert.Equal("toml-too-large", Assert.Single(read.Findings).Code);
        Assert.Empty(read.Value.Entries);
    }

    [Fact]
    public void Many_faults_are_cut_short_with_their_count()
    {
        var read = TreeText.Read(Repeat("ON\n", 1000));
        Assert.Equal(201, read.Findings.Length);
        Assert.Contains("800 more", read.Findings[^1].Message, StringComparison.Ordinal);
    }

    private static string Repeat(string part, int times) => new StringBuilder().Insert(0, part, times).ToString();

    private static void Check(string text, Checked<TableNode> read)
    {
        foreach (var finding in read.Findings)
        {
            Assert.True(finding.Span is { Line: > 0, Column: > 0, Offset: >= 0 } span && span.Offset + span.Length <= text.Length, finding.ToString());
            Assert.DoesNotContain(finding.Message + finding.Hint, c => char.IsControl(c));
        }

        foreach (var node in TomlPlaceTests.Everything(read.Value))
        {
            Assert.True(node is not NumberNode number || double.IsFinite(number.Value));
            Assert.True(node is not BrokenNode || read.HasStop);
        }
    }
}
