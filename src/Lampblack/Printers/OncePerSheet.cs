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

    /// <summary>Each sheet's patches, of each the best look at it: one photo may show what another is too dark for.</summary>
    public static ImmutableArray<WedgeEntry> Wedges(PrinterFile file) =>
        [.. BySheet(file.Wedges, entry => entry.Sheet).Select(sheet => new WedgeEntry([.. sheet.SelectMany(entry => entry.Patches).GroupBy(patch => patch.Id, StringComparer.Ordinal).Select(Best)]))];

    /// <summary>The growths that count.</summary>
    public static ImmutableArray<GainEntry> Gains(PrinterFile file) => Best(file.Gains, entry => entry.Sheet, entry => entry.SdMm);

    /// <summary>Where each sheet's colours lie, of each colour at each place the best look at it.</summary>
    public static ImmutableArray<PlanesEntry> Planes(PrinterFile file) =>
        [.. BySheet(file.Planes, entry => entry.Sheet).Select(sheet => new PlanesEntry([.. sheet.SelectMany(entry => entry.Readings).GroupBy(reading => (reading.Letter, reading.XMm, reading.YMm)).Select(same => same.Reverse().MinBy(reading => reading.SdMm)!)]))];

    /// <summary>The number for a sheet that nobody has seen before.</summary>
    public static int Next(PrinterFile file) =>
        1 + file.Register.Select(entry => entry.Sheet).Concat(file.Wedges.Select(entry => entry.Sheet)).Concat(file.Gains.Select(entry => entry.Sheet)).Concat(file.Planes.Select(entry => entry.Sheet)).DefaultIfEmpty(0).Max();

    /// <summary>What was measured tells more than a lower bound; of bounds the highest does.</summary>
    private static PatchDensity Best(IEnumerable<PatchDensity> looks) =>
        looks.Reverse().Where(patch => !patch.IsLowerBound).MinBy(patch => patch.UncertaintyDensity) ?? looks.MaxBy(patch => patch.Density)!;

    /// <summary>In the order in which the sheets were first seen; of equally good entries the later one.</summary>
    private static ImmutableArray<T> Best<T>(IEnumerable<T> entries, Func<T, int> sheet, Func<T, double> sd) => [.. BySheet(entries, sheet).Select(same => same.Reverse().MinBy(sd)!)];

    private static IEnumerable<IGrouping<int, T>> BySheet<T>(IEnumerable<T> entries, Func<T, int> sheet) =>
        entries.Select((entry, index) => (Entry: entry, Sheet: sheet(entry) is var number && number > 0 ? number : -1 - index)).GroupBy(one => one.Sheet, one => one.Entry);
}
