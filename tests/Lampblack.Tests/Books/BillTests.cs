using System;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Quantities;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>What has to be bought, and what it costs as far as that is known.</summary>
public sealed class BillTests
{
    [Fact]
    public void Amounts_are_those_of_the_plans()
    {
        var result = SmallDesk.Build(SmallDesk.Text(), parts: BuildParts.Bench | BuildParts.Book);
        var bill = EverythingOnceTests.Csv(result, "bill.csv").ToDictionary(row => row["key"]);
        Assert.Equal("1", bill["toggle-mini-on-on"]["amount"]);
        Assert.Equal("4", bill.Values.Single(row => row["what"].StartsWith("Screw", StringComparison.OrdinalIgnoreCase))["amount"]);
        Assert.Equal("4", bill["panel-nut-m3"]["amount"]);
        Assert.Equal(bill.ContainsKey("fuse"), bill.ContainsKey("fuse-holder"));
        Assert.Equal("2", bill["lamp-diode"]["amount"]);
        Assert.Equal("1", bill["controller-atmega328p"]["amount"]);
        Assert.Equal("1", bill["supply"]["amount"]);

        // Wire by colour, with the cable's and the lamps': never less than what is cut, and at most a tenth of a metre more for each colour.
        var wires = EverythingOnceTests.Csv(result, "wiring/wires.csv");
        var cutM = wires.Sum(row => double.Parse(row["length mm"], CultureInfo.InvariantCulture)) / 1000;
        var cableM = EverythingOnceTests.Csv(result, "wiring/plugs.csv").Count * 0.3;
        cutM += ExampleBooks.Rows(result.MadeBook!.Book, "lamp-wire").Where(row => row.Cells[4] == "26").Sum(row => double.Parse(row.Cells[2], CultureInfo.InvariantCulture)) / 1000;
        var bought = bill.Where(row => row.Key.StartsWith("wire-", StringComparison.Ordinal) && row.Key != "wire-pair").ToList();
        var boughtM = bought.Sum(row => double.Parse(row.Value["amount"], CultureInfo.InvariantCulture));
        Assert.InRange(boughtM, cutM + cableM - 1e-9, cutM + cableM + (0.1 * bought.Count));
    }

    [Fact]
    public void A_matrix_of_buttons_lists_its_diodes()
    {
        var buttons = "\n  [[panel.control]]\n  id = \"key\"\n  part = \"button-12-momentary\"\n  at = [22, 165]\n  grid = { columns = 9, rows = 4, step = [28, 20] }\n";
        var text = SmallDesk.Text().Replace("size = [120, 70]", "size = [270, 185]", StringComparison.Ordinal) + buttons;
        var result = SmallDesk.Build(text, parts: BuildParts.Bench | BuildParts.Book);
        Assert.DoesNotContain(result.Findings, finding => finding.Severity == Severity.Stop);
        var between = EverythingOnceTests.Csv(result, "wiring/wires.csv").Count(row => row.Values.Any(value => value.Contains("diode", StringComparison.Ordinal)));
        Assert.True(between > 20, $"{between} diodes");
        Assert.Equal(between.ToString(CultureInfo.InvariantCulture), EverythingOnceTests.Csv(result, "bill.csv").Single(row => row["key"] == "diode-1n4148")["amount"]);
    }

    [Fact]
    public void What_the_maker_pays_comes_before_any_guess()
    {
        var told = SmallDesk.Build(SmallDesk.Text(book: "prices = { toggle-mini-on-on = 3.25, supply = 20 }\n"));
        var bill = EverythingOnceTests.Csv(told, "bill.csv").ToDictionary(row => row["key"]);
        Assert.Equal(("3.25", "3.25", "EUR", "told"), Price(bill["toggle-mini-on-on"]));
        Assert.Equal("guessed", bill["pot-9mm"]["price_is"]);
        var page = SmallDesk.Words(SmallDesk.Xml(SmallDesk.Html(told)));
        Assert.Contains("23.25 by your own prices", page, StringComparison.Ordinal);

        static (string Each, string All, string Currency, string Is) Price(System.Collections.Generic.Dictionary<string, string> row) => (row["price_each"], row["price"], row["currency"], row["price_is"]);
    }

    [Fact]
    public void In_another_currency_nothing_is_guessed()
    {
        var bill = EverythingOnceTests.Csv(SmallDesk.Build(SmallDesk.Text(book: "currency = \"CHF\"\nprices = { supply = 20 }\n")), "bill.csv");
        Assert.All(bill.Where(row => row["key"] != "supply"), row => Assert.Equal(string.Empty, row["price"]));
        Assert.Equal("20.00", bill.Single(row => row["key"] == "supply")["price"]);
    }

    [Fact]
    public void A_price_that_no_line_takes_is_told() =>
        Assert.Contains(SmallDesk.Build(SmallDesk.Text(book: "prices = { unicorn = 5 }\n")).Findings, finding => finding is { Code: "price-unused", Severity: Severity.Note });

    [Theory]
    [InlineData("currency = \"pounds of sterling\"\n", "currency-form")]
    [InlineData("hand = \"third\"\n", "choice-unknown")]
    [InlineData("units = \"ell\"\n", "choice-unknown")]
    [InlineData("prices = { supply = -1 }\n", "value-range")]
    [InlineData("pages = 3\n", "key-unknown")]
    public void A_slip_in_the_books_keys_is_found(string book, string code) =>
        Assert.Contains(SmallDesk.Build(SmallDesk.Text(book: book)).Findings, finding => finding.Code == code && finding.Span is not null);

    /// <summary>Handbook conversions: 1 in is 25.4 mm (international yard and pound agreement, 1959); fractions as on a ruler.</summary>
    [Theory]
    [InlineData(25.4, "1 in")]
    [InlineData(6.35, "1/4 in")]
    [InlineData(9.525, "3/8 in")]
    [InlineData(3.175, "1/8 in")]
    [InlineData(7.938, "5/16 in")]
    [InlineData(304.8, "12 in")]
    [InlineData(180, "7 3/32 in")]
    [InlineData(0.397, "1/64 in")]
    [InlineData(0, "0 in")]
    public void Inches_are_told_as_a_ruler_has_them(double mm, string inches) => Assert.Equal(inches, LengthWords.ForRuler(mm, LengthUnit.Inch));

    [Theory]
    [InlineData(25.4, "1.000 in")]
    [InlineData(6.5, "0.256 in")]
    [InlineData(100, "3.937 in")]
    public void A_calipers_inches_have_three_decimals(double mm, string inches) => Assert.Equal(inches, LengthWords.Exact(mm, LengthUnit.Inch));

    /// <summary>Packets' own figures: 20 lb bond is 75 g/m², 24 lb is 90, 32 lb is 120 (common practice on packets).</summary>
    [Theory]
    [InlineData(75, 20)]
    [InlineData(90, 24)]
    [InlineData(120, 32)]
    public void Paper_is_told_in_pounds_of_bond(double grams, double pounds) => Assert.Equal(pounds, PaperWeight.PoundsBond(grams), 0.1);
}
