namespace Lampblack.Printers;

/// <summary>What printing costs, as the maker wrote it by hand; null for what nobody said. Money is in the maker's own currency.</summary>
/// <param name="Currency">What the money is called, in the maker's own word.</param>
/// <param name="SheetPrice">One sheet of paper.</param>
/// <param name="CartridgePrice">One cartridge of black.</param>
/// <param name="CartridgePages">Pages it is rated for, at 5 % of coverage.</param>
/// <param name="ColourPrice">One cartridge of cyan, magenta or yellow; null where it costs as much as black.</param>
/// <param name="ColourPages">Pages it is rated for; null where as many as black.</param>
public sealed record PrintCost(
    string? Currency = null, double? SheetPrice = null, double? CartridgePrice = null, double? CartridgePages = null, double? ColourPrice = null, double? ColourPages = null)
{
    /// <summary>Nothing was said.</summary>
    public static PrintCost Unknown { get; } = new();

    /// <summary>Pages a usual cartridge is rated for where nobody said. From memory: 1,000 to 3,000 are common for small printers.</summary>
    public const double UsualPages = 2000;

    /// <summary>Coverage of one toner at which cartridges are rated: 5 % (ISO/IEC 19752 for black, 19798 for each colour; from memory).</summary>
    public const double RatedCoverage = 0.05;

    /// <summary>The share of a cartridge of black that some pages use.</summary>
    /// <param name="pagesCoverage">Coverage of the pages, added up.</param>
    public double BlackShare(double pagesCoverage) => pagesCoverage / RatedCoverage / (CartridgePages ?? UsualPages);

    /// <summary>The same for a colour.</summary>
    /// <param name="pagesCoverage">Coverage of the pages, added up.</param>
    public double ColourShare(double pagesCoverage) => pagesCoverage / RatedCoverage / (ColourPages ?? CartridgePages ?? UsualPages);
}
