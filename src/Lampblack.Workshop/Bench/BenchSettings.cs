using Lampblack.Host;
using Lampblack.Jobs;
using Lampblack.Printers;

namespace Lampblack.Workshop.Bench;

/// <summary>How the desk is to be printed, as chosen in the workshop. Not part of the desk file: a shared desk prints on any printer.</summary>
/// <param name="PrinterName">The printer's name on the maker's shelf; empty for one that nobody measured.</param>
/// <param name="Printer">What was learned of it.</param>
/// <param name="Paper">The paper.</param>
/// <param name="PaperFrom">Where that comes from: <c>option</c>, <c>printer</c> or <c>region</c>.</param>
/// <param name="Black">The black build; null for the default.</param>
/// <param name="SpreadMm">The spread; null for the default.</param>
/// <param name="FillSheet">Whether spare copies fill the sheets.</param>
public sealed record BenchSettings(string PrinterName, PrinterFile? Printer, string Paper, string PaperFrom, string? Black, double? SpreadMm, bool FillSheet)
{
    /// <summary>No printer, the usual paper.</summary>
    public static BenchSettings Usual() => new(string.Empty, null, UsualPaper.Here(), "region", null, null, FillSheet: false);

    /// <summary>The same as a build is asked for.</summary>
    /// <param name="parts">Which outputs are wanted.</param>
    public BuildRequest Request(BuildParts parts) =>
        new(Paper, PaperFrom, Black, SpreadMm, FillSheet, parts, Printer) { PrinterWord = Printer is null ? null : PrinterName };
}
