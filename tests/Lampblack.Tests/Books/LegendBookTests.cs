using System;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Jobs;
using SkiaSharp;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>Two pages for changing one legend of a finished panel.</summary>
public sealed class LegendBookTests
{
    [Fact]
    public void They_tell_which_sheet_which_piece_and_who_is_called_again()
    {
        var result = SmallDesk.Build(SmallDesk.Text(), legend: "main/points");
        var page = SmallDesk.Xml(SmallDesk.Html(result, "legend.html"));
        var words = SmallDesk.Words(page);
        Assert.Contains("POINTS", words, StringComparison.Ordinal);
        Assert.Contains("Take points out of the panel", words, StringComparison.Ordinal);
        Assert.Contains("--only main/points", words, StringComparison.Ordinal);
        Assert.Equal(["main/points"], SmallDesk.Rows(page, "call").Select(row => row.Key));

        // The pair code is the sheet's own.
        Assert.Contains(result.MadeBook!.Facts.Print.Sheets[0].PairCode, words, StringComparison.Ordinal);
    }

    [Fact]
    public void A_legend_that_stands_alone_loosens_nothing()
    {
        var text = SmallDesk.Text() + "\n  [[panel.legend]]\n  id = \"name\"\n  text = \"NORTH BOX\"\n  at = [60, 8]\n";
        var page = SmallDesk.Xml(SmallDesk.Html(SmallDesk.Build(text, legend: "main/name"), "legend.html"));
        Assert.Empty(SmallDesk.Rows(page, "call"));
        Assert.Contains("No control has to come off", SmallDesk.Words(page), StringComparison.Ordinal);
    }

    [Fact]
    public void Behind_the_plate_all_controls_come_off_and_are_called()
    {
        var page = SmallDesk.Xml(SmallDesk.Html(SmallDesk.Build(SmallDesk.Text("C"), legend: "main/points"), "legend.html"));
        Assert.Equal(["main/points", "main/speed", "main/turn"], SmallDesk.Rows(page, "call").Select(row => row.Key));
        Assert.Contains("use it as a pattern", SmallDesk.Words(page), StringComparison.Ordinal);
    }

    [Fact]
    public void The_piece_holds_the_words_with_room_to_cut_and_stays_on_the_panel()
    {
        var laid = SmallDesk.Build(SmallDesk.Text()).MadeBook!.Facts.Laid;
        foreach (var item in laid.Panels[0].Texts.Select(text => text.Origin.Item).Distinct())
        {
            var patch = Lampblack.Books.LegendPatch.Of(laid, item)!;
            Assert.All(laid.Panels[0].Texts.Where(text => text.Origin.Item == item), text => Assert.True(patch.Box.Contains(text.Box.Grow(3.9)), text.Words));
            Assert.True(patch.Box is { LeftMm: >= 0, BottomMm: >= 0, RightMm: <= 120, TopMm: <= 70 });
        }
    }

    [Fact]
    public void The_frame_stands_around_the_piece_on_a_picture_that_reaches_beyond_the_panel()
    {
        var result = SmallDesk.Build(SmallDesk.Text(), legend: "main/points");
        var drawing = SmallDesk.Xml(SmallDesk.Html(result, "legend.html")).Descendants().First(element => element.Name.LocalName == "svg");
        var box = Lampblack.Books.LegendPatch.Of(result.MadeBook!.Facts.Laid, "main/points")!.Box;
        var frame = drawing.Descendants().First(element => element.Name.LocalName == "rect");
        Assert.Equal("0 0 132 82", drawing.Attribute("viewBox")!.Value);
        Assert.Equal(box.LeftMm + 6, Number(frame, "x"), 0.01);
        Assert.Equal(76 - box.TopMm, Number(frame, "y"), 0.01);

        // The picture fills the drawing, and has its shape: it is not squeezed.
        var image = drawing.Descendants().First(element => element.Name.LocalName == "image");
        Assert.Equal((0.0, 0.0, 132.0, 82.0), (Number(image, "x"), Number(image, "y"), Number(image, "width"), Number(image, "height")));
        using var picture = SKBitmap.Decode(Convert.FromBase64String(image.Attribute("href")!.Value["data:image/png;base64,".Length..]));
        Assert.Equal(132 / 82.0, (double)picture.Width / picture.Height, 0.01);

        static double Number(System.Xml.Linq.XElement element, string name) => double.Parse(element.Attribute(name)!.Value, System.Globalization.CultureInfo.InvariantCulture);
    }

    [Fact]
    public void Words_of_others_that_the_piece_would_cut_are_named()
    {
        var text = SmallDesk.Text() + "\n  [[panel.legend]]\n  id = \"near\"\n  text = \"NEAR\"\n  at = [42, 36]\n";
        Assert.Contains("NEAR", SmallDesk.Words(SmallDesk.Xml(SmallDesk.Html(SmallDesk.Build(text, legend: "main/points"), "legend.html"))).Split("The frame also cuts")[1], StringComparison.Ordinal);
    }

    [Fact]
    public void A_legend_that_is_not_there_stops_and_the_nearest_is_proposed()
    {
        var result = SmallDesk.Build(SmallDesk.Text(), legend: "main/point");
        var finding = Assert.Single(result.Findings, finding => finding.Code == "legend-unknown");
        Assert.Equal(Severity.Stop, finding.Severity);
        Assert.Contains("main/points", finding.Hint, StringComparison.Ordinal);
        Assert.Empty(result.Files);
    }

    [Fact]
    public void Without_a_wish_there_are_none_and_a_picture_alone_has_no_book()
    {
        Assert.DoesNotContain(SmallDesk.Build(SmallDesk.Text(), parts: BuildParts.All).Files, file => file.Path == "legend.html");
        Assert.DoesNotContain(SmallDesk.Build(SmallDesk.Text(), parts: BuildParts.Bench).Files, file => file.Path is "book.html" or "bill.csv");
        Assert.Contains(SmallDesk.Build(SmallDesk.Text(), parts: BuildParts.All).Files, file => file.Path == "book.html");
    }
}
