using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Threading;
using Lampblack.Desks;
using Lampblack.Fabrication;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Parts;
using Lampblack.Wiring;

namespace Lampblack.Jobs;

/// <summary>Drawings and lists of a desk's wires.</summary>
internal static class WiringFiles
{
    /// <summary>Stands where wires are drawn and listed.</summary>
    public const string Caution = "Never solder with the panel on its supply or its computer. Low voltage only: nothing of the mains comes near these wires. Names and places of terminals are from memory: test before you solder, look at your parts.";

    /// <summary>The files beside the plan; none where nothing is wired.</summary>
    /// <param name="desk">The desk.</param>
    /// <param name="wiring">Its wiring.</param>
    /// <param name="setup">Paper and printer.</param>
    /// <param name="cancellation">Stops the work between two drawings.</param>
    public static ImmutableArray<OutputFile> Of(Desk desk, DeskWiring? wiring, PrintSetup setup, CancellationToken cancellation)
    {
        if (wiring is not { HasWires: true })
        {
            return [];
        }

        var files = ImmutableArray.CreateBuilder<OutputFile>();
        foreach (var (panel, loom) in wiring.Wires.Panels.Zip(wiring.Looms).Where(pair => pair.First.Plug is not null))
        {
            cancellation.ThrowIfCancellationRequested();
            var (id, size) = (panel.Laid.Panel.Id, panel.Laid.Panel);
            var drawing = loom.Value;
            files.Add(new($"wiring/{id}-wires.svg", "the panel seen from behind, with terminals and wires, in true size", drawing.Svg()));

            // The pages show the back as it is seen: the drawing is mirrored already.
            var asSeen = Affine<BackSpace, PanelSpace>.Identity;
            files.Add(new(
                $"wiring/{id}-wires.pdf",
                "the same to lie beside the panel at true size; plain paper, one side",
                PdfFile.Write(
                    TemplatePages.Of(size.WidthMm, size.HeightMm, drawing.Layers.Where(layer => layer.Id is not ("plate" or "bodies") && !layer.Region.IsEmpty).Select(layer => layer.Region.Map(asSeen)), Words(panel, drawing), setup.Paper, setup.Black.Edge, setup.Printer),
                    new($"{desk.Title} wires {id}", PdfSides.OneSided))));
        }

        cancellation.ThrowIfCancellationRequested();
        files.Add(new("wiring/schematic.svg", "how everything is joined, pin by pin", Schematic.Of(wiring.Pins, wiring.Needs, wiring.Wires.Nets, desk).Svg()));
        files.Add(new("wiring/wires.csv", "every wire: length, colour, ends, what is soldered between", WireTables.Wires(wiring.Wires)));
        if (wiring.Pins.Controllers.Any(plan => plan.Usb is not null))
        {
            files.Add(new("wiring/game-controller.csv", "which control is which axis and button of the panel as a game controller", UsbNumbers.Table(wiring.Pins)));
        }

        files.Add(new("wiring/plugs.csv", "every plug's contacts, and where the cables go to", WireTables.Plugs(wiring.Wires)));
        files.Add(new("wiring/checklist.pdf", "wires to cut, plugs, and tests with a meter, to tick off; plain paper", PdfFile.Write(WiringPages.Of(desk.Title, wiring, setup), new($"{desk.Title} wiring checklist", PdfSides.OneSided))));
        return files.ToImmutable();
    }

    private static TemplateWords Words(PanelWires panel, LoomDrawing drawing)
    {
        var size = panel.Laid.Panel;
        var untagged = drawing.Untagged.IsEmpty ? string.Empty : $" No room for the tags of {string.Join(", ", drawing.Untagged)}: see the checklist.";
        const string Use = "Plain paper, actual size (100 %), one side: measure the bar below. Lay it beside the panel, face down.";
        return new(
            string.Create(CultureInfo.InvariantCulture, $"SEEN FROM BEHIND  ·  {PrintableText.Clean(size.Title)}  ·  wires, {Cutout.Text(size.WidthMm)} x {Cutout.Text(size.HeightMm)} mm"),
            [Use + untagged, LoomDrawing.Key, Caution],
            [Use + " Cut along one page's edge and lay cross on cross, letter on letter." + untagged, LoomDrawing.Key, Caution]);
    }
}
