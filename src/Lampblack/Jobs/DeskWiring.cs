using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Circuits;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Firmware;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Lighting;
using Lampblack.Wiring;

namespace Lampblack.Jobs;

/// <summary>The wiring of a whole desk.</summary>
/// <param name="Needs">What is wired.</param>
/// <param name="Pins">Which pin does what.</param>
/// <param name="Wires">The wires; none where they were not asked for.</param>
internal sealed record DeskWiring(ImmutableArray<WiredNeed> Needs, PinPlan Pins, DeskWires Wires)
{
    /// <summary>The backs with their wires, in the order of the panels; drawn once for files and book.</summary>
    public ImmutableArray<Lazy<LoomDrawing>> Looms { get; } = [.. Wires.Panels.Select(panel => new Lazy<LoomDrawing>(() => LoomDrawing.Of(panel)))];

    /// <summary>Whether the controller reads or drives anything, and so has firmware.</summary>
    public bool IsDriven => !Pins.Controls.IsEmpty || Pins.Controllers.Any(plan => !plan.Dimmers.IsEmpty);

    /// <summary>Whether anything has a pin that a wire leads to.</summary>
    public bool HasWires => IsDriven || Pins.Controllers.Any(plan => !plan.DataLines.IsEmpty);

    /// <summary>Plans it; null where the desk has no controller.</summary>
    /// <param name="laid">The desk.</param>
    /// <param name="light">Its light; nothing where that was not planned.</param>
    /// <param name="last">The plan file of the last build; empty for none.</param>
    /// <param name="withWires">Whether the wires are laid, too.</param>
    /// <param name="findings">Takes what is found.</param>
    /// <param name="cancellation">Stops the work.</param>
    public static DeskWiring? Of(LaidDesk laid, DeskLight light, ImmutableArray<byte> last, bool withWires, List<Finding> findings, CancellationToken cancellation)
    {
        if (laid.Desk.Controller is not { } wish)
        {
            return null;
        }

        var before = WiringPlanFile.Read(last);
        var needs = WiringNeeds.Of(laid);
        var (dimmers, switched) = light.Circuit is null && DeskLight.IsAskedFor(laid.Desk) ? Remembered(laid, before.Value) : (Dimmers(light), Pixels(light));
        needs = new(needs.Value.AddRange(switched.Where(need => need.Kind == WiredKind.Data)), needs.Findings);
        var plan = PinPlanning.Of(needs.Value.AddRange(switched.Where(need => need.Kind != WiredKind.Data)), dimmers, wish, before.Value, EnginePace.Keeps);
        findings.AddRange(before.Findings.Concat(needs.Findings).Concat(plan.Findings));
        var nets = WireNets.Of(plan.Value, needs.Value, wish.LampAmperes);
        return new(needs.Value, plan.Value, withWires ? WirePlanning.Of(laid, nets, wish, [.. laid.Panels.Select(panel => Emitters(light, panel.Panel.Id))], [.. laid.Panels.Select(panel => Walled(light, panel.Panel.Id))], cancellation) : new(nets, []));
    }

    /// <summary>The circuit with the pins' own names, where they are planned.</summary>
    public static CircuitPlan? Named(CircuitPlan? circuit, DeskWiring? wiring)
    {
        if (circuit is null || wiring is null)
        {
            return circuit;
        }

        var pins = wiring.Pins.Controllers.SelectMany(plan => plan.Dimmers.Select(dimmer => (Name: dimmer.Channel, dimmer.Pin)).Concat(plan.DataLines.Select(line => (Name: line.ItemId, line.Pin))))
            .DistinctBy(one => one.Name).ToDictionary(one => one.Name, one => one.Pin.Header);
        var names = circuit.Names;
        return circuit with
        {
            Channels = [.. circuit.Channels.Select((channel, index) => pins.TryGetValue(names[index], out var pin) ? channel with { Channel = channel.Channel with { PinName = pin } } : channel)],
        };
    }

    /// <summary>Where light is not planned this time, what it got last time stays its own.</summary>
    private static (ImmutableArray<DimmerNeed> Dimmers, ImmutableArray<WiredNeed> Switched) Remembered(LaidDesk laid, PinPlan? before)
    {
        var others = laid.Panels.SelectMany(panel => panel.Panel.Items.Where(item => item is not Control).Select(item => $"{panel.Panel.Id}/{item.Id}")).ToHashSet();
        return before is null ? ([], []) : (
            [.. before.Controllers.SelectMany(plan => plan.Dimmers).Where(dimmer => !dimmer.IsMeter).DistinctBy(dimmer => dimmer.Channel).Select(dimmer => new DimmerNeed(dimmer.Channel, dimmer.PwmHertz))],
            [.. before.Controllers.SelectMany(plan => plan.Indicators).Where(lamp => others.Contains(lamp.ItemId)).DistinctBy(lamp => lamp.ItemId).Select(lamp => new WiredNeed { Id = lamp.ItemId, Name = lamp.ItemId, Kind = WiredKind.Indicator, Panel = -1 }),
             .. before.Controllers.SelectMany(plan => plan.DataLines).Where(line => line.Terminal == PixelData).DistinctBy(line => line.ItemId).Select(line => Strip(line.ItemId))]);
    }

    /// <summary>What a channel of pixels is called by in the plan: its data has a terminal of no part.</summary>
    private const string PixelData = "data";

    /// <summary>Channels of pixels: the data line of each wants a pin.</summary>
    private static ImmutableArray<WiredNeed> Pixels(DeskLight light) => light.Circuit is not { } circuit ? []
        : [.. circuit.Channels.Zip(circuit.Names).Where(channel => channel.First.Pixels is not null).Select(channel => Strip(channel.Second) with { HasShifter = channel.First.Pixels!.NeedsShifter })];

    private static WiredNeed Strip(string channel) => new() { Id = channel, Name = channel, Kind = WiredKind.Data, Panel = -1, DataTerminals = [PixelData] };

    /// <summary>Where emitters stand, those of cells too.</summary>
    private static ImmutableArray<Point<PanelSpace>> Emitters(DeskLight light, string panel) => light.Panels.FirstOrDefault(one => one.Laid.Panel.Id == panel) is { } lit
        ? [.. lit.Emitters.Concat(lit.Cells.SelectMany(cell => cell.Emitters)).Select(emitter => emitter.At)]
        : [];

    /// <summary>What stands on a panel's back and is no body of a part.</summary>
    private static ImmutableArray<Box<PanelSpace>> Walled(DeskLight light, string panel) => light.Panels.FirstOrDefault(one => one.Laid.Panel.Id == panel) is { } lit
        ? [.. lit.Cells.Select(cell => LightCells.Outside(cell.Inside)), .. lit.Blocks.Where(block => block.Blocker is null).Select(block => block.Area)]
        : [];

    /// <summary>The channels that the circuit dims, by its own names, each with the legend whose light it is.</summary>
    private static ImmutableArray<DimmerNeed> Dimmers(DeskLight light)
    {
        if (light.Circuit is not { } circuit)
        {
            return [];
        }

        var items = light.Panels.SelectMany(panel => panel.Cells.GroupBy(cell => cell.Output == 0 ? (object)cell.Item.Item : cell.Output))
            .ToLookup(group => string.Join(", ", group.Select(cell => cell.Words)), group => group.First().Item.Item);
        var general = light.Panels.Select(panel => panel.Laid.Panel.Title).ToHashSet();
        var names = circuit.Names;
        return
        [
            .. circuit.Channels.Index().Where(channel => channel.Item.Switch is not null)
                .Select(channel => new DimmerNeed(names[channel.Index], circuit.Dimming.PwmHertz, general.Contains(channel.Item.Channel.Name) ? null : items[channel.Item.Channel.Name].FirstOrDefault())),
        ];
    }
}
