using System;
using System.Runtime.CompilerServices;

namespace Lampblack.Illumination;

/// <summary>Light that comes straight from an emitter.</summary>
internal static class DirectLight
{
    private const double SquareMmPerM2 = 1e6;

    /// <summary>Farther than so many of a facet's sizes the edges of shadows on it matter little.</summary>
    private const double FarSizes = 8;

    /// <summary>
    /// Illuminance of a small surface, bodies left out: I0 cos^m (at the emitter) times cos (at the surface) / r². The second cosine is what makes it the
    /// true illuminance of a plane; published spacing rules for arrays of emitters leave it out.
    /// </summary>
    /// <param name="beam">The emitter.</param>
    /// <param name="place">Where the surface lies.</param>
    /// <param name="normal">Where it looks, of length 1.</param>
    public static double Lux(in Beam beam, Place place, Place normal)
    {
        var way = beam.At - place;
        var arriving = way.Dot(normal);
        if (way.Z <= 0 || arriving <= 0)
        {
            return 0;
        }

        var square = way.Dot(way);
        var length = Math.Sqrt(square);
        var leaving = way.Z / length;
        return SquareMmPerM2 * beam.AxisCandela * (beam.OrderFactor == 1 ? leaving : Math.Pow(leaving, beam.OrderFactor)) * arriving / (length * square);
    }

    /// <summary>Illuminance of a place of the mask, shadows included.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static double OnMask(in Beam beam, Place place, Shadows shadows) => shadows.Block(place, beam.At) ? 0 : Lux(beam, place, new(0, 0, 1));

    /// <summary>Mean illuminance of a facet, without shadows and with them: near emitters at many places of it, far ones in its middle.</summary>
    /// <param name="beam">The emitter.</param>
    /// <param name="facet">The facet.</param>
    /// <param name="shadows">What stands in the way.</param>
    /// <param name="isDim">Whether it throws back so little that the edges of shadows on it need not be known.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static (double Lux, double ShadedLux) OnFacet(in Beam beam, Facet facet, Shadows shadows, bool isDim)
    {
        if (facet.Side == BoxSide.Floor)
        {
            return default;
        }

        var distance = (beam.At - facet.Centre).Length;
        var fewest = shadows.IsEmpty ? 1 : (distance > FarSizes * facet.SizeMm ? 2 : 4) / (isDim ? 2 : 1);
        var cuts = Math.Clamp((int)Math.Ceiling(2.5 * facet.SizeMm / Math.Max(distance, 1e-3)), fewest, 8);
        double all = 0, shaded = 0;
        for (var row = 0; row < cuts; row++)
        {
            for (var column = 0; column < cuts; column++)
            {
                var place = facet.Centre + ((((2 * column) + 1.0) / cuts - 1) * facet.HalfU) + ((((2 * row) + 1.0) / cuts - 1) * facet.HalfV);
                var lux = Lux(beam, place, facet.Normal);
                all += lux;
                shaded += lux > 0 && !shadows.Block(place, beam.At) ? lux : 0;
            }
        }

        return (all / (cuts * cuts), shaded / (cuts * cuts));
    }
}
