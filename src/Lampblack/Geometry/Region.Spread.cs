using System;
using System.Collections.Concurrent;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using System.Threading.Tasks;
using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.Buffer;

namespace Lampblack.Geometry;

/// <content>Growing and shrinking by a disc.</content>
public sealed partial class Region<TSpace>
{
    /// <summary>How many corners in a row may give way to one chord: enough for any curve, and a bound for the time that long straight rows take.</summary>
    private const int LongestSkip = 64;

    /// <summary>
    /// The region spread by a disc: every place within <paramref name="radiusMm"/> of it (Minkowski sum, round joins).
    /// A negative radius chokes it instead. The border is met within <see cref="Resolution.SpreadErrorMm"/>.
    /// </summary>
    public Region<TSpace> Grow(double radiusMm) => Grow(radiusMm, Resolution.SpreadErrorMm);

    /// <summary>The region spread or choked by a disc, with as few corners as an error allows.</summary>
    /// <param name="radiusMm">Radius of the disc, in mm; negative to choke.</param>
    /// <param name="errorMm">How far the border may lie from the true one, in mm; above 0.</param>
    public Region<TSpace> Grow(double radiusMm, double errorMm)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(errorMm);
        if (radiusMm == 0 || IsEmpty)
        {
            return this;
        }

        var radius = Math.Abs(radiusMm);

        // The error is shared out: the library may cut a joint's arc into chords half as long again as asked for, which makes 2.25 times an eighth;
        // it drops corners of the input that are shallower than a share of the radius, here a tenth; the rest is for leaving out corners afterwards.
        var parameters = new BufferParameters(
            (int)Math.Ceiling(Resolution.ChordsPerCircle(radius, errorMm / 8) / 4.0), EndCapStyle.Round, JoinStyle.Round, BufferParameters.DefaultMitreLimit)
        {
            SimplifyFactor = Math.Min(0.01, errorMm / 10 / radius),
        };

        // Longer sides than a joint's chords are straight ones: tilted by however little, they would lose much area.
        var leftOutMm = errorMm * 0.6;
        var longestMm = 5 * Math.Sqrt(2 * radius * leftOutMm);

        // Pieces that grow into each other belong together; all others stay apart. Letters and whole words come again and again, on this panel
        // and on the next: a letter is grown once, a word joined once from its letters, and both are put in all their places.
        var clusters = Clusters([.. Polygons()], radiusMm > 0 ? 2 * radius : 0).ConvertAll(pieces => new Cluster(pieces));
        var grown = new Dictionary<Form, ImmutableArray<Polygon>>();
        var unknown = clusters.Where(cluster => grown.TryAdd(cluster.Whole, GrownForms.Find((cluster.Whole, radiusMm, errorMm)))).Where(cluster => grown[cluster.Whole].IsDefault).ToList();
        Make(unknown.SelectMany(cluster => cluster.Pieces), letter => [.. letter.Pieces()
            .SelectMany(piece => Flatten(piece.Buffer(radiusMm, parameters))).OfType<Polygon>()
            .Where(polygon => !polygon.IsEmpty)
            .Select(polygon => OnFineGrid(WithFewerCorners(polygon, longestMm, leftOutMm)))]);
        var pieces = unknown.Where(cluster => cluster.Pieces.Length > 1).ToDictionary(cluster => cluster.Whole, cluster => cluster.Pieces);
        Make(pieces.Keys, word => [.. Joined([.. pieces[word].SelectMany(letter => word.PlacedWithin(letter, grown[letter]))])]);
        return Of([.. clusters.SelectMany(cluster => cluster.Whole.Placed(grown[cluster.Whole]))]);

        void Make(IEnumerable<Form> forms, Func<Form, ImmutableArray<Polygon>> grow)
        {
            var wanted = forms.Distinct().ToArray();
            var made = new ImmutableArray<Polygon>[wanted.Length];
            Parallel.For(0, wanted.Length, index =>
            {
                var known = GrownForms.Find((wanted[index], radiusMm, errorMm));
                made[index] = known.IsDefault ? GrownForms.Keep((wanted[index], radiusMm, errorMm), grow(wanted[index])) : known;
            });
            foreach (var (index, form) in wanted.Index())
            {
                grown[form] = made[index];
            }
        }
    }

    /// <summary>The piece with its corners on the fine grid, where it can be joined with others without moving any.</summary>
    private static Polygon OnFineGrid(Polygon piece) => Moved(piece, corner => (Resolution.SnapFinely(corner.XMm), Resolution.SnapFinely(corner.YMm)));

    /// <summary>The region without corners that chords pass within an error: for what is to be looked at, not measured.</summary>
    /// <param name="errorMm">How far the border may lie from this one, in mm; above 0.</param>
    public Region<TSpace> WithFewerCorners(double errorMm)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(errorMm);
        return Of([.. Polygons().Select(piece => WithFewerCorners(piece, double.PositiveInfinity, errorMm))]);
    }

    /// <summary>The piece without corners that chords no longer than some length pass within an error; the piece itself where a sliver would make borders cross.</summary>
    private static Polygon WithFewerCorners(Polygon piece, double longestMm, double errorMm)
    {
        var fewer = Factory.CreatePolygon(
            WithFewerCorners((LinearRing)piece.ExteriorRing, longestMm, errorMm),
            [.. piece.InteriorRings.Select(ring => WithFewerCorners((LinearRing)ring, longestMm, errorMm))]);
        return fewer.NumPoints < piece.NumPoints && fewer.IsValid ? fewer : piece;
    }

    private static LinearRing WithFewerCorners(LinearRing ring, double longestMm, double errorMm)
    {
        var corners = ring.Coordinates;
        var kept = new List<Coordinate>(corners.Length) { corners[0] };
        for (var at = 0; at < corners.Length - 1;)
        {
            var next = at + 1;
            if (corners[at].Distance(corners[next]) <= longestMm)
            {
                while (next + 1 < corners.Length && next - at < LongestSkip
                    && corners[next].Distance(corners[next + 1]) <= longestMm && Passes(corners, at, next + 1, errorMm))
                {
                    next++;
                }
            }

            kept.Add(corners[next]);
            at = next;
        }

        return kept.Count >= 4 ? Factory.CreateLinearRing([.. kept]) : ring;
    }

    /// <summary>Whether the chord from one corner to another passes all between within the error, and they lie along it in their order.</summary>
    private static bool Passes(Coordinate[] corners, int from, int to, double errorMm)
    {
        var (start, end) = (corners[from], corners[to]);
        var (dx, dy) = (end.X - start.X, end.Y - start.Y);
        var length = Math.Sqrt((dx * dx) + (dy * dy));
        double before = 0;
        for (var index = from + 1; index < to; index++)
        {
            var (x, y) = (corners[index].X - start.X, corners[index].Y - start.Y);
            var along = (x * dx) + (y * dy);
            if (Math.Abs((x * dy) - (y * dx)) > errorMm * length || along < before)
            {
                return false;
            }

            before = along;
        }

        return length > 0 && before <= length * length;
    }

    /// <summary>What was grown lately. Only a form itself decides what comes of it, so that remembering changes nothing but the time.</summary>
    private static class GrownForms
    {
        /// <summary>Some 20 MB.</summary>
        private const int MostNumbers = 1_000_000;

        private static readonly ConcurrentDictionary<(Form Form, double RadiusMm, double ErrorMm), ImmutableArray<Polygon>> Known = new();
        private static int _numbers;

        /// <summary>What the form grew into; the default where it is not known.</summary>
        public static ImmutableArray<Polygon> Find((Form, double, double) key) => Known.GetValueOrDefault(key);

        public static ImmutableArray<Polygon> Keep((Form Form, double, double) key, ImmutableArray<Polygon> made)
        {
            if (Interlocked.Add(ref _numbers, key.Form.Size + made.Sum(piece => 2 * piece.NumPoints)) > MostNumbers)
            {
                Known.Clear();
                Interlocked.Exchange(ref _numbers, 0);
            }

            Known[key] = made;
            return made;
        }
    }

    /// <summary>Pieces near each other, as a whole and one by one.</summary>
    private sealed class Cluster(List<Polygon> pieces)
    {
        public Form Whole { get; } = new(Of(pieces).Shape);

        public ImmutableArray<Form> Pieces => _pieces.IsDefault ? _pieces = pieces.Count == 1 ? [Whole] : [.. pieces.Select(piece => new Form(piece))] : _pieces;

        private ImmutableArray<Form> _pieces;
    }
}
