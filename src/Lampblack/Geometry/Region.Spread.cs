using System;
using System.Linq;
using NetTopologySuite.Operation.Buffer;

namespace Lampblack.Geometry;

/// <content>Growing and shrinking by a disc.</content>
public sealed partial class Region<TSpace>
{
    /// <summary>
    /// The region spread by a disc: every place within <paramref name="radiusMm"/> of it (Minkowski sum, round joins).
    /// A negative radius chokes it instead. Arcs are followed by chords within <see cref="Resolution.ChordErrorMm"/>.
    /// </summary>
    public Region<TSpace> Grow(double radiusMm)
    {
        if (radiusMm == 0 || IsEmpty)
        {
            return this;
        }

        var parameters = new BufferParameters(
            QuadrantChords(Math.Abs(radiusMm)), EndCapStyle.Round, JoinStyle.Round, BufferParameters.DefaultMitreLimit)
        {
            // The library drops corners of the input that are shallower than this share of the radius; 0.1 % keeps the result within half a µm.
            SimplifyFactor = 0.001,
        };
        return radiusMm > 0
            ? Union(Polygons().Select(polygon => Of(polygon.Buffer(radiusMm, parameters))))
            : Of(_shape.Buffer(radiusMm, parameters));
    }

    /// <summary>Chords of a quarter circle. The library may cut a joint's arc into chords half as long again as asked for, so a half more are asked for.</summary>
    private static int QuadrantChords(double radiusMm) => (int)Math.Ceiling(Resolution.ChordsPerCircle(radiusMm) * 1.5 / 4);
}
