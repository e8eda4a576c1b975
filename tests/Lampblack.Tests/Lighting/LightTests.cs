using System;
using System.IO;
using System.Linq;
using System.Text;
using System.Text.Json;
using System.Threading;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Optics;
using Lampblack.Quantities;
using Lampblack.Tests.Suites;
using Xunit;

namespace Lampblack.Tests.Lighting;

/// <summary>A desk's light from its file to the figures that other programs read.</summary>
public class LightTests
{
    private const string Head = "lampblack = 1\n";
    private const string Lamps = "[lighting]\nemitter = \"emitter-5mm-wide\"\nsupply = \"12 V\"\ndepth = 40\n";
    private const string Panel = "[[panel]]\nid = \"one\"\nsize = [120, 80]\n";
    private const string Screws = "fixings = { inset = 6 }\n";
    private const string Words =
        "[[panel.legend]]\nid = \"a\"\ntext = \"NORTH\"\nat = [20, 60]\n[[panel.legend]]\nid = \"b\"\ntext = \"SOUTH\"\nat = [100, 20]\n[[panel.legend]]\nid = \"c\"\ntext = \"WEST\"\nat = [60, 40]\n";

    /// <summary>Each case: a desk, and what must be told (severity and code), or what must not.</summary>
    public static TheoryData<string, string, bool> Told => new()
    {
        { Head + Lamps + Panel + Words, "note light-plan", true },
        { Head + Panel + Words, "note emitter-assumed", true },
        { Head + Panel + Words, "note light-depth", true },
        { Head + Lamps + Panel + Words, "note light-depth", false },
        { Head + "[lighting]\nemitter = \"emitter-3528\"\ndepth = 9\n" + Panel + Words, "warn light-depth", true },
        { Head + "[lighting]\nemitter = \"emitter-3528\"\ndepth = 13\n" + Panel + Words, "warn light-depth", false },
        { Head + "[lighting]\nemitter = \"emitter-9mm\"\n" + Panel + Words, "stop emitter-unknown", true },
        { Head + Lamps + "luminance = 5000\n" + Panel + Words, "warn light-dim", true },
        { Head + Lamps + "luminance = 5\n" + Panel + Words, "warn light-dim", false },
        { Head + Lamps + Panel + Words + "[[panel.emitter]]\nat = [20, 60]\n", "warn light-uneven", true },
        { Head + Lamps + "evenness = 50\n" + Panel + Words + "[[panel.emitter]]\nat = [20, 60]\n", "warn light-uneven", false },
        { Head + Lamps + "evenness = 50\none-emitter = 0.9\n" + Panel + Words + "[[panel.emitter]]\nat = [20, 60]\n", "warn light-one-emitter", true },
        { Head + Lamps + "one-emitter = 0.6\n" + Panel + Words, "warn light-one-emitter", false },
        { Head + Lamps + Panel + Words + "[[panel.emitter]]\nat = [200, 60]\n", "warn emitter-blocked", true },
        { Head + Lamps + Panel + Words + "[[panel.emitter]]\nat = [60, 40]\n", "warn emitter-blocked", false },
        { Head + Lamps + Panel + "[[panel.emitter]]\nlumen = 3\n" + Words, "stop key-missing", true },
        { Head + Lamps + Panel + "[[panel.legend]]\ntext = \"A\"\nat = [1.5, 40]\nheight = 2\n" + Words, "warn legend-over-wall", true },
        { Head + Lamps + "inset = 0\n" + Panel + "[[panel.legend]]\ntext = \"A\"\nat = [1.5, 40]\nheight = 2\n" + Words, "warn legend-over-wall", false },
        { Head + Lamps + Panel + Words + "[[panel.control]]\nid = \"s\"\npart = \"meter-round-45\"\nat = [60, 40]\n", "warn light-shadowed", true },
        { Head + Lamps + Panel + Words, "warn light-shadowed", false },
        { Head + Lamps + Panel + Words + "[[panel.legend]]\nid = \"h\"\ntext = \"HOT\"\nat = [60, 20]\nrole = \"hidden\"\nink = \"red\"\n", "warn cell-dim", true },
        { Head + Lamps + "luminance = 1\n" + Panel + Words + "[[panel.legend]]\nid = \"h\"\ntext = \"HOT\"\nat = [60, 20]\nrole = \"hidden\"\ncover = 0.3\n", "warn cell-dim", false },
        { Head + Lamps + Panel + Words + "[[panel.legend]]\nid = \"h\"\ntext = \"HOT\"\nat = [60, 44]\nlight = \"own\"\n", "warn cell-crowded", true },
        { Head + Lamps + Panel + Words + "[[panel.legend]]\nid = \"h\"\ntext = \"HOT\"\nat = [60, 20]\nlight = \"own\"\n", "warn cell-crowded", false },
        { Head + Lamps + Panel + Screws + Words, "warn block-crowded", false },
        { Head + Lamps + Panel + Screws + Words + "[[panel.control]]\nid = \"s\"\npart = \"toggle-mini-on-on\"\nat = [108, 70]\n", "warn block-crowded", true },
        { Head + Lamps + Panel + "fixings = { at = [[80, 60]] }\n" + Words, "warn block-crowded", true },
        { Head + Lamps + Panel + Screws + Words + "[[panel.emitter]]\nat = [9, 9]\n", "warn block-crowded", true },
        { Head + Lamps + Panel + Screws + Words + "[[panel.emitter]]\nat = [9, 16]\n", "warn block-crowded", false },
        { Head + Lamps + "leak = 1000\n" + Panel + Words + "[[panel.legend]]\nid = \"h\"\ntext = \"HOT\"\nat = [60, 20]\nlight = \"own\"\n", "warn cell-leaks", true },
        { Head + Lamps + Panel + Words + "[[panel.legend]]\nid = \"h\"\ntext = \"HOT\"\nat = [60, 20]\nlight = 3\n", "warn cell-leaks", false },
        { Head + Lamps + "[use]\ndim = true\n" + Panel + Words, "note light-strays", true },
        { Head + Lamps + Panel + Words, "note light-strays", false },
        { Head + Lamps + "luminance = 800\npwm = 15000\n[use]\ndim = true\n" + Panel + Words, "warn light-steps", true },
        { Head + Lamps + "[use]\ndim = true\n" + Panel + Words, "warn light-steps", false },
        { Head + "[lighting]\ndepth = 40\ndiffuser = { gap = 45 }\n" + Panel + Words, "stop diffuser-impossible", true },
        { Head + "[lighting]\ndepth = 40\ndiffuser = { passes = 0.8, throws-back = 0.4 }\n" + Panel + Words, "stop diffuser-impossible", true },
        { Head + "[lighting]\nsupply = \"twelve\"\n" + Panel + Words, "stop value-range", true },
        { Head + "[lighting]\nsupply = \"2 V\"\n" + Panel + Words, "stop string-no-headroom", true },
        { Head + Lamps + Panel + Words + "[[panel.legend]]\nid = \"h\"\ntext = \"HOT\"\nat = [60, 20]\nlight = \"mine\"\n", "stop choice-unknown", true },
    };

    [Theory]
    [MemberData(nameof(Told))]
    public void WhatIsWrongWithTheLightIsTold(string desk, string told, bool isTold)
    {
        var codes = Run(desk).Findings.Select(finding => $"{finding.Severity.ToString().ToLowerInvariant()} {finding.Code}").ToList();
        Assert.True(codes.Contains(told) == isTold, $"{told} in [{string.Join(", ", codes)}]");
    }

    [Fact]
    public void AMisplacedEmitterOfAFileIsToldAtItsPlaceInThatFile()
    {
        var found = Assert.Single(Run(Head + Lamps + Panel + Words, "[[emitter]]\nat = [60, 40]\n[[emitter]]\nat = [500, 40]\n").Findings, finding => finding.Code == "emitter-blocked");
        Assert.Equal(("emitters.toml", 3), (found.Span?.File, found.Span?.Line));
    }

    [Fact]
    public void NoLightAtAllIsSaidInWords()
    {
        // Black walls and a switch that nearly fills the box between both legends: one is lit, the other gets nothing.
        var result = Run(
            Head + "[lighting]\nemitter = \"emitter-5mm-wide\"\ndepth = 45\nwalls = 0\nfloor = 0\n[[panel]]\nid = \"one\"\nsize = [120, 60]\n[[panel.legend]]\ntext = \"LEFT\"\nat = [25, 40]\n[[panel.legend]]\ntext = \"RIGHT\"\nat = [95, 40]\n"
            + "[[panel.control]]\nid = \"big\"\npart = \"rotary-4x30\"\nat = [60, 30]\n[[panel.emitter]]\nat = [25, 30]\n");
        var found = Assert.Single(result.Findings, finding => finding.Code == "light-uneven");
        Assert.Contains("no light comes to \"RIGHT\"", found.Message, StringComparison.Ordinal);
        Assert.All(result.Findings.Select(finding => finding.Message).Concat(result.Lines), line => Assert.DoesNotContain("Infinity", line, StringComparison.OrdinalIgnoreCase));
    }

    [Fact]
    public void AnEvenGridOfOneIsOneEmitterInTheMiddle()
    {
        var result = Run(Head + "[lighting]\nemitter = \"emitter-5mm-wide\"\ndepth = 40\n[[panel]]\nid = \"one\"\nsize = [200, 100]\n[[panel.legend]]\ntext = \"A\"\nat = [100, 50]\n");
        Assert.Contains("1 emitter,", Assert.Single(result.Findings, finding => finding.Code == "light-plan").Message, StringComparison.Ordinal);
        Assert.EndsWith("an even grid needs 1", Assert.Single(result.Findings, finding => finding.Code == "light-plan").Message, StringComparison.Ordinal);
    }

    [Fact]
    public void APlanLightsEvenlyAndAtTheLuminanceWanted()
    {
        using var json = Json(Run(Head + Lamps + "luminance = 12\n" + Panel + Words));
        var panel = json.RootElement.GetProperty("panels")[0];
        Assert.True(panel.GetProperty("met").GetBoolean());
        Assert.InRange(panel.GetProperty("evenness").GetDouble(), 1, 2);
        Assert.Equal(12, panel.GetProperty("meanLuminanceCdM2").GetDouble(), 0.01);
        Assert.InRange(panel.GetProperty("unitsBound").GetInt32(), 1, panel.GetProperty("units").GetInt32());
        if (panel.TryGetProperty("gridUnits", out var grid))
        {
            Assert.True(panel.GetProperty("units").GetInt32() <= grid.GetInt32());
        }
    }

    /// <summary>Lambert's law by hand: one emitter of 100 lm in a black box, 50 mm behind the mask; then plate, paper and a white legend: E tau / pi.</summary>
    [Fact]
    public void AGivenEmitterIsJudgedByTheTextbook()
    {
        const string Given = "[[emitter]]\nat = [60, 40]\nlumen = 100\nhalfAngle = 60\n[box]\nsize = [120, 80]\ndepth = 50\nwall = 0\nfloor = 0\nmask = 0\n";
        using var json = Json(Run(Head + Lamps + Panel + Words, Given, 10));
        var grid = json.RootElement.GetProperty("grid");
        var (x0, y0, step, nx) = (grid.GetProperty("x0Mm").GetDouble(), grid.GetProperty("y0Mm").GetDouble(), grid.GetProperty("stepMm").GetDouble(), grid.GetProperty("nx").GetInt32());
        var lux = grid.GetProperty("lux").EnumerateArray().Select(value => value.GetDouble()).ToArray();
        Assert.Equal(nx * grid.GetProperty("ny").GetInt32(), lux.Length);
        for (var index = 0; index < lux.Length; index++)
        {
            var (x, y) = (x0 + (index % nx * step), y0 + (index / nx * step));
            var square = Math.Pow(x - 60, 2) + Math.Pow(y - 40, 2) + 2500;
            Assert.Equal(100 / Math.PI * 2500 / (square * square) * 1e6, lux[index], 1e-3);
        }

        // The paper is the usual heavy one: what it passes is known elsewhere; the plate passes 0.92544 (index 1.49).
        var west = json.RootElement.GetProperty("legends").EnumerateArray().Single(legend => legend.GetProperty("words").GetString() == "WEST");
        Assert.Equal(west.GetProperty("lux").GetDouble() * 0.92544 * PaperOptics.Heavy.Transmittance / Math.PI, west.GetProperty("luminanceCdM2").GetDouble(), 2e-3 * west.GetProperty("luminanceCdM2").GetDouble());
        var emitter = json.RootElement.GetProperty("emitters")[0];
        Assert.Equal((60, 40, 100, 60), (emitter.GetProperty("xMm").GetDouble(), emitter.GetProperty("yMm").GetDouble(), emitter.GetProperty("lumen").GetDouble(), emitter.GetProperty("halfAngleDeg").GetDouble()));
    }

    // 2000 lx through clear acrylic (0.925) and paper (0.155): 91.275 cd/m2, and E tau / pi for 1000 lx and 0.5: 159.155; 1 fL is 3.4262591 cd/m2.
    [Fact]
    public void LuminanceIsIlluminanceTimesWhatPassesByPi()
    {
        Assert.Equal(91.275, RoomLight.FaceCandelaPerM2(2000, 0.925 * 0.155), 1e-3);
        Assert.Equal(159.155, RoomLight.FaceCandelaPerM2(1000, 0.5), 1e-3);
        Assert.Equal(3.4262591, RoomLight.FaceCandelaPerM2(10.7639104, 1), 1e-7);
        Assert.Equal(6.850, RoomLight.FaceCandelaPerM2(538, 0.04), 1e-3);
    }

    [Theory]
    [InlineData("strip-60", 3)]
    [InlineData("strip-120", 3)]
    [InlineData("pixels-60", 1)]
    [InlineData("emitter-2835", 1)]
    [InlineData("emitter-5mm-round", 1)]
    public void EveryKindOfEmitterCanBePlanned(string emitter, int unit)
    {
        using var json = Json(Run(Head + Lamps.Replace("emitter-5mm-wide", emitter, StringComparison.Ordinal) + "evenness = 3\n" + Panel + Words));
        var panel = json.RootElement.GetProperty("panels")[0];
        Assert.True(panel.GetProperty("met").GetBoolean());
        Assert.Equal(panel.GetProperty("units").GetInt32() * unit, panel.GetProperty("emitters").GetArrayLength());
        Assert.Equal(JsonValueKind.Array, json.RootElement.GetProperty("circuit").GetProperty("channels").ValueKind);
    }

    [Fact]
    public void NoLegendOwesMoreThanAskedToOneEmitter()
    {
        using var json = Json(Run(Head + Lamps + "one-emitter = 0.6\n" + Panel + Words));
        Assert.All(json.RootElement.GetProperty("legends").EnumerateArray(), legend => Assert.InRange(legend.GetProperty("oneEmitterShare").GetDouble(), 0, 0.6));
    }

    [Fact]
    public void TheSameDeskGivesTheSamePlanAndAnotherSeedMayGiveAnother()
    {
        var desk = Head + Lamps + Panel + Words;
        using var first = Json(Run(desk));
        using var second = Json(Run(desk));
        Assert.Equal(first.RootElement.ToString(), second.RootElement.ToString());
        Assert.Equal(1, first.RootElement.GetProperty("seed").GetInt32());
    }

    [Theory]
    [InlineData("")]
    [InlineData("[[emitter]]\nlumen = 3\n")]
    [InlineData("[[emitter]]\nat = [1, 2]\nlumen = -3\n")]
    [InlineData("[[emitter]]\nat = [1, 2]\n[box]\ndepth = 30\n")]
    [InlineData("[[emitter]]\nat = [1, 2]\n[box]\nsize = [10, 20]\ndepth = 30\nmask = 1.4\n")]
    [InlineData("[[emitter]\nat =")]
    [InlineData("[[emitter]]\nat = [1, 2]\nbright = 3\n")]
    public void ABadFileOfEmittersIsRefusedWithASentence(string file)
    {
        var result = Run(Head + Lamps + Panel + Words, file.Length == 0 ? "\n" : file);
        Assert.Contains(result.Findings, finding => finding.Severity == Severity.Stop && finding.Message.Length > 10);
        Assert.Empty(result.Files);
    }

    [Fact]
    public void AFileWithoutEmittersIsTold() => Assert.Contains(Run(Head + Lamps + Panel + Words, "\n").Findings, finding => finding.Code == "emitters-missing");

    [Fact]
    public void AnUnknownPanelAndAGridThatIsNoneAreToldByName()
    {
        var codes = Light.Run(ExampleDesks.Alone(Encoding.UTF8.GetBytes(Head + Lamps + Panel + Words)), new("A4", "option") { Panel = "two", GridMm = double.NaN }, new Progress<string>(), CancellationToken.None).Findings.Select(finding => finding.Code).ToList();
        Assert.Contains("panel-unknown", codes);
        Assert.Contains("grid-range", codes);
    }

    // Snell: light that entered acrylic of index 1.49 from air goes no steeper than asin(1 / 1.49) = 42.155 degrees; a cell is that much wider for each mm of plate, on both sides.
    [Fact]
    public void ACellIsAsMuchWiderAsLightWandersInThePlate()
    {
        var wandersMm = Math.Tan(Math.Asin(1 / 1.49));
        Assert.Equal(42.155, Math.Asin(1 / 1.49) * 180 / Math.PI, 1e-3);
        var (thin, thick) = (CellMm(2), CellMm(5));
        Assert.Equal(2 * 3 * wandersMm, thick.Width - thin.Width, 1e-3);
        Assert.Equal(2 * 3 * wandersMm, thick.Height - thin.Height, 1e-3);

        static (double Width, double Height) CellMm(int plateMm)
        {
            const string Own = "[[panel.legend]]\nid = \"h\"\ntext = \"HOT\"\nat = [60, 20]\nlight = \"own\"\n";
            using var json = Json(Run(Head + $"[stack]\nplate = {plateMm}\n" + Lamps + Panel + Words + Own));
            var inside = json.RootElement.GetProperty("panels")[0].GetProperty("cells")[0].GetProperty("inside");
            return (inside[2].GetDouble(), inside[3].GetDouble());
        }
    }

    [Theory]
    [InlineData("12 V", 12.0)]
    [InlineData("4,5V", 4.5)]
    [InlineData("500 mV", 0.5)]
    [InlineData("12", 12.0)]
    [InlineData("12 A", null)]
    [InlineData("V", null)]
    public void VoltsAreReadAsTheyAreWritten(string written, double? volts) => Assert.Equal(volts, ElectricText.Volts(written));

    private static LightResult Run(string desk, string? emitters = null, double grid = 20) => Light.Run(
        ExampleDesks.Alone(Encoding.UTF8.GetBytes(desk)),
        new("A4", "option") { GridMm = grid, Emitters = emitters is null ? [] : [.. Encoding.UTF8.GetBytes(emitters)] },
        new Progress<string>(),
        CancellationToken.None);

    private static JsonDocument Json(LightResult result)
    {
        using var stream = new MemoryStream();
        using (var writer = new Utf8JsonWriter(stream))
        {
            writer.WriteStartObject();
            result.WriteTo(writer);
            writer.WriteEndObject();
        }

        return JsonDocument.Parse(stream.ToArray());
    }
}
