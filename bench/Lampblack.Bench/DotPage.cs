using System;
using Lampblack.Bitmaps;

namespace Lampblack.Bench;

/// <summary>A full A4 page at 1200 dpi with lines of made-up letters: bars, slants and rings. Always the same.</summary>
internal static class DotPage
{
    public const int WidthDots = 9921;
    public const int HeightDots = 14031;
    private const int CellWide = 92;
    private const int CellHigh = 140;
    private const int Stroke = 14;

    public static BitRaster Draw()
    {
        var page = new BitRasterBuilder(WidthDots, HeightDots);
        var state = 12345u;
        for (var top = 240; top + CellHigh < HeightDots - 240; top += CellHigh + 60)
        {
            for (var left = 300; left + CellWide < WidthDots - 300; left += CellWide + 18)
            {
                state = (state * 1664525) + 1013904223;
                var shape = state >> 24;

                // One place in eight is a space between words.
                if (shape % 8 != 0)
                {
                    Letter(page, left, top, shape);
                }
            }
        }

        return page.ToRaster();
    }

    private static void Letter(BitRasterBuilder page, int left, int top, uint shape)
    {
        for (var row = 0; row < 100; row++)
        {
            Run(shape, 0x08, 0, Stroke);
            Run(shape, 0x10, 74 - Stroke, 74);
            Run(shape, 0x20, row * 60 / 100, (row * 60 / 100) + Stroke);
            if (row < Stroke || (row > 43 && row < 43 + Stroke))
            {
                Run(shape, 0x40, 0, 74);
            }

            // A ring, by its outer and its inner half-chord.
            var (outer, inner) = (HalfChord(37, row - 50), HalfChord(37 - Stroke, row - 50));
            if (outer > 0)
            {
                Run(shape, 0x80, 37 - outer, 37 - inner);
                Run(shape, 0x80, 37 + inner, 37 + outer);
            }

            void Run(uint letter, uint part, int start, int end)
            {
                if ((letter & part) != 0)
                {
                    page.SetRun(top + row, left + start, left + end);
                }
            }
        }
    }

    private static int HalfChord(int radius, int distance) => Math.Abs(distance) >= radius ? 0 : (int)Math.Sqrt((radius * radius) - (distance * distance));
}
