using Lampblack.SourceText;

namespace Lampblack.Printers;

/// <summary>Reads <c>[cost]</c> of a printer file.</summary>
internal static class PrintCostReader
{
    private const double HighestPrice = 1_000_000;
    private const double LeastPages = 50;
    private const double MostPages = 1_000_000;

    public static PrintCost Read(TableReader root)
    {
        if (root.Table("cost", "the cost") is not { } table)
        {
            return PrintCost.Unknown;
        }

        var cost = new PrintCost(
            table.Text("currency"),
            table.Number("sheet", 0, HighestPrice),
            table.Number("cartridge", 0, HighestPrice),
            table.Number("pages", LeastPages, MostPages),
            table.Number("colour-cartridge", 0, HighestPrice),
            table.Number("colour-pages", LeastPages, MostPages));
        table.Finish();
        return cost;
    }
}
