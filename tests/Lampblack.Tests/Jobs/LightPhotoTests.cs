using System;
using System.Collections.Immutable;
using System.IO;
using System.Linq;
using System.Text;
using System.Text.Json;
using System.Threading;
using Lampblack.Artwork;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Jobs;
using Lampblack.Layout;
using Lampblack.Tests.Art;
using Lampblack.Tests.Photos;
using Xunit;

namespace Lampblack.Tests.Jobs;

/// <summary>Photos of a lit panel of which all is known: a desk that says what is true is photographed, a desk that believes otherwise is held against it.</summary>
public sealed class LightPhotoTests
{
    private const double TrueWalls = 0.62;
    private const double TrueFactor = 0.7;

    private static readonly string[] Words =
    [
        "PUMP", "VALVE 2", "FAN", "OUT", "HEAT", "ZONE 3", "DRAIN", "LOW", "FILL", "STIR",
        "MIX", "VENT", "HOLD", "RUN", "AUX", "TANK", "SUPPLY", "LAMP",
    ];

    [Theory]
    [InlineData(20, 10)]
    [InlineData(20, 90)]
    [InlineData(15, 217)]
    public void A_photo_taken_askew_gives_the_panels_place_its_legends_brightness_and_what_is_otherwise_than_planned(double tilt, double turn)
    {
        var camera = Camera(tilt, turn);
        var (png, means) = camera.Take(Shapes(), Lux(Desk(TrueWalls, TrueFactor)));
        var photo = Photo(Run(Desk(), png));
        Assert.InRange(WorstMm(photo, camera), 0, 1);
        Assert.InRange(photo.GetProperty("correlation").GetDouble(), 0.9, 1);

        var seen = photo.GetProperty("legends").EnumerateArray().Select(legend => legend.GetProperty("seen").GetDouble()).ToList();
        Assert.Equal(Words.Length, seen.Count);
        for (var index = 0; index < seen.Count; index++)
        {
            Assert.InRange(seen[index] / (means[index] / means.Average()), 0.95, 1.05);
        }

        Assert.InRange(photo.GetProperty("wallReflectance").GetDouble() / TrueWalls, 0.9, 1.1);
        var factors = photo.GetProperty("emitterFactors").EnumerateArray().Select(factor => factor.GetDouble()).ToList();
        var others = Math.Exp(factors.Where((_, index) => index != 2).Average(Math.Log));
        Assert.InRange(factors[2] / others / TrueFactor, 0.9, 1.1);
        Assert.All(factors.Where((_, index) => index != 2), factor => Assert.InRange(factor / others, 0.9, 1.1));
        Assert.InRange(photo.GetProperty("rmsBefore").GetDouble(), 0.08, 1);

        // What is left after the correction is what the photo itself strays by.
        var strays = Math.Sqrt(seen.Select((one, index) => Math.Pow(Math.Log(one / (means[index] / means.Average())), 2)).Average());
        Assert.InRange(photo.GetProperty("rmsAfter").GetDouble(), 0, (1.25 * strays) + 0.01);
    }

    [Fact]
    public void Where_all_is_as_planned_the_photo_says_nothing()
    {
        var (png, _) = Camera(10, 3).Take(Shapes(), Lux(Desk()));
        var result = Run(Desk(), png);
        Assert.Contains(result.Lines, line => line.StartsWith("what the photo says: nothing surer than chance", StringComparison.Ordinal));
        Assert.DoesNotContain(result.Findings, finding => finding.Code == "legend-unlike-photo");
        var photo = Photo(result);
        Assert.InRange(Math.Abs(photo.GetProperty("wallReflectance").GetDouble() - 0.8), 0, 2 * photo.GetProperty("wallReflectanceSd").GetDouble());
    }

    [Fact]
    public void What_is_otherwise_is_said_in_words()
    {
        var (png, _) = Camera(10, 3).Take(Shapes(), Lux(Desk(TrueWalls, TrueFactor)));
        var line = Run(Desk(), png).Lines[^1];
        Assert.Matches(@"walls throw back 0\.\d\d instead of 0\.80", line);
        Assert.Matches(@"emitter 3 at 125, 25 mm gives 0\.\d\d of its light", line);
        Assert.DoesNotContain("emitter 1 ", line, StringComparison.Ordinal);
    }

    [Fact]
    public void A_legend_with_something_in_its_way_is_named_and_changes_nothing_else()
    {
        var shapes = Shapes();
        shapes = shapes.SetItem(6, (shapes[6].Shape, 0.4));
        var (png, _) = Camera(10, 3).Take(shapes, Lux(Desk()));
        var result = Run(Desk(), png);
        var finding = Assert.Single(result.Findings, finding => finding.Code == "legend-unlike-photo");
        Assert.Contains("\"DRAIN\"", finding.Message, StringComparison.Ordinal);
        Assert.Matches(@" 2\.[3-7] times darker", finding.Message);
        Assert.InRange(Photo(result).GetProperty("wallReflectance").GetDouble(), 0.74, 0.86);
        Assert.All(Photo(result).GetProperty("emitterFactors").EnumerateArray(), factor => Assert.InRange(factor.GetDouble(), 0.9, 1.1));
    }

    [Fact]
    public void A_photo_of_noise_is_refused()
    {
        var result = Run(Desk(), Camera(0, 0).Nothing(0.2));
        Assert.Equal(Severity.Stop, Assert.Single(result.Findings, finding => finding.Code == "photo-not-found").Severity);
    }

    [Fact]
    public void A_photo_of_another_panel_is_refused()
    {
        var (png, _) = Camera(0, 0).Take(Shapes(Alike), (_, _) => 1);
        Assert.Contains(Run(Desk(), png).Findings, finding => finding is { Code: "photo-not-found", Severity: Severity.Stop });
    }

    [Theory]
    [InlineData(5, Severity.Stop)]
    [InlineData(1.25, Severity.Warn)]
    public void A_photo_that_is_cut_off_is_told(double exposure, Severity severity)
    {
        var (png, _) = (Camera(10, 3) with { Exposure = exposure }).Take(Shapes(), Lux(Desk()));
        Assert.Equal(severity, Assert.Single(Run(Desk(), png).Findings, finding => finding.Code == "photo-too-bright").Severity);
    }

    [Fact]
    public void A_photo_that_is_too_dark_is_told()
    {
        var (png, _) = (Camera(10, 3) with { Exposure = 0.006, Glow = 0 }).Take(Shapes(), Lux(Desk()));
        Assert.Contains(Run(Desk(), png).Findings, finding => finding is { Code: "photo-too-dark", Severity: Severity.Stop });
    }

    [Fact]
    public void A_panel_that_looks_alike_both_ways_round_is_found_by_its_corners_only()
    {
        var camera = Camera(15, 4);
        var (png, _) = camera.Take(Shapes(Alike), Lux(Alike));
        Assert.Contains(Run(Alike, png).Findings, finding => finding is { Code: "photo-not-found", Severity: Severity.Stop } && finding.Message.Contains("two ways", StringComparison.Ordinal));

        // Corners as a hand tells them: 2 mm off.
        var told = string.Join(' ', Corners.Select((corner, index) => camera.Project(corner.X + (index % 2 == 0 ? 2 : -2), corner.Y - 1)).Select(at => FormattableString.Invariant($"{at.X:0},{at.Y:0}")));
        Assert.InRange(WorstMm(Photo(Run(Alike, png, told)), camera), 0, 1);
    }

    [Theory]
    [InlineData("1,2 3,4 5,6")]
    [InlineData("1,2 3,4 5,6 x,7")]
    [InlineData("0,0 0,900 900,900 900,0")]
    public void Corners_that_are_none_are_refused(string corners) =>
        Assert.Contains(Run(Desk(), Camera(0, 0).Nothing(0.1), corners).Findings, finding => finding is { Code: "photo-corners", Severity: Severity.Stop });

    [Fact]
    public void Of_a_desk_with_several_panels_the_photo_needs_one_named()
    {
        var desk = Desk() + "[[panel]]\nid = \"two\"\nsize = [60, 40]\n[[panel.legend]]\ntext = \"A\"\nat = [30, 20]\nheight = 6\n[[panel.emitter]]\nat = [30, 20]\n";
        Assert.Contains("--panel", Assert.Single(Run(desk, Camera(0, 0).Nothing(0.1)).Findings, finding => finding.Code == "photo-panel").Hint, StringComparison.Ordinal);
    }

    private const string Head = "lampblack = 1\n[lighting]\ndepth = 26\nwalls = 0.8\nfloor = 0.7\n[[panel]]\nid = \"p\"\nsize = [150, 100]\n"
        + "[[panel.emitter]]\nat = [25, 30]\nlumen = 4\n[[panel.emitter]]\nat = [70, 75]\nlumen = 4\n[[panel.emitter]]\nat = [125, 25]\nlumen = 4\n";

    private static readonly (double X, double Y)[] Corners = [(0, 100), (150, 100), (150, 0), (0, 0)];

    /// <summary>The same turned by half a turn.</summary>
    private static string Alike => Head[..Head.IndexOf("[[panel.emitter]]", StringComparison.Ordinal)] + "[[panel.emitter]]\nat = [75, 50]\nlumen = 8\n" + string.Concat(new[] { (30, 30), (120, 70), (30, 70), (120, 30), (75, 50) }.Select(at => Legend("O", at.Item1, at.Item2)));

    private static string Desk() => Head + string.Concat(Words.Select((word, index) => Legend(word, 18 + (28.5 * (index % 5)), 9 + (27.0 * (index / 5)))));

    private static string Desk(double walls, double factor) => Desk()
        .Replace("walls = 0.8\nfloor = 0.7", FormattableString.Invariant($"walls = {walls}\nfloor = {walls - 0.1:0.00}"), StringComparison.Ordinal)
        .Replace("at = [125, 25]\nlumen = 4", FormattableString.Invariant($"at = [125, 25]\nlumen = {4 * factor:0.00}"), StringComparison.Ordinal);

    private static string Legend(string word, double x, double y) => FormattableString.Invariant($"[[panel.legend]]\ntext = \"{word}\"\nat = [{x}, {y}]\nheight = 4.5\n");

    private static DrawnLitPanel Camera(double tilt, double turn) => new(150, 100) { TiltDegrees = tilt, TurnDegrees = turn };

    private static ImmutableArray<(Region<PanelSpace> Shape, double Share)> Shapes(string? desk = null) =>
        [.. PanelArtwork.Draw(DeskLayout.Place(DeskReader.Read("desk.toml", Encoding.UTF8.GetBytes(desk ?? Desk())).Value, FontShelf.Bundled).Value.Panels[0]).Marks.Select(mark => (mark.Shape, 1.0))];

    /// <summary>The light behind a desk's panel, between the places of the answer's grid.</summary>
    private static Func<double, double, double> Lux(string desk)
    {
        var grid = Json(Light.Run(Source(desk), new("A4", "option") { GridMm = 2 }, new Progress<string>(), CancellationToken.None)).GetProperty("grid");
        var (left, bottom, columns, rows) = (grid.GetProperty("x0Mm").GetDouble(), grid.GetProperty("y0Mm").GetDouble(), grid.GetProperty("nx").GetInt32(), grid.GetProperty("ny").GetInt32());
        var lux = grid.GetProperty("lux").EnumerateArray().Select(value => value.GetDouble()).ToArray();
        return (x, y) =>
        {
            var (u, v) = (Math.Clamp((x - left) / 2, 0, columns - 1.001), Math.Clamp((y - bottom) / 2, 0, rows - 1.001));
            var (column, row) = ((int)u, (int)v);
            (u, v) = (u - column, v - row);
            return ((1 - v) * (((1 - u) * lux[(row * columns) + column]) + (u * lux[(row * columns) + column + 1])))
                + (v * (((1 - u) * lux[((row + 1) * columns) + column]) + (u * lux[((row + 1) * columns) + column + 1])));
        };
    }

    private static double WorstMm(JsonElement photo, DrawnLitPanel camera) => photo.GetProperty("corners").EnumerateArray().Zip(Corners, (found, corner) =>
    {
        var (x, y) = camera.Unproject(found[0].GetDouble(), found[1].GetDouble());
        return Math.Sqrt(Math.Pow(x - corner.X, 2) + Math.Pow(y - corner.Y, 2));
    }).Max();

    private static LightResult Run(string desk, byte[] png, string? corners = null) =>
        Light.Run(Source(desk), new("A4", "option") { Photo = [.. png], PhotoName = "lit.png", Corners = corners }, new Progress<string>(), CancellationToken.None);

    private static DeskSource Source(string desk) => new("desk.toml", [.. Encoding.UTF8.GetBytes(desk)], new GivenFiles());

    private static JsonElement Photo(LightResult result)
    {
        Assert.DoesNotContain(result.Findings, finding => finding.Severity == Severity.Stop);
        return Json(result).GetProperty("photo");
    }

    private static JsonElement Json(LightResult result)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream))
        {
            json.WriteStartObject();
            result.WriteTo(json);
            json.WriteEndObject();
        }

        using var document = JsonDocument.Parse(stream.ToArray());
        return document.RootElement.Clone();
    }
}
