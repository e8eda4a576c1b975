using System;
using System.Collections.Generic;
using System.IO;
using System.Linq;
using System.Text.Json;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Lampblack.Tests.Architecture;
using Lampblack.Tests.Peers;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>The page itself: valid HTML by a validator that is not ours (html-validate 8.29.0, npm, the rules of the HTML standard), whole in one file, the same bytes each time.</summary>
public sealed partial class BookPageTests
{
    [Theory]
    [InlineData("A", "snap", "", null)]
    [InlineData("B", "saw", "units = \"inch\"\nhand = \"left\"\n", 0.7)]
    [InlineData("C", "snap", "words = \"brief\"\n", null)]
    public void The_pages_are_valid(string order, string way, string book, double? stepMm)
    {
        var result = SmallDesk.Build(SmallDesk.Text(order, way, book), bracketStepMm: stepMm, legend: "main/speed");
        Assert.Empty(Faults(SmallDesk.Html(result)));
        Assert.Empty(Faults(SmallDesk.Html(result, "legend.html")));
    }

    [Fact]
    public void The_validator_sees_what_is_wrong()
    {
        var html = SmallDesk.Html(SmallDesk.Build(SmallDesk.Text()));
        Assert.Contains("no-dup-id", Faults(html.Replace("id=\"step-buy\"", "id=\"gather\"", StringComparison.Ordinal)));
        Assert.NotEmpty(Faults(html.Replace("<h2>", "<h2><p>", StringComparison.Ordinal)));
    }

    [Fact]
    public void Nothing_is_fetched_from_anywhere()
    {
        var html = SmallDesk.Html(SmallDesk.Build(SmallDesk.Text()));
        Assert.DoesNotMatch(Fetched(), Embedded().Replace(html, string.Empty).Replace("http://www.w3.org/1999/xhtml", string.Empty, StringComparison.Ordinal).Replace("http://www.w3.org/2000/svg", string.Empty, StringComparison.Ordinal));
        var page = SmallDesk.Xml(html);
        var ids = page.Descendants().Select(element => element.Attribute("id")?.Value).OfType<string>().ToHashSet();
        Assert.All(page.Descendants().Select(element => element.Attribute("href")?.Value).OfType<string>().Where(link => !link.StartsWith("data:", StringComparison.Ordinal)), link => Assert.Contains(link[1..], ids));
        Assert.All(page.Descendants().Where(element => element.Name.LocalName == "img"), image => Assert.True(image.Attribute("alt")!.Value.Length > 10));
    }

    [Fact]
    public void The_same_desk_gives_the_same_bytes_and_the_same_code()
    {
        var (first, again, other) = (SmallDesk.Build(SmallDesk.Text()), SmallDesk.Build(SmallDesk.Text()), SmallDesk.Build(SmallDesk.Text().Replace("POINTS", "LEVER", StringComparison.Ordinal)));
        Assert.Equal(SmallDesk.Html(first), SmallDesk.Html(again));
        Assert.NotEqual(first.MadeBook!.Book.Code, other.MadeBook!.Book.Code);
        Assert.Matches("^[2-9A-HJ-NP-Z]{6}$", first.MadeBook.Book.Code);
    }

    [Fact]
    public void No_line_breaks_between_a_number_and_its_unit_or_within_a_short_cell()
    {
        var page = SmallDesk.Xml(SmallDesk.Printed(SmallDesk.Build(SmallDesk.Text())));
        var texts = page.Descendants().Where(element => element.Name.LocalName is "p" or "li" or "td" or "th" or "dd" or "figcaption" or "caption").SelectMany(element => element.DescendantNodes().OfType<XText>()).Where(text => text.Ancestors().All(above => above.Name.LocalName is not ("svg" or "code"))).Select(text => text.Value).ToList();
        Assert.Contains(texts, text => text.Contains("\u00a0mm", StringComparison.Ordinal));
        Assert.Contains(texts, text => text.Contains("tag\u00a0", StringComparison.Ordinal));
        Assert.DoesNotContain(texts, text => Torn().IsMatch(text));
        Assert.All(page.Descendants().Where(element => element.Name.LocalName is "td" && !element.HasElements && element.Value.Length is > 0 and <= 8), cell => Assert.Equal("kept", cell.Attribute("class")?.Value));
    }

    private static List<string> Faults(string html)
    {
        var folder = Directory.CreateTempSubdirectory("lampblack-book");
        try
        {
            File.WriteAllText(Path.Combine(folder.FullName, "page.html"), html);
            File.WriteAllText(Path.Combine(folder.FullName, "rules.json"), "{\"root\":true,\"extends\":[\"html-validate:standard\"]}");
            var program = Path.Combine(Repository.Root, "tests", "Lampblack.Tests", "Fabrication", "readers", "node_modules", "html-validate", "bin", "html-validate.js");
            var run = OutsideProgram.Run("node", [program, "--config", "rules.json", "--formatter", "json=faults.json", "page.html"], folder.FullName);
            using var json = JsonDocument.Parse(File.Exists(Path.Combine(folder.FullName, "faults.json")) ? File.ReadAllText(Path.Combine(folder.FullName, "faults.json")) : throw new InvalidDataException(run.Everything));
            return [.. json.RootElement.EnumerateArray().SelectMany(file => file.GetProperty("messages").EnumerateArray()).Select(message => message.GetProperty("ruleId").GetString()!)];
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [GeneratedRegex("base64,[A-Za-z0-9+/=]+")]
    private static partial Regex Embedded();

    [GeneratedRegex("[0-9] (?:mm|V|mA|W|ohm|min|%)(?![a-z])|\\b(?:tag|AWG) [0-9]")]
    private static partial Regex Torn();

    [GeneratedRegex("(https?:)?//[a-z]|url\\(|@import|fetch\\(|XMLHttp", RegexOptions.IgnoreCase)]
    private static partial Regex Fetched();
}
