using System;
using System.Collections.Generic;
using System.Diagnostics;
using System.Globalization;
using System.Linq;
using System.Text.Json;
using Xunit;

namespace Lampblack.Shells.Tests;

/// <summary>Pieces in, cuts out, seen from outside.</summary>
public sealed class CutCommandTests
{
    /// <summary>cgcut1 of Christofides and Whitlock, Operations Research 25 (1977): 244 without turning, 260 with.</summary>
    private const string Pieces =
        "plates = 1\n[[stock]]\nsize = [15, 10]\ncount = 1\n" +
        "[[piece]]\nid = \"a\"\nsize = [8, 4]\ncount = 2\nvalue = 66\n[[piece]]\nid = \"b\"\nsize = [3, 7]\ncount = 1\nvalue = 35\n" +
        "[[piece]]\nid = \"c\"\nsize = [8, 2]\ncount = 3\nvalue = 24\n[[piece]]\nid = \"d\"\nsize = [3, 4]\ncount = 5\nvalue = 17\n" +
        "[[piece]]\nid = \"e\"\nsize = [3, 3]\ncount = 2\nvalue = 11\n[[piece]]\nid = \"f\"\nsize = [3, 2]\ncount = 2\nvalue = 8\n" +
        "[[piece]]\nid = \"g\"\nsize = [2, 1]\ncount = 1\nvalue = 2\n";

    [Theory]
    [InlineData("rotate = false\n", 244)]
    [InlineData("", 260)]
    [InlineData("rotate = false\nkerf = 1\n", 177)]
    public void Loose_pieces_are_cut_to_the_published_value(string rules, int value)
    {
        using WorkFolder work = new();
        work.Put("Reste ü.toml", rules + Pieces);
        ProgramRun run = ProgramRun.Of(work.Full, "cut", "Reste ü.toml", "--json");
        using JsonDocument json = JsonDocument.Parse(run.Output);
        Assert.Equal((0, string.Empty), (run.Exit, run.Error));
        Assert.Equal((value, true, value), (json.RootElement.GetProperty("value").GetInt32(), json.RootElement.GetProperty("proven").GetBoolean(), json.RootElement.GetProperty("bound").GetInt32()));
        Assert.Equal(["Reste ü.toml"], work.Files());
    }

    [Fact]
    public void A_desk_s_panels_are_cut_and_the_drawings_go_where_they_are_asked_for()
    {
        using WorkFolder work = new();
        ProgramRun.Of(work.Full, "new", "desk");
        ProgramRun run = ProgramRun.Of(work.Full, "cut", "desk", "-o", "cuts");
        Assert.Equal((0, string.Empty), (run.Exit, run.Error));
        Assert.Contains("1. Score and snap the plate", run.Output, StringComparison.Ordinal);
        Assert.Equal(["cuts/cut-plan-1.svg", "cuts/cut-plan.pdf", "cuts/manifest.json", "desk/desk.toml"], work.Files().Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("nothing.toml", 3)]
    [InlineData("pieces.toml --seconds 0", 2)]
    [InlineData("pieces.toml --seconds soon", 2)]
    [InlineData("bad.toml", 1)]
    public void What_can_t_be_cut_is_told_by_the_exit_code(string arguments, int exit)
    {
        using WorkFolder work = new();
        work.Put("pieces.toml", Pieces);
        work.Put("bad.toml", Pieces + "[[piece]]\nsize = [0, 3]\n");
        ProgramRun run = ProgramRun.Of(work.Full, ["cut", .. arguments.Split(' ')]);
        Assert.Equal(exit, run.Exit);
        Assert.NotEqual(string.Empty, run.Error + run.Output);
    }

    [Fact]
    public void Stopping_gives_the_best_plan_so_far()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "there are no signals to send here");
        using WorkFolder work = new();
        IEnumerable<string> pieces = Enumerable.Range(0, 60).Select(index => FormattableString.Invariant($"[[piece]]\nsize = [{41 + (index * 37 % 113)}.7, {47 + (index * 53 % 101)}.3]\n"));
        work.Put("many.toml", "narrowest = 25\n[[stock]]\nsize = [300, 400]\n[[stock]]\nsize = [240, 300]\nprice = 1\n" + string.Concat(pieces));
        using Process process = ProgramRun.Start(work.Full, new Dictionary<string, string>(), "cut", "many.toml", "--json", "--verbose", "--seconds", "100");
        string? line = process.StandardError.ReadLine();
        while (line is not null && !line.Contains("planning the cuts", StringComparison.Ordinal))
        {
            line = process.StandardError.ReadLine();
        }

        using Process kill = Process.Start("kill", ["-INT", process.Id.ToString(CultureInfo.InvariantCulture)]);
        kill.WaitForExit();
        ProgramRun run = ProgramRun.Finish(process);
        using JsonDocument json = JsonDocument.Parse(run.Output);
        Assert.Equal((130, true), (run.Exit, json.RootElement.GetProperty("stopped").GetBoolean()));
        Assert.False(json.RootElement.GetProperty("proven").GetBoolean());
    }
}
