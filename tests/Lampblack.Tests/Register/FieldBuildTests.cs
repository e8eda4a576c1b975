using System;
using System.Linq;
using Lampblack.Geometry;
using Xunit;

namespace Lampblack.Tests.Register;

/// <summary>The field on plates of an independent rasteriser: K full up to every edge, the other inks full from the stand-back on.</summary>
public sealed class FieldBuildTests
{
    public static TheoryData<string> Examples => ["dome-desk", "yard-board", "kiln"];

    [Theory]
    [MemberData(nameof(Examples))]
    public void Beyond_the_stand_back_every_ink_of_the_field_is_full_on_both_sides(string example)
    {
        var desk = SeparatedDesk.Example(example);
        foreach (var sheet in desk.Sheets)
        {
            var plates = new SheetPlates(desk, sheet);

            // A notch thinner than a dot leaves no edge on K's plate but is one all the same: the marks' own plane tells it.
            bool[] marked = [.. plates.Meant.Zip(plates.HiddenCover, (mark, cover) => mark || cover)];
            bool[] away = [.. SheetPlates.Dilated(marked, plates.Width, 4).Select((near, dot) => !near && !plates.CutAway[dot])];
            Check(plates.Front, plates.Trim, desk.Panels[0].StandBackMm, away);
            var mask = plates.MaskAfter(Affine<SheetSpace, SheetSpace>.Identity);
            Check(mask, plates.Trim, desk.Panels[0].StandBackMm, [.. plates.CutAway.Select(cut => !cut)]);
        }
    }

    [Fact]
    public void Openings_are_bare_unless_colour_was_asked_for()
    {
        var desk = SeparatedDesk.Example("dome-desk");
        foreach (var sheet in desk.Sheets)
        {
            var plates = new SheetPlates(desk, sheet);
            var mask = plates.MaskAfter(Affine<SheetSpace, SheetSpace>.Identity);
            var coloured = Enumerable.Range(0, mask.Black.Length).Count(dot =>
                plates.Trim[dot] && !plates.Backed[dot] && mask.Black[dot] == 0 && (mask.Cyan[dot] | mask.Magenta[dot] | mask.Yellow[dot]) != 0);
            Assert.Equal(0, coloured);
        }
    }

    private static void Check(Peers.InkPlates plates, bool[] trim, double standBackMm, bool[] where)
    {
        // A dot and a half for the two edges' own dots.
        var dots = (int)Math.Ceiling((standBackMm / 25.4 * SeparatedDesk.Dpi) + 1.5);
        bool[] black = [.. plates.Black.Select(value => value == 255)];

        // The field is what stays after losing everything near an edge or a colour.
        bool[] field = [.. black.Select((isBlack, dot) => isBlack && trim[dot] && where[dot])];
        var inner = SheetPlates.Eroded(field, plates.WidthPx, dots);
        var wrong = 0;
        var places = string.Empty;
        var right = 0;
        for (var dot = 0; dot < inner.Length; dot++)
        {
            if (!inner[dot])
            {
                continue;
            }

            var full = plates.Cyan[dot] == 255 && plates.Magenta[dot] == 255 && plates.Yellow[dot] == 255;
            (wrong, right) = full ? (wrong, right + 1) : (wrong + 1, right);
            if (!full && wrong < 9)
            {
                places += $" {dot % plates.WidthPx * 25.4 / SeparatedDesk.Dpi:0.00},{(plates.HeightPx - (dot / plates.WidthPx)) * 25.4 / SeparatedDesk.Dpi:0.00}={plates.At(dot % plates.WidthPx, dot / plates.WidthPx)}";
            }
        }

        Assert.True(right > 100_000, $"only {right} dots of field were found");
        Assert.True(wrong == 0, $"{wrong} dots of the field have not the full build, at{places}");
    }
}
