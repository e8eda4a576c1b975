using System;
using System.Globalization;
using System.Linq;
using System.Xml.Linq;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>What stands at the edges of the book's pictures: no letter lies on a frame, round parts are round, and every picture of a panel's back says so in the same words.</summary>
public sealed class PictureEdgeTests
{
    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void No_letter_lies_on_the_lower_edge_of_its_picture(string name)
    {
        var seen = 0;
        foreach (var picture in ExampleBooks.Pictures(ExampleBooks.Of(name).Book).Where(picture => picture.Content.StartsWith("<svg", StringComparison.Ordinal)))
        {
            var drawing = XElement.Parse(picture.Content);
            var highMm = Number(drawing.Attribute("viewBox")!.Value.Split(' ')[3]);
            foreach (var text in drawing.Descendants().Where(element => element.Name.LocalName == "text"))
            {
                // Letters reach a quarter of their size below their line. From memory.
                var (baseMm, sizeMm) = (Number(text.Attribute("y")!.Value), Number(text.Attribute("font-size")!.Value));
                Assert.True(baseMm + (0.4 * sizeMm) < highMm, $"“{text.Value}” reaches {baseMm + (0.25 * sizeMm):0.0} of {highMm:0.0} mm");
                seen++;
            }
        }

        Assert.True(seen > 100);
    }

    [Fact]
    public void A_round_meter_is_round()
    {
        var looms = Assert.Single(ExampleBooks.Pictures(ExampleBooks.Of("kiln").Book), picture => picture.Content.Contains("KILN MONITOR seen from behind: looms", StringComparison.Ordinal)).Content;
        var bodies = XElement.Parse(looms).Descendants().First(element => element.Attribute("fill")?.Value == "#e6d9a8").Attribute("d")!.Value;
        var corners = bodies.Split('M', StringSplitOptions.RemoveEmptyEntries).Max(border => border.Count(sign => sign is ' ' or '-') / 2);

        // The corner of one of 60 is 6 degrees: none is seen.
        Assert.True(corners >= 60, $"{corners} corners");
    }

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void Both_pictures_of_a_back_have_one_head(string name)
    {
        var made = ExampleBooks.Of(name);
        Assert.All(made.Facts.Boxes, box => Assert.Equal(2, ExampleBooks.Pictures(made.Book).Count(picture => picture.Content.Contains($">BACK of {box.Panel}, up is up</text>", StringComparison.Ordinal))));
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
