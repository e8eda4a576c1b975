using System;
using System.Collections.Concurrent;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using System.Text.Json;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Tests.Suites;
using Xunit;

namespace Lampblack.Tests.Jobs;

/// <summary>What a build works out for which outputs. The desk is invented: it has all that has a stage of its own.</summary>
public sealed class BuildStagesTests
{
    private const string Desk = """
        # A drying room's board; invented.
        lampblack = 1
        title = "Drying room"

        [controller]
        chip = "ATmega328P"

        [lighting]
        emitter = "emitter-3528"
        depth = 40

        [[panel]]
        id = "main"
        size = [120, 70]
        fixings = { part = "screw-m3", inset = 6 }

          [[panel.legend]]
          id = "head"
          text = "DRYING"
          at = [60, 56]
          height = 6

          [[panel.control]]
          id = "fan"
          part = "toggle-mini-on-on"
          at = [60, 25]
          legend = "FAN"
        """;

    private static readonly ImmutableDictionary<string, ImmutableArray<byte>> All = Written(BuildParts.All);

    /// <summary>Each value of <c>--only</c> with all that is said while it is made.</summary>
    public static TheoryData<BuildParts, string[]> Stages => new()
    {
        { BuildParts.None, ["reading", "artwork", "sides", "sheets", "holes", "cuts", "pins"] },
        { BuildParts.Print, ["reading", "artwork", "sides", "sheets", "pins", "drawing sheets"] },
        { BuildParts.Pictures, ["reading", "artwork", "light", "sides", "pins", "drawing pictures"] },
        { BuildParts.Bench, ["reading", "artwork", "light", "holes", "cuts", "pins", "drawing charts"] },
        { BuildParts.Book, ["reading", "artwork", "light", "sides", "sheets", "holes", "cuts", "pins", "book"] },
        { BuildParts.All, ["reading", "artwork", "light", "sides", "sheets", "holes", "cuts", "pins", "book", "drawing sheets, charts, pictures"] },
    };

    [Theory]
    [MemberData(nameof(Stages))]
    public void A_build_makes_no_stage_that_nothing_it_writes_needs(BuildParts parts, string[] expected)
    {
        var told = new Told();
        Build.Run(ExampleDesks.Alone(Encoding.UTF8.GetBytes(Desk)), new("A4", "option", Parts: parts), told, TestContext.Current.CancellationToken);

        // The light is planned beside the others, and may say so at any time: what counts is whether it is.
        Assert.Equal(expected.Order(StringComparer.Ordinal), told.Words.Select(Stage).Distinct().Order(StringComparer.Ordinal));
    }

    [Fact]
    public void A_desk_without_lamps_is_not_even_drawn_for_the_bench()
    {
        var told = new Told();
        var dark = Desk[..Desk.IndexOf("[controller]", StringComparison.Ordinal)] + Desk[Desk.IndexOf("[[panel]]", StringComparison.Ordinal)..];
        Build.Run(ExampleDesks.Alone(Encoding.UTF8.GetBytes(dark)), new("A4", "option", Parts: BuildParts.Bench), told, TestContext.Current.CancellationToken);
        Assert.Equal(["reading", "holes", "cuts", "drawing charts"], told.Words.Select(Stage));
    }

    [Theory]
    [InlineData(BuildParts.Print, "sheet-1/front.pdf")]
    [InlineData(BuildParts.Pictures, "panels/main/lit.png")]
    [InlineData(BuildParts.Bench, "templates.pdf")]
    [InlineData(BuildParts.Book, "book.html")]
    public void Each_part_alone_has_the_bytes_that_it_has_among_all(BuildParts parts, string one)
    {
        var alone = Written(parts);
        Assert.Contains(one, alone.Keys);
        foreach (var (path, bytes) in alone.Where(file => file.Key is not ("report.json" or "manifest.json") && !IsOfPins(file.Key, parts)))
        {
            Assert.True(bytes.AsSpan().SequenceEqual(All[path].AsSpan()), path);
        }
    }

    [Fact]
    public void A_report_tells_what_was_worked_out_and_nothing_else()
    {
        using var whole = JsonDocument.Parse(All["report.json"].AsMemory());
        using var pictures = JsonDocument.Parse(Written(BuildParts.Pictures)["report.json"].AsMemory());
        using var bench = JsonDocument.Parse(Written(BuildParts.Bench)["report.json"].AsMemory());
        Assert.Equal(["light", "frontHash", "sheets", "holesHash"], Known(whole));
        Assert.Equal(["light", "frontHash", "holesHash"], Known(pictures));
        Assert.Equal(["holesHash"], Known(bench));
        foreach (var name in new[] { "holesHash", "fixingsHash", "plateMm", "controls" })
        {
            Assert.Equal(Panel(whole).GetProperty(name).GetRawText(), Panel(bench).GetProperty(name).GetRawText());
        }
    }

    [Fact]
    public void A_build_for_the_bench_alone_is_compared_by_its_plates_and_holes()
    {
        var bench = Written(BuildParts.Bench)["report.json"];
        const string Same = "plates and holes are as they were; front and mask are not compared with a build for the bench alone";
        Assert.Equal([Same], Changes(Desk, bench));
        Assert.Equal([Same], Changes(Desk, All["report.json"], BuildParts.Bench));
        Assert.Equal(["nothing changed"], Changes(Desk, All["report.json"]));
        var moved = Desk.Replace("at = [60, 25]", "at = [62, 25]", StringComparison.Ordinal);
        Assert.Equal(["panel main: holes changed (fan moved 2 mm): a plate drilled before does not fit"], Changes(moved, bench));
        Assert.Equal(["panel main: holes changed (fan moved 2 mm): a plate drilled before does not fit"], Changes(moved, All["report.json"], BuildParts.Bench));
        Assert.Contains(Changes(moved, All["report.json"]), change => change.StartsWith("panel main: mask and front changed; holes changed (fan", StringComparison.Ordinal));
    }

    [Fact]
    public void A_panel_that_no_sheet_has_room_for_is_told_for_the_bench_too()
    {
        var wide = Desk.Replace("size = [120, 70]", "size = [320, 70]", StringComparison.Ordinal);
        var result = Build.Run(ExampleDesks.Alone(Encoding.UTF8.GetBytes(wide)), new("A4", "option", Parts: BuildParts.Bench), new Told(), TestContext.Current.CancellationToken);
        Assert.Contains(result.Findings, finding => finding is { Code: "panel-too-large", Severity: Severity.Warn });
        Assert.Contains(result.Files, file => file.Path == "templates.pdf");
    }

    private static string[] Known(JsonDocument report) =>
    [
        .. report.RootElement.TryGetProperty("light", out _) ? new[] { "light" } : [],
        .. Panel(report).TryGetProperty("frontHash", out _) ? new[] { "frontHash" } : [],
        .. report.RootElement.GetProperty("sheets").GetArrayLength() > 0 ? new[] { "sheets" } : [],
        .. Panel(report).TryGetProperty("holesHash", out _) ? new[] { "holesHash" } : [],
    ];

    private static JsonElement Panel(JsonDocument report) => report.RootElement.GetProperty("panels")[0];

    /// <summary>Pins of lamps are planned where the light is; sheets alone know of none.</summary>
    private static bool IsOfPins(string path, BuildParts parts) => parts == BuildParts.Print && (path == WiringPlanFile.Path || path.StartsWith("firmware", StringComparison.Ordinal));

    private static string[] Changes(string desk, ImmutableArray<byte> last, BuildParts parts = BuildParts.Print) =>
        [.. Build.Run(ExampleDesks.Alone(Encoding.UTF8.GetBytes(desk)), new("A4", "option", Parts: parts) { LastReport = last }, new Told(), TestContext.Current.CancellationToken).Changes.Select(change => change.Sentence)];

    private static ImmutableDictionary<string, ImmutableArray<byte>> Written(BuildParts parts) =>
        Build.Run(ExampleDesks.Alone(Encoding.UTF8.GetBytes(Desk)), new("A4", "option", Parts: parts), new Told(), TestContext.Current.CancellationToken)
            .Files.ToImmutableDictionary(file => file.Path, file => file.Bytes, StringComparer.Ordinal);

    private static string Stage(string word) => word switch
    {
        "reading the desk" => "reading",
        "drawing the artwork" => "artwork",
        "separating front and mask" => "sides",
        "imposing the sheets" => "sheets",
        "charting the holes" => "holes",
        "planning the cuts" => "cuts",
        "planning pins and wires" => "pins",
        "writing the build book" => "book",
        _ when word.StartsWith("panel main: ", StringComparison.Ordinal) => "light",
        _ => word,
    };

    private sealed class Told : IProgress<string>
    {
        // The light is told of from a thread of its own.
        private readonly ConcurrentQueue<string> _words = [];

        public IReadOnlyCollection<string> Words => _words;

        public void Report(string value) => _words.Enqueue(value);
    }
}
