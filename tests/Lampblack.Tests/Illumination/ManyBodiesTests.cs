using System;
using System.Linq;
using System.Threading;
using CsCheck;
using Lampblack.Geometry;
using Lampblack.Illumination;
using NetTopologySuite.Geometries;
using Xunit;

namespace Lampblack.Tests.Illumination;

/// <summary>
/// Who stands in whose light among many bodies, against NetTopologySuite's overlay: seen from the front, a ray is a line as far as it is no deeper than a
/// body, and the body stands in its way where that line goes through its footprint.
/// </summary>
public sealed class ManyBodiesTests
{
    private const double Depth = 40;
    private const double TouchMm = 1e-6;

    // Whole millimetres, so that rays also run straight up, along edges and through corners.
    private static readonly Gen<double> Whole = Gen.Int[0, 200].Select(mm => (double)mm);
    private static readonly Gen<double> Any = Gen.OneOf(Whole, Gen.Double[0, 200]);
    private static readonly Gen<Point<PanelSpace>> Place = Gen.Select(Any, Any, (x, y) => new Point<PanelSpace>(x, y));

    private static readonly Gen<OpaqueBody> Square = Gen.Select(Any, Any, Gen.Double[0.5, 30], Gen.Double[0.5, 30], Gen.Double[1, Depth + 10])
        .Select((left, bottom, width, height, depth) => new OpaqueBody([new(left, bottom), new(left + width, bottom), new(left + width, bottom + height), new(left, bottom + height)], depth));

    private static readonly Gen<OpaqueBody> Round = Gen.Select(Any, Any, Gen.Double[0.5, 15], Gen.Int[3, 9], Gen.Double[1, Depth + 10], Gen.Bool)
        .Select((x, y, radius, corners, depth, isClockwise) => new OpaqueBody([.. Enumerable.Range(0, corners).Select(corner => 0.3 + (2 * Math.PI * corner / corners * (isClockwise ? -1 : 1)))
            .Select(angle => new Point<PanelSpace>(x + (radius * Math.Cos(angle)), y + (radius * Math.Sin(angle))))], depth));

    [Fact]
    public void ManyBodiesShadeAsAnOverlaySays()
    {
        var (shaded, open) = (0, 0);
        Gen.Select(Gen.OneOf(Square, Round).Array[0, 90], Place, Place).Sample(
            (bodies, lamp, place) =>
            {
                var box = new LightBox(new(0, 0, 200, 200), Depth, 0, 0, 0) { Bodies = [.. bodies] };
                var share = BoxLight.Of(box, CancellationToken.None).OpenShare([new Emitter(lamp, 1, 60)], place);
                Assert.True(share is 0 or 1);
                var must = bodies.Any(body => Crosses(body, place, lamp, -TouchMm));
                var may = must || bodies.Any(body => Crosses(body, place, lamp, TouchMm));
                Assert.True(share == 0 ? may : !must, $"{bodies.Length} bodies: open {share}");
                Interlocked.Increment(ref share == 0 ? ref shaded : ref open);
            },
            iter: 3000, threads: 2);
        Assert.True(shaded > 300 && open > 300, $"{shaded} shaded, {open} open");
    }

    /// <summary>Whether the ray goes through the footprint, made so much larger, before it is deeper than the body.</summary>
    private static bool Crosses(OpaqueBody body, Point<PanelSpace> place, Point<PanelSpace> lamp, double largerMm)
    {
        var share = Math.Min(1, body.DepthMm / Depth);
        var ring = body.Corners.Append(body.Corners[0]).Select(corner => new Coordinate(corner.XMm, corner.YMm)).ToArray();
        var footprint = new Polygon(new LinearRing(ring)).Buffer(largerMm, 1);
        NetTopologySuite.Geometries.Geometry way = share * place.DistanceMm(lamp) < 1e-9
            ? new NetTopologySuite.Geometries.Point(place.XMm, place.YMm)
            : new LineString([new(place.XMm, place.YMm), new(place.XMm + (share * (lamp.XMm - place.XMm)), place.YMm + (share * (lamp.YMm - place.YMm)))]);
        return !footprint.IsEmpty && footprint.Intersects(way);
    }
}
