using System;
using System.Linq;
using System.Text;
using System.Text.Json;
using System.Threading;
using Lampblack.Cutting;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Tests.Cutting;
using UglyToad.PdfPig;
using Xunit;

namespace Lampblack.Tests.Jobs;

public sealed class CutTests
{
    private const string Desk = "lampblack = 1\ntitle = \"Bench <&>\"\n";
    private const string Panels = "[[panel]]\nid = \"one\"\nsize = [110, 80]\n[[panel]]\nid = \"two\"\nsize = [140, 60]\n";
    private const string Plate = "[[stock]]\nsize = [300, 400]\n";

    /// <summary>Each case: a file, and what must be told.</summary>
    public static TheoryData<string, string> Told => new()
    {
        { Desk + Panels + Plate, "" },
        { Desk + Panels, "note cut-stock-assumed" },
        { Desk + "[stack]\nplate = 4\n" + Panels + Plate, "warn cut-snap-thick" },
        { Desk + "[stack]\nplate = 6\n" + Panels + Plate, "" },
        { Desk + "[stack]\nplate = 6\n[cutting]\nway = \"snap\"\n" + Panels + Plate, "stop cut-snap-thick" },
        { Desk + Panels + "[[panel]]\nid = \"three\"\nsize = [310, 420]\n" + Plate, "warn cut-piece-too-large" },
        { Desk + Panels + "[[panel]]\nid = \"three\"\nsize = [285, 385]\n" + Plate, "warn cut-strip-narrow" },
        { Desk + "[cutting]\nnarrowest = 25\n" + Panels + "[[panel]]\nid = \"three\"\nsize = [285, 385]\n" + Plate, "warn cut-piece-too-large" },
        { Desk + "[cutting]\nspares = 20\n" + Panels + "[[stock]]\nsize = [300, 400]\ncount = 1\n", "warn cut-plates-short" },
        { Desk + "[cutting]\nspares = { tow = 1 }\n" + Panels + Plate, "stop cut-spares-unknown" },
        { Desk + Panels + Plate + "[[stock]]\nsize = [300, 400]\nthickness = 5\n", "note cut-stock-thickness" },
        { Desk + Panels + "[[stock]]\nid = \"a\"\nsize = [300, 400]\n[[stock]]\nid = \"a\"\nsize = [100, 200]\n", "stop cut-id-twice" },
        { Desk + Panels + "[[stock]]\nsize = [0, 400]\n" + Plate, "stop value-range" },
        { Desk + Panels + "[[stock]]\nid = \"a\"\n" + Plate, "stop key-missing" },
        { Plate + "[[piece]]\nsize = [80, 50]\ncount = 3\n", "" },
        { Plate + "[[piece]]\nsize = [80, 50]\n[[piece]]\nsize = [0, 50]\n", "stop value-range" },
        { Plate + "[[piece]]\nsize = [80, 50]\n[[piece]]\nsize = [-3, 50]\n", "stop value-range" },
        { Plate + "[[piece]]\nsize = [80, 50]\n[[piece]]\ncount = 2\n", "stop key-missing" },
        { Plate + "[[piece]]\nsize = [80, 50]\n[[piece]]\nsize = [500, 500]\n", "warn cut-piece-too-large" },
        { Plate + "[[piece]]\nsize = [80, 50]\ncount = \"many\"\n[[piece]]\nsize = [80, 50]\n", "stop value-kind" },
        { Plate + "[[piece]]\nid = \"a\"\nsize = [80, 50]\n[[piece]]\nid = \"a\"\nsize = [70, 50]\n", "stop cut-id-twice" },
        { "plates = 1\n" + Plate + "[[piece]]\nsize = [200, 200]\ncount = 5\n", "note cut-plates-short" },
        { "plates = 1\nkref = 2\n" + Plate + "[[piece]]\nsize = [200, 200]\n", "stop key-unknown" },
    };

    [Fact]
    public void More_pieces_than_anyone_cuts_are_planned_as_far_as_they_go_unless_a_few_plates_hold_them()
    {
        const string Many = "[[stock]]\nsize = [1000, 1000]\n[[piece]]\nsize = [20, 25]\ncount = 2500\n";
        var result = Run(Many);
        Assert.Contains(result.Findings, finding => finding is { Code: "items-too-many", Severity: Severity.Warn });
        Assert.True(result.HasPlates);
        Assert.DoesNotContain(Run("plates = 1\n" + Many.Replace("2500", "5000", StringComparison.Ordinal)).Findings, finding => finding.Code == "items-too-many");
    }

    [Theory]
    [MemberData(nameof(Told))]
    public void What_stands_in_the_way_is_told_and_the_rest_is_cut(string file, string told)
    {
        var result = Run(file);
        Assert.Equal(told, string.Join(", ", result.Findings.Select(finding => $"{finding.Severity.ToString().ToLowerInvariant()} {finding.Code}")));
        Assert.True(result.HasPlates);
        Assert.Contains(result.Files, file => file.Path == "cut-plan-1.svg");
    }

    [Theory]
    [InlineData("")]
    [InlineData("[[stock]]\nsize = [300, 400]\n")]
    [InlineData("[[piece]]\nsize = [30, 40]\n")]
    [InlineData("= nonsense [[")]
    public void A_file_with_nothing_to_cut_is_told(string file)
    {
        var result = Run(file);
        Assert.Contains(result.Findings, finding => finding is { Severity: Severity.Stop, Code: "cut-nothing" });
        Assert.False(result.HasPlates);
        Assert.Empty(result.Files);
        Assert.Equal(["Nothing can be cut."], result.Lines);
    }

    [Fact]
    public void A_plan_that_could_be_better_says_so()
    {
        var pieces = string.Concat(Enumerable.Range(0, 40).Select(index => FormattableString.Invariant($"[[piece]]\nsize = [{40 + (index * 37 % 110)}, {45 + (index * 53 % 100)}]\n")));
        var result = Run("narrowest = 25\n" + Plate + pieces, steps: 300_000);
        var finding = Assert.Single(result.Findings, finding => finding.Code == "cut-not-proven");
        Assert.Contains("at least", finding.Message, StringComparison.Ordinal);
        Assert.False(result.IsProven);
    }

    [Fact]
    public void Loose_pieces_come_back_with_their_places_in_the_words_of_the_file()
    {
        using var json = Json(Run("plates = 1\nrotate = false\n[[stock]]\nid = \"s\"\nsize = [15, 10]\n[[piece]]\nid = \"a\"\nsize = [8, 4]\ncount = 2\nvalue = 66\n[[piece]]\nid = \"b\"\nsize = [3, 7]\nvalue = 35\n"));
        var root = json.RootElement;
        Assert.Equal((167, 167, true), (root.GetProperty("value").GetInt32(), root.GetProperty("bound").GetInt32(), root.GetProperty("proven").GetBoolean()));
        Assert.Equal(65, root.GetProperty("waste").GetInt32());
        var plate = Assert.Single(root.GetProperty("plates").EnumerateArray());
        Assert.Equal("s", plate.GetProperty("stock").GetString());
        Assert.Equal(["a 8 4", "a 8 4", "b 3 7"], plate.GetProperty("pieces").EnumerateArray()
            .Select(piece => $"{piece.GetProperty("id").GetString()} {piece.GetProperty("w").GetInt32()} {piece.GetProperty("h").GetInt32()}").Order(StringComparer.Ordinal));
        Assert.Equal(Enumerable.Range(1, root.GetProperty("cuts").GetArrayLength()), root.GetProperty("cuts").EnumerateArray().Select(cut => cut.GetProperty("number").GetInt32()));
    }

    [Fact]
    public void The_words_of_the_plan_alone_bring_every_panel_off_the_plate()
    {
        var result = Run(Desk + "[cutting]\nspares = { one = 2 }\ntrim = 0.5\n" + Panels + Plate);
        Assert.StartsWith("4 pieces from 1 plate: proven", result.Lines[0], StringComparison.Ordinal);
        Assert.Equal(3, result.Lines.Sum(line => Times(line, "part is \"one\"")));
        Assert.Equal(1, result.Lines.Sum(line => Times(line, "part is \"two\"")));
        Assert.Single(result.Lines, line => line.Contains("0.5 mm larger on every side", StringComparison.Ordinal));
        Assert.Single(result.Lines, line => line.StartsWith("Take care: eye protection, gloves", StringComparison.Ordinal));
        var plan = result.Plan.Plan;
        Assert.Empty(PlanValidator.Faults(new CutTask([new("one", 111, 81, 3), new("two", 141, 61, 1)], [plan.Plates[0].Stock], new(0, 25, true)), plan));
    }

    [Fact]
    public void A_saw_eats_its_kerf_between_the_pieces()
    {
        const string twoOfOne = "spares = 1\n[[panel]]\nid = \"one\"\nsize = [150, 80]\n[[stock]]\nsize = [300, 80]\n";
        Assert.Single(Run(Desk + "[cutting]\nway = \"snap\"\n" + twoOfOne).Plan.Plan.Plates);
        var plan = Run(Desk + "[cutting]\nway = \"saw\"\n" + twoOfOne).Plan.Plan;
        Assert.Equal(2, plan.Plates.Length);
        Assert.Contains(Run(Desk + "[cutting]\nway = \"saw\"\n" + twoOfOne).Lines, line => line.StartsWith("Take care: eye protection, no gloves near a saw", StringComparison.Ordinal));
    }

    [Fact]
    public void Drawings_and_pages_are_there_for_each_plate()
    {
        var result = Run(Desk + "[cutting]\nspares = 14\n" + Panels + Plate);
        var plates = result.Plan.Plan.Plates.Length;
        Assert.True(plates > 1);
        Assert.Equal(plates, result.Files.Count(file => file.Path.EndsWith(".svg", StringComparison.Ordinal)));
        using var pdf = PdfDocument.Open(result.Files.Single(file => file.Path == "cut-plan.pdf").Bytes.ToArray());
        Assert.True(pdf.NumberOfPages >= plates);
        var drawing = Encoding.UTF8.GetString(result.Files.Single(file => file.Path == "cut-plan-1.svg").Bytes.AsSpan());
        Assert.Contains("Bench &lt;&amp;&gt;: Plate 1", drawing, StringComparison.Ordinal);
        Assert.Equal(result.Files.Select(file => Convert.ToHexString(file.Bytes.AsSpan())), Run(Desk + "[cutting]\nspares = 14\n" + Panels + Plate).Files.Select(file => Convert.ToHexString(file.Bytes.AsSpan())));
    }

    [Fact]
    public void A_build_brings_the_plan_and_tells_only_those_who_asked()
    {
        var quiet = Build.Run(Source(Desk + "[[panel]]\nid = \"one\"\nsize = [290, 190]\n"), new("A3", "option", Parts: BuildParts.Bench), new Progress<string>(), CancellationToken.None);
        Assert.DoesNotContain(quiet.Findings, finding => finding.Code.StartsWith("cut-", StringComparison.Ordinal));
        Assert.Contains(quiet.Files, file => file.Path == "cut-plan.pdf");
        using var json = JsonDocument.Parse(quiet.Files.Single(file => file.Path == "report.json").Bytes.ToArray());
        Assert.True(json.RootElement.GetProperty("cut").GetProperty("assumed").GetBoolean());
        var asked = Build.Run(Source(Desk + Panels + "[[stock]]\nsize = [100, 100]\n"), new("A4", "option", Parts: BuildParts.Bench), new Progress<string>(), CancellationToken.None);
        Assert.Equal(2, asked.Findings.Count(finding => finding is { Code: "cut-piece-too-large", Span: not null }));
        Assert.DoesNotContain(asked.Files, file => file.Path.StartsWith("cut-plan", StringComparison.Ordinal));
    }

    private static int Times(string line, string words) => (line.Length - line.Replace(words, string.Empty, StringComparison.Ordinal).Length) / words.Length;

    private static CutResult Run(string file, long steps = 30_000_000) => Cut.Run(Source(file), new("A4", steps), new Progress<string>(), CancellationToken.None);

    private static DeskSource Source(string file) => new("desk.toml", [.. Encoding.UTF8.GetBytes(file)], new NoFiles());

    private static JsonDocument Json(CutResult result)
    {
        var bytes = new System.IO.MemoryStream();
        using (var json = new Utf8JsonWriter(bytes))
        {
            json.WriteStartObject();
            result.WriteTo(json);
            json.WriteEndObject();
        }

        return JsonDocument.Parse(bytes.ToArray());
    }

    private sealed class NoFiles : IDeskFiles
    {
        public FileReading Read(string relativePath, long limitBytes) => new([], "is not there");
    }
}
