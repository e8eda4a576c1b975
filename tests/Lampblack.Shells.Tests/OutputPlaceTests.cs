using System;
using System.Collections.Generic;
using System.IO;
using System.Linq;
using System.Text.Json;
using Xunit;

namespace Lampblack.Shells.Tests;

/// <summary>Where a build's files go, and what is there before.</summary>
public sealed class OutputPlaceTests
{
    // Older programs on Windows end at 260 characters with the closing zero (MAX_PATH; "Maximum Path Length Limitation", Windows documentation, from memory).
    [Theory]
    [InlineData("two  words")]
    [InlineData("Gerät für Öfen ß")]
    [InlineData("панель 面板 😀")]
    [InlineData("it's 100 % #1 & [so] on; $HOME ~ !")]
    [InlineData("-o")]
    [InlineData("259")]
    [InlineData("260")]
    [InlineData("261")]
    public void Any_name_of_a_folder_will_do_for_the_desk_and_for_its_sheets(string name)
    {
        using WorkFolder work = new();
        string desk = int.TryParse(name, out int length) ? Long("desk.toml") : name;
        string output = int.TryParse(name, out _) ? Long("manifest.json") : "to " + name;
        work.Put(desk + "/desk.toml", Desk("main", "RELAY"));
        ProgramRun run = ProgramRun.Of(work.Full, "build", "--paper", "A4", "--only", "print", "-o", output, "--", desk);
        Assert.Equal((0, string.Empty), (run.Exit, run.Error));
        Assert.Equal(
            Written.Select(path => $"{output}/{path}").Append($"{desk}/desk.toml").Order(StringComparer.Ordinal),
            work.Files());
        if (length > 0)
        {
            Assert.All([$"{desk}/desk.toml", $"{output}/manifest.json"], path => Assert.Equal(length, work.Below(path).Length));
        }

        string Long(string file) => Path.GetDirectoryName(Path.Combine($"to {file[..4]}", Filler($"to {file[..4]}/", file), file))!.Replace('\\', '/');

        string Filler(string before, string after) => new('n', length - work.Below(before).Length - 1 - after.Length);
    }

    private static string[] Written => ["licences/barlow-condensed.txt", "manifest.json", "print.html", "report.json", "sheet-1/duplex.pdf", "sheet-1/front.pdf", "sheet-1/mask.pdf", "trial.pdf"];

    [Theory]
    [InlineData("build desk -o con")]
    [InlineData("build desk -o sheets/AUX")]
    [InlineData("build desk -o nul.out/sheets")]
    [InlineData("printer which-way -o lpt1")]
    [InlineData("new prn")]
    [InlineData("printer new com1.toml")]
    [InlineData("printer new con")]
    [InlineData("printer export here.toml nul")]
    public void The_name_of_a_device_is_refused_on_every_system(string line)
    {
        using WorkFolder work = new();
        work.Put("desk/desk.toml", Desk("main", "RELAY"));
        ProgramRun.Of(work.Full, "printer", "new", "here.toml");
        string[] before = work.Everything();
        ProgramRun run = ProgramRun.Of(work.Full, line.Split(' '));
        Assert.Equal(3, run.Exit);
        Assert.Contains("the name of a device on some systems", run.Error, StringComparison.Ordinal);
        Assert.Equal(before, work.Everything());
    }

    [Fact]
    public void A_folder_above_that_is_called_like_a_device_may_stay()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "no such folder can be made here");
        using WorkFolder work = new();
        work.Put("aux/desk.toml", Desk("main", "RELAY"));
        Assert.Equal(0, ProgramRun.Of(work.Full, "build", "aux", "--only", "print").Exit);
    }

    [Fact]
    public void A_build_changes_its_own_files_and_nobody_elses()
    {
        using WorkFolder work = new();
        work.Put("one/desk.toml", Desk("main", "RELAY"));
        work.Put("two/desk.toml", Desk("main", "TIMER"));
        string[] strangers = ["notes.txt", "front.pdf", "sheet-1/photo.jpg", "sheet-1/front.pdf.bak", ".hidden", "licences/mine.txt", "pictures/main/own.png", "Manifest.json.txt"];
        DateTime longAgo = new(2001, 2, 3, 4, 5, 6, DateTimeKind.Utc);
        foreach (string path in strangers.Select(path => "sheets/" + path))
        {
            work.Put(path, $"mine: {path}");
            File.SetLastWriteTimeUtc(work.Below(path), longAgo);
        }

        Dictionary<string, string> first = BuildOf("one");
        Dictionary<string, string> second = BuildOf("two");
        Assert.NotEqual(first["sheet-1/front.pdf"], second["sheet-1/front.pdf"]);
        Assert.Equal(Written.Concat(strangers).Order(StringComparer.Ordinal), work.Files().Where(path => path.StartsWith("sheets/", StringComparison.Ordinal)).Select(path => path[7..]));
        foreach (string path in strangers.Select(path => "sheets/" + path))
        {
            Assert.Equal($"mine: {path}", File.ReadAllText(work.Below(path)));
            Assert.Equal(longAgo, File.GetLastWriteTimeUtc(work.Below(path)));
        }

        Dictionary<string, string> BuildOf(string desk)
        {
            ProgramRun run = ProgramRun.Of(work.Full, "build", desk, "--paper", "A4", "--only", "print", "-o", "sheets");
            Assert.Equal((0, string.Empty), (run.Exit, run.Error));
            Assert.DoesNotContain("output-kept", run.Output, StringComparison.Ordinal);
            using JsonDocument manifest = JsonDocument.Parse(File.ReadAllBytes(work.Below("sheets/manifest.json")));
            return manifest.RootElement.GetProperty("files").EnumerateArray().ToDictionary(
                file => file.GetProperty("path").GetString()!, file => file.GetProperty("sha256").GetString()!, StringComparer.Ordinal);
        }
    }

    [Fact]
    public void A_build_into_the_desks_own_folder_leaves_the_desk_alone()
    {
        using WorkFolder work = new();
        work.Put("desk/desk.toml", Desk("main", "RELAY"));
        Assert.Equal(0, ProgramRun.Of(work.Below("desk"), "build", ".", "--paper", "A4", "--only", "print", "-o", ".").Exit);
        Assert.Equal(Desk("main", "RELAY"), File.ReadAllText(work.Below("desk/desk.toml")));
        Assert.Equal(Written.Append("desk.toml").Order(StringComparer.Ordinal), work.Files().Select(path => path[5..]));
    }

    [Theory]
    [InlineData("taken", "'taken' is a file")]
    [InlineData("taken/", "is a file")]
    [InlineData("taken/below", "'taken' is a file")]
    [InlineData("desk/desk.toml/out/new", "is a file")]
    public void A_file_in_the_way_of_the_output_folder_is_named(string output, string words)
    {
        using WorkFolder work = new();
        work.Put("desk/desk.toml", Desk("main", "RELAY"));
        work.Put("taken", "a file");
        CheckRefused(work, output, words);
    }

    [Fact]
    public void A_folder_that_can_never_be_made_leaves_no_folder_above_it()
    {
        // No file system has names of more than 255 characters.
        using WorkFolder work = new();
        work.Put("desk/desk.toml", Desk("main", "RELAY"));
        CheckRefused(work, $"new/newer/{new string('x', 300)}", "too long");
    }

    [Fact]
    public void A_desk_that_is_stopped_leaves_no_empty_folders()
    {
        using WorkFolder work = new();
        work.Put("desk/desk.toml", Desk("main", "RELAY").Replace("at =", "att =", StringComparison.Ordinal));
        Directory.CreateDirectory(work.Below("there"));
        string[] before = work.Everything();
        Assert.Equal(1, ProgramRun.Of(work.Full, "build", "desk", "-o", "there/new/newer/newest").Exit);
        Assert.Equal(before, work.Everything());
    }

    [Fact]
    public void A_folder_that_even_an_administrator_cannot_write_is_refused_in_a_sentence()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "this system has no /proc, where nobody can make a folder");
        using WorkFolder work = new();
        work.Put("desk/desk.toml", Desk("main", "RELAY"));
        CheckRefused(work, "/proc/lampblack", "Cannot write into the folder '/proc/lampblack'");
    }

    private static void CheckRefused(WorkFolder work, string output, string words)
    {
        string[] before = work.Everything();
        ProgramRun run = ProgramRun.Of(work.Full, "build", "desk", "-o", output);
        Assert.Equal((3, string.Empty), (run.Exit, run.Output));
        string line = Assert.Single(run.Error.TrimEnd().Split('\n'));
        Assert.Contains(words, line, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", line, StringComparison.Ordinal);
        Assert.Equal(before, work.Everything());
    }

    private static string Desk(string panel, string words) => $"""
        lampblack = 1

        [[panel]]
        id = "{panel}"
        size = [100, 60]

          [[panel.legend]]
          text = "{words}"
          at = [50, 30]

        """;
}
