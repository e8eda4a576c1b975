using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Threading;
using Lampblack.Circuits;
using Lampblack.Desks;
using Lampblack.Geometry;
using Lampblack.Layout;

namespace Lampblack.Wiring;

/// <summary>Lays the wires of a desk: on each panel every net runs from the plug from terminal to terminal, in looms between the bodies.</summary>
public static class WirePlanning
{
    /// <summary>What a loom has beyond the panel's edge before its plug, so that the panel folds open. Common practice, no source.</summary>
    public const double FoldMm = 150;

    // Thinner wire breaks under the fingers, thicker is stiff. Common practice, no source.
    private const int SignalAwg = 26;
    private const double CutStepMm = 5;
    private const double PlugInsetMm = 6;
    private const double PlugStepMm = 2.5;

    /// <summary>How wide a plug is drawn.</summary>
    internal const double PlugWidthMm = 9;

    /// <summary>How high a plug is drawn.</summary>
    internal const double PlugHeightMm = 3.6;
    private const double LogicAmperes = 0.005;

    private static readonly ImmutableArray<string> Colours = ["brown", "orange", "yellow", "green", "blue", "violet", "grey", "white"];

    /// <summary>The wires.</summary>
    /// <param name="laid">The desk.</param>
    /// <param name="nets">What is joined.</param>
    /// <param name="wish">What the maker wants.</param>
    /// <param name="emitters">Where emitters stand on each panel; looms keep clear of them.</param>
    /// <param name="walled">What stands on each panel's back: cells, blocks of wood; looms go round them.</param>
    /// <param name="cancellation">Stops the work between two wires.</param>
    public static DeskWires Of(
        LaidDesk laid, WireNets nets, ControllerWish wish, ImmutableArray<ImmutableArray<Point<PanelSpace>>> emitters, ImmutableArray<ImmutableArray<Box<PanelSpace>>> walled, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(laid);
        ArgumentNullException.ThrowIfNull(nets);
        ArgumentNullException.ThrowIfNull(wish);
        var panels = ImmutableArray.CreateBuilder<PanelWires>();
        var number = 1;
        foreach (var (index, panel) in laid.Panels.Index())
        {
            var here = nets.Nets.OrderBy(net => net.IsLocal).Select(net => net with { Terminals = [.. net.Terminals.Where(terminal => terminal.Panel == index)] }).Where(net => !net.Terminals.IsEmpty).ToList();
            if (here.Count == 0)
            {
                panels.Add(new(panel, null, []));
                continue;
            }

            var router = new LoomRouter(panel, index < emitters.Length ? emitters[index] : [], index < walled.Length ? walled[index] : []);
            var plug = new PanelPlug(
                "J" + Digits(index + 1),
                PlugPlace(panel, router, [.. here.SelectMany(net => net.Terminals).Select(terminal => terminal.At)]),
                [.. here.Where(net => !net.IsLocal).Select((net, contact) => new PlugContact(contact + 1, net.Name, net.Controller, net.ControllerEnd) { Register = net.Register })]);
            var wires = ImmutableArray.CreateBuilder<PlannedWire>();
            foreach (var (contact, net) in here.Index())
            {
                cancellation.ThrowIfCancellationRequested();
                var from = (End: new WireEnd(plug.Name, Digits(contact + 1)), plug.At);
                var (colour, awg) = (Colour(net, contact), Awg(net, wish));
                var chain = Chain(plug.At, net.Terminals);
                if (net.IsLocal)
                {
                    from = (new(net.Terminals[0].PartItem, net.Terminals[0].Terminal), net.Terminals[0].At);
                    chain = net.Terminals[1..];
                }

                foreach (var terminal in chain)
                {
                    var way = router.Way(from.At, terminal.At);
                    var length = LoomRouter.LengthMm(way) + wish.SlackMm + (from.End.Item == plug.Name ? FoldMm : 0);
                    var end = new WireEnd(terminal.PartItem, terminal.Terminal, terminal.Inline, terminal.InlineOhms);
                    wires.Add(new(number++, net.Name, from.End, end, Math.Ceiling((length / CutStepMm) - 1e-9) * CutStepMm, colour, awg, way));
                    from = (end, terminal.At);
                }
            }

            panels.Add(new(panel, plug, wires.ToImmutable()));
        }

        var plan = new DeskWires(nets, panels.ToImmutable());
        return plan with { Panels = [.. plan.Panels.Select((panel, index) => panel with { CableMm = CableMm(plan, index, wish) })] };
    }

    /// <summary>
    /// As long as the maker wants it; from the other panels it must reach the controller's, too: to the middle of the wall that is farther up on the panel, along the panels
    /// between, which stand side by side in their order, and to the middle of that one.
    /// </summary>
    private static double CableMm(DeskWires plan, int index, ControllerWish wish)
    {
        var least = wish.CableMm + wish.SlackMm;
        var home = plan.Home is { } one ? plan.Panels.IndexOf(one) : index;
        if (home == index)
        {
            return least;
        }

        var row = plan.Panels.Select(panel => (panel.Laid.Panel.WidthMm, panel.Laid.Panel.HeightMm)).ToList();
        return Math.Max(least, Math.Ceiling((BoxWay.BetweenMm(row, index, home) + wish.SlackMm) / CutStepMm) * CutStepMm);
    }

    /// <summary>Terminals one after the other: always the nearest next, then stretches turned about while that shortens the whole.</summary>
    internal static ImmutableArray<NetTerminal> Chain(Point<PanelSpace> start, ImmutableArray<NetTerminal> terminals)
    {
        var (chain, waiting) = (new List<NetTerminal>(), terminals.ToList());
        for (var at = start; waiting.Count > 0; at = chain[^1].At)
        {
            var next = waiting.MinBy(terminal => Far(at, terminal.At))!;
            chain.Add(next);
            waiting.Remove(next);
        }

        for (var improved = true; improved;)
        {
            improved = false;
            for (var first = 0; first < chain.Count - 1; first++)
            {
                for (var last = first + 1; last < chain.Count; last++)
                {
                    var before = first == 0 ? start : chain[first - 1].At;
                    var gain = Far(before, chain[first].At) - Far(before, chain[last].At)
                        + (last == chain.Count - 1 ? 0 : Far(chain[last].At, chain[last + 1].At) - Far(chain[first].At, chain[last + 1].At));
                    if (gain > 1e-6)
                    {
                        chain.Reverse(first, last - first + 1);
                        improved = true;
                    }
                }
            }
        }

        return [.. chain];
    }

    private static double Far(Point<PanelSpace> one, Point<PanelSpace> two) => Math.Abs(one.XMm - two.XMm) + Math.Abs(one.YMm - two.YMm);

    /// <summary>Where the loom leaves: at the lower edge, as near to all terminals as a free place is; at the upper one, or in the middle of the lower, where none is free.</summary>
    private static Point<PanelSpace> PlugPlace(LaidPanel laid, LoomRouter router, ImmutableArray<Point<PanelSpace>> terminals)
    {
        var (width, height) = (laid.Panel.WidthMm, laid.Panel.HeightMm);
        foreach (var y in new[] { PlugInsetMm, height - PlugInsetMm })
        {
            var free = Enumerable.Range(1, Math.Max(1, (int)(width / PlugStepMm) - 1)).Select(step => new Point<PanelSpace>(step * PlugStepMm, y))
                .Where(at => router.IsFree(new(at.XMm - (PlugWidthMm / 2), at.YMm - (PlugHeightMm / 2), PlugWidthMm, PlugHeightMm))).ToList();
            if (free.Count > 0)
            {
                return free.MinBy(at => terminals.Sum(terminal => Far(at, terminal)));
            }
        }

        return new(width / 2, Math.Min(PlugInsetMm, height / 2));
    }

    private static string Colour(WireNet net, int index) => net.Role switch
    {
        NetRole.Zero => "black",
        NetRole.Supply => "red",
        _ => Colours[index % Colours.Length],
    };

    /// <summary>The thinnest wire that is good to handle and carries what all that hangs on the net can draw.</summary>
    private static int Awg(WireNet net, ControllerWish wish)
    {
        var amperes = net.Terminals.Length * Math.Max(LogicAmperes, wish.LampAmperes);
        return WireGauge.Usual.FirstOrDefault(gauge => gauge.Awg <= SignalAwg && gauge.SafeAmperes >= amperes)?.Awg ?? WireGauge.Usual[^1].Awg;
    }

    private static string Digits(int number) => number.ToString(CultureInfo.InvariantCulture);
}
