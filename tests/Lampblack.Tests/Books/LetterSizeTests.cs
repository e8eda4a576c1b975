using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using System.Text;
using System.Text.RegularExpressions;
using Lampblack.Books;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>No letter of a drawing is smaller than 6.5 points as it is printed on A4: the page's own style sheet says how large a drawing of each kind is.</summary>
public sealed partial class LetterSizeTests
{
    private const double LeastLetterMm = 6.5 * 25.4 / 72;
    private const double PaperMm = 210;

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void Every_letter_of_every_drawing_can_be_read(string name)
    {
        var page = SmallDesk.Xml(Encoding.UTF8.GetString(BookHtml.Write(ExampleBooks.Of(name).Book).AsSpan()));
        var style = page.Descendants().Single(element => element.Name.LocalName == "style").Value;
        var (faults, seen) = Faults(page, style);
        Assert.True(seen > 100);
        Assert.Empty(faults);

        // A style sheet that makes them smaller is seen.
        Assert.NotEmpty(Faults(page, style.Replace("max-height:108mm", "max-height:60mm", StringComparison.Ordinal)).Faults);
        Assert.NotEmpty(Faults(page, style.Replace(".large{width:112mm}", ".large{width:80mm}", StringComparison.Ordinal)).Faults);
    }

    private static (List<string> Faults, int Seen) Faults(System.Xml.Linq.XDocument page, string style)
    {
        var print = style[style.IndexOf("@media print", StringComparison.Ordinal)..];
        var pageMm = PaperMm - (2 * Number(Margin().Match(style).Groups[1].Value));
        var (faults, seen) = (new List<string>(), 0);
        foreach (var drawing in page.Descendants().Where(element => element.Name.LocalName == "figure").SelectMany(figure => figure.Elements().Where(element => element.Name.LocalName == "svg").Select(svg => (figure, svg))))
        {
            var texts = drawing.svg.Descendants().Where(element => element.Name.LocalName == "text").ToList();
            var kinds = drawing.figure.Attribute("class")!.Value.Split(' ');
            var box = drawing.svg.Attribute("viewBox")!.Value.Split(' ').Select(Number).ToList();
            var wide = kinds.Select(kind => Wide(print, kind, pageMm)).OfType<double>().First();
            var high = kinds.Select(kind => High(print, $"\\.{kind} svg")).OfType<double>().DefaultIfEmpty(High(print, "figure img,figure svg")!.Value).First();
            var scale = Math.Min(wide / box[2], high / box[3]);
            seen += texts.Count;
            faults.AddRange(texts.Select(text => (Text: text.Value, SizeMm: Number(text.Attribute("font-size")!.Value) * scale)).Where(text => text.SizeMm < LeastLetterMm - 0.005).Select(text => $"“{text.Text}” is {text.SizeMm:0.00} mm in {string.Join(' ', kinds)}"));
        }

        return (faults, seen);
    }

    /// <summary>"34mm", or a share of the page less something.</summary>
    private static double? Wide(string print, string kind, double pageMm)
    {
        var found = Regex.Match(print, $"\\.{kind}(?:,[a-z]+)?\\{{width:(?:([0-9.]+)mm|calc\\(([0-9]+)% - ([0-9.]+)mm\\))");
        return !found.Success ? null : found.Groups[1].Success ? Number(found.Groups[1].Value) : (pageMm * Number(found.Groups[2].Value) / 100) - Number(found.Groups[3].Value);
    }

    private static double? High(string print, string selector) => Regex.Match(print, selector + "\\{max-height:([0-9.]+)mm") is { Success: true } found ? Number(found.Groups[1].Value) : null;

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    [GeneratedRegex("@page\\{size:auto;margin:[0-9.]+mm ([0-9.]+)mm")]
    private static partial Regex Margin();
}
