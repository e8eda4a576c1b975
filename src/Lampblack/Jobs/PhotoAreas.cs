using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Artwork;
using Lampblack.Desks;
using Lampblack.Geometry;
using Lampblack.Lighting;
using Lampblack.Parts;

namespace Lampblack.Jobs;

/// <summary>What shines on a panel, as areas that can be looked for in a photo.</summary>
internal static class PhotoAreas
{
    /// <summary>Stretches of long marks reach a little beyond the places at which their light is looked up.</summary>
    private const double StretchMm = 2;

    /// <summary>Pictures in dots are looked at in squares of this side.</summary>
    private const double SquareMm = 0.5;

    /// <summary>Each piece's area: what of its mark no body stands behind.</summary>
    public static ImmutableArray<Region<PanelSpace>> Of(PanelLighting lighting)
    {
        var bodies = Region<PanelSpace>.Union(lighting.Light.Box.Bodies.Select(body => Region<PanelSpace>.FromCorners(body.Corners)));
        var inside = Region<PanelSpace>.Rectangle(lighting.Light.Box.Inside);
        return [.. lighting.Legends.Select(legend => Area(legend.Piece).Intersect(inside).Except(bodies))];
    }

    /// <summary>What may shine in a photo or not: what has a light of its own, lamps, and marks before bodies.</summary>
    public static ImmutableArray<Region<PanelSpace>> Unsure(PanelArtwork artwork, PanelLighting lighting)
    {
        var own = LitPieces.OwnItems(artwork);
        return
        [
            .. artwork.Marks.Where(mark => mark.Style.Role != LightRole.Unlit && own.ContainsKey(mark.Origin.Item)).Select(mark => mark.Shape),
            .. artwork.Laid.Parts.Where(part => part.Part.Class == PartClass.Lamp).SelectMany(part => part.Holes),
            .. lighting.Dark.Select(legend => Area(legend.Piece)),
        ];
    }

    private static Region<PanelSpace> Area(LitPiece piece)
    {
        if (piece.Mark is { } mark)
        {
            return piece.Box.Contains(mark.Bounds) ? mark : mark.Intersect(Region<PanelSpace>.Rectangle(piece.Box.Grow(StretchMm)));
        }

        return piece.Picture is { } picture ? Squares(picture, piece.Box.Grow(StretchMm)) : Region<PanelSpace>.Empty;
    }

    /// <summary>Squares whose middle and corners all shine, joined along rows.</summary>
    private static Region<PanelSpace> Squares(DotMark picture, Box<PanelSpace> box)
    {
        var toDots = picture.Placement.Inverse();
        var (columns, rows) = ((int)(box.WidthMm / SquareMm), (int)(box.HeightMm / SquareMm));
        var runs = new List<Region<PanelSpace>>();
        for (var row = 0; row < rows; row++)
        {
            var from = -1;
            for (var column = 0; column <= columns; column++)
            {
                var shines = column < columns && Shines(column, row);
                if (shines && from < 0)
                {
                    from = column;
                }
                else if (!shines && from >= 0)
                {
                    runs.Add(Region<PanelSpace>.Rectangle(new(box.LeftMm + (from * SquareMm), box.BottomMm + (row * SquareMm), (column - from) * SquareMm, SquareMm)));
                    from = -1;
                }
            }
        }

        return Region<PanelSpace>.Union(runs);

        bool Shines(int column, int row) => Set(column + 0.5, row + 0.5) && Set(column, row) && Set(column + 1, row) && Set(column, row + 1) && Set(column + 1, row + 1);

        bool Set(double column, double row)
        {
            var dot = toDots.Apply(new(box.LeftMm + (column * SquareMm), box.BottomMm + (row * SquareMm)));
            var (x, y) = ((int)Math.Floor(dot.XMm), (int)Math.Floor(dot.YMm));
            return x >= 0 && y >= 0 && x < picture.Shown.WidthDots && y < picture.Shown.HeightDots && picture.Shown[x, y];
        }
    }
}
