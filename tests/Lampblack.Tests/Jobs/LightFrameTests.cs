using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using System.Text;
using System.Threading;
using System.Xml.Linq;
using Lampblack.Geometry;
using Lampblack.Jobs;
using Lampblack.Tests.Suites;
using Xunit;

namespace Lampblack.Tests.Jobs;

/// <summary>The words at the brightest and the dimmest legend, in the drawings of the light of the examples.</summary>
public sealed class LightFrameTests
{
    [Theory]
    [InlineData("dome-desk", 2)]
    [InlineData("yard-board", 1)]
    [InlineData("kiln", 1)]
    public void Words_at_brightest_and_dimmest_lie_over_no_letter_of_each_other_or_of_a_legend(string name, int panels) =>
        AssertFree(ExampleDesks.Source(name), panels);

    /// <summary>Neighbours: the place above one of them is that of the other's words, too.</summary>
    [Theory]
    [InlineData("at = [50, 35]", "at = [62, 35]")]
    [InlineData("at = [60, 32]", "at = [60, 41]")]
    public void Words_at_neighbours_keep_off_each_other(string one, string other) => AssertFree(
        ExampleDesks.Alone(Encoding.UTF8.GetBytes($"""
            lampblack = 1
            title = "Greenhouse"
            [lighting]
            emitter = "emitter-5mm-wide"
            depth = 30
            [[panel]]
            id = "p"
            size = [120, 70]
            [[panel.legend]]
            text = "VENT"
            {one}
            [[panel.legend]]
            text = "MIST"
            {other}
            """)),
        1);

    private static void AssertFree(DeskSource desk, int panels)
    {
        var files = Light.Run(desk, new("A4", "option"), new Progress<string>(), CancellationToken.None).Files.Where(file => file.Path.EndsWith("-evenness.svg", StringComparison.Ordinal)).ToList();
        Assert.Equal(panels, files.Count);
        foreach (var file in files)
        {
            var svg = XDocument.Parse(Encoding.UTF8.GetString([.. file.Bytes]));
            var names = Letters(svg, "names");

            // Two names of some twenty letters, and only the holes of letters lie within others. Letters over each other would be one outline, wider than a letter of 1.9 mm.
            Assert.InRange(names.Count, 30, 80);
            Assert.All(names, letter => Assert.True(letter.WidthMm < 1.9 && letter.HeightMm < 2.6, $"{file.Path}: letters run together at {letter.Centre}, {letter.WidthMm:0.00} mm wide"));
            for (var one = 0; one < names.Count; one++)
            {
                for (var other = one + 1; other < names.Count; other++)
                {
                    Assert.True(IsNested(names[one], names[other]) || names[one].SharedMm2(names[other]) < 0.1, $"{file.Path}: letters of the names lie over each other at {names[one].Centre}");
                }
            }

            var legends = Letters(svg, "legends").Where(box => box.WidthMm < 6 && box.HeightMm < 6).ToList();
            Assert.All(names, letter => Assert.True(legends.Sum(letter.SharedMm2) < 0.2, $"{file.Path}: a name lies over a legend at {letter.Centre}"));
        }
    }

    private static bool IsNested(Box<SheetSpace> one, Box<SheetSpace> other) => one.Grow(0.05).Contains(other) || other.Grow(0.05).Contains(one);

    private static List<Box<SheetSpace>> Letters(XDocument svg, string group) =>
    [
        .. svg.Descendants().Where(element => element.Name.LocalName == "path" && element.Parent!.Attribute("id")?.Value == group)
            .SelectMany(element => element.Attribute("d")!.Value.Split('Z', StringSplitOptions.RemoveEmptyEntries))
            .Select(path => path.Trim().TrimStart('M').Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(number => double.Parse(number, CultureInfo.InvariantCulture)).Chunk(2).ToList())
            .Where(points => points.Count > 2)
            .Select(points => Box<SheetSpace>.Between(new(points.Min(point => point[0]), points.Min(point => point[1])), new(points.Max(point => point[0]), points.Max(point => point[1])))),
    ];
}
