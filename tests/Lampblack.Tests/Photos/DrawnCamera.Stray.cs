using System;
using System.Threading.Tasks;

namespace Lampblack.Tests.Photos;

/// <summary>Light that goes astray in the drawn camera.</summary>
internal sealed partial record DrawnCamera
{
    /// <summary>What scatters in a lens: some of it everywhere alike, some of it near where it came from.</summary>
    private float[] Stray(float[] light)
    {
        if (Veil > 0 || Glow > 0)
        {
            var mean = 0.0;
            foreach (var value in light)
            {
                mean += value;
            }

            mean /= light.Length;
            var around = Surroundings(light);
            for (var at = 0; at < light.Length; at++)
            {
                light[at] = (float)((light[at] * (1 - Veil - Glow)) + (Veil * mean) + (Glow * around[at]));
            }
        }

        return light;
    }

    /// <summary>Mean light of squares of a sixteenth of the picture, joined smoothly.</summary>
    private float[] Surroundings(float[] light)
    {
        const int Tiles = 16;
        var means = new double[(Tiles + 1) * (Tiles + 1)];
        for (var row = 0; row <= Tiles; row++)
        {
            for (var column = 0; column <= Tiles; column++)
            {
                var (sum, count) = (0.0, 0);
                for (var y = Math.Max(0, (row - 1) * HeightPx / Tiles); y < Math.Min(HeightPx, (row + 1) * HeightPx / Tiles); y += 5)
                {
                    for (var x = Math.Max(0, (column - 1) * WidthPx / Tiles); x < Math.Min(WidthPx, (column + 1) * WidthPx / Tiles); x += 5)
                    {
                        (sum, count) = (sum + light[(y * WidthPx) + x], count + 1);
                    }
                }

                means[(row * (Tiles + 1)) + column] = sum / count;
            }
        }

        var around = new float[light.Length];
        Parallel.For(0, HeightPx, y =>
        {
            var (v, row) = (y * (double)Tiles / HeightPx, y * Tiles / HeightPx);
            for (var x = 0; x < WidthPx; x++)
            {
                var (u, column) = (x * (double)Tiles / WidthPx, x * Tiles / WidthPx);
                var at = (row * (Tiles + 1)) + column;
                var (du, dv) = (u - column, v - row);
                around[(y * WidthPx) + x] = (float)((((means[at] * (1 - du)) + (means[at + 1] * du)) * (1 - dv)) + (((means[at + Tiles + 1] * (1 - du)) + (means[at + Tiles + 2] * du)) * dv));
            }
        });
        return around;
    }
}
