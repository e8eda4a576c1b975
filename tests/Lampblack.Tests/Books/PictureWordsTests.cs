using System;
using System.Globalization;
using System.Linq;
using System.Xml.Linq;
using Lampblack.Books;
using Lampblack.Fabrication;
using Lampblack.Parts;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>Pictures and words of a step say the same, and what is said of parts and holes is said of those that are so.</summary>
public sealed class PictureWordsTests
{
    [Theory]
    [InlineData("dome-desk")]
    [InlineData("kiln")]
    public void As_many_dots_are_drawn_as_the_words_count(string name)
    {
        var made = BenchOrderTests.Of(name);
        var gauges = made.Book.Steps.Single(step => step.Id == "gauges");
        var most = made.Facts.Print.MostDots;
        Assert.Contains(string.Create(CultureInfo.InvariantCulture, $"at most {most} dot"), gauges.Gate.GoOnIf, StringComparison.Ordinal);
        var row = XElement.Parse(gauges.Blocks.OfType<PictureRow>().SelectMany(pictures => pictures.All).Select(picture => picture.Content).Single(content => content.Contains("row N against a lamp", StringComparison.Ordinal)));
        var numbers = row.Descendants().Where(element => element.Name.LocalName == "text" && int.TryParse(element.Value, CultureInfo.InvariantCulture, out _)).Select(element => (X: double.Parse(element.Attribute("x")!.Value, CultureInfo.InvariantCulture), Number: element.Value)).ToList();
        Assert.Equal((most, most + 2), (numbers.Count(number => number.X < 60), numbers.Count(number => number.X > 60)));

        // Each that shines is filled with light, all others are not.
        Assert.Equal(most + most + 2, row.Descendants().Count(element => element.Attribute("fill")?.Value == "#f6dd9a"));
    }

    [Theory]
    [InlineData("dome-desk", true)]
    [InlineData("yard-board", false)]
    [InlineData("kiln", true)]
    public void Hidden_legends_are_shown_lit_where_one_looks_for_them(string name, bool isHidden)
    {
        var step = BenchOrderTests.Of(name).Book.Steps.Single(one => one.Id == "look-lit");
        var captions = step.Blocks.OfType<PictureRow>().SelectMany(row => row.All).Select(picture => picture.Caption).ToList();
        Assert.Equal(isHidden, captions.Exists(caption => caption.Contains("hidden legends on", StringComparison.Ordinal)));
        Assert.Equal(isHidden, string.Join(' ', step.Blocks.OfType<Doings>().SelectMany(doings => doings.Markups)).Contains("Legends that are hidden", StringComparison.Ordinal));
    }

    /// <summary>Buttons and key switches have their nut behind, what has a bushing has it in front: parts in hand, from memory.</summary>
    [Theory]
    [InlineData("toggle-mini-on-on", Mounting.NutInFront)]
    [InlineData("pot-9mm", Mounting.NutInFront)]
    [InlineData("encoder-m7", Mounting.NutInFront)]
    [InlineData("button-12-momentary", Mounting.RingBehind)]
    [InlineData("lamp-3mm-clip", Mounting.ClipFromFront)]
    [InlineData("lamp-5mm", Mounting.PushedFromBehind)]
    [InlineData("slider-60", Mounting.SmallScrews)]
    [InlineData("screw-m3", Mounting.ScrewThrough)]
    [InlineData("hole-6", Mounting.Open)]
    public void The_catalogue_says_how_a_part_is_held(string part, Mounting way) => Assert.Equal(way, PartCatalogue.BuiltIn.Find(part)!.Mounting);

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void A_nut_in_front_is_told_of_parts_that_have_one(string name)
    {
        var made = BenchOrderTests.Of(name);
        foreach (var panel in made.Facts.Laid.Panels)
        {
            var step = made.Book.Steps.Single(one => one.Id == $"fit-{panel.Panel.Id}");
            var rows = step.Blocks.OfType<BookTable>().SelectMany(table => table.Rows).ToDictionary(row => row.Key, row => row.Cells[^1]);
            foreach (var part in panel.Parts.Where(part => rows.ContainsKey(part.Origin.Item)))
            {
                Assert.Equal(part.Part.BushingLength is not null, rows[part.Origin.Item].Contains("nut in front", StringComparison.Ordinal));
                Assert.Equal(part.Part.Class is PartClass.PushButton or PartClass.KeySwitch, rows[part.Origin.Item].Contains("ring nut behind", StringComparison.Ordinal));
            }

            var doings = string.Join(' ', step.Blocks.OfType<Doings>().SelectMany(one => one.Markups));
            Assert.Equal(rows.Values.Any(how => how.Contains("ring nut behind", StringComparison.Ordinal)), doings.Contains("Ring behind:", StringComparison.Ordinal));
            Assert.Equal(rows.Values.Any(how => how.Contains("nut in front", StringComparison.Ordinal)), doings.Contains("Nut in front:", StringComparison.Ordinal));
        }
    }

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("kiln")]
    public void A_small_hole_in_the_middle_is_told_of_round_ones_alone(string name)
    {
        var made = BenchOrderTests.Of(name);
        foreach (var chart in made.Facts.Charts)
        {
            var lines = made.Book.Steps.Single(step => step.Id == $"drill-{chart.Laid.Panel.Id}").Blocks.OfType<Doings>().SelectMany(doings => doings.Markups).ToList();
            Told("small hole in its middle", hole => hole.Way == HoleWay.Saw);
            Told("in each corner or at each end", hole => hole is { Way: HoleWay.File, DiameterMm: null });

            void Told(string words, Func<ChartHole, bool> are)
            {
                var labels = chart.Holes.Where(are).Select(hole => hole.Label).ToList();
                var line = lines.SingleOrDefault(one => one.Contains(words, StringComparison.Ordinal));
                Assert.Equal(labels.Count > 0, line is not null);
                Assert.True(line is null || line.StartsWith($"Hole {string.Join(", ", labels)}:", StringComparison.Ordinal), line);
            }
        }
    }

    /// <summary>An emitter is drawn as the maker has it in hand: a flat top for wide light, a lens for narrow light (parts in hand, from memory), a low box where it is soldered flat.</summary>
    [Theory]
    [InlineData("emitter-5mm-wide", "M11 18v-10h10v10z")]
    [InlineData("emitter-5mm-round", "M11 18v-6a5 5 0 0 1 10 0v6z")]
    public void A_lamp_is_drawn_with_its_own_top(string emitter, string path)
    {
        var book = SmallDesk.Build(SmallDesk.Text().Replace("emitter-5mm-wide", emitter, StringComparison.Ordinal)).MadeBook!.Book;
        Assert.Contains(path, Assert.Single(ExampleBooks.Pictures(book), picture => picture.Content.Contains("Which end is which", StringComparison.Ordinal)).Content, StringComparison.Ordinal);
        var lens = ExampleBooks.Pictures(book).Count(picture => picture.Content.Contains("a1.6 1.6 0 0 1 3.2 0", StringComparison.Ordinal));
        Assert.Equal(emitter == "emitter-5mm-round", lens > 0);
    }

    /// <summary>What the picture of the meter shows is where its words hold the leads: at the cable, not at a socket.</summary>
    [Fact]
    public void The_meter_is_drawn_at_the_cable()
    {
        var step = ExampleBooks.Of("yard-board").Book.Steps.Single(one => one.Id == "test-wires");
        var picture = step.Blocks.OfType<PictureRow>().First().All.First();
        Assert.Contains("ends of the cable from J1", picture.Content, StringComparison.Ordinal);
        Assert.DoesNotContain("74HC", picture.Content, StringComparison.Ordinal);
        Assert.DoesNotContain("…", picture.Content, StringComparison.Ordinal);
        Assert.Contains(step.Blocks.OfType<BookTable>().SelectMany(table => table.Rows), row => row.Cells.Any(cell => cell.Contains("74HC595", StringComparison.Ordinal)));
    }
}
