using System;
using System.Collections.Generic;
using System.IO;
using System.Linq;
using System.Text.Json;
using Xunit;

namespace Lampblack.Shells.Tests;

public sealed class DeskCommandsTests
{
    [Fact]
    public void A_new_desk_can_be_checked_at_once()
    {
        using WorkFolder work = new();
        ProgramRun started = ProgramRun.Of(work.Full, "new", "mein Gerät");
        Assert.Equal((0, string.Empty), (started.Exit, started.Error));
        Assert.Equal(["mein Gerät/desk.toml"], work.Files());
        Assert.Contains("lampblack build \"mein Gerät\"", started.Output, StringComparison.Ordinal);
        ProgramRun check = ProgramRun.Of(work.Full, "check", "mein Gerät");
        Assert.Equal((0, string.Empty), (check.Exit, check.Error));
    }

    /// <summary>What is usual is the same at every run: its codes stand in one line, and the sentences where they are asked for.</summary>
    [Fact]
    public void Check_tells_usual_values_in_one_line_and_in_full_where_asked()
    {
        using WorkFolder work = new();
        ProgramRun.Of(work.Full, "new", "desk", "--like", "kiln");
        string[] lines = ProgramRun.Of(work.Full, "check", "desk").Output.Split('\n');
        string usual = Assert.Single(lines, line => line.Contains("-default", StringComparison.Ordinal) || line.Contains("-assumed", StringComparison.Ordinal));
        Assert.StartsWith("Where nothing was said, what is usual stands in: ", usual, StringComparison.Ordinal);
        string[] full = ProgramRun.Of(work.Full, "check", "desk", "--verbose").Output.Split('\n');
        Assert.DoesNotContain(full, line => line.StartsWith("Where nothing was said", StringComparison.Ordinal));
        foreach (string code in usual.Split(": ")[1].Split("; ")[0].Split(", "))
        {
            Assert.Contains(full, line => line.Contains($"note {code}: ", StringComparison.Ordinal));
        }
    }

    [Fact]
    public void New_never_overwrites()
    {
        using WorkFolder work = new();
        work.Put("desk/desk.toml", "mine");
        ProgramRun run = ProgramRun.Of(work.Full, "new", "desk");
        Assert.Equal(3, run.Exit);
        Assert.Contains("already there", run.Error, StringComparison.Ordinal);
        Assert.Equal("mine", File.ReadAllText(work.Below("desk/desk.toml")));
    }

    [Fact]
    public void Every_example_that_help_names_can_be_started_from_and_builds()
    {
        using WorkFolder work = new();
        string help = ProgramRun.Of(work.Full, "new", "--help").Output;
        string names = help.Split("--like <")[1].Split('>')[0];
        foreach (string name in names.Split('|'))
        {
            Assert.Equal(0, ProgramRun.Of(work.Full, "new", name, "--like", name).Exit);
            ProgramRun build = ProgramRun.Of(work.Full, "build", name);
            Assert.Equal((name, 0, string.Empty), (name, build.Exit, build.Error));
        }
    }

    [Theory]
    [InlineData("check")]
    [InlineData("build")]
    public void What_cannot_be_read_is_exit_code_3_with_one_plain_line(string command)
    {
        using WorkFolder work = new();
        work.Put("notes.txt", "x");
        work.Put("bare/readme.md", "x");
        work.Put("huge.toml", new string('#', 2_000_001));
        string[] before = work.Files();
        foreach (string desk in new[] { "nowhere", "notes.txt", "bare", "huge.toml", "nowhere/deep/desk.toml", string.Empty })
        {
            ProgramRun run = ProgramRun.Of(work.Full, command, desk);
            Assert.Equal((desk, 3, string.Empty), (desk, run.Exit, run.Output));
            Assert.Single(run.Error.TrimEnd().Split('\n'));
            Assert.DoesNotContain("Exception", run.Error, StringComparison.Ordinal);
        }

        Assert.Equal(before, work.Files());
    }

    [Fact]
    public void What_the_maker_lets_stand_is_counted_apart_and_kept_with_its_reason()
    {
        using WorkFolder work = new();
        ProgramRun.Of(work.Full, "new", "desk", "--like", "dome-desk");
        ProgramRun plain = ProgramRun.Of(work.Full, "check", "desk");
        Assert.Contains(" accepted. Next:", plain.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("legend-below", plain.Output, StringComparison.Ordinal);
        using JsonDocument answer = JsonDocument.Parse(ProgramRun.Of(work.Full, "check", "desk", "--json").Output);
        JsonElement told = answer.RootElement.GetProperty("findings").EnumerateArray().Single(finding => finding.GetProperty("code").GetString() == "legend-below" && finding.GetProperty("item").GetString() == "scope/focus");
        Assert.Equal("above are the arrows, which the hand must not hide", told.GetProperty("accepted").GetString());
    }

    [Theory]
    [InlineData("check", "lampblack-check/1")]
    [InlineData("build", "lampblack-build/1")]
    public void Json_is_one_object_and_nothing_else(string command, string schema)
    {
        using WorkFolder work = new();
        ProgramRun.Of(work.Full, "new", "Gerät");
        ProgramRun run = ProgramRun.Of(work.Full, command, "Gerät", "--json");
        Assert.Empty(run.Error);
        using JsonDocument answer = JsonDocument.Parse(run.Output);
        Assert.Equal(schema, answer.RootElement.GetProperty("schema").GetString());
        Assert.Equal(0, answer.RootElement.GetProperty("exit").GetInt32());
        Assert.Equal("Gerät/desk.toml", answer.RootElement.GetProperty("desk").GetString()!.Replace('\\', '/'));
        Assert.Equal(JsonValueKind.Array, answer.RootElement.GetProperty("findings").ValueKind);
    }

    [Theory]
    [InlineData("check", "lampblack-check/1")]
    [InlineData("build", "lampblack-build/1")]
    public void Json_stays_one_object_when_nothing_can_be_read(string command, string schema)
    {
        using WorkFolder work = new();
        ProgramRun run = ProgramRun.Of(work.Full, command, "nowhere", "--json");
        Assert.Equal(3, run.Exit);
        using JsonDocument answer = JsonDocument.Parse(run.Output);
        Assert.Equal(schema, answer.RootElement.GetProperty("schema").GetString());
        Assert.Equal(3, answer.RootElement.GetProperty("exit").GetInt32());
        Assert.Contains("nowhere", answer.RootElement.GetProperty("error").GetString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("de_DE.UTF-8", null, "A4", "region")]
    [InlineData("en_US.UTF-8", null, "Letter", "region")]
    [InlineData("en_US.UTF-8", "a4", "A4", "option")]
    public void The_answer_says_which_paper_and_why(string locale, string? option, string paper, string from)
    {
        using WorkFolder work = new();
        ProgramRun.Of(work.Full, "new", "desk");
        string[] arguments = option is null ? ["build", "desk", "--json"] : ["build", "desk", "--json", "--paper", option];
        ProgramRun run = ProgramRun.With(work.Full, new Dictionary<string, string> { ["LC_ALL"] = locale }, arguments);
        using JsonDocument answer = JsonDocument.Parse(run.Output);
        Assert.Equal((paper, from), (answer.RootElement.GetProperty("paper").GetString(), answer.RootElement.GetProperty("paperFrom").GetString()));
    }

    [Fact]
    public void Quiet_says_nothing_when_all_is_well_and_verbose_logs_to_the_error_output_only()
    {
        using WorkFolder work = new();
        ProgramRun.Of(work.Full, "new", "desk");
        ProgramRun quiet = ProgramRun.Of(work.Full, "check", "desk", "--quiet");
        Assert.Equal((0, string.Empty), (quiet.Exit, quiet.Error));
        Assert.DoesNotContain("Next:", quiet.Output, StringComparison.Ordinal);
        ProgramRun plain = ProgramRun.Of(work.Full, "check", "desk");
        ProgramRun verbose = ProgramRun.Of(work.Full, "check", "desk", "--verbose");

        // What is usual is told in full with --verbose, in one line without; all else is the same, and the log is not among it.
        Assert.All(plain.Output.Split('\n').Where(line => !line.StartsWith("Where nothing was said", StringComparison.Ordinal)), line => Assert.Contains(line, verbose.Output, StringComparison.Ordinal));
        Assert.DoesNotContain("] reading", verbose.Output, StringComparison.Ordinal);
        Assert.Matches(@"\[\s*\d+\.\d+ s\] reading desk", verbose.Error);
    }

    [Fact]
    public void Piped_output_has_no_colour_and_no_progress()
    {
        using WorkFolder work = new();
        ProgramRun.Of(work.Full, "new", "desk");
        ProgramRun run = ProgramRun.With(work.Full, new Dictionary<string, string> { ["TERM"] = "xterm-256color" }, "build", "desk");
        Assert.DoesNotContain('\u001b', run.Output + run.Error);
    }

    [Fact]
    public void A_desk_far_down_in_long_folders_is_checked()
    {
        using WorkFolder work = new();
        string folder = string.Join('/', Enumerable.Repeat(new string('n', 90), 4));
        Assert.Equal(0, ProgramRun.Of(work.Full, "new", folder).Exit);
        Assert.Equal(0, ProgramRun.Of(work.Full, "check", folder).Exit);
        Assert.Equal(0, ProgramRun.Of(work.Full, "build", folder).Exit);
    }

    [Fact]
    public void An_output_folder_that_cannot_be_written_is_exit_code_3()
    {
        using WorkFolder work = new();
        ProgramRun.Of(work.Full, "new", "desk");
        work.Put("taken", "a file");
        Assert.Equal(3, ProgramRun.Of(work.Full, "build", "desk", "-o", "taken").Exit);
        Assert.Equal(3, ProgramRun.Of(work.Full, "build", "desk", "-o", "taken/below").Exit);
        Assert.Equal("a file", File.ReadAllText(work.Below("taken")));
    }

    [Fact]
    public void A_folder_without_permission_is_exit_code_3_and_says_so()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows() || Environment.IsPrivilegedProcess, "permissions do not bind an administrator");
        using WorkFolder work = new();
        ProgramRun.Of(work.Full, "new", "desk");
        Directory.CreateDirectory(work.Below("locked"));
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(work.Below("locked"), UnixFileMode.UserRead | UnixFileMode.UserExecute);
        }

        ProgramRun run = ProgramRun.Of(work.Full, "build", "desk", "-o", "locked");
        Assert.Equal(3, run.Exit);
        Assert.Contains("permission", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void What_a_build_made_is_what_its_manifest_lists_and_a_stranger_stays()
    {
        using WorkFolder work = new();
        ProgramRun.Of(work.Full, "new", "desk");
        work.Put("desk/out/notes.txt", "mine");
        Assert.Equal(0, ProgramRun.Of(work.Full, "build", "desk").Exit);
        Assert.SkipUnless(File.Exists(work.Below("desk/out/manifest.json")), "the core makes no files yet");
        using JsonDocument manifest = JsonDocument.Parse(File.ReadAllBytes(work.Below("desk/out/manifest.json")));
        string[] listed = [.. manifest.RootElement.GetProperty("files").EnumerateArray().Select(file => "desk/out/" + file.GetProperty("path").GetString())];
        string[] expected = [.. listed.Append("desk/desk.toml").Append("desk/out/manifest.json").Append("desk/out/notes.txt").Distinct().Order(StringComparer.Ordinal)];
        Assert.Equal(expected, work.Files());
    }

    [Fact]
    public void Doctor_looks_at_everything_and_its_exit_code_fits()
    {
        using WorkFolder work = new();
        ProgramRun run = ProgramRun.Of(work.Full, "doctor", "--json");
        using JsonDocument answer = JsonDocument.Parse(run.Output);
        Assert.Equal("lampblack-doctor/1", answer.RootElement.GetProperty("schema").GetString());
        Dictionary<string, string> conditions = answer.RootElement.GetProperty("looked").EnumerateArray()
            .ToDictionary(line => line.GetProperty("name").GetString()!, line => line.GetProperty("condition").GetString()!, StringComparer.Ordinal);
        Assert.Equal("fine", conditions["drawing"]);
        Assert.Equal("fine", conditions["lettering"]);
        Assert.Equal("fine", conditions["own folder"]);
        Assert.Equal(conditions.ContainsValue("missing") ? 1 : 0, run.Exit);
    }

    [Fact]
    public void Doctor_says_when_the_users_folder_cannot_be_written()
    {
        using WorkFolder work = new();
        work.Put("own", "a file, not a folder");
        ProgramRun run = ProgramRun.With(work.Full, new Dictionary<string, string> { ["LAMPBLACK_HOME"] = work.Below("own") }, "doctor");
        Assert.Equal(1, run.Exit);
        Assert.Matches("(?m)^missing +own folder", run.Output);
    }

    /// <summary>The program runs under German settings in these tests: a point is a point all the same.</summary>
    [Fact]
    public void Numbers_of_options_are_read_with_points_whatever_the_region_writes()
    {
        using WorkFolder work = new();
        string root = Path.Combine(LauncherTests.Root(), "examples");
        File.Copy(Path.Combine(root, "made-up-printer.toml"), work.Below("made-up.toml"));
        string desk = Path.Combine(root, "kiln");
        string[] common = ["build", desk, "--printer", work.Below("made-up.toml"), "--paper", "A4", "--only", "print", "-o", "out"];
        ProgramRun run = ProgramRun.Of(work.Full, [.. common, "--good-sheets", "99.5", "--contrast", "2.5", "--misregister", "0.2,-0.1"]);
        Assert.Equal((0, string.Empty), (run.Exit, run.Error));
        Assert.Contains("99.5", run.Output, StringComparison.Ordinal);
        Assert.Contains("2.5 to 1 wanted", run.Output, StringComparison.Ordinal);
        foreach ((string[] wrong, string words) in new (string[], string)[]
        {
            (["--good-sheets", "99,5"], "--good-sheets"), (["--good-sheets", "100"], "--good-sheets"), (["--contrast", "viel"], "--contrast"),
            (["--misregister", "0.2"], "--misregister"), (["--good-sheets", "90", "--spread", "0.5"], "can't both"),
        })
        {
            ProgramRun refused = ProgramRun.Of(work.Full, [.. common, .. wrong]);
            Assert.Equal(2, refused.Exit);
            Assert.Contains(words, refused.Error, StringComparison.Ordinal);
        }
    }
}
