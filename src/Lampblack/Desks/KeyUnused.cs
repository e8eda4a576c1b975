using System.Collections.Generic;
using System.Linq;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>Reports keys that are known but do nothing where they stand, so that no wish of the maker is dropped in silence.</summary>
internal static class KeyUnused
{
    public static void Report(TableReader table, DeskReading reading, IEnumerable<string> keys, string why)
    {
        foreach (var key in keys.Where(table.Has))
        {
            reading.Findings.Add(Finding.Warn("key-unused", $"`{key}` does nothing here: {why}", "delete it", table.SpanOf(key)));
        }
    }
}
