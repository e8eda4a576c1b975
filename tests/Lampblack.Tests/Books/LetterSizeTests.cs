using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using System.Xml.Linq;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>No letter of a drawing is smaller than 6.5 points as it is printed on A4: what the style sheet makes of a drawing's width and height is worked out here by itself.</summary>
public sealed class LetterSizeTests
{
    private const double LeastLetterMm = 6.5 * 25.4 / 72;
    private const double PageMm = 210 - 24;
    private const double HighestMm = 112;
    private const double HighestHalfMm = 84;

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void Every_letter_of_every_drawing_can_be_read(string name)
    {
        var faults = new List<string>();
        var seen = 0;
        foreach (var picture in ExampleBooks.Pictures(ExampleBooks.Of(name).Book))
        {
            var root = XElement.Parse(picture.Content);
            var texts = root.Descendants().Where(element => element.Name.LocalName == "text").ToList();
            if (root.Name.LocalName != "svg" || texts.Count == 0)
            {
                continue;
            }

            var box = root.Attribute("viewBox")!.Value.Split(' ').Select(side => double.Parse(side, CultureInfo.InvariantCulture)).ToList();
            var (wide, high) = picture.WidthMm switch { <= 40 => (34.0, HighestMm), <= 70 => (56, HighestMm), <= 95 => ((PageMm / 2) - 2.4, HighestHalfMm), <= 120 => (112, HighestMm), _ => (PageMm - 0.6, HighestMm) };
            var scale = Math.Min(wide / box[2], high / box[3]);
            seen += texts.Count;
            faults.AddRange(texts.Select(text => (Text: text.Value, SizeMm: double.Parse(text.Attribute("font-size")!.Value, CultureInfo.InvariantCulture) * scale)).Where(text => text.SizeMm < LeastLetterMm - 0.005).Select(text => $"“{text.Text}” is {text.SizeMm:0.00} mm in {picture.Caption[..Math.Min(60, picture.Caption.Length)]}"));
        }

        Assert.True(seen > 100);
        Assert.Empty(faults);
    }
}
