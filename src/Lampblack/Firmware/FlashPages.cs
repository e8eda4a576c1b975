using System.Collections.Generic;
using System.Linq;
using Lampblack.Formats;

namespace Lampblack.Firmware;

/// <summary>An image cut into a chip's pages.</summary>
internal static class FlashPages
{
    private const byte Erased = 0xFF;

    /// <summary>Each page that holds anything, whole, in the order of addresses.</summary>
    public static IReadOnlyList<(int Address, byte[] Bytes)> Of(HexFile file, int pageBytes)
    {
        var pages = new SortedDictionary<int, byte[]>();
        foreach (var (address, value) in file.Bytes())
        {
            var start = address - address % pageBytes;
            if (!pages.TryGetValue(start, out var page))
            {
                pages[start] = page = [.. Enumerable.Repeat(Erased, pageBytes)];
            }

            page[address - start] = value;
        }

        return [.. pages.Select(page => (page.Key, page.Value))];
    }
}
