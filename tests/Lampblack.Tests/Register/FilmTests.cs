using System;
using System.Linq;
using System.Text;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Sheets;
using Lampblack.Tests.Peers;
using Xunit;

namespace Lampblack.Tests.Register;

/// <summary>The mask on film, rasterised by Ghostscript and laid behind the front as a maker would: its toner against the paper.</summary>
public sealed class FilmTests
{
    private const string Small = """
        lampblack = 1
        title = "Film"
        [[panel]]
        id = "p"
        size = [60, 40]
        [[panel.legend]]
        text = "SHUTTER"
        at = [24, 28]
        height = 4
        [[panel.control]]
        part = "toggle-mini-on-on"
        at = [10, 20]
        states = ["A", "B"]
        """;

    [Fact]
    public void Laid_behind_the_front_with_its_toner_to_the_paper_the_film_opens_where_the_front_shines()
    {
        var desk = SeparatedDesk.Of(Encoding.UTF8.GetBytes(Small), "gray");
        var sheet = desk.Sheets[0];
        var plates = new SheetPlates(desk, sheet);
        var film = Render(SheetPdf.FilmPage(sheet, desk.Printer));
        Assert.Equal(0, plates.Covered(film));
        Assert.Equal(0, plates.Bare(film));
        Assert.Equal(0, plates.Leaking(film));

        // The other way up its legends would be mirrored and lie elsewhere.
        Assert.True(plates.Covered(Mirrored(film)) + plates.Bare(Mirrored(film)) > 1000);
    }

    [Fact]
    public void It_is_the_mask_dot_by_dot_with_marks_and_pair_code()
    {
        var desk = SeparatedDesk.Of(Encoding.UTF8.GetBytes(Small), "gray");
        var sheet = desk.Sheets[0];
        var film = Render(SheetPdf.FilmPage(sheet, desk.Printer));
        var mask = Mirrored(Render(SheetPdf.MaskPage(sheet, desk.Printer)));
        var different = film.Black.Zip(mask.Black).Count(pair => pair.First != pair.Second);

        // Mirroring may move what ends exactly between two dots.
        Assert.InRange(different, 0, film.Black.Count(dot => dot > 0) / 1000);
    }

    [Fact]
    public void It_is_a_first_side_so_only_what_the_printer_does_to_first_sides_is_undone()
    {
        var desk = SeparatedDesk.Of(Encoding.UTF8.GetBytes(Small), "gray");
        var sheet = desk.Sheets[0];
        var plain = SheetPdf.FilmPage(sheet, desk.Printer);
        var shifted = SheetPdf.FilmPage(sheet, desk.Printer with { SideTwo = Affine<SheetSpace, SheetSpace>.Shift(1, 2), HalfTurnOfBack = true });
        Assert.Equal(plain.Areas.Select(area => area.Region.Bounds), shifted.Areas.Select(area => area.Region.Bounds));
        var scaled = SheetPdf.FilmPage(sheet, desk.Printer with { SideOne = Affine<SheetSpace, SheetSpace>.Scale(1.002, 1) });
        Assert.InRange(scaled.Areas[0].Region.Bounds.WidthMm, plain.Areas[0].Region.Bounds.WidthMm * 0.9979, plain.Areas[0].Region.Bounds.WidthMm * 0.9981);
        Assert.Equal(sheet.Back.Length, plain.Areas.Length);
    }

    private static InkPlates Render(PdfPage page) =>
        GhostscriptPlates.Render(PdfFile.Write([page], new("film", PdfSides.OneSided)).AsSpan(), SeparatedDesk.Dpi)[0];

    private static InkPlates Mirrored(InkPlates plates)
    {
        var black = (byte[])plates.Black.Clone();
        for (var start = 0; start < black.Length; start += plates.WidthPx)
        {
            Array.Reverse(black, start, plates.WidthPx);
        }

        return plates with { Black = black };
    }
}
