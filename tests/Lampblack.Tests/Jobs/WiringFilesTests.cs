using System;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using System.Text.Json;
using System.Threading;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Tests.Checks;
using Lampblack.Tests.Suites;
using Lampblack.Tests.Wiring;
using UglyToad.PdfPig;
using Xunit;

namespace Lampblack.Tests.Jobs;

/// <summary>What a build writes of the wiring.</summary>
public sealed class WiringFilesTests
{
    [Theory]
    [InlineData("dome-desk", 3)]
    [InlineData("yard-board", 1)]
    [InlineData("kiln", 0)]
    public void The_examples_are_wired_without_a_warning(string name, int encodersAtMost)
    {
        var result = Run(name, BuildParts.Bench);
        Assert.DoesNotContain(result.Findings, finding => finding is { Severity: Severity.Stop });
        Assert.DoesNotContain(result.Findings, finding => finding.Code is "pins-too-few" or "wiring-made-anew" or "part-not-planned" or "port-current" or "chip-current" or "lamp-current-chain" or "matrix-ghosts");
        using var report = JsonDocument.Parse(result.Files.Single(file => file.Path == "report.json").Bytes.AsMemory());
        var wiring = report.RootElement.GetProperty("wiring");
        Assert.InRange(wiring.GetProperty("controllers")[0].GetProperty("encoders").GetInt32(), 0, encodersAtMost);
        Assert.True(wiring.GetProperty("wires").GetInt32() > 5);
        Assert.True(wiring.GetProperty("controllers")[0].GetProperty("dimmers").GetInt32() > 0);
        foreach (var path in new[] { "wiring/plan.json", "wiring/wires.csv", "wiring/plugs.csv", "wiring/schematic.svg", "wiring/checklist.pdf" })
        {
            Assert.Contains(result.Files, file => file.Path == path && file.IsForBench);
        }

        foreach (var file in result.Files.Where(file => file.Path.StartsWith("wiring/", StringComparison.Ordinal) && file.Path.EndsWith(".pdf", StringComparison.Ordinal)))
        {
            using var pdf = PdfDocument.Open([.. file.Bytes], new ParsingOptions { UseLenientParsing = false });
            Assert.All(pdf.GetPages(), page => Assert.NotEmpty(page.Paths));
        }
    }

    [Fact]
    public void The_plan_is_written_with_every_build_and_drawings_only_for_the_bench()
    {
        Assert.Equal(["wiring/plan.json"], Run(Small, BuildParts.Print).Files.Select(file => file.Path).Where(path => path.StartsWith("wiring/", StringComparison.Ordinal)));
        Assert.DoesNotContain(Run(Small.Replace("[controller]\nchip = \"ATmega328P\"\n", string.Empty, StringComparison.Ordinal), BuildParts.All).Files, file => file.Path.StartsWith("wiring/", StringComparison.Ordinal));
        Assert.Contains("\"wiring\"", Encoding.UTF8.GetString(Run(Small, BuildParts.Print).Files.Single(file => file.Path == "report.json").Bytes.AsSpan()), StringComparison.Ordinal);
    }

    [Fact]
    public void The_next_build_keeps_to_the_plan_and_writes_the_same_bytes()
    {
        var first = Run(Small, BuildParts.Bench);
        var plan = first.Files.Single(file => file.Path == WiringPlanFile.Path).Bytes;
        var again = Run(Small, BuildParts.Bench, plan);
        Assert.Equal(first.Files.Select(file => (file.Path, Convert.ToHexString([.. file.Bytes]))), again.Files.Select(file => (file.Path, Convert.ToHexString([.. file.Bytes]))));
        Assert.Contains(Run(Small, BuildParts.Print, [.. Encoding.UTF8.GetBytes("{]")]).Findings, finding => finding is { Code: "wiring-plan-unreadable", Severity: Severity.Note });
    }

    /// <summary>A siding's panel: no light is planned for it, so that it is built at once.</summary>
    private static readonly string Small = "lampblack = 1\n[controller]\nchip = \"ATmega328P\"\n[[panel]]\nid = \"siding\"\nsize = [160, 70]\n"
        + "[[panel.control]]\nid = \"point\"\npart = \"toggle-mini-on-off-on\"\nat = [20, 35]\nrow = { count = 6, step = 24 }\n[[panel.control]]\nid = \"clear\"\npart = \"lamp-3mm-clip\"\nat = [20, 12]\nrow = { count = 5, step = 20 }\n";

    [Theory]
    [InlineData(BuildParts.Print)]
    [InlineData(BuildParts.Pictures)]
    public void A_build_that_plans_no_wires_keeps_the_plan_of_an_earlier_one(BuildParts parts)
    {
        var plan = Run(Small, BuildParts.Print).Files.Single(file => file.Path == WiringPlanFile.Path).Bytes;
        var without = Run(Small.Replace("[controller]\nchip = \"ATmega328P\"\n", string.Empty, StringComparison.Ordinal), parts, plan);
        Assert.Equal(plan, without.Files.Single(file => file.Path == WiringPlanFile.Path).Bytes);
        Assert.DoesNotContain(Run(Small.Replace("[controller]\nchip = \"ATmega328P\"\n", string.Empty, StringComparison.Ordinal), parts).Files, file => file.Path == WiringPlanFile.Path);
        Assert.DoesNotContain(Run(Small.Replace("[controller]\nchip = \"ATmega328P\"\n", string.Empty, StringComparison.Ordinal), parts, [.. "{]"u8]).Files, file => file.Path == WiringPlanFile.Path);
    }

    [Fact]
    public void The_report_counts_meters_beside_dimmed_lights()
    {
        var result = Run(WiredDesk.Toml(CheckedDesk.Control("meter-round-45", 100, 100, "id = \"heat\"")), BuildParts.Bench);
        using var report = JsonDocument.Parse(result.Files.Single(file => file.Path == "report.json").Bytes.AsMemory());
        var controller = report.RootElement.GetProperty("wiring").GetProperty("controllers")[0];
        Assert.Equal((0, 1), (controller.GetProperty("dimmers").GetInt32(), controller.GetProperty("meters").GetInt32()));
    }

    private static BuildResult Run(string name, BuildParts parts, ImmutableArray<byte> lastWiring = default) => Build.Run(
        name.Contains('\n', StringComparison.Ordinal) ? ExampleDesks.Alone(Encoding.UTF8.GetBytes(name)) : ExampleDesks.Source(name),
        new("A4", "option", Parts: parts) { LastWiring = lastWiring.IsDefault ? [] : lastWiring },
        new Progress<string>(),
        CancellationToken.None);
}
