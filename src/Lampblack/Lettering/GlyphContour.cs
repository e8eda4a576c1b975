using System.Collections.Immutable;
using Lampblack.Geometry;

namespace Lampblack.Lettering;

/// <summary>A line (degree 1), a quadratic (2) or a cubic curve (3) in font units; control points that its degree lacks are zero.</summary>
internal readonly record struct GlyphStroke(int Degree, float X1, float Y1, float X2, float Y2, float X, float Y);

/// <summary>A closed contour in font units, x to the right, y up from the baseline.</summary>
internal sealed record GlyphContour(float StartX, float StartY, ImmutableArray<GlyphStroke> Strokes)
{
    /// <summary>The contour at its final size, curves followed by chords.</summary>
    /// <param name="mmPerUnit">Size of a font unit, in mm.</param>
    /// <param name="chordErrorMm">Largest distance between curve and chord, in mm.</param>
    public Outline<ItemSpace> Flatten(double mmPerUnit, double chordErrorMm)
    {
        Point<ItemSpace> Place(float x, float y) => new(x * mmPerUnit, y * mmPerUnit);

        var points = ImmutableArray.CreateBuilder<Point<ItemSpace>>();
        points.Add(Place(StartX, StartY));
        foreach (var stroke in Strokes)
        {
            switch (stroke.Degree)
            {
                case 1:
                    points.Add(Place(stroke.X, stroke.Y));
                    break;
                case 2:
                    Curves.AddQuadratic(points, points[^1], Place(stroke.X1, stroke.Y1), Place(stroke.X, stroke.Y), chordErrorMm);
                    break;
                default:
                    Curves.AddCubic(
                        points, points[^1], Place(stroke.X1, stroke.Y1), Place(stroke.X2, stroke.Y2), Place(stroke.X, stroke.Y), chordErrorMm);
                    break;
            }
        }

        return new(points.ToImmutable(), Closed: true);
    }
}
