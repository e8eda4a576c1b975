using System;
using System.Diagnostics;
using System.IO;
using System.Text;
using Xunit;

namespace Lampblack.Shells.Tests;

/// <summary>Desk files as other programs leave them, seen from outside.</summary>
public sealed class BadDeskFileTests
{
    private const string Plain = """
        lampblack = 1
        title = "Gerät"

        [[panel]]
        id = "main"
        size = [100, 60]

          [[panel.legend]]
          text = "RELAIS 1 µs"
          at = [50, 30]

        """;

    [Theory]
    [InlineData("Latin-1", 2, 13, "0xE4", "UTF-8")]
    [InlineData("UTF-16, low byte first", 1, 1, "UTF-16", "UTF-8")]
    [InlineData("UTF-16, high byte first", 1, 1, "UTF-16", "UTF-8")]
    [InlineData("UTF-16 unmarked, low byte first", 1, 1, "UTF-16", "UTF-8")]
    [InlineData("UTF-16 unmarked, high byte first", 1, 1, "UTF-16", "UTF-8")]
    [InlineData("empty", 1, 1, "format", "lampblack = 1")]
    [InlineData("only a mark", 1, 1, "format", "lampblack = 1")]
    [InlineData("blank lines", 1, 1, "format", "lampblack = 1")]
    [InlineData("marked, with a slip", 2, 1, "`titel`", "`title`")]
    [InlineData("CRLF, with a slip", 2, 1, "`titel`", "`title`")]
    [InlineData("cut off", 9, 10, "", "\"")]
    [InlineData("a picture", 1, 1, "0x89", "UTF-8")]
    public void A_desk_file_that_cannot_be_built_is_told_with_place_and_hint(string what, int line, int column, string words, string hint)
    {
        using WorkFolder work = new();
        Put(work, Bytes(what));
        string[] before = work.Everything();
        ProgramRun run = ProgramRun.Of(work.Full, "build", "desk", "--paper", "A4", "-o", "sheets/new");
        Assert.Equal((1, string.Empty), (run.Exit, run.Error));
        string[] lines = run.Output.Split(Environment.NewLine);
        string start = $"{Path.Combine("desk", "desk.toml")}({line},{column}): stop ";
        int at = Array.FindIndex(lines, text => text.StartsWith(start, StringComparison.Ordinal) && text.Contains(words, StringComparison.Ordinal));
        Assert.True(at >= 0, $"'{start}' with '{words}' is not in: {run.Output}");
        Assert.StartsWith("    ", lines[at + 1], StringComparison.Ordinal);
        Assert.Contains(hint, lines[at + 1], StringComparison.Ordinal);
        Assert.True(!what.StartsWith("UTF-16", StringComparison.Ordinal) || run.Output.Split(": stop ").Length == 2, run.Output);
        Assert.DoesNotContain("   at ", run.Output, StringComparison.Ordinal);
        Assert.Equal(before, work.Everything());
    }

    [Theory]
    [InlineData("marked")]
    [InlineData("CRLF")]
    [InlineData("marked CRLF")]
    [InlineData("no end of line")]
    public void How_an_editor_saves_text_makes_no_difference_to_what_is_printed(string what)
    {
        using WorkFolder work = new();
        Put(work, Bytes("plain"));
        Assert.Equal(0, Build("plain").Exit);
        Put(work, Bytes(what));
        ProgramRun run = Build("other");
        Assert.Equal((0, string.Empty), (run.Exit, run.Error));
        Assert.DoesNotContain("desk.toml(", run.Output, StringComparison.Ordinal);
        foreach (string sheet in new[] { "sheet-1/front.pdf", "sheet-1/mask.pdf", "sheet-1/duplex.pdf" })
        {
            Assert.Equal(File.ReadAllBytes(work.Below("plain/" + sheet)), File.ReadAllBytes(work.Below("other/" + sheet)));
        }

        ProgramRun Build(string output) => ProgramRun.Of(work.Full, "build", "desk", "--paper", "A4", "--only", "print", "-o", output);
    }

    [Theory]
    [InlineData("no desk here", "holds no desk.toml", "lampblack new \"no desk here\"")]
    [InlineData("bare", "holds no desk.toml", "lampblack new bare'")]
    [InlineData("folder", "holds no desk.toml", "lampblack new folder'")]
    [InlineData("nowhere at all", "no file or folder", "lampblack new DIR")]
    [InlineData("bare/notes", "not a .toml file", "holds desk.toml")]
    public void Where_there_is_no_desk_file_the_way_on_is_told(string desk, string words, string hint)
    {
        using WorkFolder work = new();
        work.Put("no desk here/notes", "x");
        work.Put("bare/notes", "x");
        work.Put("folder/desk.toml/notes", "x");
        string[] before = work.Everything();
        ProgramRun run = ProgramRun.Of(work.Full, "build", desk, "-o", "sheets/new");
        Assert.Equal((3, string.Empty), (run.Exit, run.Output));
        string line = Assert.Single(run.Error.TrimEnd().Split('\n'));
        Assert.Contains($"'{desk}'", line, StringComparison.Ordinal);
        Assert.Contains(words, line, StringComparison.Ordinal);
        Assert.Contains(hint, line, StringComparison.Ordinal);
        Assert.Equal(before, work.Everything());
    }

    [Theory]
    [InlineData("check")]
    [InlineData("build")]
    [InlineData("drilled")]
    public void A_pipe_for_a_desk_file_is_told_and_waited_for_by_nobody(string command)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "there are no named pipes in folders here");
        using WorkFolder work = new();
        Directory.CreateDirectory(work.Below("desk"));
        using (Process pipe = Process.Start("mkfifo", [work.Below("desk/desk.toml")]))
        {
            pipe.WaitForExit();
            Assert.Equal(0, pipe.ExitCode);
        }

        ProgramRun run = ProgramRun.Of(work.Full, command, "desk");
        Assert.Equal((3, string.Empty), (run.Exit, run.Output));
        Assert.Contains("is a pipe or a device, not a plain file", run.Error, StringComparison.Ordinal);
    }

    private static void Put(WorkFolder work, byte[] bytes)
    {
        Directory.CreateDirectory(work.Below("desk"));
        File.WriteAllBytes(work.Below("desk/desk.toml"), bytes);
    }

    private static byte[] Bytes(string what)
    {
        byte[] mark = [0xEF, 0xBB, 0xBF];
        string slip = Plain.Replace("title", "titel", StringComparison.Ordinal);
        return what switch
        {
            "plain" => Utf8(Plain),
            "Latin-1" => Encoding.Latin1.GetBytes(Plain),
            "UTF-16, low byte first" => [.. Encoding.Unicode.GetPreamble(), .. Encoding.Unicode.GetBytes(Plain)],
            "UTF-16, high byte first" => [.. Encoding.BigEndianUnicode.GetPreamble(), .. Encoding.BigEndianUnicode.GetBytes(Plain)],
            "UTF-16 unmarked, low byte first" => Encoding.Unicode.GetBytes(Plain),
            "UTF-16 unmarked, high byte first" => Encoding.BigEndianUnicode.GetBytes(Plain),
            "empty" => [],
            "only a mark" => mark,
            "blank lines" => Utf8("\r\n \n\t\n"),
            "marked" => [.. mark, .. Utf8(Plain)],
            "marked, with a slip" => [.. mark, .. Utf8(slip)],
            "CRLF" => Utf8(Plain.ReplaceLineEndings("\r\n")),
            "CRLF, with a slip" => Utf8(slip.ReplaceLineEndings("\r\n")),
            "marked CRLF" => [.. mark, .. Utf8(Plain.ReplaceLineEndings("\r\n"))],
            "no end of line" => Utf8(Plain.TrimEnd()),
            "cut off" => Utf8(Plain.Split(" 1 µs")[0]),
            "a picture" => [0x89, .. "PNG\r\n\u001A\n"u8, 0, 0, 0, 13, .. "IHDR"u8],
            _ => throw new ArgumentOutOfRangeException(nameof(what), what, "unknown case"),
        };
    }

    private static byte[] Utf8(string text) => Encoding.UTF8.GetBytes(text);
}
