using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Cutting;

namespace Lampblack.Tests.Cutting;

/// <summary>
/// Instances of the literature, typed from public copies: plate, then for each kind of piece width, height, how many at most, value. cgcut1 to 3: Christofides and Whitlock,
/// Operations Research 25 (1977) 30-44, table 2. Wang 1 to 3: Wang, Operations Research 31 (1983) 573-586. CHL5: Cung, Hifi and Le Cun, ITOR 7 (2000) 185-203. gcut1 to 4: Beasley,
/// Journal of the Operational Research Society 36 (1985) 297-306, where each piece may be cut any number of times and its value is its area.
/// </summary>
internal static class Published
{
    public const int Endless = 100_000;

    private const string Gcut1 = "167 184 114 118 167 152 83 140 70 86 143 166 120 160 66 148 87 141 69 165";

    private const string Gcut2 =
        "120 133 135 186 86 75 103 73 66 85 135 97 91 175 131 176 71 176 153 72 87 148 168 107 118 90 140 109 132 159 152 93 135 68 121 158 68 94 155 76";

    private const string Gcut3 =
        "66 80 164 107 64 184 121 86 163 135 85 98 81 102 103 186 152 106 176 139 111 118 69 169 146 133 112 112 133 160 63 129 163 152 110 155 96 136 92 142 84 143 119 133 71 71 " +
        "146 84 93 86 89 86 101 146 172 73 73 169 99 99";

    private const string Gcut4 =
        "139 103 166 99 88 74 174 139 128 109 175 179 62 82 178 87 121 77 125 97 73 84 69 97 122 159 66 69 111 118 165 86 71 83 163 162 67 132 121 152 68 150 138 124 141 105 183 122 " +
        "171 63 101 64 103 95 110 107 184 158 85 97 86 92 127 155 92 147 106 97 177 108 164 150 68 84 62 151 123 134 158 178 70 140 173 117 147 136 141 145 84 164 144 141 92 103 " +
        "156 98 160 111 127 131";

    private const string Wang =
        "31 43 1 1333 30 41 1 1230 29 39 1 1131 28 38 1 1064 27 37 1 999 26 36 1 936 25 35 2 875 24 34 2 816 33 23 3 759 22 32 2 704 31 21 3 651 29 18 3 522 17 27 2 459 " +
        "16 25 4 400 15 24 2 360 15 24 1 360 23 14 4 322 21 12 3 252 19 11 4 209 9 17 1 153";

    /// <summary>An instance by its name; a name with <c>x1</c> behind it has one of each piece.</summary>
    public static CutTask Task(string name, bool rotate = false, bool isEndless = false, double kerfMm = 0) => name switch
    {
        "cgcut1" => Of(15, 10, "8 4 2 66 3 7 1 35 8 2 3 24 3 4 5 17 3 3 2 11 3 2 2 8 2 1 1 2", rotate, isEndless, kerfMm),
        "cgcut2" => Of(40, 70, "21 22 1 582 31 13 1 403 9 35 3 315 9 24 3 216 30 7 2 210 11 13 3 143 10 14 1 140 14 8 3 110 12 8 3 94 13 7 3 90", rotate, isEndless, kerfMm),
        "cgcut3" => Of(
            40,
            70,
            "31 43 4 500 30 41 2 480 29 39 4 460 28 38 4 440 27 37 3 420 26 36 4 410 25 35 3 400 24 34 4 380 33 23 4 360 22 32 3 340 31 21 3 320 29 18 3 300 17 27 2 280 15 24 2 240 " +
            "16 25 4 260 15 24 1 240 23 14 4 220 21 12 3 180 19 11 4 160 9 17 1 140",
            rotate,
            isEndless,
            kerfMm),
        "CHL5" => Of(20, 20, "14 2 1 28 1 5 1 5 20 4 2 80 12 3 3 36 11 8 2 88 11 6 2 66 7 9 1 63 17 5 1 85 7 14 2 98 1 7 3 7", rotate, isEndless, kerfMm),
        "Wang1" => Of(33, 69, Wang, rotate, isEndless, kerfMm),
        "Wang2" => Of(39, 70, Wang, rotate, isEndless, kerfMm),
        "Wang3" => Of(40, 70, Wang, rotate, isEndless, kerfMm),
        "gcut1" => OfSizes(Gcut1, Endless, rotate, kerfMm),
        "gcut2" => OfSizes(Gcut2, Endless, rotate, kerfMm),
        "gcut3" => OfSizes(Gcut3, Endless, rotate, kerfMm),
        "gcut4" => OfSizes(Gcut4, Endless, rotate, kerfMm),
        "gcut1x1" => OfSizes(Gcut1, 1, rotate, kerfMm),
        "gcut2x1" => OfSizes(Gcut2, 1, rotate, kerfMm),
        _ => throw new ArgumentException($"no instance {name}", nameof(name)),
    };

    private static CutTask Of(int width, int height, string pieces, bool rotate, bool isEndless, double kerfMm) => new(
        [.. Numbers(pieces).Chunk(4).Select((piece, index) => new CutPiece($"p{index}", piece[0], piece[1], isEndless ? Endless : piece[2]) { Value = piece[3] })],
        [new("plate", width, height) { Count = 1 }],
        new(kerfMm, 0, rotate),
        1);

    private static CutTask OfSizes(string sizes, int count, bool rotate, double kerfMm) => new(
        [.. Numbers(sizes).Chunk(2).Select((piece, index) => new CutPiece($"p{index}", piece[0], piece[1], count))],
        [new("plate", 250, 250) { Count = 1 }],
        new(kerfMm, 0, rotate),
        1);

    private static ImmutableArray<int> Numbers(string text) => [.. text.Split(' ').Select(number => int.Parse(number, System.Globalization.CultureInfo.InvariantCulture))];
}
