using System;
using System.Collections.Generic;
using System.Diagnostics;
using System.Linq;
using System.Text.Json;
using Xunit;

namespace Lampblack.Shells.Tests;

/// <summary>A desk in, emitters and circuit out, seen from outside.</summary>
public sealed class LightCommandTests
{
    private const string Desk =
        "lampblack = 1\n[lighting]\nemitter = \"emitter-5mm-wide\"\nsupply = \"12 V\"\ndepth = 40\n[[panel]]\nid = \"one\"\nsize = [120, 80]\n" +
        "[[panel.legend]]\ntext = \"NORTH\"\nat = [20, 60]\n[[panel.legend]]\ntext = \"SOUTH\"\nat = [100, 20]\n";

    private const string Emitters = "[[emitter]]\nat = [60, 40]\nlumen = 5\nhalfAngle = 60\n[box]\nsize = [120, 80]\ndepth = 40\nwall = 0.8\nfloor = 0.8\nmask = 0.05\n";

    [Fact]
    public void A_plan_is_one_object_with_a_grid_legends_and_emitters()
    {
        using WorkFolder work = new();
        work.Put("Pult ü.toml", Desk);
        ProgramRun run = ProgramRun.Of(work.Full, "light", "Pult ü.toml", "--grid", "10mm", "--json");
        using JsonDocument json = JsonDocument.Parse(run.Output);
        Assert.Equal((0, string.Empty), (run.Exit, run.Error));
        Assert.Equal("lampblack-light/1", json.RootElement.GetProperty("schema").GetString());
        JsonElement grid = json.RootElement.GetProperty("grid");
        Assert.Equal(grid.GetProperty("nx").GetInt32() * grid.GetProperty("ny").GetInt32(), grid.GetProperty("lux").GetArrayLength());
        Assert.Equal(10, grid.GetProperty("stepMm").GetDouble());
        Assert.Equal(["NORTH", "SOUTH"], json.RootElement.GetProperty("legends").EnumerateArray().Select(legend => legend.GetProperty("words").GetString()));
        Assert.NotEqual(0, json.RootElement.GetProperty("emitters").GetArrayLength());
        Assert.Equal(["Pult ü.toml"], work.Files());
    }

    [Fact]
    public void Emitters_of_a_file_are_judged_and_drawings_go_where_they_are_asked_for()
    {
        using WorkFolder work = new();
        work.Put("desk.toml", Desk);
        work.Put("mine.toml", Emitters);
        ProgramRun judged = ProgramRun.Of(work.Full, "light", "desk.toml", "--emitters", "mine.toml", "--json");
        using JsonDocument json = JsonDocument.Parse(judged.Output);
        JsonElement only = Assert.Single(json.RootElement.GetProperty("emitters").EnumerateArray());
        Assert.Equal((60, 40, 5, 60), (only.GetProperty("xMm").GetDouble(), only.GetProperty("yMm").GetDouble(), only.GetProperty("lumen").GetDouble(), only.GetProperty("halfAngleDeg").GetDouble()));
        ProgramRun run = ProgramRun.Of(work.Full, "light", "desk.toml", "-o", "drawn");
        Assert.Equal((0, string.Empty), (run.Exit, run.Error));
        Assert.Contains("cd/m2", run.Output, StringComparison.Ordinal);
        Assert.Contains("drawn/manifest.json", work.Files());
        Assert.Contains("drawn/light/circuit.svg", work.Files());
    }

    [Fact]
    public void What_is_wrong_with_a_file_of_emitters_is_told_by_the_name_that_was_typed()
    {
        using WorkFolder work = new();
        work.Put("pult/desk.toml", Desk);
        work.Put("lamps/bad.toml", "[[emitter]]\nat = [60, 40]\nbright = 5\n");
        work.Put("lamps/far.toml", "[[emitter]]\nat = [900, 40]\n");
        ProgramRun bad = ProgramRun.Of(work.Full, "light", "pult", "--emitters", "lamps/bad.toml");
        Assert.Contains("lamps/bad.toml(3,1): stop key-unknown", bad.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("pult/lamps", bad.Output, StringComparison.Ordinal);
        ProgramRun far = ProgramRun.Of(work.Full, "light", "pult", "--emitters", "lamps/far.toml");
        Assert.Contains("lamps/far.toml(1,1): warn emitter-blocked", far.Output, StringComparison.Ordinal);
        ProgramRun none = ProgramRun.Of(work.Full, "light", "pult", "--emitters", "lamps/none.toml");
        Assert.Contains("There is no file 'lamps/none.toml' to read emitters from.", none.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("starts a new desk", none.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("nothing.toml", 3)]
    [InlineData("desk.toml --emitters nothing.toml", 3)]
    [InlineData("desk.toml --emitters desk.toml", 1)]
    [InlineData("desk.toml --grid nowhere", 1)]
    [InlineData("desk.toml --panel two", 1)]
    [InlineData("desk.toml --seed -1", 2)]
    public void What_can_t_be_lit_is_told_by_the_exit_code(string arguments, int exit)
    {
        using WorkFolder work = new();
        work.Put("desk.toml", Desk);
        ProgramRun run = ProgramRun.Of(work.Full, ["light", .. arguments.Split(' ')]);
        Assert.Equal(exit, run.Exit);
        Assert.NotEqual(string.Empty, run.Error + run.Output);
    }

    [Fact]
    public void Stopping_gives_the_best_plan_so_far()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "there are no signals to send here");
        using WorkFolder work = new();

        // No plan can be this even, so the search goes on for long.
        work.Put("desk.toml", Desk.Replace("depth = 40", "depth = 40\nevenness = 1.05", StringComparison.Ordinal) + string.Concat(Enumerable.Range(0, 60).Select(index =>
            FormattableString.Invariant($"[[panel.legend]]\ntext = \"{index}\"\nat = [{10 + (index % 10 * 10)}, {12 + (index / 10 * 11)}]\nheight = 2\n"))));
        using Process process = ProgramRun.Start(work.Full, new Dictionary<string, string>(), "light", "desk.toml", "--json", "--verbose");
        string? line = process.StandardError.ReadLine();
        while (line is not null && !line.Contains("trying", StringComparison.Ordinal))
        {
            line = process.StandardError.ReadLine();
        }

        Assert.NotNull(line);
        using Process? kill = Process.Start("kill", ["-INT", FormattableString.Invariant($"{process.Id}")]);
        string output = process.StandardOutput.ReadToEnd();
        process.StandardError.ReadToEnd();
        Assert.True(process.WaitForExit(60_000), "it did not end");
        Assert.Equal(130, process.ExitCode);
        using JsonDocument json = JsonDocument.Parse(output);
        Assert.True(json.RootElement.GetProperty("stopped").GetBoolean());
    }
}
