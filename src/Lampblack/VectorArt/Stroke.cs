using System.Collections.Generic;

namespace Lampblack.VectorArt;

/// <summary>How the ends of an open line look.</summary>
internal enum StrokeCap
{
    /// <summary>Cut off.</summary>
    Butt,

    /// <summary>A half disc.</summary>
    Round,

    /// <summary>Half the width farther.</summary>
    Square,
}

/// <summary>How corners of a line look.</summary>
internal enum StrokeJoin
{
    /// <summary>Both edges go on to a point, unless it lies beyond the limit.</summary>
    Miter,

    /// <summary>A disc around the corner.</summary>
    Round,

    /// <summary>Cut off.</summary>
    Bevel,
}

/// <summary>A pen. All lengths are in the coordinates of the line.</summary>
/// <param name="Width">Its width, above 0.</param>
/// <param name="Cap">How ends look.</param>
/// <param name="Join">How corners look.</param>
/// <param name="MiterLimit">How many times the width a mitre may be long.</param>
/// <param name="Dashes">Lengths of dashes and gaps in turn, an even number; none for a whole line.</param>
/// <param name="DashOffset">Where in the dashes a line begins.</param>
internal sealed record Stroke(double Width, StrokeCap Cap, StrokeJoin Join, double MiterLimit, List<double> Dashes, double DashOffset);
