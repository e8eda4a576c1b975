using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Artwork;
using Lampblack.Edits;
using Lampblack.Findings;
using Lampblack.Formats;
using Lampblack.Layout;
using Lampblack.Lighting;
using Lampblack.SourceText;

namespace Lampblack.Jobs;

/// <summary>An emitter in the table.</summary>
/// <param name="Number">Its number on its panel.</param>
/// <param name="Place">Its middle from the panel's lower left corner, seen from the front: "31.0, 63.0".</param>
/// <param name="Channel">What it is fed with.</param>
public sealed record EmitterRow(string Number, string Place, string Channel);

/// <summary>A legend in its light.</summary>
/// <param name="Item">Panel and item, as findings name it.</param>
/// <param name="TableAddress">The same without the number of a copy.</param>
/// <param name="Words">What it says.</param>
/// <param name="Luminance">How bright it is, in cd/m2.</param>
/// <param name="Share">That by the mean of all, with a mark on the brightest and the dimmest; for a cell by itself what it is made of.</param>
/// <param name="Light">Which light is behind it; null where that can't be chosen.</param>
public sealed record LitRow(string Item, string TableAddress, string Words, string Luminance, string Share, ItemFact? Light);

/// <summary>A panel in its light.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Title">Its title.</param>
/// <param name="Sentence">The plan in a sentence.</param>
/// <param name="Proof">How good it is, and how well that is known.</param>
/// <param name="Drawing">Plate, tints from step to step, lines with their factors, bodies, emitters, cells, legends, the brightest and the dimmest.</param>
/// <param name="Extremes">The brightest legend and the dimmest, in words.</param>
/// <param name="Emitters">The emitters.</param>
/// <param name="Legends">What the common light is behind.</param>
/// <param name="Cells">What has a light of its own.</param>
/// <param name="IsKept">Whether the desk has the places; else they were planned.</param>
/// <param name="Keep">The edit that writes the places into the desk, or takes them out where it has them; null where there are none.</param>
public sealed record LitPanel(
    string Id,
    string Title,
    string Sentence,
    string Proof,
    DrawnView Drawing,
    ImmutableArray<string> Extremes,
    ImmutableArray<EmitterRow> Emitters,
    ImmutableArray<LitRow> Legends,
    ImmutableArray<LitRow> Cells,
    bool IsKept,
    DeskEdit? Keep);

/// <summary>A desk in its light: what the station for it shows.</summary>
/// <param name="Panels">Its panels.</param>
/// <param name="Circuit">The circuit, a line for each channel and one for the supply; empty where nothing is fed.</param>
/// <param name="Findings">What was noticed.</param>
/// <param name="Caution">What to mind.</param>
public sealed record LightView(ImmutableArray<LitPanel> Panels, ImmutableArray<string> Circuit, ImmutableArray<Finding> Findings, string Caution)
{
    /// <summary>A desk that can't be planned as long as something stops it.</summary>
    public static LightView Nothing { get; } = new([], [], [], LightFiles.Caution);

    /// <summary>An emitter's id in words.</summary>
    /// <param name="emitter">The id.</param>
    public static string Named(string emitter) => LightFacts.Named(emitter);

    /// <summary>The view of a plan.</summary>
    internal static LightView Of(LaidDesk laid, DeskLight light, ImmutableArray<PanelArtwork> artworks, TableNode root, ImmutableArray<Finding> findings, CancellationToken cancellation)
    {
        var usual = laid.Desk.Lighting.Emitter is not null || light.Panels.All(panel => panel.Units.IsEmpty);
        return new(
            [.. light.Panels.Zip(artworks).Select(pair => Panel(pair.First, pair.Second, root, usual, cancellation))],
            light.Circuit is { } circuit ? [.. LightWords.Circuit(circuit)] : [],
            [.. findings.OrderByDescending(finding => finding.Severity).ThenBy(finding => finding.Span?.Line ?? 0)],
            LightFiles.Caution);
    }

    private static LitPanel Panel(PanelLighting light, PanelArtwork artwork, TableNode root, bool isNamed, CancellationToken cancellation)
    {
        var panel = light.Laid.Panel;
        var kinds = panel.Items.Select(item => (item.Id, Fact: LightFacts.Of(root, item))).Where(pair => pair.Fact is not null).ToDictionary(pair => $"{panel.Id}/{pair.Id}", pair => pair.Fact!, StringComparer.Ordinal);
        var isKept = !panel.Emitters.IsEmpty;
        return new(
            panel.Id,
            panel.Title,
            $"{LightingFindings.Sentence(light)}{(isNamed ? string.Empty : $" (the desk names no emitters: {light.Type.Name})")}",
            light.HasGeneral ? Proof(light) : string.Empty,
            Drawing(light, artwork, cancellation),
            [.. LightDrawing.Extremes(light)],
            [.. EmitterDrawing.Numbered(light).Select(one => new EmitterRow(
                FormattableString.Invariant($"{one.Number}"), FormattableString.Invariant($"{one.Emitter.At.XMm:0.0#}, {one.Emitter.At.YMm:0.0#}"), one.Channel))],
            [.. light.Legends.GroupBy(legend => (legend.Piece.Origin.Item, legend.Piece.Words)).Select(group => Legend(group.Key.Item, group.Key.Words, [.. group], light, kinds))],
            [.. light.Cells.Select(cell => Row(cell.Item.Item, cell.Words, cell.MeanCandelaPerM2, Cell(cell), kinds))],
            isKept,
            isKept ? new KeepEmitters(panel.Id, [])
                : light.Emitters.IsEmpty ? null
                : new KeepEmitters(panel.Id, [.. light.Emitters.Select(emitter => new EmitterPlace(emitter.At.XMm, emitter.At.YMm))]));
    }

    private static DrawnView Drawing(PanelLighting light, PanelArtwork artwork, CancellationToken cancellation)
    {
        const double AroundMm = 2;
        var panel = light.Laid.Panel;
        return new(
            -AroundMm,
            -AroundMm,
            panel.WidthMm + (2 * AroundMm),
            panel.HeightMm + (2 * AroundMm),
            [.. LightDrawing.Layers(light, artwork, LightContours.Of(light, cancellation)).Where(layer => !layer.Region.IsEmpty).Select(layer => new DrawnShape(layer.Id, SvgPath.Of(layer.Region, panel.HeightMm)))]);
    }

    private static LitRow Legend(string item, string words, ImmutableArray<LitLegend> pieces, PanelLighting light, Dictionary<string, ItemFact> kinds)
    {
        var mean = pieces.Average(piece => piece.CandelaPerM2);
        var mark = pieces.Any(piece => ReferenceEquals(piece, light.Brightest)) ? ", brightest" : pieces.Any(piece => ReferenceEquals(piece, light.Dimmest)) ? ", dimmest" : string.Empty;
        var share = light.MeanCandelaPerM2 > 0 ? FormattableString.Invariant($"{mean / light.MeanCandelaPerM2:0.00}{mark}") : string.Empty;
        return Row(item, words, mean, share, kinds);
    }

    private static LitRow Row(string item, string words, double candelaPerM2, string share, Dictionary<string, ItemFact> kinds)
    {
        // Of a row or grid every copy has the light of the whole.
        var address = kinds.ContainsKey(item) || item.LastIndexOf('.') is not (> 0 and var dot) ? item : item[..dot];
        return new(item, address, words, LightingFindings.Figure(candelaPerM2), share, kinds.GetValueOrDefault(address));
    }

    private static string Cell(LitCell cell) => FormattableString.Invariant(
        $"{cell.Inside.WidthMm:0.0} x {cell.Inside.HeightMm:0.0} mm, {cell.Emitters.Length} {(cell.Emitters.Length == 1 ? "emitter" : "emitters")}{(cell.Output > 0 ? FormattableString.Invariant($", output {cell.Output}") : string.Empty)}");

    private static string Proof(PanelLighting light)
    {
        var units = light.Units.Length;
        return !light.IsPlanned ? "The emitters stand where the desk has them: judged, not planned."
            : light.IsStopped ? "The search was stopped: the best places so far."
            : !light.IsMetWhereOpen ? "No choice of places was found that gives all that is asked for: this is the best."
            : light.LeastUnits >= units ? "All choices of fewer places on offer were gone through: that is shown, not guessed."
            : light.LeastUnits == units - 1 ? FormattableString.Invariant($"Whether {units - 1} would do is not known: none was found.")
            : FormattableString.Invariant($"Whether {light.LeastUnits} to {units - 1} would do is not known: none was found.");
    }
}
