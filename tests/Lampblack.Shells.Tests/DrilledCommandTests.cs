using System;
using System.IO;
using System.Linq;
using System.Text.Json;
using Xunit;

namespace Lampblack.Shells.Tests;

public sealed class DrilledCommandTests
{
    private const string Desk = "lampblack = 1\r\n[[panel]]\r\nid = \"p\"\r\nsize = [80, 60]\r\n  [[panel.control]]\r\n  id = \"lamp\"\r\n  part = \"hole-6\"\r\n  at = [40, 30]  # meant\r\n";

    [Fact]
    public void A_measured_hole_is_written_built_and_then_held_until_it_is_cleared()
    {
        using WorkFolder work = new();
        work.Put("desk/desk.toml", Desk);
        Assert.DoesNotContain("Since the last build", ProgramRun.Of(work.Full, "build", "desk", "--only", "print").Output, StringComparison.Ordinal);
        ProgramRun drilled = ProgramRun.Of(work.Full, "drilled", "desk", "lamp=-0.3,0.2");
        Assert.Equal((0, string.Empty), (drilled.Exit, drilled.Error));
        Assert.Contains("p/lamp: 0.3 mm left and 0.2 mm up of its place", drilled.Output, StringComparison.Ordinal);
        Assert.Equal(Desk + "  drilled = [-0.3, 0.2]\r\n", File.ReadAllText(work.Below("desk/desk.toml")));

        ProgramRun build = ProgramRun.Of(work.Full, "build", "desk", "--only", "print");
        Assert.Contains("  panel p: mask and front changed; holes put where they were drilled (lamp), the drilled plate fits", build.Output, StringComparison.Ordinal);
        Assert.Contains("Since the last build nothing changed.", ProgramRun.Of(work.Full, "build", "desk", "--only", "print").Output, StringComparison.Ordinal);

        work.Put("desk/desk.toml", File.ReadAllText(work.Below("desk/desk.toml")).Replace("[40, 30]", "[50, 30]", StringComparison.Ordinal));
        foreach (string command in new[] { "build", "check" })
        {
            ProgramRun moved = ProgramRun.Of(work.Full, command, "desk");
            Assert.Equal(1, moved.Exit);
            Assert.Contains("stop drilled-moved: `p/lamp` is drilled at [39.7, 30.2] and would now lie at [49.7, 30.2], 10 mm away", moved.Output, StringComparison.Ordinal);
        }

        Assert.Equal(0, ProgramRun.Of(work.Full, "drilled", "desk", "--clear", "p/lamp").Exit);
        Assert.Equal(Desk.Replace("[40, 30]", "[50, 30]", StringComparison.Ordinal), File.ReadAllText(work.Below("desk/desk.toml")));
        Assert.Equal(0, ProgramRun.Of(work.Full, "build", "desk", "--only", "print").Exit);
    }

    [Fact]
    public void Json_tells_what_is_drilled_and_what_a_build_changed()
    {
        using WorkFolder work = new();
        work.Put("desk/desk.toml", Desk);
        using (JsonDocument first = JsonDocument.Parse(ProgramRun.Of(work.Full, "build", "desk", "--only", "print", "--json").Output))
        {
            Assert.Equal(0, first.RootElement.GetProperty("changes").GetArrayLength());
        }

        using (JsonDocument answer = JsonDocument.Parse(ProgramRun.Of(work.Full, "drilled", "desk", "lamp=0.3,0", "--json").Output))
        {
            Assert.Equal("lampblack-drilled/1", answer.RootElement.GetProperty("schema").GetString());
            Assert.True(answer.RootElement.GetProperty("changed").GetBoolean());
            JsonElement line = answer.RootElement.GetProperty("drilled").EnumerateArray().Single();
            Assert.Equal(("p/lamp", 0.3, 0.0), (line.GetProperty("item").GetString(), line.GetProperty("dxMm").GetDouble(), line.GetProperty("dyMm").GetDouble()));
        }

        using JsonDocument second = JsonDocument.Parse(ProgramRun.Of(work.Full, "build", "desk", "--only", "print", "--json").Output);
        Assert.Equal(["p", "sheet-1"], second.RootElement.GetProperty("changes").EnumerateArray().Select(change => change.GetProperty("item").GetString()));
    }

    [Fact]
    public void A_wrong_id_writes_nothing()
    {
        using WorkFolder work = new();
        work.Put("desk/desk.toml", Desk);
        ProgramRun run = ProgramRun.Of(work.Full, "drilled", "desk", "lmap=0.3,0");
        Assert.Equal(1, run.Exit);
        Assert.Contains("did you mean `lamp`?", run.Output, StringComparison.Ordinal);
        Assert.Equal(Desk, File.ReadAllText(work.Below("desk/desk.toml")));
    }
}
