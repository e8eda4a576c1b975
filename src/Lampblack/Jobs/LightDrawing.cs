using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Artwork;
using Lampblack.Desks;
using Lampblack.Fabrication;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Lighting;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>How evenly a panel is lit: stepped tints behind its legends, lines with their factors, bodies, emitters, cells, the brightest legend and the dimmest.</summary>
internal static class LightDrawing
{
    private const double SideMm = 4;
    private const double NameMm = 1.9;
    private const double FactorMm = 1.7;
    private const double FootMm = 2;
    private const double CaseMm = 0.35;
    private const double RingMm = 1.7;
    private const string Ink = "#1d1b16";
    private const string Paper = "#ffffff";

    /// <summary>One hue from deep to pale, for less than the first step, then from step to step.</summary>
    private static readonly ImmutableArray<string> Tints = ["#75601a", "#94791f", "#b59a3a", "#cfb866", "#e4d59b", "#f6efd6"];

    /// <summary>The drawing, the lowest layer first.</summary>
    /// <param name="panel">The panel.</param>
    /// <param name="artwork">What is printed on it.</param>
    /// <param name="contours">How bright it is from place to place; null where no emitters are.</param>
    public static ImmutableArray<SvgLayer<PanelSpace>> Layers(PanelLighting panel, PanelArtwork artwork, LightContours? contours)
    {
        var (laid, inside) = (panel.Laid, panel.Light.Box.Inside);
        var layers = ImmutableArray.CreateBuilder<SvgLayer<PanelSpace>>();
        layers.Add(new("plate", "the plate", laid.Outline, "#d9d6cd"));
        var lines = new List<(string Name, Region<PanelSpace> Region)>();
        if (contours is not null)
        {
            layers.Add(new("tint-0", $"less than {Factor(LightContours.Steps[0])} of the mean", Region<PanelSpace>.Rectangle(inside).Intersect(laid.Outline), Tints[0]));
            foreach (var (index, step) in LightContours.Steps.Index())
            {
                var region = contours.MoreThan(step).Intersect(laid.Outline);
                lines.Add((Factor(step), region));
                layers.Add(new(Invariant($"tint-{index + 1}"), $"more than {Factor(step)} of the mean", region, Tints[index + 1]));
            }

            layers.Add(new("lines", "where it is just so many times the mean", Region<PanelSpace>.Union(lines.Select(line => TrialDrawing.Lines(line.Region, 0.15))), Ink));
        }

        var legends = Region<PanelSpace>.Union(artwork.Marks.Where(mark => mark.Style.Role != LightRole.Unlit && !mark.Shape.IsEmpty).Select(mark => mark.Shape));
        var bodies = Region<PanelSpace>.Union(laid.Parts.Where(part => part.Part.Body is not null).Select(part => TrialDrawing.Lines(part.Body(), 0.25)));
        var cells = panel.Cells.Select(cell => Region<PanelSpace>.Rectangle(cell.Inside)).ToList();
        layers.Add(new("cells", "cells of what has a light of its own", Region<PanelSpace>.Union(cells), "#e9e7e1"));
        layers.Add(new("walls", "their walls", Region<PanelSpace>.Union(panel.Cells.Select(cell => Walls(cell.Inside))), Ink));
        layers.Add(new("body-cases", "around the bodies' outlines", Cased(bodies), Paper));
        layers.Add(new("bodies", "outlines of the parts' bodies", bodies, Ink));
        var rings = Region<PanelSpace>.Union(panel.Emitters.Concat(panel.Cells.SelectMany(cell => cell.Emitters)).Select(emitter =>
            Region<PanelSpace>.Disc(emitter.At, RingMm).Except(Region<PanelSpace>.Disc(emitter.At, RingMm - 0.4))));
        layers.Add(new("ring-cases", "around the rings", Cased(rings), Paper));
        layers.Add(new("emitters", "emitters", rings, Ink));
        layers.Add(new("legend-cases", "around the legends", Cased(legends), Ink));
        layers.Add(new("legends", "what shines", legends, Paper));
        var frames = LightFrames.Of(panel, [legends, bodies, .. cells, rings]).ToList();
        var names = frames.Select(frame => frame.Name).ToList();
        var factors = Factors(lines, inside, [legends, bodies, .. cells, .. names, .. frames.Select(frame => frame.Frame)]);
        var marks = Region<PanelSpace>.Union(frames.Select(frame => frame.Frame).Concat(names).Concat(factors));
        layers.Add(new("word-cases", "around the words", Cased(marks), Paper));
        layers.Add(new("frames", "the brightest legend and, in dashes, the dimmest", Region<PanelSpace>.Union(frames.Select(frame => frame.Frame)), Ink));
        layers.Add(new("names", "how bright these are", Region<PanelSpace>.Union(names), Ink));
        layers.Add(new("factors", "so many times the mean", Region<PanelSpace>.Union(factors), Ink));
        return layers.ToImmutable();
    }

    /// <summary>The drawing as a file in true size, with what it means below it.</summary>
    public static ImmutableArray<byte> Svg(PanelLighting panel, ImmutableArray<SvgLayer<PanelSpace>> layers)
    {
        var size = panel.Laid.Panel;
        var width = Math.Max(size.WidthMm, 60);
        var (key, rows) = Key(width);
        string[] words = [.. Words(panel)];
        var (text, belowMm) = Paragraphs(words, width, -rows - (2 * SideMm));
        var footMm = -belowMm + SideMm;
        var map = Affine<PanelSpace, SheetSpace>.Shift(SideMm, footMm);
        return SvgFile.Write<SheetSpace>(
            width + (2 * SideMm),
            size.HeightMm + SideMm + footMm,
            $"{size.Title}: how evenly it is lit",
            [
                new("paper", "paper", Region<SheetSpace>.Rectangle(new(0, 0, width + (2 * SideMm), size.HeightMm + SideMm + footMm)), Paper),
                .. layers.Concat(key).Select(layer => new SvgLayer<SheetSpace>(layer.Id, layer.Title, layer.Region.Map(map), layer.Fill)),
                new("words", "what it means", text.Map(Affine<SheetSpace, SheetSpace>.Shift(SideMm, footMm)), Ink),
            ]);
    }

    /// <summary>A step as it stands in the drawing.</summary>
    public static string Factor(double step) => step.ToString("0.0#", CultureInfo.InvariantCulture) is var words && words.EndsWith(".0", StringComparison.Ordinal) ? words[..^2] : step.ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>A cell's walls, as they stand on the floor.</summary>
    public static Region<PanelSpace> Walls(Box<PanelSpace> inside) =>
        Region<PanelSpace>.Rectangle(LightCells.Outside(inside)).Except(Region<PanelSpace>.Rectangle(inside));

    /// <summary>The brightest legend and the dimmest, in words.</summary>
    public static IEnumerable<string> Extremes(PanelLighting panel)
    {
        if (panel.HasGeneral)
        {
            yield return $"Brightest: {PrintableText.Clean(panel.Brightest.Piece.Words)} ({panel.Brightest.Piece.Origin.Name}) at {LightingFindings.Figure(panel.Brightest.CandelaPerM2)} cd/m2.";
            yield return $"Dimmest: {PrintableText.Clean(panel.Dimmest.Piece.Words)} ({panel.Dimmest.Piece.Origin.Name}) at {LightingFindings.Figure(panel.Dimmest.CandelaPerM2)} cd/m2.";
        }
    }

    private static IEnumerable<string> Words(PanelLighting panel)
    {
        yield return $"{panel.Laid.Panel.Title}, from the front, in true size: {LightingFindings.Sentence(panel)}.";
        foreach (var line in Extremes(panel))
        {
            yield return line;
        }

        yield return "Tints and lines: light behind the mask, as so many times its mean over the legends; the paler, the more. Rings: emitters. Outlines: bodies of the parts. Gray boxes: cells.";
    }

    private static (Region<SheetSpace> Shape, double BelowMm) Paragraphs(string[] paragraphs, double widthMm, double topMm)
    {
        var shapes = new List<Region<SheetSpace>>();
        foreach (var paragraph in paragraphs)
        {
            var (shape, below) = TrialDrawing.Paragraph(string.Join(' ', paragraph.Split(' ').Select(word => SheetText.Fitting(word, FootMm, widthMm))), FootMm, 0, topMm, widthMm);
            shapes.Add(shape);
            topMm = below - 1;
        }

        return (Region<SheetSpace>.Union(shapes), topMm);
    }

    /// <summary>The tints with what they stand for, in as many rows as they take; below the panel.</summary>
    private static (ImmutableArray<SvgLayer<PanelSpace>> Layers, double HeightMm) Key(double widthMm)
    {
        const double EachMm = 30;
        const double RowMm = 6;
        var columns = Math.Clamp((int)(widthMm / EachMm), 1, Tints.Length);
        var layers = ImmutableArray.CreateBuilder<SvgLayer<PanelSpace>>();
        var words = new List<Region<PanelSpace>>();
        var steps = LightContours.Steps;
        foreach (var (index, tint) in Tints.Index())
        {
            var (x, y) = (index % columns * EachMm, -SideMm - (((index / columns) + 1) * RowMm));
            var box = new Box<PanelSpace>(x, y, 7, 4);
            layers.Add(new(Invariant($"key-{index}"), "a tint", Region<PanelSpace>.Rectangle(box), tint));
            words.Add(TrialDrawing.Lines(Region<PanelSpace>.Rectangle(box), 0.15));
            var says = index == 0 ? $"up to {Factor(steps[0])}" : index == steps.Length ? $"over {Factor(steps[^1])}" : $"{Factor(steps[index - 1])} to {Factor(steps[index])}";
            words.Add(TemplateDrawing.Text(says, NameMm, new(x + 8.5 + (SheetText.WidthMm(says, NameMm) / 2), y + 2)));
        }

        layers.Add(new("key", "what the tints stand for", Region<PanelSpace>.Union(words), Ink));
        return (layers.ToImmutable(), (((Tints.Length - 1) / columns) + 1) * RowMm);
    }

    private static Region<PanelSpace> Cased(Region<PanelSpace> region) => region.IsEmpty ? region : region.Grow(CaseMm);

    /// <summary>Each line's factor, once on every long stretch of it that has room for it, where there is most.</summary>
    private static ImmutableArray<Region<PanelSpace>> Factors(List<(string Name, Region<PanelSpace> Region)> lines, Box<PanelSpace> inside, IEnumerable<Region<PanelSpace>> taken)
    {
        const double LongMm = 25;
        var boxes = taken.SelectMany(region => region.Pieces).Select(piece => piece.Bounds).ToList();
        var placed = ImmutableArray.CreateBuilder<Region<PanelSpace>>();
        foreach (var (name, region) in lines)
        {
            foreach (var border in region.Borders().Where(border => border.Points.Length > 3))
            {
                var free = border.Points.Where(point => inside.Grow(-3).Contains(point)).ToList();
                var length = border.Points.Zip(border.Points.Skip(1), (from, to) => from.DistanceMm(to)).Sum();
                if (free.Count == 0 || length < LongMm)
                {
                    continue;
                }

                var place = Emptiest(free, boxes);
                var word = TemplateDrawing.Text(name, FactorMm, place);
                if (boxes.Any(box => box.Overlaps(word.Bounds.Grow(CaseMm))))
                {
                    continue;
                }

                boxes.Add(word.Bounds);
                placed.Add(word);
            }
        }

        return placed.ToImmutable();
    }

    /// <summary>The place that is farthest from all boxes, the first of several.</summary>
    private static Point<PanelSpace> Emptiest(List<Point<PanelSpace>> places, List<Box<PanelSpace>> boxes)
    {
        var (emptiest, mostMm) = (places[0], double.NegativeInfinity);
        foreach (var place in places)
        {
            // A box that is nearer than the best place's nearest settles it.
            var nearestMm = double.PositiveInfinity;
            for (var index = 0; index < boxes.Count && nearestMm > mostMm; index++)
            {
                nearestMm = Math.Min(nearestMm, FromMm(boxes[index], place));
            }

            if (nearestMm > mostMm)
            {
                (emptiest, mostMm) = (place, nearestMm);
            }
        }

        return emptiest;
    }

    private static double FromMm(Box<PanelSpace> box, Point<PanelSpace> point) => Math.Max(
        Math.Max(box.LeftMm - point.XMm, point.XMm - box.RightMm),
        Math.Max(box.BottomMm - point.YMm, point.YMm - box.TopMm));

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
