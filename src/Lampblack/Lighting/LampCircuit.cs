using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Circuits;
using Lampblack.Desks;
using Lampblack.Parts;

namespace Lampblack.Lighting;

/// <summary>The circuit that feeds the emitters of all panels of a desk.</summary>
internal static class LampCircuit
{
    /// <summary>A supply for lamps where the desk names none.</summary>
    private const double UsualVolts = 12;

    /// <summary>The current that the catalogue's curves of single diodes are drawn for.</summary>
    private const double CurveAmperes = 0.02;

    /// <summary>Designs it; nothing where there is nothing to feed.</summary>
    public static CircuitPlan? Of(Desk desk, ImmutableArray<PanelLighting> panels)
    {
        var channels = panels.SelectMany(panel => Channels(panel, desk.Light)).ToImmutableArray();
        if (channels.IsEmpty)
        {
            return null;
        }

        var wish = desk.Lighting;
        var usual = new CircuitWish(wish.SupplyVolts ?? panels[0].Type.FeedVolts ?? UsualVolts, channels);
        return CircuitDesign.Of(usual with
        {
            Channels = [.. channels.Select((channel, index) => channel with { PinName = string.Create(CultureInfo.InvariantCulture, $"{(channel.Feed is AddressablePixels ? "data" : "PWM")} pin {index + 1}") })],
            SupplyAmperes = wish.SupplyAmperes,
            PwmHertz = wish.PwmHertz,
            OnwardLengthMm = OnwardMm(panels),
            WireLengthMm = wish.WireMm ?? usual.WireLengthMm,
            Box = new(panels.Sum(panel => panel.Laid.Panel.WidthMm), panels.Max(panel => panel.Laid.Panel.HeightMm), panels.Max(panel => panel.Light.Box.DepthMm)),
        });
    }

    /// <summary>The pair goes on from panel to panel, past those that nothing lights.</summary>
    private static double OnwardMm(ImmutableArray<PanelLighting> panels)
    {
        var row = panels.Select(panel => (panel.Laid.Panel.WidthMm, panel.Laid.Panel.HeightMm)).ToList();
        var fed = panels.Index().Where(one => !one.Item.Emitters.IsEmpty || !one.Item.Cells.IsEmpty).Select(one => one.Index).ToList();
        return fed.Zip(fed.Skip(1), (one, next) => BoxWay.BetweenMm(row, one, next)).Sum();
    }

    private static IEnumerable<LampChannel> Channels(PanelLighting panel, EmitterColour colour)
    {
        if (!panel.Emitters.IsEmpty)
        {
            yield return new(panel.Laid.Panel.Title, Feed(panel.Type, panel.Emitter, panel.DriveShare, colour), panel.Emitters.Length, IsDimmed: true);
        }

        var type = panel.Type.Form == EmitterForm.Single ? panel.Type : EmitterTypes.InCells;
        foreach (var group in panel.Cells.GroupBy(cell => cell.Output == 0 ? (object)cell.Item.Item : cell.Output))
        {
            // What one output switches shines together, and needs no more than the hungriest.
            var cells = group.ToList();
            var drive = cells.Max(cell => cell.DriveShare);
            yield return new(
                string.Join(", ", cells.Select(cell => cell.Words)),
                Feed(type, type.Colours[colour], drive, colour),
                cells.Sum(cell => cell.Emitters.Length),
                IsDimmed: true);
        }
    }

    private static LampFeed Feed(EmitterType type, EmitterFigures figures, double driveShare, EmitterColour colour) => type.Form switch
    {
        EmitterForm.Strip => new CutStrip(type.FeedVolts!.Value, figures.Amperes, type.UnitCount),
        EmitterForm.Pixels => new AddressablePixels(type.FeedVolts!.Value, figures.Amperes),
        _ => new SingleDiodes(Curve(colour, figures.Amperes), driveShare * figures.Amperes, type.MostAmperes ?? figures.Amperes),
    };

    /// <summary>A chip for so many times the current is so many times as large: the same volts, as if so many stood side by side.</summary>
    private static DiodeCurve Curve(EmitterColour colour, double amperes)
    {
        var curve = colour switch
        {
            EmitterColour.Red => DiodeCurve.Red,
            EmitterColour.Amber => DiodeCurve.Amber,
            EmitterColour.Green => DiodeCurve.Green,
            EmitterColour.Blue => DiodeCurve.Blue,
            _ => DiodeCurve.White,
        };
        var times = amperes / CurveAmperes;
        return new(times * curve.SaturationAmperes, curve.IdealityFactor, curve.SeriesOhms / times);
    }
}
