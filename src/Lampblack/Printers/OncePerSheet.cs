using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Printers;

/// <summary>
/// One sheet of paper is one sheet, however often it was photographed: of its entries the one that is known best counts. Counted twice it would make believe that
/// sheets scatter less than they do.
/// </summary>
internal static class OncePerSheet
{
    /// <summary>The register entries that count.</summary>
    public static ImmutableArray<RegisterEntry> Register(IEnumerable<RegisterEntry> entries) => Best(entries, entry => entry.Sheet, entry => entry.Readings.Average(reading => reading.SdMm));

    /// <summary>The wedges that count; a lower bound tells less than any number.</summary>
    public static ImmutableArray<WedgeEntry> Wedges(PrinterFile file) =>
        Best(file.Wedges, entry => entry.Sheet, entry => entry.Patches.Average(patch => patch.IsLowerBound ? 1 : patch.UncertaintyDensity));

    /// <summary>The growths that count.</summary>
    public static ImmutableArray<GainEntry> Gains(PrinterFile file) => Best(file.Gains, entry => entry.Sheet, entry => entry.SdMm);

    /// <summary>The places of colours that count.</summary>
    public static ImmutableArray<PlanesEntry> Planes(PrinterFile file) => Best(file.Planes, entry => entry.Sheet, entry => entry.Readings.Average(reading => reading.SdMm));

    /// <summary>The number for a sheet that nobody has seen before.</summary>
    public static int Next(PrinterFile file) =>
        1 + file.Register.Select(entry => entry.Sheet).Concat(file.Wedges.Select(entry => entry.Sheet)).Concat(file.Gains.Select(entry => entry.Sheet)).Concat(file.Planes.Select(entry => entry.Sheet)).DefaultIfEmpty(0).Max();

    /// <summary>In the order in which the sheets were first seen; of equally good entries the later one.</summary>
    private static ImmutableArray<T> Best<T>(IEnumerable<T> entries, Func<T, int> sheet, Func<T, double> sd) =>
        [.. entries.Select((entry, index) => (Entry: entry, Sheet: sheet(entry) is var number && number > 0 ? number : -1 - index)).GroupBy(one => one.Sheet, one => one.Entry).Select(same => same.Reverse().MinBy(sd)!)];
}
