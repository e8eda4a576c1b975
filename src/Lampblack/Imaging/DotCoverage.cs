using System;
using System.Runtime.CompilerServices;
using System.Threading.Tasks;
using Lampblack.Bitmaps;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Optics;
using Lampblack.Quantities;

namespace Lampblack.Imaging;

/// <summary>Dots of print as dots of a picture, which are larger: each is looked at in sixteen places.</summary>
internal static class DotCoverage
{
    private const int Looks = 4;

    /// <summary>How much of each of the picture's dots is printed.</summary>
    public static CoverageMap Of<TSpace>(PlacedDots<TSpace> dots, DotGrid<TSpace> grid)
        where TSpace : struct, ISpace
    {
        var printed = dots.Content switch { Stencil stencil => stencil.Dots, ColourDots colours => colours.Mask, _ => null };
        var (width, height) = printed is null ? (dots.Content.WidthDots, dots.Content.HeightDots) : (printed.WidthDots, printed.HeightDots);
        var look = Look(dots, grid, width, height);
        var coverage = new byte[grid.WidthPx * grid.HeightPx];
        if (look is { Xy: 0, Yx: 0 })
        {
            Upright(printed, look, width, height, grid.WidthPx, coverage);
        }
        else
        {
            Turned(printed, look, width, height, grid.WidthPx, coverage);
        }

        return CoverageMap.Of(grid.WidthPx, grid.HeightPx, grid.MmPerDot, coverage);
    }

    /// <summary>Rows lie along rows: each column and each row of places is found once.</summary>
    private static void Upright(BitRaster? printed, Affine<DotSpace, DotSpace> look, int width, int height, int widthPx, byte[] coverage)
    {
        var columns = new int[widthPx * Looks];
        for (var place = 0; place < columns.Length; place++)
        {
            var x = Math.Floor(look.Apply(new((place / Looks) + Middle(place % Looks), 0)).XMm);
            columns[place] = x >= 0 && x < width ? (int)x : -1;
        }

        Parallel.For(0, coverage.Length / widthPx, row =>
        {
            var seen = coverage.AsSpan(row * widthPx, widthPx);
            for (var part = 0; part < Looks; part++)
            {
                var y = Math.Floor(look.Apply(new(0, row + Middle(part))).YMm);
                if (y >= 0 && y < height)
                {
                    Count(printed is null ? default : printed.Row((int)y), printed is null, columns, seen);
                }
            }

            Shares(seen);
        });
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Count(ReadOnlySpan<ulong> dots, bool isAll, ReadOnlySpan<int> columns, Span<byte> seen)
    {
        for (var pixel = 0; pixel < seen.Length; pixel++)
        {
            var places = columns.Slice(pixel * Looks, Looks);

            // Columns rise or fall all the way, so that where the first and the last are on the picture all are.
            if (places[0] >= 0 && places[Looks - 1] >= 0)
            {
                seen[pixel] += isAll ? (byte)Looks : (byte)(Bit(dots, places[0]) + Bit(dots, places[1]) + Bit(dots, places[2]) + Bit(dots, places[3]));
                continue;
            }

            foreach (var x in places)
            {
                seen[pixel] += x >= 0 && (isAll || Bit(dots, x) != 0) ? (byte)1 : (byte)0;
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static ulong Bit(ReadOnlySpan<ulong> dots, int x) => (dots[(int)((uint)x / BitRaster.DotsPerWord)] >> (x & (BitRaster.DotsPerWord - 1))) & 1;

    private static void Turned(BitRaster? printed, Affine<DotSpace, DotSpace> look, int width, int height, int widthPx, byte[] coverage) => Parallel.For(0, coverage.Length / widthPx, row =>
    {
        var seen = coverage.AsSpan(row * widthPx, widthPx);
        for (var place = 0; place < seen.Length * Looks * Looks; place++)
        {
            var column = place / (Looks * Looks);
            var at = look.Apply(new(column + Middle(place % Looks), row + Middle(place / Looks % Looks)));
            var (x, y) = ((int)Math.Floor(at.XMm), (int)Math.Floor(at.YMm));
            seen[column] += x >= 0 && y >= 0 && x < width && y < height && (printed is null || printed[x, y]) ? (byte)1 : (byte)0;
        }

        Shares(seen);
    });

    private static double Middle(int place) => (place + 0.5) / Looks;

    private static void Shares(Span<byte> seen)
    {
        foreach (ref var places in seen)
        {
            places = (byte)(places * 255 / (Looks * Looks));
        }
    }

    /// <summary>The colour in the middle of each of the picture's dots, as a place in <see cref="DotPalette"/>.</summary>
    public static ushort[] Colours<TSpace>(ColourDots colours, PlacedDots<TSpace> dots, DotGrid<TSpace> grid)
        where TSpace : struct, ISpace
    {
        var look = Look(dots, grid, colours.WidthDots, colours.HeightDots);
        var places = new ushort[grid.WidthPx * grid.HeightPx];
        Parallel.For(0, grid.HeightPx, row =>
        {
            for (var column = 0; column < grid.WidthPx; column++)
            {
                var at = look.Apply(new(column + 0.5, row + 0.5));
                var x = (int)Math.Clamp(Math.Floor(at.XMm), 0, colours.WidthDots - 1);
                var y = (int)Math.Clamp(Math.Floor(at.YMm), 0, colours.HeightDots - 1);
                places[(row * grid.WidthPx) + column] = DotPalette.PlaceOf(colours, (y * colours.WidthDots) + x);
            }
        });
        return places;
    }

    /// <summary>From the picture's dots to the printed ones.</summary>
    private static Affine<DotSpace, DotSpace> Look<TSpace>(PlacedDots<TSpace> dots, DotGrid<TSpace> grid, int widthDots, int heightDots)
        where TSpace : struct, ISpace
    {
        var toSpace = new Affine<DotSpace, TSpace>(grid.MmPerDot, 0, grid.View.LeftMm, 0, -grid.MmPerDot, grid.View.TopMm);
        var scale = Affine<DotSpace, DotSpace>.Scale((double)widthDots / dots.Content.WidthDots, (double)heightDots / dots.Content.HeightDots);
        return toSpace.Then(dots.Placement.Inverse()).Then(scale);
    }
}

/// <summary>Colours of pictures in steps of a sixteenth: what inks do to light is worked out once for each, not for each dot.</summary>
internal static class DotPalette
{
    private const int Steps = 16;

    /// <summary>How many colours there are.</summary>
    public const int Count = Steps * Steps * Steps;

    /// <summary>The palette's place for one dot.</summary>
    public static ushort PlaceOf(ColourDots colours, int dot)
    {
        var codes = colours.Codes;
        return colours.Space == InkSpace.Gray
            ? Place(codes[dot], codes[dot], codes[dot])
            : Place(codes[3 * dot], codes[(3 * dot) + 1], codes[(3 * dot) + 2]);
    }

    /// <summary>All colours as light.</summary>
    public static LinearColour[] Of(Func<Ink, LinearColour> light)
    {
        var colours = new LinearColour[Count];
        for (var place = 0; place < Count; place++)
        {
            colours[place] = light(Ink.Rgb(Share(place / (Steps * Steps)), Share(place / Steps % Steps), Share(place % Steps)));
        }

        return colours;
    }

    /// <summary>The screen's colour at a place of the palette.</summary>
    public static ScreenColour ColourOf(int place) => new(Code(place / (Steps * Steps)), Code(place / Steps % Steps), Code(place % Steps));

    private static byte Code(int step) => (byte)(step * 255 / (Steps - 1));

    private static ushort Place(byte red, byte green, byte blue) => (ushort)((((red / Steps) * Steps) + (green / Steps)) * Steps + (blue / Steps));

    private static double Share(int step) => step / (Steps - 1.0);
}
