using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Runtime.InteropServices;
using Lampblack.Bitmaps;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Imaging;
using Lampblack.PictureArt;
using Lampblack.Quantities;

namespace Lampblack.Art;

/// <summary>PNG and JPEG as content: dots that are not field, and their colours.</summary>
internal static class PictureContent
{
    /// <summary>Holes of less than this are none; dust has this colour too.</summary>
    private const double SmallestHoleMm = 1;

    public static ArtContent? Of(SourcePicture picture, ArtReading reading, double widthMm, List<Finding> findings)
    {
        findings.AddRange(PictureSize.Check(picture, widthMm));
        var tooLarge = ArtBits.Check(picture, widthMm);
        if (!tooLarge.IsEmpty)
        {
            findings.AddRange(tooLarge);
            return null;
        }

        var options = new FieldOptions(
            reading.FieldBelowLightness,
            reading.ToleranceLightness,
            reading.Colours && !reading.OneInk || reading.HoleColour is not null,
            reading.Background switch { ArtBackground.Field => TransparentIs.Field, ArtBackground.Paper => TransparentIs.Paper, _ => TransparentIs.Auto },
            reading.Invert);
        var field = FieldFinder.Find(picture, options);
        findings.AddRange(field.Findings);
        if (field.Value is not { } found)
        {
            return null;
        }

        var dots = ArtBits.Of(found, widthMm);
        findings.AddRange(dots.Findings);
        var (bits, mmPerDot) = (dots.Value.Openings, dots.Value.MmPerDot);
        var heightMm = bits.HeightDots * mmPerDot;
        var colours = found.Colours is { } own ? Colours(own, widthMm, heightMm) : null;
        var holes = ImmutableArray<ArtHole>.Empty;
        if (colours is not null && reading.HoleColour is { } holeColour)
        {
            (holes, bits) = WithoutHoles(colours, holeColour, bits, Place(mmPerDot, heightMm), findings, picture.FileName);
        }

        bits = Clean(bits, mmPerDot, picture.FileName, findings);
        var kept = colours is null || reading.OneInk ? null : Kept(colours, reading);
        var doubts = DoubtPicture.Of(found, widthMm);
        var account = new ArtAccount(
            picture.Format,
            found.ThresholdLightness,
            found.Sureness.Word(),
            found.FieldShare,
            found.DoubtfulShare,
            found.ValleyDepthShare,
            dots.Value.ResolutionDpi,
            new(() => ImmutableCollectionsMarshal.AsImmutableArray(PngFile.Write(doubts))));

        // The black lies below all of it, so that the picture's own field hides what lies under the picture.
        var page = new ArtArea(Region<ItemSpace>.Rectangle(new(0, 0, widthMm, heightMm)), Ink: null);
        return new(widthMm, heightMm, [page, new ArtDots(bits, Place(mmPerDot, heightMm), kept)], holes, account);
    }

    /// <summary>Dots and spots that no printer holds are left out, and strokes that are too thin are told of.</summary>
    private static BitRaster Clean(BitRaster bits, double mmPerDot, string fileName, List<Finding> findings)
    {
        var least = ArtLimits.SmallestSpeckDots(mmPerDot);
        var specks = bits.WithoutSpecks(least);
        var holes = specks.Raster.WithoutHoles(least);
        findings.AddRange(ArtLimits.Specks(fileName, specks.Pieces, holes.Pieces));

        // Sharp corners lose a few dots too; a stroke is at least as long as it must be wide.
        var diameter = ArtLimits.ThinnestStrokeDots(mmPerDot);
        var thin = holes.Raster.Thinner(diameter, BeyondEdge.Set);
        findings.AddRange(ArtLimits.Strokes(fileName, thin with { Places = [.. thin.Places.Where(place => place.Dots >= diameter * diameter)] }, mmPerDot));
        return holes.Raster;
    }

    private static Affine<DotSpace, ItemSpace> Place(double mmPerDot, double heightMm) => new(mmPerDot, 0, 0, 0, -mmPerDot, heightMm);

    private static ArtColourDots Colours(ArtColours own, double widthMm, double heightMm)
    {
        var (wide, high) = (own.WidthMm(widthMm), own.HeightMm(widthMm));
        return new(own.WidthPx, own.HeightPx, own.Rgb, new(wide / own.WidthPx, 0, 0, 0, -high / own.HeightPx, heightMm));
    }

    /// <summary>The colours that stay; nothing where all become bare paper.</summary>
    private static ArtColourDots? Kept(ArtColourDots colours, ArtReading reading)
    {
        if (reading.Kept.IsEmpty && reading.PaperAboveLightness is null && reading.Colours)
        {
            return colours;
        }

        var rgb = colours.Rgb.ToArray();
        var any = false;
        for (var dot = 0; dot < rgb.Length; dot += 3)
        {
            if (ArtColour.IsPaper(new(rgb[dot], rgb[dot + 1], rgb[dot + 2]), reading))
            {
                rgb.AsSpan(dot, 3).Fill(255);
            }
            else
            {
                any = true;
            }
        }

        return any ? colours with { Rgb = rgb } : null;
    }

    /// <summary>Takes the holes out of what is printed: each piece in their colour is one.</summary>
    private static (ImmutableArray<ArtHole> Holes, BitRaster Bits) WithoutHoles(
        ArtColourDots colours, ScreenColour colour, BitRaster bits, Affine<DotSpace, ItemSpace> placement, List<Finding> findings, string fileName)
    {
        // Colours reach a little beyond their shapes; the dots that shine have the shapes' own edges.
        var toColours = placement.Then(colours.Placement.Inverse());
        var inColour = new BitRasterBuilder(bits.WidthDots, bits.HeightDots);
        for (var row = 0; row < bits.HeightDots; row++)
        {
            var dots = bits.Row(row);
            for (var column = BitRuns.Find(dots, 0, bits.WidthDots, set: true); column < bits.WidthDots; column = BitRuns.Find(dots, column + 1, bits.WidthDots, set: true))
            {
                var place = toColours.Apply(new(column + 0.5, row + 0.5));
                var (x, y) = ((int)Math.Clamp(place.XMm, 0, colours.WidthPx - 1), (int)Math.Clamp(place.YMm, 0, colours.HeightPx - 1));
                var rgb = colours.Rgb.Span.Slice(3 * ((y * colours.WidthPx) + x), 3);
                inColour[column, row] = ArtColour.IsLike(new(rgb[0], rgb[1], rgb[2]), colour);
            }
        }

        var dotMm2 = Math.Abs(placement.Determinant);
        var holes = inColour.ToRaster().Pieces((long)(SmallestHoleMm * SmallestHoleMm / dotMm2))
            .Select((piece, index) => ArtHoles.OfDots(FormattableString.Invariant($"hole {index + 1}"), piece.Box, piece.Dots, placement)).ToImmutableArray();
        if (holes.IsEmpty)
        {
            findings.Add(ArtHoles.None(fileName, $"in the colour {colour}"));
            return (holes, bits);
        }

        // Edges of the colour are mixed with what is around it, so a little more is taken out than the hole itself.
        var area = Region<ItemSpace>.Union(holes.Select(hole => hole.Shape.Grow(ArtHoles.RimMm)));
        return (holes, bits.Except(RegionDots.Of(area, placement.Inverse(), bits.WidthDots, bits.HeightDots)));
    }
}
