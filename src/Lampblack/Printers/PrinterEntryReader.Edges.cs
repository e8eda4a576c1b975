using System.Collections.Immutable;
using System.Linq;
using Lampblack.SourceText;

namespace Lampblack.Printers;

/// <content>What was learned of edges: the growth of toner and the places of the colours.</content>
internal sealed partial class PrinterEntryReader
{
    // No toner grows so far, and no colour lies so far off: more was misread.
    private const double LargestGrowthMm = 0.5;
    private const double LargestOffsetMm = 2;
    private const double LargestEdgeSdMm = 1;

    private static readonly ImmutableArray<(string Word, char Value)> Letters = [("C", 'C'), ("M", 'M'), ("Y", 'Y')];

    public ImmutableArray<GainEntry> Gains(ImmutableArray<TableReader> tables)
    {
        var entries = ImmutableArray.CreateBuilder<GainEntry>();
        foreach (var table in tables)
        {
            var across = table.RequiredLengthMm("across", -LargestGrowthMm, LargestGrowthMm, "0.05");
            var along = table.RequiredLengthMm("along", -LargestGrowthMm, LargestGrowthMm, "0.05");
            var sd = table.RequiredLengthMm("sd", 0.0001, LargestEdgeSdMm, "0.005");
            var sheet = Sheet(table);
            var date = Date(table);
            table.Finish();
            if (across is { } x && along is { } y && sd is { } known)
            {
                entries.Add(new(x, y, known) { Sheet = sheet, Date = date });
            }
        }

        return entries.ToImmutable();
    }

    public ImmutableArray<PlanesEntry> Planes(ImmutableArray<TableReader> tables)
    {
        var entries = ImmutableArray.CreateBuilder<PlanesEntry>();
        foreach (var table in tables)
        {
            var readings = table.Tables("readings", "reading").Select(ReadPlane).OfType<PlaneReading>().ToImmutableArray();
            if (readings.IsEmpty)
            {
                Empty(table, "a planes entry has no reading", "it holds at least one, such as `readings = [ { ink = \"C\", at = [0, 60], right = 0.04, up = 0.02, sd = 0.01 } ]`");
            }

            var sheet = Sheet(table);
            var date = Date(table);
            table.Finish();
            if (!readings.IsEmpty)
            {
                entries.Add(new(readings) { Sheet = sheet, Date = date });
            }
        }

        return entries.ToImmutable();
    }

    private PlaneReading? ReadPlane(TableReader table)
    {
        Require(table, "ink", "\"C\"");
        Require(table, "at", "[0, 60]");
        var ink = table.Choice("ink", Letters);
        var at = table.PlaceMm("at", -FarthestMm, FarthestMm);
        var right = table.RequiredLengthMm("right", -LargestOffsetMm, LargestOffsetMm, "0.04");
        var up = table.RequiredLengthMm("up", -LargestOffsetMm, LargestOffsetMm, "0.02");
        var sd = table.RequiredLengthMm("sd", 0.0001, LargestEdgeSdMm, "0.01");
        table.Finish();
        return ink is { } letter && at is { } place && right is { } x && up is { } y && sd is { } known ? new(letter, place.XMm, place.YMm, x, y, known) : null;
    }
}
