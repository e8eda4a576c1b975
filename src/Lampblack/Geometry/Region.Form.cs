using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Runtime.InteropServices;
using NetTopologySuite.Geometries;
using NetTopologySuite.Geometries.Implementation;
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

        /// <summary>How many numbers it takes to keep the form.</summary>
        public int Size => _corners.Count;

        /// <summary>The form's pieces with its first corner at the origin: the same for all of this form, so that what is made of it does not depend on which came first.</summary>
        public IEnumerable<Polygon> Pieces()
        {
            for (var at = 0; at < _corners.Count;)
            {
                var shell = Ring(ref at);
                var holes = new List<LinearRing>();
                while (at < _corners.Count && _corners[at] < 0)
                {
                    holes.Add(Ring(ref at));
                }

                yield return Factory.CreatePolygon(shell, [.. holes]);
            }
        }

        /// <summary>What was made of the form at the origin, brought to this one's place.</summary>
        public IEnumerable<Polygon> Placed(ImmutableArray<Polygon> made) => Shifted(made, _origin.X, _origin.Y);

        /// <summary>What was made of a piece of this form, brought from its own place at the origin to where it stands in the form.</summary>
        /// <param name="piece">The piece, one of those that the form was made from.</param>
        /// <param name="made">What was made of it.</param>
        public IEnumerable<Polygon> PlacedWithin(Form piece, ImmutableArray<Polygon> made) =>
            Shifted(made, Steps(piece._origin.X - _origin.X) * Resolution.GridMm, Steps(piece._origin.Y - _origin.Y) * Resolution.GridMm);

        public bool Equals(Form? other) => other is not null && _hash == other._hash
            && CollectionsMarshal.AsSpan(_corners).SequenceEqual(CollectionsMarshal.AsSpan(other._corners));

        public override bool Equals(object? obj) => Equals(obj as Form);

        public override int GetHashCode() => _hash;

        private LinearRing Ring(ref int at)
        {
            var corners = new double[2 * Math.Abs(_corners[at++])];
            for (var index = 0; index < corners.Length; index++)
            {
                corners[index] = _corners[at++] * Resolution.GridMm;
            }

            return new(new PackedDoubleCoordinateSequence(corners, 2, 0), Factory);
        }

        private static IEnumerable<Polygon> Shifted(ImmutableArray<Polygon> made, double dx, double dy) =>
            made.Select(piece => Changed(piece, (numbers, to) =>
            {
                for (var at = 0; at < to.Length; at += 2)
                {
                    (to[at], to[at + 1]) = (numbers[at] + dx, numbers[at + 1] + dy);
                }
            }));

        private void Add(LineString ring, bool isHole)
        {
            _corners.Add(isHole ? -ring.NumPoints : ring.NumPoints);
            var corners = ring.CoordinateSequence;
            for (var index = 0; index < corners.Count; index++)
            {
                _corners.Add(Steps(corners.GetX(index) - _origin.X));
                _corners.Add(Steps(corners.GetY(index) - _origin.Y));
            }
        }
    }
}
