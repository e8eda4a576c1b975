using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using NetTopologySuite;
using NetTopologySuite.Geometries;
using NetTopologySuite.Geometries.Implementation;
using NetTopologySuite.Geometries.Prepared;
using NtsGeometry = NetTopologySuite.Geometries.Geometry;

namespace Lampblack.Geometry;

/// <summary>An area of the plane, in mm: any number of pieces, each with any number of holes. Never changes; always valid.</summary>
/// <typeparam name="TSpace">The space it is in.</typeparam>
public sealed partial class Region<TSpace>
    where TSpace : struct, ISpace
{
    // The newer predicates bear borders that touch themselves, which snapping to the grid can make; the older ones throw.
    private static readonly GeometryFactory Factory = new NtsGeometryServices(PackedCoordinateSequenceFactory.DoubleFactory, NtsGeometryServices.Instance.DefaultPrecisionModel, 0, GeometryOverlay.NG, GeometryRelate.NG, new CoordinateEqualityComparer()).CreateGeometryFactory();

    private readonly NtsGeometry _made;
    private readonly (int Right, int Up) _steps;
    private NtsGeometry? _shape;
    private IPreparedGeometry? _prepared;

    private Region(NtsGeometry shape) => (_made, _shape) = (shape, shape);

    /// <summary>A shape on the grid, so many of its steps away from where it was made.</summary>
    private Region(NtsGeometry made, (int Right, int Up) steps) => (_made, _steps, _footing) = (made, steps, Footing.OnGrid);

    /// <summary>The region without any area.</summary>
    public static Region<TSpace> Empty { get; } = new(Factory.CreatePolygon());

    /// <summary>Whether there is no area at all.</summary>
    public bool IsEmpty => _made.IsEmpty;

    /// <summary>Area in mm2.</summary>
    public double AreaMm2 => Shape.Area;

    /// <summary>Length of all borders in mm, those of holes included.</summary>
    public double PerimeterMm => Shape.Length;

    /// <summary>The smallest upright box around everything; a box of size zero at the origin where empty.</summary>
    public Box<TSpace> Bounds
    {
        get
        {
            var envelope = Envelope;
            return envelope.IsNull ? default : new(envelope.MinX, envelope.MinY, envelope.Width, envelope.Height);
        }
    }

    /// <summary>How many corners all borders have.</summary>
    public int CornerCount => _made.NumPoints;

    /// <summary>The separate pieces, each a region of its own, in the order they were made.</summary>
    public ImmutableArray<Region<TSpace>> Pieces =>
        [.. Polygons().Select(polygon => new Region<TSpace>(polygon))];

    /// <summary>
    /// The borders: of each piece first its outer border, counter-clockwise, then its holes, clockwise.
    /// Both fill rules give the same area.
    /// </summary>
    public ImmutableArray<Outline<TSpace>> Borders()
    {
        var borders = ImmutableArray.CreateBuilder<Outline<TSpace>>();
        foreach (var polygon in Polygons())
        {
            borders.Add(Border(polygon.ExteriorRing, counterClockwise: true));
            foreach (var hole in polygon.InteriorRings)
            {
                borders.Add(Border(hole, counterClockwise: false));
            }
        }

        return borders.ToImmutable();
    }

    /// <summary>Whether the point lies inside or on the border.</summary>
    public bool Contains(Point<TSpace> point) =>
        Shape.Covers(Factory.CreatePoint(new Coordinate(point.XMm, point.YMm)));

    /// <summary>Whether the other region lies wholly inside, borders included.</summary>
    public bool Contains(Region<TSpace> other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return Prepared.Covers(other.Shape);
    }

    /// <summary>Whether the regions share at least a point.</summary>
    public bool Touches(Region<TSpace> other)
    {
        ArgumentNullException.ThrowIfNull(other);
        if (!Envelope.Intersects(other.Envelope))
        {
            return false;
        }

        // Few pieces of either come near the other's.
        var around = new PieceIndex(other.Polygons());
        return Polygons().Any(piece => around.Near(piece).Exists(piece.Intersects));
    }

    /// <summary>The shortest way between the two, in mm; zero where they share a point, infinite where one is empty.</summary>
    public double DistanceMm(Region<TSpace> other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return IsEmpty || other.IsEmpty ? double.PositiveInfinity : Shape.Distance(other.Shape);
    }

    /// <summary>The region in another space; coordinates are snapped to the grid.</summary>
    public Region<TTo> Map<TTo>(Affine<TSpace, TTo> map)
        where TTo : struct, ISpace
    {
        ArgumentNullException.ThrowIfNull(map);
        return ShiftOf(map) is { } shift
            ? new(_made, (_steps.Right + shift.Right, _steps.Up + shift.Up))
            : Region<TTo>.OnGrid([.. Polygons().Select(polygon => Mapped(polygon, map))]);
    }

    /// <summary>A piece with every corner moved.</summary>
    private static Polygon Moved(Polygon piece, Func<Point<TSpace>, (double XMm, double YMm)> move)
    {
        return Factory.CreatePolygon(Ring(piece.ExteriorRing), [.. piece.InteriorRings.Select(Ring)]);

        LinearRing Ring(LineString ring)
        {
            var corners = ring.CoordinateSequence;
            var moved = new double[2 * corners.Count];
            for (var index = 0; index < corners.Count; index++)
            {
                (moved[2 * index], moved[(2 * index) + 1]) = move(new(corners.GetX(index), corners.GetY(index)));
            }

            return new(new PackedDoubleCoordinateSequence(moved, 2, 0), Factory);
        }
    }

    private bool IsRectangle => Shape is Polygon && Shape.IsRectangle;

    /// <summary>The shape with the indexes that many questions about it share. Two threads may both make them; either's do.</summary>
    private IPreparedGeometry Prepared => _prepared ??= PreparedGeometryFactory.Prepare(Shape);

    private static Outline<TSpace> Border(LineString ring, bool counterClockwise)
    {
        var numbers = Numbers(ring);
        var count = (numbers.Length / 2) - 1;
        double twice = 0;
        for (int here = 0, next = 2; here < 2 * count; here += 2, next = next + 2 < 2 * count ? next + 2 : 0)
        {
            twice += (numbers[here] * numbers[next + 1]) - (numbers[next] * numbers[here + 1]);
        }

        var isForward = twice > 0 == counterClockwise;
        var points = ImmutableArray.CreateBuilder<Point<TSpace>>(count);
        for (var index = 0; index < count; index++)
        {
            var at = 2 * (isForward ? index : count - 1 - index);
            points.Add(new(numbers[at], numbers[at + 1]));
        }

        return new(points.MoveToImmutable(), Closed: true);
    }

    private static Region<TSpace> Of(NtsGeometry shape)
    {
        if (shape is Polygon or MultiPolygon)
        {
            return new(shape);
        }

        // Overlays may leave lines and points where borders only touch: they have no area.
        var polygons = new List<Polygon>();
        foreach (var part in Flatten(shape))
        {
            if (part is Polygon { IsEmpty: false } polygon)
            {
                polygons.Add(polygon);
            }
        }

        return Of(polygons);
    }

    private static Region<TSpace> Of(IReadOnlyList<Polygon> polygons) => polygons.Count switch
    {
        0 => Empty,
        1 => new(polygons[0]),
        _ => new(Factory.CreateMultiPolygon([.. polygons])),
    };

    private static IEnumerable<NtsGeometry> Flatten(NtsGeometry shape) =>
        shape is GeometryCollection collection ? collection.Geometries.SelectMany(Flatten) : [shape];

    private IReadOnlyList<Polygon> Polygons() => PiecesOf(Shape);

    /// <summary>Nearly every shape is a piece or a plain list of them, which is not gone through by iterators in iterators.</summary>
    private static IReadOnlyList<Polygon> PiecesOf(NtsGeometry shape)
    {
        if (shape is Polygon one)
        {
            return one.IsEmpty ? [] : [one];
        }

        if (shape is MultiPolygon { Geometries: Polygon[] pieces } && Array.TrueForAll(pieces, piece => !piece.IsEmpty))
        {
            return pieces;
        }

        return [.. Flatten(shape).OfType<Polygon>().Where(piece => !piece.IsEmpty)];
    }
}
