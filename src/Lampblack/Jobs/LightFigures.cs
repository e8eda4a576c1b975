using System.Collections.Immutable;
using System.Linq;
using System.Text.Json;
using Lampblack.Circuits;
using Lampblack.Lighting;

namespace Lampblack.Jobs;

/// <summary>A plan of light in figures, for other programs. Places are measured from the panel's lower left corner, seen from the front.</summary>
internal static class LightFigures
{
    /// <summary>Writes all panels; grid, legends and emitters of the first stand at the top as well, for whoever asks about one.</summary>
    public static void Write(Utf8JsonWriter json, DeskLight light, double gridMm, ulong seed)
    {
        json.WriteNumber("seed", seed);
        ImmutableArray<LuxGrid> grids = [.. light.Panels.Select(panel => LuxGrid.Of(panel, gridMm))];
        if (light.Panels is [var first, ..])
        {
            Panel(json, first, grids[0]);
        }

        json.WriteStartArray("panels");
        foreach (var (panel, grid) in light.Panels.Zip(grids))
        {
            json.WriteStartObject();
            json.WriteString("id", panel.Laid.Panel.Id);
            Figures(json, panel);
            Panel(json, panel, grid);
            Cells(json, panel);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        if (light.Circuit is { } circuit)
        {
            Circuit(json, circuit);
        }
    }

    private static void Figures(Utf8JsonWriter json, PanelLighting panel)
    {
        json.WriteBoolean("planned", panel.IsPlanned);
        json.WriteBoolean("met", panel.IsMet);
        json.WriteString("emitter", panel.Type.Id);
        json.WriteNumber("units", panel.Units.Length);
        json.WriteNumber("unitsBound", panel.LeastUnits);
        if (panel.GridUnits is { } grid)
        {
            json.WriteNumber("gridUnits", grid);
        }

        if (panel.GridsTriedTo > 0)
        {
            json.WriteNumber("gridsTriedTo", panel.GridsTriedTo);
        }

        json.Number("drive", panel.DriveShare);
        json.Number("meanLuminanceCdM2", panel.MeanCandelaPerM2);
        if (double.IsFinite(panel.EvennessFactor))
        {
            json.Number("evenness", panel.EvennessFactor);
        }

        json.Number("oneEmitterShare", panel.OneShare);
        json.Number("depthMm", panel.Light.Box.DepthMm);
        json.Box("box", panel.Light.Box.Inside);
        if (panel.HasGeneral)
        {
            json.WriteString("brightest", panel.Brightest.Piece.Origin.Item);
            json.WriteString("dimmest", panel.Dimmest.Piece.Origin.Item);
        }
    }

    private static void Panel(Utf8JsonWriter json, PanelLighting panel, LuxGrid grid)
    {
        grid.Write(json);
        Legends(json, "legends", panel.Legends.AddRange(panel.Dark));
        Emitters(json, panel.Emitters);
    }

    /// <summary>One entry for each item and what it says; long ones in the mean of their stretches, with the least and the most.</summary>
    private static void Legends(Utf8JsonWriter json, string name, ImmutableArray<LitLegend> legends)
    {
        json.WriteStartArray(name);
        foreach (var group in legends.GroupBy(legend => (legend.Piece.Origin.Item, legend.Piece.Words)))
        {
            json.WriteStartObject();
            json.WriteString("id", group.Key.Item);
            json.WriteString("words", group.Key.Words);
            json.Number("lux", group.Average(legend => legend.Lux));
            json.Number("luminanceCdM2", group.Average(legend => legend.CandelaPerM2));
            json.Number("leastCdM2", group.Min(legend => legend.CandelaPerM2));
            json.Number("mostCdM2", group.Max(legend => legend.CandelaPerM2));
            json.Number("oneEmitterShare", group.Max(legend => legend.OneShare));
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Emitters(Utf8JsonWriter json, ImmutableArray<Illumination.Emitter> emitters)
    {
        json.WriteStartArray("emitters");
        foreach (var emitter in emitters)
        {
            json.WriteStartObject();
            json.Number("xMm", emitter.At.XMm);
            json.Number("yMm", emitter.At.YMm);
            json.Number("lumen", emitter.FluxLumens, 6);
            json.Number("halfAngleDeg", emitter.HalfAngleDegrees);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Cells(Utf8JsonWriter json, PanelLighting panel)
    {
        json.WriteStartArray("cells");
        foreach (var cell in panel.Cells)
        {
            json.WriteStartObject();
            json.WriteString("id", cell.Item.Item);
            json.WriteNumber("output", cell.Output);
            json.Box("inside", cell.Inside);
            json.Number("drive", cell.DriveShare);
            json.Number("luminanceCdM2", cell.MeanCandelaPerM2);
            json.Number("leakShare", cell.LeakShare, 6);
            Legends(json, "legends", cell.Legends);
            Emitters(json, cell.Emitters);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Circuit(Utf8JsonWriter json, CircuitPlan circuit)
    {
        json.WriteStartObject("circuit");
        json.Number("supplyVolts", circuit.Wish.SupplyVolts);
        json.Number("supplyAmperes", circuit.Supply.RatedAmperes);
        json.Number("loadAmperes", circuit.Supply.NominalAmperes, 6);
        if (circuit.Wire.FuseAmperes is { } fuse)
        {
            json.Number("fuseAmperes", fuse);
        }

        json.WriteNumber("wireAwg", circuit.Wire.Gauge.Awg);
        json.Number("dropVolts", circuit.Wire.DropVolts);
        json.Number("heatWatts", circuit.Heat.Watts);
        json.Number("pwmHertz", circuit.Dimming.PwmHertz);
        json.WriteNumber("steps", circuit.Dimming.StepCount);
        json.WriteStartArray("channels");
        foreach (var channel in circuit.Channels)
        {
            json.WriteStartObject();
            json.WriteString("name", channel.Channel.Name);
            json.WriteNumber("emitters", channel.Channel.Count);
            json.Number("amperes", channel.NominalAmperes, 6);
            json.WriteStartArray("strings");
            foreach (var made in channel.Strings)
            {
                json.WriteStartObject();
                json.WriteNumber("count", made.StringCount);
                json.WriteNumber("inSeries", made.String.DiodeCount);
                json.Number("ohms", made.String.ResistorOhms);
                json.Number("amperes", made.NominalAmperes, 6);
                json.Number("lowestAmperes", made.LowestAmperes, 6);
                json.Number("highestAmperes", made.HighestAmperes, 6);
                json.Number("watts", made.ResistorWatts, 6);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }
}
