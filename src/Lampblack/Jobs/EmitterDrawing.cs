using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Fabrication;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Illumination;
using Lampblack.Lighting;
using Lampblack.Parts;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>An emitter as it is laid out.</summary>
/// <param name="Number">Its number on its panel, from 1: those of the common light first, then cell by cell.</param>
/// <param name="Emitter">The emitter.</param>
/// <param name="Channel">What it is fed with, by name.</param>
internal sealed record NumberedEmitter(int Number, Emitter Emitter, string Channel);

/// <summary>The floor behind a panel, seen from the front: where each emitter stands, how strips lie, walls of cells, screws, and bodies that reach it.</summary>
internal static class EmitterDrawing
{
    private const double SideMm = 4;
    private const double HeadMm = 9;
    private const double CrossMm = 2.2;
    private const double NumberMm = 1.5;
    private const double ClearMm = 1;

    /// <summary>The emitters of a panel in the order of their numbers.</summary>
    public static ImmutableArray<NumberedEmitter> Numbered(PanelLighting panel)
    {
        // Cells that one output switches are one channel, as the circuit has it.
        var channels = panel.Cells.GroupBy(ChannelKey).ToDictionary(group => group.Key, group => string.Join(", ", group.Select(cell => cell.Words)));
        return
        [
            .. panel.Emitters.Select(emitter => (emitter, panel.Laid.Panel.Title))
                .Concat(panel.Cells.SelectMany(cell => cell.Emitters.Select(emitter => (emitter, channels[ChannelKey(cell)]))))
                .Select((pair, index) => new NumberedEmitter(index + 1, pair.emitter, pair.Item2)),
        ];
    }

    /// <summary>Its layers; y points up, the panel's lower left corner is the origin.</summary>
    public static ImmutableArray<(string Id, string Title, Region<PanelSpace> Region)> Layers(PanelLighting panel)
    {
        var (laid, box) = (panel.Laid, panel.Light.Box);
        var emitters = Numbered(panel);
        return
        [
            ("plate", "the panel's edge", TrialDrawing.Lines(laid.Outline)),
            ("corner", "its lower left corner", TemplateDrawing.CornerMark(laid.Outline, laid.Panel.CornerMm)),
            ("box", "inner faces of the box's walls", TrialDrawing.Dashes(Region<PanelSpace>.Rectangle(box.Inside))),
            ("bodies", "bodies that reach the floor", Region<PanelSpace>.Union(laid.Parts.Where(part => part.Part.Body is { } body && body.Depth.Mm > box.DepthMm - ClearMm).Select(part => TrialDrawing.Lines(part.Body())))),
            ("screws", "holes of the screws", Region<PanelSpace>.Union(laid.Parts.Where(part => part.Part.Class == PartClass.Screw || part.Part == laid.Panel.Fixings?.Part).SelectMany(part => part.Holes).Select(hole => TrialDrawing.Lines(hole)))),
            ("blocks", "blocks of wood that the screws go into", Region<PanelSpace>.Union(panel.Blocks.Where(block => block.Blocker is null).Select(block => TrialDrawing.Dashes(Region<PanelSpace>.Rectangle(block.Area))))),
            ("cells", "walls of cells", Region<PanelSpace>.Union(panel.Cells.Select(cell => LightDrawing.Walls(cell.Inside)))),
            ("units", "outlines of emitters and pieces of strip", Region<PanelSpace>.Union(panel.Units.Select(unit => TrialDrawing.Lines(Region<PanelSpace>.Rectangle(unit.Footprint))))),
            ("emitters", "a cross on each emitter's middle", Region<PanelSpace>.Union(emitters.Select(one => TrialDrawing.Cross(one.Emitter.At, ReachMm(one, emitters))))),
            ("numbers", "their numbers", Region<PanelSpace>.Union(emitters.Select(Number))),
        ];
    }

    /// <summary>The drawing as a file in true size.</summary>
    public static ImmutableArray<byte> Svg(PanelLighting panel) => Drawing(panel).File();

    /// <summary>The same in its layers.</summary>
    public static SvgDrawing<SheetSpace> Drawing(PanelLighting panel)
    {
        var size = panel.Laid.Panel;
        var (width, height) = (size.WidthMm + (2 * SideMm), size.HeightMm + SideMm + HeadMm);
        var map = Affine<PanelSpace, SheetSpace>.Shift(SideMm, SideMm);
        var words = $"EMITTERS, SEEN FROM THE FRONT  ·  {PrintableText.Clean(size.Title)}  ·  the filled corner is 0, 0";
        return new(
            width,
            height,
            $"{size.Title}: where the emitters stand, seen from the front",
            [
                new("paper", "paper", Region<SheetSpace>.Rectangle(new(0, 0, width, height)), "#ffffff"),
                .. Layers(panel).Select(layer => new SvgLayer<SheetSpace>(layer.Id, layer.Title, layer.Region.Map(map), "#1d1b16")),
                new("words", "what it is", SheetText.Centred(words, SheetText.FittingMm(words, 2.6, width - 4), new(width / 2, height - (HeadMm / 2)), Side.Front), "#1d1b16"),
            ]);
    }

    /// <summary>What stands above the pages.</summary>
    public static TemplateWords Words(PanelLighting panel, string caution)
    {
        var size = panel.Laid.Panel;
        const string Use = "Plain paper, actual size (100 %), one side: measure the bar below. A cross on each emitter's middle; thin boxes: emitters and strips; filled lines: walls of cells; dashes: the box's walls, and the blocks that the screws go into.";
        return new(
            $"{PrintableText.Clean(size.Title)}  ·  emitters on the lamp board, the box's white floor, {Cutout.Text(size.WidthMm)} x {Cutout.Text(size.HeightMm)} mm, seen from the front",
            [Use, "The filled corner is the panel's lower left one, as seen from the front. Numbers are those of emitters.csv.", caution],
            [Use, "Cut along one page's edge and lay cross on cross, letter on letter; tape. Numbers are those of emitters.csv.", caution]);
    }

    /// <summary>Crosses of close neighbours stay apart.</summary>
    private static double ReachMm(NumberedEmitter one, ImmutableArray<NumberedEmitter> all) =>
        Math.Min(CrossMm, 0.45 * all.Where(other => other.Number != one.Number).Select(other => other.Emitter.At.DistanceMm(one.Emitter.At)).DefaultIfEmpty(double.PositiveInfinity).Min());

    private static object ChannelKey(LitCell cell) => cell.Output == 0 ? cell.Item.Item : cell.Output;

    private static Region<PanelSpace> Number(NumberedEmitter one)
    {
        var says = one.Number.ToString(CultureInfo.InvariantCulture);
        return TemplateDrawing.Text(says, NumberMm, new(one.Emitter.At.XMm + 0.6 + (SheetText.WidthMm(says, NumberMm) / 2), one.Emitter.At.YMm + 0.6 + (NumberMm / 2)));
    }
}
