using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Runtime.InteropServices;
using NetTopologySuite.Geometries;
using NtsGeometry = NetTopologySuite.Geometries.Geometry;

namespace Lampblack.Geometry;

/// <content>Shapes that are alike wherever they lie.</content>
public sealed partial class Region<TSpace>
{
    /// <summary>A shape that equals others of the same corners, to half a step of the grid, in another place.</summary>
    private sealed class Form : IEquatable<Form>
    {
        private readonly Coordinate _origin;
        private readonly List<long> _corners;
        private readonly int _hash;

        public Form(NtsGeometry shape)
        {
            Shape = shape;
            _origin = shape.Coordinate;
            _corners = new(shape.NumPoints * 2);
            foreach (var piece in Flatten(shape).Cast<Polygon>())
            {
                Add(piece.ExteriorRing, isHole: false);
                foreach (var hole in piece.InteriorRings)
                {
                    Add(hole, isHole: true);
                }
            }

            var hash = default(HashCode);
            hash.AddBytes(MemoryMarshal.AsBytes(CollectionsMarshal.AsSpan(_corners)));
            _hash = hash.ToHashCode();
        }

        /// <summary>The shape in its own place.</summary>
        public NtsGeometry Shape { get; }

        /// <summary>What was made of the shape, in its own place.</summary>
        public ImmutableArray<Polygon> Made { get; set; }

        /// <summary>What was made of another shape of this form, brought to this one's place.</summary>
        public IEnumerable<Polygon> Placed(Form from)
        {
            if (ReferenceEquals(from, this))
            {
                return Made;
            }

            var (dx, dy) = (_origin.X - from._origin.X, _origin.Y - from._origin.Y);
            return from.Made.Select(made => Factory.CreatePolygon(
                Shifted((LinearRing)made.ExteriorRing, dx, dy), [.. made.InteriorRings.Select(ring => Shifted((LinearRing)ring, dx, dy))]));
        }

        public bool Equals(Form? other) => other is not null && _hash == other._hash
            && CollectionsMarshal.AsSpan(_corners).SequenceEqual(CollectionsMarshal.AsSpan(other._corners));

        public override bool Equals(object? obj) => Equals(obj as Form);

        public override int GetHashCode() => _hash;

        private static LinearRing Shifted(LinearRing ring, double dx, double dy)
        {
            var corners = ring.Coordinates;
            var shifted = new Coordinate[corners.Length];
            for (var index = 0; index < corners.Length; index++)
            {
                shifted[index] = new(corners[index].X + dx, corners[index].Y + dy);
            }

            return Factory.CreateLinearRing(shifted);
        }

        private static long Steps(double mm) => (long)Math.Round(mm / Resolution.GridMm, MidpointRounding.AwayFromZero);

        private void Add(LineString ring, bool isHole)
        {
            _corners.Add(isHole ? -ring.NumPoints : ring.NumPoints);
            foreach (var corner in ring.Coordinates)
            {
                _corners.Add(Steps(corner.X - _origin.X));
                _corners.Add(Steps(corner.Y - _origin.Y));
            }
        }
    }
}
