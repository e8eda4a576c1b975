using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Parts;
using Lampblack.Sheets;

namespace Lampblack.Wiring;

/// <summary>
/// The back of a panel in true size with bodies, terminals, looms and what is soldered where, as one sees it with the panel turned over like a page.
/// The plate's lower left corner, as seen so, is the origin.
/// </summary>
/// <param name="Panel">The panel's wires.</param>
/// <param name="Layers">Name for programs, name for people, shapes, colour on a screen; the lowest first.</param>
/// <param name="Untagged">Parts whose tags found no room; the list of wires tells of them.</param>
public sealed record LoomDrawing(PanelWires Panel, ImmutableArray<SvgLayer<BackSpace>> Layers, ImmutableArray<string> Untagged)
{
    /// <summary>Says how tags are read.</summary>
    public const string Key = "Beside each part: terminal, net.  “3: >| C5”: a diode between, its band (the bar) towards wire C5.  “3: |< R2”: its band towards terminal 3.  “+: 620 D6”: a resistor of 620 ohms between.";

    private const double SideMm = 4;
    private const double HeadMm = 12;
    private const double StampMm = 3.2;
    private const double KeyMm = 1.7;
    internal const double ClearMm = 0.2;
    private const double PlugNameMm = 1.8;

    private const string Ink = "#1d1b16";
    private const string Straw = "#f3ebcb";
    private const string Plate = "#ffffff";
    internal const string Wire = "#1f4e9c";

    /// <summary>Draws a panel.</summary>
    /// <param name="panel">Its wires.</param>
    public static LoomDrawing Of(PanelWires panel)
    {
        ArgumentNullException.ThrowIfNull(panel);
        var laid = panel.Laid;

        // The one mirror of this drawing: what is at the right from the front is at the left from behind.
        var map = new Affine<PanelSpace, BackSpace>(-1, 0, laid.Panel.WidthMm, 0, 1, 0);
        var plate = laid.Outline.Map(map);
        var bodies = laid.Parts.Where(part => part.Part.Body is not null).Select(part => (Part: part, Shape: part.Body().Map(map))).ToList();
        var looms = LoomLines.Of(panel.Wires.Select(wire => wire.Way.Select(map.Apply).ToList()));
        var ends = panel.Wires.SelectMany(wire => new[] { (wire.Net, End: wire.From), (wire.Net, End: wire.To) }).Where(end => end.End.Item != panel.Plug?.Name).ToLookup(end => end.End.Item);
        var plug = PlugBox(panel);
        var tags = bodies.Where(body => ends.Contains(body.Part.Origin.Item)).Select(body => Tag(body.Part, body.Shape.Bounds, [.. ends[body.Part.Origin.Item]])).ToList();
        var holes = laid.Parts.Where(part => part.Part.Body is null).SelectMany(part => part.Holes).Select(hole => hole.Map(map)).ToList();
        var full = bodies.Select(body => body.Shape.Bounds).Concat(holes.Select(hole => hole.Bounds)).Append(plug.Grow(0.5)).ToList();
        var terminals = bodies.Where(body => ends.Contains(body.Part.Origin.Item))
            .SelectMany(body => TerminalMark.Of(body.Part, body.Shape.Bounds, [.. ends[body.Part.Origin.Item].Select(end => end.End.Terminal)], map, looms.ConvertAll(loom => loom.Box), full)).ToList();
        var placed = TagPlaces.Of(
            tags,
            full.Concat(terminals.Select(terminal => terminal.Name.Bounds)),
            [.. looms.Select(loom => loom.Box)],
            new(0.5, 0.5, laid.Panel.WidthMm - 1, laid.Panel.HeightMm - 1));
        var clear = Region<BackSpace>.Union(placed.Select(tag => tag.Box).Concat(terminals.Select(one => one.Name.Bounds.Grow(ClearMm))).Append(plug).Where(box => box.WidthMm > 0).Select(Region<BackSpace>.Rectangle));
        (string Id, string Name, Func<Region<BackSpace>> Draw, string Fill)[] layers =
        [
            ("plate", "the plate", () => plate, Plate),
            ("plate-edge", "its edge", () => TrialDrawing.Lines(plate, 0.3), Ink),
            ("bodies", "bodies of the parts, terminals included", () => Region<BackSpace>.Union(bodies.Select(body => body.Shape)), Straw),
            ("body-edges", "their edges", () => Region<BackSpace>.Union(bodies.Select(body => TrialDrawing.Lines(body.Shape, 0.2))), Ink),
            ("holes", "other openings", () => Region<BackSpace>.Union(holes.Select(hole => TrialDrawing.Dashes(hole))), Ink),
            ("looms", "wires; the thicker the line, the more run there", () => Region<BackSpace>.Union(looms.Select(loom => Region<BackSpace>.Rectangle(loom.Box))).Except(clear), Wire),
            ("terminals", "terminals: filled where a wire is soldered", () => Region<BackSpace>.Union(terminals.Select(one => one.Dot)), Ink),
            ("terminal-names", "their names", () => Region<BackSpace>.Union(terminals.Select(one => one.Name)), Ink),
            ("leaders", "from tags to their parts", () => Region<BackSpace>.Union(placed.Select(Leader)), Ink),
            ("plug", "the plug that the loom ends in", () => Plug(panel), Ink),
            ("tags", "what is soldered where", () => Region<BackSpace>.Union(placed.SelectMany(Lines)), Ink),
        ];
        return new(
            panel,
            [.. layers.AsParallel().AsOrdered().Select(layer => new SvgLayer<BackSpace>(layer.Id, layer.Name, layer.Draw(), layer.Fill))],
            [.. tags.Select(tag => tag.Item).Except(placed.Select(tag => tag.Tag.Item))]);
    }

    /// <summary>The drawing as SVG.</summary>
    public ImmutableArray<byte> Svg() => Drawing().File();

    /// <summary>The same in its layers.</summary>
    public SvgDrawing<BackSpace> Drawing()
    {
        var panel = Panel.Laid.Panel;
        var (width, height) = (panel.WidthMm + (2 * SideMm), panel.HeightMm + SideMm + HeadMm);
        var shift = Affine<BackSpace, BackSpace>.Shift(SideMm, SideMm);
        var stamp = $"SEEN FROM BEHIND  ·  wires of {PrintableText.Clean(panel.Title)}";
        return new(width, height, $"{panel.Title}: wires, seen from behind",
        [
            new("paper", "paper", Region<BackSpace>.Rectangle(new(0, 0, width, height)), "#ffffff"),
            .. Layers.Select(layer => layer with { Region = layer.Region.Map(shift) }),
            new("stamp", "which side this is", Text(stamp, SheetText.FittingMm(stamp, StampMm, width - 4), new(width / 2, height - 3.5)), Ink),
            new("key", "how tags are read", Text(Key, SheetText.FittingMm(Key, KeyMm, width - 4), new(width / 2, height - 8.5)), Ink),
        ]);
    }

    /// <summary>Where the plug is drawn; nothing where there is none.</summary>
    internal static Box<BackSpace> PlugBox(PanelWires panel) => panel.Plug is not { } plug
        ? default
        : new(Math.Clamp(panel.Laid.Panel.WidthMm - plug.At.XMm - (WirePlanning.PlugWidthMm / 2), 0.5, Math.Max(0.5, panel.Laid.Panel.WidthMm - WirePlanning.PlugWidthMm - 0.5)), plug.At.YMm - (WirePlanning.PlugHeightMm / 2), WirePlanning.PlugWidthMm, WirePlanning.PlugHeightMm);

    /// <summary>The plug with its name.</summary>
    private static Region<BackSpace> Plug(PanelWires panel) => PlugBox(panel) is { WidthMm: > 0 } box
        ? TrialDrawing.Lines(Region<BackSpace>.Rectangle(box.Grow(-0.15)), 0.3).Union(Text(panel.Plug!.Name, PlugNameMm, box.Centre))
        : Region<BackSpace>.Empty;

    private static PartTag Tag(PlacedPart part, Box<BackSpace> body, ImmutableArray<(string Net, WireEnd End)> ends) => new(
        part.Origin.Item,
        [
            part.Origin.Name,
            .. PartTerminals.Of(part.Part).Terminals.SelectMany(terminal => ends.Where(end => end.End.Terminal == terminal.Name).Select(end => Line(terminal.Name, end.End, end.Net)).Distinct()),
        ],
        body);

    private static string Line(string terminal, WireEnd end, string net) => end.Inline switch
    {
        InlinePart.DiodeToWire => $"{terminal}: >| {net}",
        InlinePart.DiodeToTerminal => $"{terminal}: |< {net}",
        InlinePart.Resistor => string.Create(CultureInfo.InvariantCulture, $"{terminal}: {end.InlineOhms:0.#} {net}"),
        _ => $"{terminal}: {net}",
    };

    private static IEnumerable<Region<BackSpace>> Lines(PlacedTag tag)
    {
        var y = tag.Box.TopMm - TagPlaces.AirMm - (tag.TextMm / 2);
        foreach (var line in tag.Tag.Lines)
        {
            yield return Text(line, tag.TextMm, new(tag.Box.LeftMm + TagPlaces.AirMm + (SheetText.WidthMm(line, tag.TextMm) / 2), y));
            y -= tag.TextMm * TagPlaces.LineFactor;
        }
    }

    /// <summary>A thin line where a tag stands away from its part.</summary>
    private static Region<BackSpace> Leader(PlacedTag tag)
    {
        var (from, to) = TagPlaces.Leader(tag.Box, tag.Tag.Body);
        return from.DistanceMm(to) < 2 ? Region<BackSpace>.Empty : Region<BackSpace>.Stroke(new([from, to], Closed: false), 0.12, LineEnd.Flat);
    }

    internal static Region<BackSpace> Text(string words, double heightMm, Point<BackSpace> middle) =>
        SheetText.Centred(words, heightMm, new(0, 0), Side.Front).Map(Affine<SheetSpace, BackSpace>.Shift(middle.XMm, middle.YMm));
}
