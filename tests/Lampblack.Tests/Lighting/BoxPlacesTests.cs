using System;
using System.Collections.Generic;
using System.IO;
using System.Linq;
using System.Text;
using System.Text.Json;
using System.Threading;
using Lampblack.Artwork;
using Lampblack.Desks;
using Lampblack.Geometry;
using Lampblack.Jobs;
using Lampblack.Tests.Books;
using Lampblack.Tests.Suites;
using Xunit;

namespace Lampblack.Tests.Lighting;

/// <summary>The plan of light knows how the box is made: emitters stay off walls, cells and the blocks of wood that the panel's screws go into; blocks stand in the light, and not before letters.</summary>
public sealed class BoxPlacesTests
{
    // A lamp of 5 mm, its legs' joints and a finger: from memory.
    private const double AwayMm = 5 - 0.001;

    // Card of half a millimetre.
    private const double CardMm = 0.5;

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void Emitters_stay_off_walls_cells_and_blocks(string name)
    {
        var facts = ExampleBooks.Of(name).Facts;
        foreach (var box in facts.Boxes)
        {
            var cells = facts.Cells.Where(cell => cell.Panel == box.Id).ToList();
            Assert.Equal(4, box.Blocks.Length);
            foreach (var lamp in facts.Lamps.Where(lamp => lamp.Panel == box.Id))
            {
                var at = new Point<PanelSpace>(lamp.XMm, lamp.YMm);
                Assert.All(box.Blocks, block => Assert.True(FromMm(block.Area, at) >= AwayMm, $"{box.Id} {lamp.Number}: block at {block.Screw}"));
                if (cells.Find(cell => cell.Inside.Contains(at)) is { } own)
                {
                    // The cell is as narrow as its letters; along them there is room.
                    Assert.True(Math.Min(at.XMm - own.Inside.LeftMm, own.Inside.RightMm - at.XMm) >= Math.Min(AwayMm, (own.WidthMm - ((own.Emitters - 1) * 6)) / 2), $"{box.Id} {lamp.Number} in its cell");
                    continue;
                }

                Assert.True(box.Inside.Grow(-AwayMm).Contains(at), $"{box.Id} {lamp.Number} at {at}: wall");
                Assert.All(cells, cell => Assert.True(FromMm(cell.Inside.Grow(CardMm), at) >= AwayMm, $"{box.Id} {lamp.Number}: cell of {cell.Words}"));
            }
        }
    }

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void Blocks_hold_their_screws_and_stand_before_nothing_that_shines(string name)
    {
        var facts = ExampleBooks.Of(name).Facts;
        foreach (var box in facts.Boxes)
        {
            var laid = facts.Laid.Panels.Single(panel => panel.Panel.Id == box.Id);
            List<Region<PanelSpace>> inTheWay =
            [
                .. laid.Parts.Where(part => part.Part.Body is not null).Select(part => part.Body()),
                .. facts.Cells.Where(cell => cell.Panel == box.Id).Select(cell => Region<PanelSpace>.Rectangle(cell.Inside.Grow(CardMm))),
                .. PanelArtwork.Draw(laid).Marks.Where(mark => mark.Style.Role == LightRole.Lit).Select(mark => mark.Shape),
            ];
            Assert.Equal(laid.Panel.Fixings!.PlacesMm.Select(place => new Point<PanelSpace>(place.XMm, place.YMm)), box.Blocks.Select(block => block.Screw));
            foreach (var block in box.Blocks)
            {
                Assert.Null(block.Blocker);
                Assert.True(box.Inside.Contains(block.Area), $"{block.Area} is within the walls");

                // Wood of 3 mm round a hole of 3 mm, on the sides that no wall holds.
                Assert.True(block.Area.Grow(-2.9).Contains(block.Screw), $"the screw in {block.Area}");
                Assert.InRange(block.Area.WidthMm, 7, 16);
                Assert.InRange(block.Area.HeightMm, 7, 16);
                Assert.DoesNotContain(inTheWay, shape => shape.Touches(Region<PanelSpace>.Rectangle(block.Area)));
            }
        }
    }

    /// <summary>By hand: an emitter at 9, 75 and a block that reaches y = 46: the light to 9, 30 comes by y = 34 at 3.4 mm below the plate, where wood of 10 mm is. In a black box nothing else comes there.</summary>
    [Fact]
    public void A_block_stands_in_the_light()
    {
        const string Desk = "lampblack = 1\n[lighting]\nemitter = \"emitter-5mm-wide\"\nsupply = \"12 V\"\ndepth = 45\nwalls = 0\nfloor = 0\n[[panel]]\nid = \"one\"\nsize = [120, 80]\n{0}"
            + "[[panel.legend]]\nid = \"a\"\ntext = \"WEST\"\nat = [60, 40]\n[[panel.emitter]]\nat = [9, 75]\nlumen = 100\n";
        var (with, without) = (Grid(string.Format(null, Desk, "fixings = { at = [[12, 40]] }\n")), Grid(string.Format(null, Desk, string.Empty)));
        double Left(double x, double y) => Nearest(with, x, y) / Nearest(without, x, y);
        Assert.True(Nearest(without, 9, 30) > 1000);
        Assert.InRange(Left(9, 30), 0, 0.02);
        Assert.InRange(Left(9, 40), 0, 0.02);
        Assert.InRange(Left(60, 40), 0.99, 1.001);
    }

    private static double FromMm(Box<PanelSpace> area, Point<PanelSpace> at) =>
        Math.Sqrt(Math.Pow(Math.Max(0, Math.Max(area.LeftMm - at.XMm, at.XMm - area.RightMm)), 2) + Math.Pow(Math.Max(0, Math.Max(area.BottomMm - at.YMm, at.YMm - area.TopMm)), 2));

    private static double Nearest(List<(double X, double Y, double Lux)> grid, double xMm, double yMm) => grid.MinBy(one => Math.Abs(one.X - xMm) + Math.Abs(one.Y - yMm)).Lux;

    private static List<(double X, double Y, double Lux)> Grid(string desk)
    {
        using var stream = new MemoryStream();
        using (var writer = new Utf8JsonWriter(stream))
        {
            writer.WriteStartObject();
            Light.Run(ExampleDesks.Alone(Encoding.UTF8.GetBytes(desk)), new("A4", "option") { GridMm = 2 }, new Progress<string>(), CancellationToken.None).WriteTo(writer);
            writer.WriteEndObject();
        }

        using var json = JsonDocument.Parse(stream.ToArray());
        var grid = json.RootElement.GetProperty("grid");
        var (x, y, step, wide) = (grid.GetProperty("x0Mm").GetDouble(), grid.GetProperty("y0Mm").GetDouble(), grid.GetProperty("stepMm").GetDouble(), grid.GetProperty("nx").GetInt32());
        return [.. grid.GetProperty("lux").EnumerateArray().Select((lux, index) => (x + (index % wide * step), y + (index / wide * step), lux.GetDouble()))];
    }
}
