using System;
using Lampblack.Geometry;

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
    /// <param name="emitter">The emitter.</param>
    /// <param name="depthMm">How deep in the box it stands.</param>
    /// <param name="place">Where the surface lies.</param>
    /// <param name="normal">Where it looks, of length 1.</param>
    public static double Lux(Emitter emitter, double depthMm, Place place, Place normal)
    {
        return Lux(new(emitter.At.XMm, emitter.At.YMm, depthMm), emitter.OrderFactor, emitter.AxisCandela, place, normal);
    }

    private static double Lux(Place source, double orderFactor, double axisCandela, Place place, Place normal)
    {
        var way = source - place;
        var arriving = way.Dot(normal);
        if (way.Z <= 0 || arriving <= 0)
        {
            return 0;
        }

        var square = way.Dot(way);
        var length = Math.Sqrt(square);
        var leaving = way.Z / length;
        return SquareMmPerM2 * axisCandela * (orderFactor == 1 ? leaving : Math.Pow(leaving, orderFactor)) * arriving / (length * square);
    }

    /// <summary>Illuminance of a place of the mask, shadows included.</summary>
    public static double OnMask(Emitter emitter, double depthMm, Point<PanelSpace> point, Shadows shadows)
    {
        var place = new Place(point.XMm, point.YMm, 0);
        return shadows.Block(place, new(emitter.At.XMm, emitter.At.YMm, depthMm)) ? 0 : Lux(emitter, depthMm, place, new(0, 0, 1));
    }

    /// <summary>Mean illuminance of a facet, without shadows and with them: near emitters at many places of it, far ones in its middle.</summary>
    public static (double Lux, double ShadedLux) OnFacet(Emitter emitter, double depthMm, Facet facet, Shadows shadows)
    {
        var source = new Place(emitter.At.XMm, emitter.At.YMm, depthMm);
        if (facet.Side == BoxSide.Floor)
        {
            return default;
        }

        var distance = (source - facet.Centre).Length;
        var fewest = shadows.IsEmpty ? 1 : distance > FarSizes * facet.SizeMm ? 2 : 4;
        var cuts = Math.Clamp((int)Math.Ceiling(2.5 * facet.SizeMm / Math.Max(distance, 1e-3)), fewest, 8);
        var (order, axisCandela) = (emitter.OrderFactor, emitter.AxisCandela);
        double all = 0, shaded = 0;
        for (var row = 0; row < cuts; row++)
        {
            for (var column = 0; column < cuts; column++)
            {
                var place = facet.Centre + ((((2 * column) + 1.0) / cuts - 1) * facet.HalfU) + ((((2 * row) + 1.0) / cuts - 1) * facet.HalfV);
                var lux = Lux(source, order, axisCandela, place, facet.Normal);
                all += lux;
                shaded += lux > 0 && !shadows.Block(place, source) ? lux : 0;
            }
        }

        return (all / (cuts * cuts), shaded / (cuts * cuts));
    }
}
