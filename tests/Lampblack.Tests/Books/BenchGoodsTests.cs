using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Text.RegularExpressions;
using Lampblack.Books;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>What a step lays out is on the list of what to buy, each thing with a tick of its own; what its words use is laid out. The words are those of a plain workshop, written down apart from the bill.</summary>
public sealed class BenchGoodsTests
{
    /// <summary>What a step calls it, and a line of the bill that brings it.</summary>
    private static readonly ImmutableArray<(string Material, string Line)> Brought =
    [
        ("^plain paper|on plain paper", "^plain paper"), ("^cardboard|^card$", "^card or cardboard"), ("^card, black", "^card, black"), ("^tape$", "^tape that comes off"), ("^black tape", "^black tape"), ("^spray glue", "^spray glue"), ("varnish", "varnish"),
        ("strip of acrylic for trials", "^strip of the same acrylic"), ("^piece of board to drill on", "^piece of board to drill on"), ("^black felt pen", "^black felt pen"), ("^waste paper", "^waste paper"), ("^clear acrylic", "^clear acrylic"),
        ("black paint", "^matt black paint"), ("white paint", "^matt white paint"), ("^glue stick", "^glue stick"), ("^foam tape", "^foam tape"), ("^wood glue", "^wood glue"), ("^board, ", "^board "), ("^strip of wood", "^strip of wood"), ("^blocks of wood", "^blocks of wood"),
        ("threaded inserts", "threaded insert"), ("^small wood screws", "wood screws"), ("panels' screws", "[Ss]crew M3"), ("^the lamp board", "lamp boards"), ("^perforated board", "^perforated board"), ("^wire in the colours", "wire, stranded"), ("^bare wire", "^bare wire"),
        ("^solder$", "^solder"), ("sleeves", "^sleeves"), ("what the bill lists for the circuit", "MOSFET"), ("emitter|lamp with", "^lamp diode|strip"), ("^diodes 1N4148", "1N4148"), ("^plug and socket", "^plug and socket"), ("^cable ties", "^cable ties"),
        ("^the board$", "^board with an"), ("^the USB-to-serial adapter", "^USB-to-serial adapter"), ("pin row", "^pin row"), ("^spacers", "^spacers"), ("^the shift registers", "^shift register"), ("^sockets of 16", "^socket for a chip"), ("^capacitors, and resistors", "100 nF"), ("^socket row", "^socket row"), ("^the parts", "toggle|Toggle"), ("heavy|A4|g/m", "^paper,"),
    ];

    /// <summary>What words use, and what the step must then lay out.</summary>
    private static readonly ImmutableArray<(string Words, string Material)> Used =
    [
        (@"[Bb]lack tape over", "black tape"), (@"felt pen", "felt pen"), (@"cable ties", "cable ties"), (@"\bstick it on the\b", "glue stick"), (@"foam tape", "foam tape"), (@"[Cc]ard under every clamp|padded with card", "card"), (@"[Ww]aste paper beneath", "waste paper"),
        (@"strip for trials", "strip of acrylic"), (@"wood screw", "wood screws"), (@"\b[Ss]leeves? over\b|[Ss]lip a sleeve", "sleeves"), (@"piece of board", "piece of board"), (@"matt varnish in three", "varnish"),
    ];

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void Everything_that_is_laid_out_is_on_the_bill(string name)
    {
        var made = ExampleBooks.Of(name);
        Assert.Empty(Missing(made.Book, [.. made.Bill.Lines.Select(line => line.What)]));

        // The check itself sees every single line of goods that is missing.
        foreach (var line in made.Bill.Lines.Where(line => line.Key is "tape" or "black-tape" or "card" or "trial-acrylic" or "trial-board" or "wood-screws" or "cable-ties" or "black-paint" or "glue-stick" or "box-strip"))
        {
            Assert.NotEmpty(Missing(made.Book, [.. made.Bill.Lines.Where(other => other != line).Select(other => other.What)]));
        }
    }

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void What_a_step_uses_is_laid_out(string name) => Assert.Empty(
        from step in ExampleBooks.Of(name).Book.Steps
        from pair in Used
        where Regex.IsMatch(ExampleBooks.Words(step with { Gate = step.Gate with { Otherwise = string.Empty } }), pair.Words) && !step.Materials.Any(material => Regex.IsMatch(ExampleBooks.Plain(material), pair.Material))
        select $"{step.Id} uses \"{pair.Words}\" and lays out {string.Join("; ", step.Materials)}");

    /// <summary>Unlike things don't share a tick: a line of goods names one thing, or one and what does as well.</summary>
    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    public void Each_thing_has_its_own_tick(string name) => Assert.DoesNotContain(
        ExampleBooks.Of(name).Bill.Lines,
        line => Regex.IsMatch(line.What, @"\b(paint|pen|tape|glue|screws)\b.*\band\b.*\b(paint|pen|tape|glue|screws)\b"));

    private static List<string> Missing(Book book, ImmutableArray<string> lines)
    {
        var missing = new List<string>();
        foreach (var material in book.Steps.SelectMany(step => step.Materials).Select(ExampleBooks.Plain).Distinct())
        {
            var brought = Brought.Where(pair => Regex.IsMatch(material, pair.Material)).ToList();
            if (brought.Count == 0 || !brought.Exists(pair => lines.Any(line => Regex.IsMatch(line, pair.Line))))
            {
                missing.Add(material);
            }
        }

        return missing;
    }
}
