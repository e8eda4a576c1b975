using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Text.Json;
using Lampblack.Findings;
using Lampblack.Imaging;
using Lampblack.Printers;

namespace Lampblack.Jobs;

/// <summary>A page as it is printed, and its toner.</summary>
/// <param name="Path">Its file, without the other sides.</param>
/// <param name="Toner">Its toner.</param>
internal sealed record PageToner(string Path, TonerCoverage Toner);

/// <summary>What the sheets of a build take: toner always, money where the printer file tells prices.</summary>
/// <param name="Pages">All pages.</param>
/// <param name="Sheets">How many sheets of paper.</param>
/// <param name="Cost">What the printer file tells.</param>
internal sealed record SheetCost(ImmutableArray<PageToner> Pages, int Sheets, PrintCost Cost)
{
    // Edges take more than their coverage, and some toner never reaches the sheet, so that a cartridge may be empty sooner.
    private const string Basis = "coverage over 5 %, by ISO/IEC 19752 and 19798";

    private TonerCoverage Toner => Pages.Aggregate(TonerCoverage.None, (sum, page) => sum + page.Toner);

    /// <summary>How much of one colour's cartridge all colours together take.</summary>
    public double ColourShare => Cost.ColourShare(Toner.CyanCoverage + Toner.MagentaCoverage + Toner.YellowCoverage);

    /// <summary>How much of a cartridge of black all pages take.</summary>
    public double BlackShare => Cost.BlackShare(Toner.BlackCoverage);

    /// <summary>How many usual pages take as much black toner.</summary>
    private double BlackPages => Toner.BlackCoverage / PrintCost.RatedCoverage;

    /// <summary>Toner's price; null where a cartridge that is used has none.</summary>
    public double? TonerPrice => Cost.CartridgePrice is { } price ? (BlackShare * price) + (ColourShare * (Cost.ColourPrice ?? price)) : null;

    /// <summary>Toner and paper; null where neither has a price.</summary>
    private double? Price => TonerPrice is null && Cost.SheetPrice is null ? null : (TonerPrice ?? 0) + (Sheets * (Cost.SheetPrice ?? 0));

    /// <summary>One line for the maker.</summary>
    public string Sentence()
    {
        var yield = Cost.CartridgePages is { } pages ? string.Create(CultureInfo.InvariantCulture, $"rated for {pages:#,0} pages") : string.Create(CultureInfo.InvariantCulture, $"assumed to be rated for {PrintCost.UsualPages:#,0} pages");
        var colours = ColourShare > 0 ? $", {Shown.Percent(ColourShare)} of one of the colours together" : string.Empty;
        var money = Price is { } price
            ? string.Create(CultureInfo.InvariantCulture, $"; about {price:0.00}{(Cost.Currency is { } word ? " " + word : string.Empty)}{(TonerPrice is null ? " for paper alone" : Cost.SheetPrice is null ? " for toner alone" : string.Empty)}")
            : string.Empty;
        return string.Create(CultureInfo.InvariantCulture, $"toner for one set: as much black as {BlackPages:0} usual pages, {Shown.Percent(BlackShare)} of a cartridge {yield}{colours}{money}");
    }

    /// <summary>The same for other programs.</summary>
    public void Write(Utf8JsonWriter json)
    {
        json.WriteStartObject("cost");
        json.WriteString("basis", Basis);
        json.WriteNumber("sheets", Sheets);
        json.WriteString("pagesPerCartridgeKnown", Cost.CartridgePages is null ? "assumed" : "told");
        json.Number("pagesPerCartridge", Cost.CartridgePages ?? PrintCost.UsualPages, 0);
        json.Number("blackUsualPages", BlackPages, 1);
        json.Number("blackCartridgeShare", BlackShare, 5);
        json.Number("colourCartridgeShare", ColourShare, 5);
        json.WriteString("currency", Cost.Currency);
        Money(json, "toner", TonerPrice);
        Money(json, "paper", Cost.SheetPrice * Sheets);
        Money(json, "total", Price);
        json.WriteStartArray("pages");
        foreach (var page in Pages)
        {
            json.WriteStartObject();
            json.WriteString("page", page.Path);
            json.Number("cyanCoverage", page.Toner.CyanCoverage);
            json.Number("magentaCoverage", page.Toner.MagentaCoverage);
            json.Number("yellowCoverage", page.Toner.YellowCoverage);
            json.Number("blackCoverage", page.Toner.BlackCoverage);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Money(Utf8JsonWriter json, string name, double? price)
    {
        if (price is { } known)
        {
            json.Number(name, known, 2);
        }
        else
        {
            json.WriteNull(name);
        }
    }
}
