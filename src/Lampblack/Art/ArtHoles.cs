using System;
using Lampblack.Bitmaps;
using Lampblack.Findings;
using Lampblack.Geometry;

namespace Lampblack.Art;

/// <summary>Holes that artwork carries: circles are drilled, rectangles sawn, anything else is cut as it is drawn.</summary>
internal static class ArtHoles
{
    /// <summary>How far the colour of a hole may bleed into what is around it.</summary>
    public const double RimMm = 0.2;

    /// <summary>A disc is the roundest of all shapes, 4 pi A / P2 = 1; chords of a drawing stay above this, a square has 0.785.</summary>
    private const double Round = 0.97;

    /// <summary>A disc fills this much of the box around it: pi / 4.</summary>
    private const double DiscShare = Math.PI / 4;

    private const double ShareWithin = 0.03;

    /// <summary>A drawn shape as a hole: the true disc where it is one; where only its outline is drawn, what that goes around, up to the middle of the line.</summary>
    public static ArtHole OfShape(string name, Region<ItemSpace> shape)
    {
        var filled = shape;
        if (shape.FilledHoles() is { Length: 1 } inside && inside[0].AreaMm2 > shape.AreaMm2 / 2)
        {
            var lineMm = 2 * shape.AreaMm2 / shape.PerimeterMm;
            filled = shape.Union(inside[0]).Grow(-lineMm / 2);
        }

        var box = filled.Bounds;
        var isRound = 4 * Math.PI * filled.AreaMm2 / (filled.PerimeterMm * filled.PerimeterMm) > Round;
        return new(name, isRound ? Region<ItemSpace>.Disc(box.Centre, Tenths(2 * Math.Sqrt(filled.AreaMm2 / Math.PI)) / 2) : filled);
    }

    /// <summary>A piece of dots as a hole: a disc or the box around it.</summary>
    public static ArtHole OfDots(string name, DotBox box, long dots, Affine<DotSpace, ItemSpace> placement)
    {
        var (corner, opposite) = (placement.Apply(new(box.Left, box.Top + box.HeightDots)), placement.Apply(new(box.Left + box.WidthDots, box.Top)));
        var share = dots / ((double)box.WidthDots * box.HeightDots);
        var place = new Box<ItemSpace>(corner.XMm, corner.YMm, opposite.XMm - corner.XMm, opposite.YMm - corner.YMm);
        var isSquare = Math.Abs(place.WidthMm - place.HeightMm) <= Math.Max(0.15, 0.03 * place.WidthMm);
        return new(name, isSquare && Math.Abs(share - DiscShare) < ShareWithin
            ? Region<ItemSpace>.Disc(place.Centre, Tenths((place.WidthMm + place.HeightMm) / 2) / 2)
            : Region<ItemSpace>.Rectangle(place));
    }

    /// <summary>Where holes were asked for and none was found.</summary>
    public static Finding None(string fileName, string what) => Finding.Warn(
        "art-no-holes", $"nothing {what} was found in {Shown.Code(fileName)}, so it carries no holes", "look at how the drawing names or colours them");

    /// <summary>Drills come in tenths of a millimetre; a drawing's circle is meant to be one.</summary>
    private static double Tenths(double mm) => Math.Round(mm * 10, MidpointRounding.AwayFromZero) / 10;
}
