using System;
using System.Collections.Generic;
using System.IO;
using System.Linq;
using System.Text.Json;
using Xunit;

namespace Lampblack.Shells.Tests;

/// <summary>One picture in, sheets out, seen from outside.</summary>
public sealed class SeparateCommandTests
{
    private const string Face = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"60mm\" height=\"40mm\" viewBox=\"0 0 60 40\"><rect width=\"60\" height=\"40\" fill=\"#101014\"/><circle cx=\"30\" cy=\"20\" r=\"9\" fill=\"#ffffff\"/></svg>";

    [Theory]
    [InlineData("face.svg", "face")]
    [InlineData("Mein Bild ü 😀.svg", "Mein Bild ü 😀")]
    [InlineData("-o.svg", "-o")]
    [InlineData("@home.svg", "@home")]
    [InlineData("a.b.c.SVG", "a.b.c")]
    public void Whatever_a_picture_is_called_it_becomes_sheets_named_after_nothing_but_themselves(string name, string title)
    {
        using WorkFolder work = new();
        work.Put($"Blend ä/{name}", Face);
        ProgramRun run = ProgramRun.Of(work.Full, "separate", "--paper", "A4", "-o", "out", "--only", "print", "--", $"Blend ä/{name}");
        Assert.Equal((0, string.Empty), (run.Exit, run.Error));
        Assert.Contains(title, run.Output, StringComparison.Ordinal);
        foreach (string file in new[] { "sheet-1/front.pdf", "sheet-1/mask.pdf", "manifest.json", "report.json" })
        {
            Assert.True(File.Exists(work.Below($"out/{file}")), $"{file} is missing: {run.Output}");
        }
    }

    [Fact]
    public void Without_a_place_sheets_come_into_a_folder_beside_nothing_else_is_touched()
    {
        using WorkFolder work = new();
        work.Put("face.svg", Face);
        string[] before = work.Everything();
        ProgramRun run = ProgramRun.Of(work.Full, "separate", "face.svg", "--paper", "A4", "--only", "print", "-q");
        Assert.Equal((0, string.Empty), (run.Exit, run.Output));
        IEnumerable<string> made = work.Everything().Except(before, StringComparer.Ordinal);
        Assert.All(made, path => Assert.StartsWith(work.Below("out"), path, StringComparison.Ordinal));
    }

    /// <summary>A folder that holds a desk's build may be named, but nobody loses one in silence; a second picture over the first is no loss.</summary>
    [Fact]
    public void A_picture_over_a_desks_build_says_so_in_any_case()
    {
        using WorkFolder work = new();
        Assert.Equal(0, ProgramRun.Of(work.Full, "new", "desk").Exit);
        Assert.Equal(0, ProgramRun.Of(work.Full, "build", "desk", "--only", "print").Exit);
        work.Put("face.svg", Face);
        ProgramRun run = ProgramRun.Of(work.Full, "separate", "face.svg", "--paper", "A4", "--only", "print", "-o", "desk/out", "-q");
        Assert.Equal(0, run.Exit);
        Assert.Contains("warn output-other-desk", run.Output, StringComparison.Ordinal);
        Assert.Contains("desk/out", run.Output, StringComparison.Ordinal);
        Assert.Equal(string.Empty, ProgramRun.Of(work.Full, "separate", "face.svg", "--paper", "A4", "--only", "print", "-o", "desk/out", "-q").Output);
    }

    [Theory]
    [InlineData("nothing here", 3, "There is no file")]
    [InlineData("a folder", 3, "is a folder")]
    [InlineData("empty", 1, "stop art-file")]
    [InlineData("cut off", 1, "stop art-cut-off")]
    [InlineData("a text", 1, "stop svg-not-svg")]
    [InlineData("no size", 1, "`--width`")]
    [InlineData("too wide", 1, "stop art-too-large")]
    [InlineData("a header that lies", 1, "stop art-broken")]
    [InlineData("no number", 2, "--width")]
    [InlineData("below nothing", 2, "too small")]
    [InlineData("no such option", 2, "--wide")]
    public void What_cannot_be_separated_is_told_in_a_sentence_and_nothing_is_written(string what, int exit, string words)
    {
        using WorkFolder work = new();
        byte[] picture = File.ReadAllBytes(Path.Combine(LauncherTests.Root(), "examples", "gauge", "gauge.png"));
        Directory.CreateDirectory(work.Below("folder"));
        string[] arguments = what switch
        {
            "nothing here" => ["gone.png"],
            "a folder" => ["folder", "--width", "60mm"],
            "empty" => [Put("art.png", []), "--width", "60mm"],
            "cut off" => [Put("art.png", picture[..(picture.Length / 2)]), "--width", "60mm"],
            "a text" => [Put("art.svg", "A gauge, as I see it."u8.ToArray()), "--width", "60mm"],
            "no size" => [Put("art.svg", System.Text.Encoding.UTF8.GetBytes(Face.Replace("width=\"60mm\" height=\"40mm\"", string.Empty, StringComparison.Ordinal)))],
            "too wide" => [Put("art.png", picture), "--width", "900mm"],
            "a header that lies" => [Put("art.png", [.. picture[..16], 0, 1, 0, 0, 0, 1, 0, 0, .. picture[24..]]), "--width", "60mm"],
            "no number" => [Put("art.png", picture), "--width", "wide"],
            "below nothing" => [Put("art.png", picture), "--width", "-5mm"],
            _ => [Put("art.png", picture), "--wide", "60mm"],
        };
        string[] before = work.Everything();
        ProgramRun run = ProgramRun.Of(work.Full, ["separate", .. arguments, "--paper", "A4", "-o", "out"]);
        Assert.Equal(exit, run.Exit);
        Assert.Contains(words, run.Output + run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("made a mistake", run.Output + run.Error, StringComparison.Ordinal);

        // A panel of 900 mm fits on no paper either.
        Assert.True((run.Output + run.Error).Split("stop ").Length <= (what == "too wide" ? 3 : 2), run.Output);
        Assert.Equal(before, work.Everything());

        string Put(string name, byte[] bytes)
        {
            File.WriteAllBytes(work.Below(name), bytes);
            return name;
        }
    }

    [Fact]
    public void Help_names_only_what_a_picture_can_have()
    {
        using WorkFolder work = new();
        string help = ProgramRun.Of(work.Full, "separate", "--help").Output;
        Assert.Contains("lampblack-separate/1", help, StringComparison.Ordinal);
        Assert.DoesNotContain("lampblack-build/1", help, StringComparison.Ordinal);
        Assert.DoesNotContain("book", help, StringComparison.Ordinal);
        Assert.DoesNotContain("beside the desk file", help, StringComparison.Ordinal);
        Assert.Contains("book", ProgramRun.Of(work.Full, "build", "--help").Output, StringComparison.Ordinal);
    }

    [Fact]
    public void For_machines_the_answer_is_one_document_in_both_cases()
    {
        using WorkFolder work = new();
        work.Put("face.svg", Face);
        ProgramRun good = ProgramRun.Of(work.Full, "separate", "face.svg", "--paper", "A4", "--only", "print", "--json");
        ProgramRun bad = ProgramRun.Of(work.Full, "separate", "gone.svg", "--json");
        using JsonDocument done = JsonDocument.Parse(good.Output);
        using JsonDocument refused = JsonDocument.Parse(bad.Output);
        Assert.Equal(("lampblack-separate/1", 0), (done.RootElement.GetProperty("schema").GetString(), done.RootElement.GetProperty("exit").GetInt32()));
        Assert.Equal(("lampblack-separate/1", bad.Exit), (refused.RootElement.GetProperty("schema").GetString(), refused.RootElement.GetProperty("exit").GetInt32()));
        Assert.All(done.RootElement.GetProperty("files").EnumerateArray(), file => Assert.True(File.Exists(work.Below($"out/{file.GetProperty("path").GetString()}"))));
    }

    [Fact]
    public void The_same_picture_gives_the_same_bytes_wherever_it_lies()
    {
        using WorkFolder work = new();
        work.Put("one/face.svg", Face);
        work.Put("zwei ü/tief/face.svg", Face);
        Assert.Equal(0, ProgramRun.Of(work.Full, "separate", "one/face.svg", "--paper", "A4", "-o", "first", "-q").Exit);
        Assert.Equal(0, ProgramRun.Of(work.Below("zwei ü"), "separate", work.Below("zwei ü/tief/face.svg"), "--paper", "A4", "-o", "../second", "-q").Exit);
        string[] first = Files("first");
        Assert.Equal(first, Files("second"));
        Assert.All(first, file => Assert.Equal(File.ReadAllBytes(work.Below($"first/{file}")), File.ReadAllBytes(work.Below($"second/{file}"))));

        string[] Files(string folder) => [.. Directory.EnumerateFiles(work.Below(folder), "*", SearchOption.AllDirectories).Select(file => Path.GetRelativePath(work.Below(folder), file)).Order(StringComparer.Ordinal)];
    }
}
