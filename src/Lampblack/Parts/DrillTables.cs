using System.Collections.Immutable;
using System.Globalization;
using System.Linq;

namespace Lampblack.Parts;

/// <summary>The usual series of twist drills.</summary>
public static class DrillTables
{
    private const double InchMm = 25.4;

    // Ten-thousandths of an inch, from number 1 on. From memory (ASME B94.11M); number 1, 2, 3, 4, 7, 10, 21 and 25 seen in a published chart.
    private static readonly ImmutableArray<int> NumberTenThousandths =
    [
        2280, 2210, 2130, 2090, 2055, 2040, 2010, 1990, 1960, 1935, 1910, 1890, 1850, 1820, 1800, 1770, 1730, 1695, 1660, 1610,
        1590, 1570, 1540, 1520, 1495, 1470, 1440, 1405, 1360, 1285, 1200, 1160, 1130, 1110, 1100, 1065, 1040, 1015, 995, 980,
        960, 935, 890, 860, 820, 810, 785, 760, 730, 700, 670, 635, 595, 550, 520, 465, 430, 420, 410, 400,
    ];

    // Thousandths of an inch, A to Z. From memory (ASME B94.11M); A and Z seen in a published chart.
    private static readonly ImmutableArray<int> LetterThousandths =
        [234, 238, 242, 246, 250, 257, 261, 266, 272, 277, 281, 290, 295, 302, 316, 323, 332, 339, 348, 358, 368, 377, 386, 397, 404, 413];

    /// <summary>1 to 13 mm in steps of 0.5: the box of 25 that most shops sell. Common practice, no source.</summary>
    public static ImmutableArray<Drill> Metric { get; } = [.. Enumerable.Range(2, 25).Select(half => OfMm(half / 2.0))];

    /// <summary>1/16 to 1/2 inch in steps of 1/64.</summary>
    public static ImmutableArray<Drill> Inch { get; } = [.. Enumerable.Range(4, 29).Select(count => OfSixtyFourths(count))];

    /// <summary>Number 60 (1.016 mm) to number 1 (5.791 mm).</summary>
    public static ImmutableArray<Drill> Numbers { get; } =
        [.. NumberTenThousandths.Select((size, index) => new Drill(string.Create(CultureInfo.InvariantCulture, $"number {index + 1}"), size * InchMm / 10_000)).Reverse()];

    /// <summary>Letter A (5.944 mm) to Z (10.490 mm).</summary>
    public static ImmutableArray<Drill> Letters { get; } =
        [.. LetterThousandths.Select((size, index) => new Drill($"letter {(char)('A' + index)}", size * InchMm / 1000))];

    /// <summary>A drill of a size in mm.</summary>
    public static Drill OfMm(double mm) => new(Cutout.Text(mm) + " mm", mm);

    /// <summary>A drill of so many sixty-fourths of an inch.</summary>
    public static Drill OfSixtyFourths(int count)
    {
        var (above, below) = (count, 64);
        while (above % 2 == 0 && below > 1)
        {
            (above, below) = (above / 2, below / 2);
        }

        var whole = above / below;
        var rest = above % below;
        var name = (whole, rest) switch
        {
            (0, _) => string.Create(CultureInfo.InvariantCulture, $"{rest}/{below} in"),
            (_, 0) => string.Create(CultureInfo.InvariantCulture, $"{whole} in"),
            _ => string.Create(CultureInfo.InvariantCulture, $"{whole} {rest}/{below} in"),
        };
        return new(name, count * InchMm / 64);
    }
}
