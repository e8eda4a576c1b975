using System;
using System.Linq;
using Lampblack.Books;
using Lampblack.Cutting;
using Lampblack.Geometry;
using Lampblack.Jobs;
using Lampblack.Sheets;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>A print is hinged where there is plate to tape it to, and the book calls the strip as the sheet does.</summary>
public sealed class HingeTests
{
    // The strip's width on the sheet.
    private const double StripMm = 12;

    [Theory]
    [InlineData(20, 30, 100, 60, false, "right", 80, true)] // upright, strip along the height: more plate at the right than at the left
    [InlineData(100, 30, 100, 60, false, "left", 100, true)] // at the plate's right edge: the strip goes to the left
    [InlineData(0, 40, 200, 60, false, "lower", 40, false)] // as wide as the plate: the strip's own sides have no plate
    [InlineData(0, 0, 200, 98, false, "upper", 2, false)] // as large as the plate: nothing to tape to
    [InlineData(10, 4, 60, 70, true, "upper", 26, true)] // turned by a quarter: the strip lies above or below
    public void The_side_with_plate_is_taken(double xMm, double yMm, double wideMm, double highMm, bool isTurned, string side, double roomMm, bool isPrinted)
    {
        var hinge = BookHinges.Of("board", "Board", Plan(new PlacedPiece("board", new(xMm, yMm, wideMm, highMm), isTurned)), OnSheet(), []);
        Assert.NotNull(hinge);
        Assert.Equal((side, isPrinted, true, 1), (hinge.Side, hinge.IsPrinted, hinge.HasStrip, hinge.Plate));
        Assert.Equal(roomMm, hinge.RoomMm, 6);
    }

    [Fact]
    public void The_next_panel_is_no_plate_to_tape_to()
    {
        var hinge = BookHinges.Of("board", "Board", Plan(new PlacedPiece("board", new(20, 0, 60, 90), false), new PlacedPiece("other", new(80, 0, 60, 90), false)), OnSheet(), []);
        Assert.Equal(("left", 20.0, true), (hinge!.Side, hinge.RoomMm, hinge.IsPrinted));
    }

    [Fact]
    public void A_gap_is_taped_to_once()
    {
        // 20 mm between the two, none beyond them: one strip has room there, a second one none.
        var plan = Plan(new PlacedPiece("board", new(0, 0, 90, 98), false), new PlacedPiece("other", new(110, 0, 90, 98), false));
        var first = BookHinges.Of("board", "Board", plan, OnSheet(), [])!;
        Assert.Equal(("right", 20.0), (first.Side, first.RoomMm));
        var second = BookHinges.Of("other", "Board", plan, OnSheet(), [first])!;
        Assert.Equal(("left", 20.0 - StripMm, false), (second.Side, second.RoomMm, second.IsPrinted));
    }

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void An_examples_print_is_taped_to_plate(string name)
    {
        var made = BenchOrderTests.Of(name);
        var print = made.Facts.Print;
        Assert.Equal(made.Facts.Laid.Panels.Length, print.Hinges.Length);
        var words = string.Join(' ', made.Book.Steps.Single(step => step.Id == "glue").Blocks.OfType<Doings>().SelectMany(doings => doings.Markups));
        Assert.All(print.Hinges, hinge =>
        {
            Assert.True(!hinge.IsPrinted || hinge.RoomMm >= StripMm, hinge.Panel);
            Assert.Contains(hinge.RoomMm >= StripMm ? $"the {hinge.Side} side of the panel's place" : "round the plate's edge", words, StringComparison.Ordinal);
        });

        // One word for it: that of the printed strip.
        Assert.Contains($"printed “{print.HingeWord}”", words, StringComparison.Ordinal);
        Assert.DoesNotContain("HINGE", words, StringComparison.Ordinal);
        Assert.Equal(PlacedPanel.HingeWord, print.HingeWord);
    }

    private static CutPlan Plan(params PlacedPiece[] pieces) => new([new(new("plate", 200, 100), [.. pieces], [], [])], 0, 0, 1, true, false, []);

    /// <summary>Upright on its sheet, the strip at its right side.</summary>
    private static PlacedPanel OnSheet()
    {
        var trim = new Box<SheetSpace>(10, 10, 100, 60);
        return new(null!, Affine<PanelSpace, SheetSpace>.Shift(10, 10), 0, trim, trim, new(trim.RightMm + 3, trim.BottomMm, StripMm, trim.HeightMm), Spare: false);
    }
}
