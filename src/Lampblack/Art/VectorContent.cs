using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Quantities;
using Lampblack.VectorArt;

namespace Lampblack.Art;

/// <summary>A drawing as content: areas stay areas, each in the ink that its colour becomes.</summary>
internal static class VectorContent
{
    /// <summary>Lightness below which a drawing's darkest colour must lie to be a field.</summary>
    private const double DarkestFieldAbove = 45;

    /// <summary>Colours on both sides of the level are farther apart than this, or it is doubtful.</summary>
    private const double ClearGap = 15;

    /// <summary>Dots of pictures that could be either are told of from this share of the drawing on. Ours.</summary>
    private const double MuchDoubt = 0.02;

    /// <summary>Below a ten-thousandth of the drawing nobody sees the ground.</summary>
    private const double GroundShare = 1e-4;

    public static ArtContent? Of(Drawing drawing, string fileName, ArtReading reading, SourceSpan span, List<Finding> findings)
    {
        var page = new Box<ItemSpace>(0, 0, drawing.WidthMm, drawing.HeightMm);
        var (holes, items) = Holes(drawing, fileName, reading, findings);
        var tones = DrawnTones.Of(items, page);
        var pageMm2 = page.WidthMm * page.HeightMm;
        var ground = Ground(tones, pageMm2, fileName, reading, span, findings);
        var levels = Level(tones, ground, reading, pageMm2);
        if (levels is not { } level)
        {
            findings.Add(Finding.Stop(
                "art-one-tone",
                $"{Shown.Code(fileName)} has one tone only, so that nothing tells its legends from its field",
                "export the artwork with a black or dark field and light legends, or say below which lightness it is field: `levels`",
                span));
            return null;
        }

        var layers = new List<ArtLayer>();
        if (ground is { } paper && !IsField(paper, level, reading))
        {
            layers.Add(new ArtArea(Region<ItemSpace>.Rectangle(page), InkOf(paper, reading)));
        }

        foreach (var group in tones.Areas.Select(area => (area.Shape, Ink: Ink(area.Colour, ground, level, reading))).GroupBy(area => area.Ink))
        {
            layers.Add(new ArtArea(Region<ItemSpace>.Union(group.Select(area => area.Shape)), group.Key));
        }

        var pictures = tones.Pictures.Select(picture => DrawnDots.Of(picture, ground, level, reading)).ToList();
        layers.AddRange(pictures.SelectMany(picture => picture.Layers));
        var (doubtfulShare, picturesMm2) = (pictures.Sum(picture => picture.DoubtfulMm2) / pageMm2, tones.Pictures.Sum(picture => picture.Shape.AreaMm2));
        if (doubtfulShare > MuchDoubt)
        {
            level = level with { Word = FieldLevel.Doubtful };
        }

        var fieldMm2 = pictures.Sum(picture => picture.FieldMm2) + tones.Areas.Where(area => IsField(Over(area.Colour, ground), level, reading)).Sum(area => area.Shape.AreaMm2)
            + (ground is { } g && IsField(g, level, reading) ? Math.Max(0, pageMm2 - picturesMm2 - tones.Areas.Sum(area => area.Shape.AreaMm2)) : 0);
        Tell(fileName, level, fieldMm2 / pageMm2, reading, span, findings);
        var dpi = tones.Pictures.IsEmpty ? (double?)null : tones.Pictures.Max(picture => picture.WidthPx / picture.Box.WidthMm * 25.4);
        return new(
            drawing.WidthMm,
            drawing.HeightMm,
            [.. layers],
            holes,
            new("SVG", level.Lightness, level.Word, fieldMm2 / pageMm2, doubtfulShare, level.Depth, dpi, null));
    }

    /// <summary>Whether a colour is field.</summary>
    internal static bool IsField(ScreenColour colour, FieldLevel level, ArtReading reading)
    {
        var gain = ArtColour.Gain(colour, reading.Invert);
        return reading.ToleranceLightness is { } tolerance && ArtColour.IsGray(colour)
            ? gain <= level.FieldLightness + tolerance || (level.Word == FieldLevel.Told && gain < level.Lightness)
            : gain < level.Lightness;
    }

    /// <summary>The ink of a colour that is not field. What was drawn dark on light shines as bare paper, unless it is a colour.</summary>
    internal static Ink InkOf(ScreenColour colour, ArtReading reading) =>
        reading.Invert && ArtColour.IsGray(colour) ? Quantities.Ink.None : ArtColour.InkOf(colour, reading);

    internal static ScreenColour Over(DrawnColour colour, ScreenColour? ground)
    {
        var below = ground ?? new(0, 0, 0);
        var seen = colour.Over(new(below.Red, below.Green, below.Blue, 1));
        return new(seen.Red, seen.Green, seen.Blue);
    }

    private static Ink? Ink(DrawnColour colour, ScreenColour? ground, FieldLevel level, ArtReading reading)
    {
        var seen = Over(colour, ground);
        return IsField(seen, level, reading) ? null : InkOf(seen, reading);
    }

    private static (ImmutableArray<ArtHole> Holes, ImmutableArray<DrawnItem> Items) Holes(Drawing drawing, string fileName, ArtReading reading, List<Finding> findings)
    {
        var (holes, items) = (new List<(string Name, Region<ItemSpace> Shape)>(), ImmutableArray.CreateBuilder<DrawnItem>());
        foreach (var item in drawing.Items)
        {
            if (item is DrawnShape shape && IsHole(shape, reading))
            {
                holes.Add((item.Id ?? FormattableString.Invariant($"hole at line {item.Place.Line}, {item.Place.Column}"), shape.Uncut ?? shape.Shape));
            }
            else
            {
                items.Add(item);
            }
        }

        if (holes.Count == 0 && (reading.HolesNamed is not null || reading.HoleColour is not null))
        {
            findings.Add(ArtHoles.None(fileName, reading.HolesNamed is { } name ? $"whose id or class starts with {Shown.Code(name)}" : $"in the colour {reading.HoleColour}"));
        }

        // Fill and stroke of one element are two areas of one hole; an element of several areas is as many holes.
        return (
            [.. holes.GroupBy(hole => hole.Name).SelectMany(hole => Region<ItemSpace>.Union(hole.Select(part => part.Shape)).Pieces.Select(piece => ArtHoles.OfShape(hole.Key, piece)))],
            items.ToImmutable());
    }

    private static bool IsHole(DrawnShape shape, ArtReading reading) =>
        (reading.HolesNamed is { } name && (Starts(shape.Id, name) || (shape.Class?.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).Any(word => Starts(word, name)) ?? false)))
        || (reading.HoleColour is { } colour && ArtColour.IsLike(new(shape.Colour.Red, shape.Colour.Green, shape.Colour.Blue), colour));

    private static bool Starts(string? word, string name) => word?.StartsWith(name, StringComparison.OrdinalIgnoreCase) ?? false;

    /// <summary>What lies where nothing is drawn; null where everything is drawn over.</summary>
    private static ScreenColour? Ground(DrawnTones tones, double pageMm2, string fileName, ArtReading reading, SourceSpan span, List<Finding> findings)
    {
        var bareShare = 1 - (tones.Areas.Where(area => area.Colour.OpacityShare > 0.99).Sum(area => area.Shape.AreaMm2) + tones.Pictures.Sum(picture => picture.Shape.AreaMm2 * GlassPicture.OpacityShare(picture))) / pageMm2;
        if (bareShare < GroundShare)
        {
            return null;
        }

        var (black, white) = (new ScreenColour(0, 0, 0), new ScreenColour(255, 255, 255));
        if (reading.Background != ArtBackground.Auto)
        {
            return (reading.Background == ArtBackground.Field) != reading.Invert ? black : white;
        }

        var light = tones.Areas.Where(area => ArtColour.IsLight(area.Colour)).Sum(area => area.Shape.AreaMm2);
        var all = tones.Areas.Sum(area => area.Shape.AreaMm2);
        var isLight = all > 0 && light >= all / 2;
        var isField = isLight != reading.Invert;
        var isClear = all > 0 && (light >= 0.75 * all || light <= 0.25 * all);
        findings.Add(Finding.Warn(
            "art-transparent",
            string.Create(CultureInfo.InvariantCulture, $"nothing is drawn on {bareShare * 100:0.#} % of {Shown.Code(fileName)}; that is taken as {(isField ? "field" : "paper")}, as {(all > 0 ? light / all * 100 : 0):0} % of what is drawn is light"),
            isClear ? "if that is wrong, say `background = \"field\"` or `\"paper\"`" : "it has both light and dark parts: say `background = \"field\"` or `\"paper\"`",
            span));
        return isLight ? black : white;
    }

    /// <summary>The level: in the widest gap between the darkest colours and the next ones.</summary>
    private static FieldLevel? Level(DrawnTones tones, ScreenColour? ground, ArtReading reading, double pageMm2)
    {
        var gains = tones.Areas.Where(area => area.Shape.AreaMm2 > pageMm2 * 1e-6).Select(area => ArtColour.Gain(Over(area.Colour, ground), reading.Invert))
            .Concat(ground is { } g ? [ArtColour.Gain(g, reading.Invert)] : [])
            .Distinct().Order().ToList();
        if (reading.FieldBelowLightness is { } told)
        {
            return new(told, FieldLevel.Told, 1, gains.FirstOrDefault());
        }

        if (!tones.Pictures.IsEmpty)
        {
            // Dots have all colours; the ends of the scale stand for them.
            gains = [.. gains.Append(0).Append(100).Distinct().Order()];
        }

        if (gains.Count < 2 || gains[0] > DarkestFieldAbove)
        {
            return null;
        }

        var (from, to) = gains.Zip(gains.Skip(1)).Where(pair => pair.First <= DarkestFieldAbove).MaxBy(pair => pair.Second - pair.First);
        return new((from + to) / 2, to - from > ClearGap ? "sure" : FieldLevel.Doubtful, Math.Min(1, (to - from) / 100), gains[0]);
    }

    private static void Tell(string fileName, FieldLevel level, double fieldShare, ArtReading reading, SourceSpan span, List<Finding> findings)
    {
        var border = string.Create(CultureInfo.InvariantCulture, $"L* {level.Lightness:0}");
        findings.Add(level.Word == FieldLevel.Doubtful
            ? Finding.Warn(
                "art-threshold-doubtful",
                string.Create(CultureInfo.InvariantCulture, $"it is doubtful what of {Shown.Code(fileName)} is field: everything below {border} was taken, {fieldShare * 100:0.#} % of it; its colours lie close together"),
                "look at the pictures; make the field darker, or say below which lightness it is field: `levels`",
                span)
            : Finding.Note(
                "art-threshold",
                string.Create(CultureInfo.InvariantCulture, $"the field of {Shown.Code(fileName)} is everything below {border}, {level.Word}; {fieldShare * 100:0.#} % of it is field"),
                string.Empty,
                span));
        if (fieldShare < 0.3 && !reading.Invert)
        {
            findings.Add(Finding.Warn(
                "art-mostly-light",
                string.Create(CultureInfo.InvariantCulture, $"only {fieldShare * 100:0.#} % of {Shown.Code(fileName)} is dark; as it is, all the rest becomes one opening"),
                "if it is drawn dark on light, as on paper, say `invert = true`",
                span));
        }
    }
}

/// <summary>Below which lightness is field.</summary>
/// <param name="Lightness">CIE L*.</param>
/// <param name="Word">How sure that is.</param>
/// <param name="Depth">How wide the gap around it is, as a share of the whole scale.</param>
/// <param name="FieldLightness">CIE L* of the darkest colour.</param>
internal readonly record struct FieldLevel(double Lightness, string Word, double Depth, double FieldLightness)
{
    public const string Told = "as told";
    public const string Doubtful = "doubtful";
}
