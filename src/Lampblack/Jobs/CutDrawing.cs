using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Cutting;
using Lampblack.Geometry;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>One plate as lines and words: its pieces, what is left over, and its cuts with their numbers.</summary>
/// <param name="Plate">The whole plate.</param>
/// <param name="Pieces">The pieces.</param>
/// <param name="Offcuts">What is left over.</param>
/// <param name="Lines">Edges and cuts.</param>
/// <param name="Discs">Where numbers stand.</param>
/// <param name="Words">Names, sizes and numbers.</param>
internal sealed record CutDrawing(
    Region<SheetSpace> Plate,
    Region<SheetSpace> Pieces,
    Region<SheetSpace> Offcuts,
    Region<SheetSpace> Lines,
    Region<SheetSpace> Discs,
    Region<SheetSpace> Words)
{
    /// <summary>Places along a cut where its number may stand; the first that is free is taken.</summary>
    private static readonly ImmutableArray<double> NumberPlaces = [0.5, 0.35, 0.65, 0.2, 0.8, 0.08, 0.92];

    /// <summary>Draws a plate.</summary>
    /// <param name="plate">The plate.</param>
    /// <param name="first">The number of its first cut.</param>
    /// <param name="kerfMm">What a cut eats.</param>
    /// <param name="corner">Where the plate's lower left corner goes.</param>
    /// <param name="scaleFactor">How large it is drawn.</param>
    /// <param name="textMm">Height of letters, as drawn.</param>
    public static CutDrawing Of(CutPlate plate, int first, double kerfMm, Point<SheetSpace> corner, double scaleFactor, double textMm)
    {
        var lineMm = textMm / 10;
        var whole = Placed(new(0, 0, plate.Stock.WidthMm, plate.Stock.HeightMm));
        var taken = new List<Box<SheetSpace>>();
        var (lines, discs, words) = (new List<Region<SheetSpace>> { TrialDrawing.Lines(Region<SheetSpace>.Rectangle(whole), lineMm) }, new List<Region<SheetSpace>>(), new List<Region<SheetSpace>>());
        // Words first: numbers find another place along their cut where one would cover a word.
        words.AddRange(plate.Pieces.SelectMany(piece => Label(piece.Id, piece.Box)).Concat(plate.Offcuts.SelectMany(offcut => Label("left over", offcut))));
        taken.AddRange(words.Select(word => word.Bounds));
        foreach (var (cut, index) in plate.Cuts.Select((cut, index) => (cut, index)))
        {
            var line = LineOf(cut, Math.Max(kerfMm, lineMm / scaleFactor));
            lines.Add(Region<SheetSpace>.Rectangle(Placed(line)));
            var number = (first + index).ToString(CultureInfo.InvariantCulture);
            var radius = Math.Max(textMm * 0.85, (SheetText.WidthMm(number, textMm) / 2) + (textMm * 0.35));
            var place = NumberPlace(cut, Placed(line), radius, taken);
            taken.Add(new Box<SheetSpace>(place.XMm, place.YMm, 0, 0).Grow(radius));
            lines.Add(Region<SheetSpace>.Disc(place, radius + lineMm));
            discs.Add(Region<SheetSpace>.Disc(place, radius));
            words.Add(SheetText.Centred(number, textMm, place, Side.Front));
        }

        return new(
            Region<SheetSpace>.Rectangle(whole),
            Region<SheetSpace>.Union(plate.Pieces.Select(piece => Region<SheetSpace>.Rectangle(Placed(piece.Box)))),
            Region<SheetSpace>.Union(plate.Offcuts.Select(offcut => Region<SheetSpace>.Rectangle(Placed(offcut)))),
            Region<SheetSpace>.Union(lines),
            Region<SheetSpace>.Union(discs),
            Region<SheetSpace>.Union(words));

        Box<SheetSpace> Placed(CutBox box) => new(
            corner.XMm + (box.XMm * scaleFactor), corner.YMm + (box.YMm * scaleFactor), box.WidthMm * scaleFactor, box.HeightMm * scaleFactor);

        // Name and size, upright or along the longer side, smaller where there is little room; nothing where there is none.
        IEnumerable<Region<SheetSpace>> Label(string name, CutBox box)
        {
            var place = Placed(box);
            var (along, across) = place.WidthMm >= place.HeightMm * 0.8 ? (place.WidthMm, place.HeightMm) : (place.HeightMm, place.WidthMm);
            var size = CutWords.Size(box.WidthMm, box.HeightMm);
            var height = Math.Min(Math.Min(textMm, across / 4), textMm * 0.9 * along / Math.Max(SheetText.WidthMm(size, textMm), Math.Min(SheetText.WidthMm(name, textMm), along)));
            if (height < textMm * 0.3)
            {
                yield break;
            }

            var turns = place.WidthMm >= place.HeightMm * 0.8 ? 0 : 1;
            foreach (var (text, off) in new[] { (SheetText.Fitting(name, height, along * 0.9), height * 0.8), (size, -height * 0.8) })
            {
                var middle = turns == 0 ? new Point<SheetSpace>(place.Centre.XMm, place.Centre.YMm + off) : new(place.Centre.XMm - off, place.Centre.YMm);
                yield return SheetText.Centred(text, height, middle, Side.Front, turns);
            }
        }
    }

    private static CutBox LineOf(EdgeCut cut, double widthMm)
    {
        var box = cut.InHand;
        return cut.IsUpright
            ? new(box.XMm + cut.AtMm, box.YMm, widthMm, box.HeightMm)
            : new(box.XMm, box.YMm + cut.AtMm, box.WidthMm, widthMm);
    }

    private static Point<SheetSpace> NumberPlace(EdgeCut cut, Box<SheetSpace> line, double radiusMm, List<Box<SheetSpace>> taken)
    {
        var places = NumberPlaces.Select(share => cut.IsUpright
            ? new Point<SheetSpace>(line.Centre.XMm, line.BottomMm + (line.HeightMm * share))
            : new Point<SheetSpace>(line.LeftMm + (line.WidthMm * share), line.Centre.YMm)).ToList();
        var free = places.FindIndex(place => !taken.Exists(box => box.Overlaps(new Box<SheetSpace>(place.XMm, place.YMm, 0, 0).Grow(radiusMm))));
        return places[Math.Max(0, free)];
    }
}
