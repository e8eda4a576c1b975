using System;
using System.Collections.Generic;
using System.Linq;
using System.Text;
using System.Xml.Linq;
using Lampblack.Circuits;
using Lampblack.Geometry;
using Lampblack.Tests.Peers;
using Xunit;

namespace Lampblack.Tests.Circuits;

public sealed class CircuitDrawingTests
{
    // Letters of 2 mm may come as near as this to lines and to each other.
    private const double NearestMm = 0.4;

    private static IEnumerable<CircuitWish> Drawn()
    {
        var random = new Random(3);
        foreach (var _ in Enumerable.Range(0, 25))
        {
            yield return CircuitPropertyTests.Sound(random);
        }

        foreach (var count in new[] { 1, 2, 3, 33, 34, 100, 1000, 10_000 })
        {
            yield return Wishes.Of(5, Wishes.Pixels(count), Wishes.Strip(5, 0.02, 1, count, isDimmed: count % 2 == 0)) with { ControllerVolts = count % 2 == 0 ? 3.3 : 5 };
        }

        var lengthy = new string('W', 200);
        yield return Wishes.Of(24, new LampChannel(lengthy, new SingleDiodes(DiodeCurve.Red, 0.015, 0.03), 61, IsDimmed: true) { PinName = lengthy });
        yield return new(12, []);
        yield return new(double.NaN, []);
    }

    [Fact]
    public void Nothing_in_a_drawing_touches_what_it_should_not()
    {
        foreach (var wish in Drawn())
        {
            var drawing = CircuitDrawing.Of(CircuitDesign.Of(wish), "Kiln board");
            var page = new Box<DrawingSpace>(5, 5, CircuitDrawing.WidthMm - 10, drawing.HeightMm - 10);
            var lines = drawing.Wires.AddRange(drawing.Parts);
            var (nearLines, nearWords) = (new RegionIndex<DrawingSpace>(lines), new RegionIndex<DrawingSpace>(drawing.Words));
            foreach (var (number, word) in drawing.Words.Index())
            {
                var around = word.Bounds.Grow(NearestMm);
                Assert.True(page.Contains(word.Bounds), "words are on the page");
                Assert.False(
                    nearLines.Near(around).Any(line => lines[line].DistanceMm(word) < NearestMm),
                    FormattableString.Invariant($"word {number} of {wish} at {word.Bounds} touches a line"));
                Assert.False(
                    nearWords.Near(around).Any(other => other != number && drawing.Words[other].DistanceMm(word) < NearestMm),
                    FormattableString.Invariant($"word {number} of {wish} at {word.Bounds} touches another"));
            }

            Assert.All(lines, line => Assert.True(page.Contains(line.Bounds), "lines are on the page"));
        }
    }

    [Fact]
    public void Wires_join_what_they_lead_to_and_the_two_poles_stay_apart()
    {
        foreach (var wish in Drawn())
        {
            var drawing = CircuitDrawing.Of(CircuitDesign.Of(wish), "Kiln board");

            // A wire that ends in the air would touch no symbol and no other wire at one of its ends: each piece of wire meets at least one part.
            var wires = Region<DrawingSpace>.Union(drawing.Wires);
            var parts = new RegionIndex<DrawingSpace>(drawing.Parts);
            Assert.All(wires.Pieces, piece => Assert.True(parts.Near(piece.Bounds).Any(part => drawing.Parts[part].DistanceMm(piece) < 0.01), FormattableString.Invariant($"a wire at {piece.Bounds} leads to nothing")));
            var plus = wires.Pieces.Where(piece => piece.Contains(new Point<DrawingSpace>(CircuitDrawing.PlusMm, piece.Bounds.BottomMm + 0.1))).ToList();
            Assert.All(plus, piece => Assert.False(piece.Bounds.RightMm > CircuitDrawing.ZeroMm - 1, "+ does not reach 0 V without a lamp between"));
        }
    }

    [Fact]
    public void Every_resistor_and_every_diode_has_a_wire_at_both_ends()
    {
        var (resistors, diodes) = (0, 0);
        foreach (var wish in Drawn())
        {
            var drawing = CircuitDrawing.Of(CircuitDesign.Of(wish), "Kiln board");
            var nets = Region<DrawingSpace>.Union(drawing.Wires).Pieces;
            foreach (var box in drawing.Parts.Select(part => part.Bounds))
            {
                var (isLying, isUpright) = (Is(box, 10.35, 3.95), Is(box, 3.95, 10.35));
                if (isLying || isUpright)
                {
                    resistors++;
                    var (reachX, reachY) = isLying ? (5.4, 0.0) : (0.0, 5.4);
                    var (from, to) = (Net(box.Centre, -reachX, -reachY), Net(box.Centre, reachX, reachY));
                    Assert.True(from >= 0 && to >= 0 && from != to, FormattableString.Invariant($"the resistor at {box.Centre} hangs in the air or is bridged"));
                }
                else if (Is(box, 0.35 + 0.35, 4.8 + 0.35) || Is(box, 0.35, 4.8 + 0.35))
                {
                    // A diode's bar, at its right end.
                    diodes++;
                    var (from, to) = (Net(box.Centre, -5.3, 0), Net(box.Centre, 0.5, 0));
                    Assert.True(from >= 0 && to >= 0 && from != to, FormattableString.Invariant($"the diode at {box.Centre} hangs in the air or is bridged"));
                }
            }

            int Net(Point<DrawingSpace> at, double xMm, double yMm) => nets.ToList().FindIndex(net => net.Contains(new Point<DrawingSpace>(at.XMm + xMm, at.YMm + yMm)));
        }

        Assert.InRange(resistors, 100, int.MaxValue);
        Assert.InRange(diodes, 100, int.MaxValue);

        static bool Is(Box<DrawingSpace> box, double widthMm, double heightMm) => Math.Abs(box.WidthMm - widthMm) < 0.01 && Math.Abs(box.HeightMm - heightMm) < 0.01;
    }

    [Fact]
    public void The_same_circuit_gives_the_same_bytes_and_another_one_others()
    {
        var wish = Wishes.Diodes(12, DiodeCurve.White, 31, 0.02);
        var first = CircuitDrawing.Of(CircuitDesign.Of(wish), "Yard board").Svg();
        Assert.Equal(first, CircuitDrawing.Of(CircuitDesign.Of(wish), "Yard board").Svg());
        Assert.NotEqual(first, CircuitDrawing.Of(CircuitDesign.Of(wish with { Series = ResistorSeries.E96 }), "Yard board").Svg());
    }

    [Fact]
    public void The_drawing_is_read_and_drawn_by_another_program()
    {
        var svg = CircuitDrawing.Of(CircuitDesign.Of(Wishes.Diodes(24, DiodeCurve.Red, 60)), "Yard <board> & \"shed\"").Svg();
        var root = XDocument.Parse(Encoding.UTF8.GetString(svg.AsSpan())).Root!;
        Assert.Equal("Yard <board> & \"shed\"", root.Elements().First().Value);
        Assert.Equal("250mm", root.Attribute("width")!.Value);
        using var folder = new ScratchFolder();
        var picture = folder.PathOf("circuit.png");
        OutsideProgram.RunWell("rsvg-convert", ["-w", "1000", folder.Write("circuit.svg", svg.AsSpan()), "-o", picture]);
        Assert.InRange(new System.IO.FileInfo(picture).Length, 10_000, 1_000_000);
    }

    // One string, two alike, three or more of which first and last are drawn; of 31 lamps nine strings have three and two have two.
    [Theory]
    [InlineData(1, 1)]
    [InlineData(3, 1)]
    [InlineData(6, 2)]
    [InlineData(30, 2)]
    [InlineData(31, 4)]
    public void Each_kind_of_string_is_drawn_once_or_twice_with_its_resistor(int count, int resistors)
    {
        // Words are shapes in a drawing; so its parts are counted: a lying resistor is a frame of 10 x 3.6 mm.
        var channel = new LampChannel("legends", new SingleDiodes(DiodeCurve.White, 0.015, 0.03), count, IsDimmed: false);
        var drawing = CircuitDrawing.Of(CircuitDesign.Of(Wishes.Of(12, channel)), "Yard board");
        Assert.Equal(resistors, drawing.Parts.Count(part => Math.Abs(part.Bounds.WidthMm - 10.35) < 0.01 && Math.Abs(part.Bounds.HeightMm - 3.95) < 0.01));
    }
}
