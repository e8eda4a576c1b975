using System;
using System.Linq;
using System.Text;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Quantities;
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
        var film = Render(SheetPdf.FilmPage(sheet, desk.Printer, "Kiln"));
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
        var film = Render(SheetPdf.FilmPage(sheet, desk.Printer, "Kiln"));
        var mask = Mirrored(Render(SheetPdf.MaskPage(sheet, desk.Printer)));
        var different = film.Black.Zip(mask.Black).Where((_, dot) => !IsTitle(dot / film.WidthPx)).Count(pair => pair.First != pair.Second);

        // Mirroring may move what ends exactly between two dots.
        Assert.InRange(different, 0, film.Black.Count(dot => dot > 0) / 1000);

        // The line that names it lies 8.5 - 1.2 mm below the edge (margin 5, half a strip of 7): a film is no back of a sheet.
        bool IsTitle(int row) => Math.Abs((row * 25.4 / SeparatedDesk.Dpi) - 7.3) < 1.8;
    }

    [Fact]
    public void Its_title_says_that_it_is_a_film_and_reads_right_as_it_comes_out()
    {
        var desk = SeparatedDesk.Of(Encoding.UTF8.GetBytes(Small), "gray", paper: PaperSize.Find("A4"));
        var sheet = desk.Sheets[0];
        var title = SmallLetters.Centred($"Kiln  ·  sheet-1  ·  MASK ON FILM, this side against the front's back  ·  pair {sheet.PairCode}", 2, new(105, 297 - 7.3));
        var film = Region<PageSpace>.Union(SheetPdf.FilmPage(sheet, desk.Printer, "Kiln").Areas.Select(area => area.Region));
        Assert.InRange(title.Except(film).AreaMm2, 0, 1e-3);

        // And nothing else stands there, such as the line of the mask.
        var strip = Region<PageSpace>.Rectangle(new(60, 297 - 9, 90, 3.4));
        Assert.InRange(film.Intersect(strip).Except(title).AreaMm2, 0, 1e-3);
    }

    [Fact]
    public void It_is_a_first_side_so_only_what_the_printer_does_to_first_sides_is_undone()
    {
        var desk = SeparatedDesk.Of(Encoding.UTF8.GetBytes(Small), "gray");
        var sheet = desk.Sheets[0];
        var plain = SheetPdf.FilmPage(sheet, desk.Printer, "Kiln");
        var shifted = SheetPdf.FilmPage(sheet, desk.Printer with { SideTwo = Affine<SheetSpace, SheetSpace>.Shift(1, 2), HalfTurnOfBack = true }, "Kiln");
        Assert.Equal(plain.Areas.Select(area => area.Region.Bounds), shifted.Areas.Select(area => area.Region.Bounds));
        var scaled = SheetPdf.FilmPage(sheet, desk.Printer with { SideOne = Affine<SheetSpace, SheetSpace>.Scale(1.002, 1) }, "Kiln");
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
