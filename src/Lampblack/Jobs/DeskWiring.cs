using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Threading;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Wiring;

namespace Lampblack.Jobs;

/// <summary>The wiring of a whole desk.</summary>
/// <param name="Needs">What is wired.</param>
/// <param name="Pins">Which pin does what.</param>
/// <param name="Wires">The wires; none where they were not asked for.</param>
internal sealed record DeskWiring(ImmutableArray<WiredNeed> Needs, PinPlan Pins, WirePlan Wires)
{
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
        var plan = PinPlanning.Of(needs.Value, Dimmers(light), wish, before.Value);
        findings.AddRange(before.Findings.Concat(needs.Findings).Concat(plan.Findings));
        var nets = WireNets.Of(plan.Value, needs.Value, wish.LampAmperes);
        return new(needs.Value, plan.Value, withWires ? WirePlanning.Of(laid, nets, wish, [.. laid.Panels.Select(panel => Emitters(light, panel.Panel.Id))], cancellation) : new(nets, [], 0));
    }

    /// <summary>Where emitters stand, those of cells too.</summary>
    private static ImmutableArray<Point<PanelSpace>> Emitters(DeskLight light, string panel) => light.Panels.FirstOrDefault(one => one.Laid.Panel.Id == panel) is { } lit
        ? [.. lit.Emitters.Concat(lit.Cells.SelectMany(cell => cell.Emitters)).Select(emitter => emitter.At)]
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
        var names = new HashSet<string>();
        return
        [
            .. circuit.Channels.Where(channel => channel.Switch is not null).Select(channel =>
            {
                var (name, number) = (channel.Channel.Name, 1);
                while (!names.Add(name))
                {
                    name = string.Create(CultureInfo.InvariantCulture, $"{channel.Channel.Name} ({++number})");
                }

                return new DimmerNeed(name, circuit.Dimming.PwmHertz, general.Contains(channel.Channel.Name) ? null : items[channel.Channel.Name].FirstOrDefault());
            }),
        ];
    }
}
