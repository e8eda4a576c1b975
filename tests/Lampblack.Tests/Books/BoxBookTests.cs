using System;
using System.Globalization;
using System.Linq;
using Lampblack.Books;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>The cut list of the boxes: its pieces close to a box, its blocks lie round the panel's screws, its screws are long enough.</summary>
public sealed class BoxBookTests
{
    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void The_pieces_close_to_a_box_as_large_as_its_panel(string name)
    {
        var made = ExampleBooks.Of(name);

        // The emitters stand on what ends the room behind the plate, as docs/desk-file.md says of `depth`; cells are as high.
        Assert.Equal(made.Facts.Laid.Desk.DepthMm!.Value, made.Facts.BoxDepthMm);
        foreach (var box in made.Facts.Boxes)
        {
            var pieces = ExampleBooks.Rows(made.Book, "box-piece").Where(row => row.Key.StartsWith(box.Id + ":", StringComparison.Ordinal)).GroupBy(row => row.Cells[2].Split(',')[0]).ToDictionary(rows => rows.Key, rows => (Count: rows.First().Cells[1], Size: rows.First().Cells[3], Thick: Number(rows.First().Cells[4])));
            var wall = pieces["wall above and below"].Thick;
            var panel = made.Facts.Laid.Panels.Single(one => one.Panel.Id == box.Id).Panel;

            // 3 mm of the panel lie on each wall: that is `inset`, and board is sold so.
            Assert.Equal((panel.WidthMm, panel.HeightMm), (box.WidthMm + (2 * wall), box.HeightMm + (2 * wall)));
            var high = made.Facts.BoxDepthMm + 3 + 40;
            Assert.Equal(("2", made.Facts.Size(panel.WidthMm, high)), (pieces["wall above and below"].Count, pieces["wall above and below"].Size));
            Assert.Equal(("2", made.Facts.Size(box.HeightMm, high)), (pieces["wall at the sides"].Count, pieces["wall at the sides"].Size));
            Assert.Equal(("1", made.Facts.Size(panel.WidthMm, panel.HeightMm)), (pieces["floor"].Count, pieces["floor"].Size));
            Assert.Equal(("1", made.Facts.Size(box.WidthMm - 1, box.HeightMm - 1)), (pieces["lamp board"].Count, pieces["lamp board"].Size));
            Assert.Equal(panel.Fixings!.PlacesMm.Length, ExampleBooks.Rows(made.Book, "box-piece").Where(row => row.Key.StartsWith(box.Id + ":", StringComparison.Ordinal) && row.Cells[2] == "block for a screw of the panel").Sum(row => int.Parse(row.Cells[1], CultureInfo.InvariantCulture)));
        }

        // The board that is bought holds all pieces with their cuts.
        var board = ExampleBooks.Rows(made.Book, "box-piece").Where(row => row.Cells[2].Split(',')[0] is "wall above and below" or "wall at the sides" or "floor" or "lamp board")
            .Sum(row => Number(row.Cells[1]) * row.Cells[3].Replace(" mm", string.Empty, StringComparison.Ordinal).Split(" x ").Select(side => Number(side) + 2).Aggregate((one, other) => one * other)) / 1e6;
        Assert.InRange(made.Bill.Lines.Single(line => line.Key == "box-board").Amount, board - 1e-6, board + 0.0101);
    }

    /// <summary>An M3 screw holds with six millimetres in its insert (two diameters, common practice), and does not stand on the block's ground.</summary>
    [Theory]
    [InlineData("dome-desk")]
    [InlineData("kiln")]
    public void The_panel_s_screws_reach_their_inserts(string name)
    {
        var made = ExampleBooks.Of(name);
        var words = ExampleBooks.Words(made.Book.Steps.Single(step => step.Id == "box"));
        var mm = Number(words.Split("The panel's screws are then ")[1].Split(' ')[0]);
        var stack = made.Facts.Laid.Desk.Stack;
        Assert.InRange(mm - stack.PlateMm - stack.GlueMm - stack.CoverMm - 0.5, 6, 10 - 1);
    }

    /// <summary>Where an emitter stands already no block can: it is not in the cut list, and the book says what holds the panel there.</summary>
    [Fact]
    public void A_screw_without_room_for_its_block_is_told()
    {
        var usual = SmallDesk.Build(SmallDesk.Text()).MadeBook!;
        var crowded = SmallDesk.Build(SmallDesk.Text().Replace("at = [45, 20]", "at = [9, 9]", StringComparison.Ordinal)).MadeBook!;
        Assert.Equal((4, 3), (Blocks(usual), Blocks(crowded)));
        Assert.DoesNotContain("has no block", ExampleBooks.Words(usual.Book.Steps.Single(step => step.Id == "box")), StringComparison.Ordinal);
        Assert.Contains("The screw at 6 and 6 mm of Levers has no block, as the emitter at 9, 9 is there.", ExampleBooks.Words(crowded.Book.Steps.Single(step => step.Id == "box")), StringComparison.Ordinal);

        static int Blocks(Lampblack.Jobs.MadeBook made) => ExampleBooks.Rows(made.Book, "box-piece").Where(row => row.Cells[2] == "block for a screw of the panel").Sum(row => int.Parse(row.Cells[1], CultureInfo.InvariantCulture));
    }

    [Fact]
    public void Wood_has_its_caution_and_glue_and_paint_their_time()
    {
        foreach (var name in new[] { "dome-desk", "kiln" })
        {
            var book = ExampleBooks.Of(name).Book;
            var box = book.Steps.Single(step => step.Id == "box");
            Assert.Contains(Caution.Wood, box.Cautions);
            Assert.Contains("dust mask", string.Join(' ', box.AllTools.Select(tool => tool.Name)), StringComparison.Ordinal);

            // Whatever is glued or painted with what dries has its time told.
            Assert.All(book.Steps.Where(step => step.Materials.Any(material => material.Contains("paint", StringComparison.Ordinal) || material.Contains("varnish", StringComparison.Ordinal) || material == "spray glue" || material == "wood glue")), step => Assert.True(step.WaitMinutes > 0, step.Id));
        }
    }

    [Fact]
    public void Words_in_a_shadow_are_named_where_one_sees_them()
    {
        var made = ExampleBooks.Of("dome-desk");
        Assert.Contains(made.Facts.Shadows, shadow => (shadow.Words, shadow.Item) == ("OPEN", "shutter"));
        Assert.Contains(made.Facts.Shadows, shadow => (shadow.Words, shadow.Item) == ("SHUT", "shutter"));

        // Of a title that stands in the open nothing is said.
        Assert.DoesNotContain(made.Facts.Shadows, shadow => shadow.Words is "DOME" or "DRIVE");
        var lit = made.Book.Steps.Single(step => step.Id == "look-lit");
        Assert.Contains("“SHUT” at shutter", ExampleBooks.Words(lit), StringComparison.Ordinal);
        Assert.Contains("“SHUT” at shutter", ExampleBooks.Plain(string.Join(' ', made.Book.Chapters[0].Blocks.OfType<Paragraph>().Select(one => one.Markup))), StringComparison.Ordinal);
        Assert.DoesNotContain("times as bright", lit.Gate.GoOnIf, StringComparison.Ordinal);
        var none = BuildBook.Of(made.Facts with { Shadows = [] }, made.Bill, "TESTED").Steps.Single(step => step.Id == "look-lit");
        Assert.DoesNotContain("shadow of its body", ExampleBooks.Words(none), StringComparison.Ordinal);
    }

    [Fact]
    public void Each_block_has_its_corner_and_one_between_corners_its_place()
    {
        foreach (var name in new[] { "dome-desk", "yard-board", "kiln" })
        {
            var made = ExampleBooks.Of(name);
            var rows = ExampleBooks.Rows(made.Book, "block");
            Assert.Equal(made.Facts.Boxes.Sum(box => box.Blocks.Count(block => block.Blocker is null)), rows.Count);
            Assert.Equal(rows.Count(row => row.Cells[1].EndsWith("corner", StringComparison.Ordinal)), rows.Where(row => row.Cells[1].EndsWith("corner", StringComparison.Ordinal)).Select(row => (row.Cells[0], row.Cells[1])).Distinct().Count());
        }

        var six = SmallDesk.Build(SmallDesk.Text().Replace("inset = 6", "at = [[6, 6], [60, 6], [114, 6], [6, 64], [60, 64], [114, 64]]", StringComparison.Ordinal)).MadeBook!;
        Assert.Equal(2, ExampleBooks.Rows(six.Book, "block").Count(row => row.Cells[1].Contains("wall, begins at", StringComparison.Ordinal)));
        Assert.Contains("piece of its edge", ExampleBooks.Words(six.Book.Steps.Single(step => step.Id == "box")), StringComparison.Ordinal);

        // Blocks are glued before the board is tried past them.
        var orders = ExampleBooks.Words(six.Book.Steps.Single(step => step.Id == "box"));
        Assert.True(orders.IndexOf("Glue each block", StringComparison.Ordinal) < orders.IndexOf("must go down past the blocks", StringComparison.Ordinal));
    }

    [Fact]
    public void A_screw_over_the_boxs_wall_has_no_block()
    {
        var made = SmallDesk.Build(SmallDesk.Text().Replace("depth = 30", "depth = 30\ninset = 10", StringComparison.Ordinal)).MadeBook!;
        Assert.All(Assert.Single(made.Facts.Boxes).Blocks, block => Assert.Equal("the wall stands over its hole", block.Blocker));
        Assert.Empty(ExampleBooks.Rows(made.Book, "block"));
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
