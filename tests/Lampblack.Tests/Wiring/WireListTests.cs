using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using System.Threading;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Tests.Checks;
using Lampblack.Wiring;
using Xunit;

namespace Lampblack.Tests.Wiring;

/// <summary>The lists that a maker solders by, read back: they join what the plan says, and nothing else.</summary>
public sealed class WireListTests
{
    public static TheoryData<string> Desks =>
    [
        "dome-desk", "yard-board", "kiln",
        WiredDesk.Toml(WiredDesk.Many("toggle-mini-on-off-on", 40) + WiredDesk.Many("rotary-12x30", 3, "r", top: 600) + WiredDesk.Many("encoder-m7-push", 3, "e", top: 500) + WiredDesk.Many("button-16-lit", 6, "b", top: 400), wiring: "ladders = false"),
        WiredDesk.Toml(WiredDesk.Many("button-12-momentary", 120) + WiredDesk.Many("pot-9mm", 3, "p", top: 500), "ATmega328P"),
        WiredDesk.Toml(WiredDesk.Many("rotary-12x30", 5) + WiredDesk.Many("toggle-mini-on-on", 30, "t", top: 600)),
    ];

    [Theory]
    [MemberData(nameof(Desks))]
    public void Following_the_lists_leads_from_every_terminal_to_its_pin(string desk)
    {
        var (plan, needs, wires, _) = Wired(desk);
        var joined = Joined(wires);
        foreach (var controller in plan.Controllers)
        {
            foreach (var need in needs.Where(need => need.Part is not null && plan.Controls.Single(control => control.Id == need.Id).Controller == controller.Index))
            {
                var item = need.Part!.Origin.Item;
                var contacts = controller.Contacts.Where(contact => contact.ItemId == need.Id).ToList();
                foreach (var (contact, planned) in need.Contacts.Zip(contacts))
                {
                    var (common, thrown) = (End($"{item} {contact.Common}"), End($"{item} {contact.Throw}"));
                    switch (planned.Place)
                    {
                        case MatrixInput matrix:
                            // Current must find its way from row to column: a diode's band looks to the column's side.
                            var (row, column) = (controller.Rows[matrix.Row].Header, controller.Columns[matrix.Column].Header);
                            Assert.True(
                                (common.Contains(row) && thrown.Contains(column) && Inline(item, contact.Throw, column) == InlinePart.DiodeToWire)
                                || (common.Contains(column) && thrown.Contains(row) && Inline(item, contact.Throw, row) == InlinePart.DiodeToTerminal),
                                $"{need.Id}: {string.Join(' ', common)} / {string.Join(' ', thrown)}");
                            break;
                        case ChainInput chain:
                            Assert.Equal(["GND"], common);
                            Assert.Equal([$"shift register {chain.Chip + 1}, input {(char)('A' + chain.Input)}"], thrown);
                            break;
                        case DirectInput direct:
                            Assert.Equal(["GND"], common);
                            Assert.Equal([direct.Pin.Header], thrown);
                            break;
                    }
                }

                if (controller.Wipers.FirstOrDefault(wiper => wiper.ItemId == need.Id) is { } wiper)
                {
                    Assert.Equal(("GND", wiper.Pin.Header, "5V"), (End($"{item} 1").Single(), End($"{item} 2").Single(), End($"{item} 3").Single()));
                }

                if (controller.Encoders.FirstOrDefault(encoder => encoder.ItemId == need.Id) is { } encoder)
                {
                    Assert.Equal((encoder.PhaseA.Header, "GND", encoder.PhaseB.Header), (End($"{item} A").Single(), End($"{item} C").Single(), End($"{item} B").Single()));
                }

                if (controller.Indicators.FirstOrDefault(lamp => lamp.ItemId == need.Id) is { } lamp)
                {
                    var place = lamp.Place is DirectOutput output ? output.Pin.Header : lamp.Place is ChainOutput chain ? $"shift register {chain.Chip + 1}, output {(char)('A' + chain.Output)}" : "";
                    Assert.Equal((place, "GND"), (End($"{item} +").Single(), End($"{item} -").Single()));
                }
            }
        }

        HashSet<string> End(string terminal) => joined.TryGetValue(terminal, out var ends) ? ends : [];

        InlinePart Inline(string item, string terminal, string pin) => wires.Panels.SelectMany(panel => panel.Wires)
            .SelectMany(wire => new[] { (wire.Net, End: wire.From), (wire.Net, End: wire.To) })
            .Where(end => end.End.Item == item && end.End.Terminal == terminal && wires.Nets.Nets.Single(net => net.Name == end.Net).ControllerEnd == pin)
            .Select(end => end.End.Inline).Distinct().Single();
    }

    [Theory]
    [MemberData(nameof(Desks))]
    public void No_two_nets_share_a_terminal_but_through_a_part_between(string desk)
    {
        var (_, _, wires, _) = Wired(desk);
        var plain = wires.Nets.Nets.SelectMany(net => net.Terminals.Where(terminal => terminal.Inline == InlinePart.None).Select(terminal => (Key: $"{terminal.PartItem} {terminal.Terminal}", net.Name)));
        Assert.All(plain.GroupBy(pair => pair.Key), group => Assert.Single(group.Select(pair => pair.Name).Distinct()));
    }

    [Theory]
    [MemberData(nameof(Desks))]
    public void Wires_are_as_long_as_their_ways_and_run_between_the_bodies(string desk)
    {
        var (_, _, wires, laid) = Wired(desk);
        foreach (var panel in wires.Panels)
        {
            foreach (var wire in panel.Wires)
            {
                var way = wire.Way.Zip(wire.Way.Skip(1), (from, to) => (from, to)).ToList();
                Assert.All(way, step => Assert.True(Math.Abs(step.from.XMm - step.to.XMm) < 1e-6 || Math.Abs(step.from.YMm - step.to.YMm) < 1e-6));
                var slack = laid.Desk.Controller!.SlackMm + (wire.From.Item == panel.Plug!.Name ? 150 : 0);
                Assert.InRange(wire.LengthMm, way.Sum(step => step.from.DistanceMm(step.to)) + slack - 1e-6, way.Sum(step => step.from.DistanceMm(step.to)) + slack + 5);
                Assert.Equal(0, wire.LengthMm % 5);
            }

            // Bodies that a wire has no business at are crossed by few: only where nothing else is possible.
            var crossed = panel.Wires.SelectMany(wire => panel.Laid.Parts.Where(part => part.Part.Body is not null && part.Origin.Item != wire.From.Item && part.Origin.Item != wire.To.Item)
                .Where(part => wire.Way.Zip(wire.Way.Skip(1)).Any(step => Inside(part.Body().Bounds.Grow(-1), step.First, step.Second)))).Count();
            Assert.True(crossed <= 0.02 * panel.Wires.Length, $"{panel.Laid.Panel.Id}: {crossed} of {panel.Wires.Length}");
        }
    }

    [Fact]
    public void Looms_keep_clear_of_emitters()
    {
        var laid = CheckedDesk.Laid(WiredDesk.Toml(WiredDesk.Many("button-12-momentary", 20)));
        var needs = WiringNeeds.Of(laid).Value;
        var plan = PinPlanning.Of(needs, [], laid.Desk.Controller!).Value;
        var without = WirePlanning.Of(laid, WireNets.Of(plan, needs, 0.005), laid.Desk.Controller!, [], [], CancellationToken.None);

        // Emitters stand in the middle of the longest stretches that looms take without them.
        ImmutableArray<Point<PanelSpace>> emitters =
        [
            .. without.Panels[0].Wires.SelectMany(wire => wire.Way.Zip(wire.Way.Skip(1), (from, to) => (Middle: from + (0.5 * (to - from)), Length: from.DistanceMm(to))))
                .Where(step => step.Length > 25).DistinctBy(step => (Math.Round(step.Middle.XMm / 10), Math.Round(step.Middle.YMm / 10))).OrderByDescending(step => step.Length).Take(6).Select(step => step.Middle),
        ];
        var with = WirePlanning.Of(laid, WireNets.Of(plan, needs, 0.005), laid.Desk.Controller!, [emitters], [], CancellationToken.None);
        Assert.True(Near(without) >= 6);
        Assert.Equal(0, Near(with));

        int Near(DeskWires wires) => wires.Panels[0].Wires.Sum(wire => wire.Way.Zip(wire.Way.Skip(1)).Sum(step => emitters.Count(at => Inside(new Box<PanelSpace>(at.XMm - 1, at.YMm - 1, 2, 2), step.First, step.Second))));
    }

    [Fact]
    public void A_panel_s_plug_has_a_contact_for_each_of_its_nets_and_the_tables_say_the_same()
    {
        var (_, _, wires, _) = Wired("dome-desk");
        Assert.Equal(["J1", "J2"], wires.Panels.Select(panel => panel.Plug!.Name));
        foreach (var panel in wires.Panels)
        {
            Assert.Equal(panel.Wires.Select(wire => wire.Net).Distinct(), panel.Plug!.Contacts.Select(contact => contact.Net));
        }

        var rows = Encoding.UTF8.GetString(WireTables.Wires(wires).AsSpan()).Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Skip(1).ToList();
        Assert.Equal(wires.Panels.Sum(panel => panel.Wires.Length), rows.Count);
        Assert.Equal(wires.Panels.Sum(panel => panel.Plug!.Contacts.Length), Encoding.UTF8.GetString(WireTables.Plugs(wires).AsSpan()).Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Length - 1);
        Assert.Contains(rows, row => row.Contains('Ω', StringComparison.Ordinal));
    }

    [Fact]
    public void Tests_with_a_meter_name_leads_so_that_a_diode_conducts()
    {
        var (plan, needs, wires, _) = Wired(WiredDesk.Toml(WiredDesk.Many("toggle-mini-on-off-on", 40)));
        var tests = ContinuityTests.Of(plan, needs, wires.Nets);
        Assert.Equal(80, tests.Length);
        var inMatrix = plan.Controllers[0].Contacts.Where(contact => contact.Place is MatrixInput).Select(contact => contact.ItemId.Split('/')[^1]).ToHashSet();
        var crossings = tests.Where(test => inMatrix.Contains(test.Control.Split(',')[0])).ToList();
        Assert.Equal(plan.Controllers[0].Contacts.Count(contact => contact.Place is MatrixInput), crossings.Count);
        Assert.NotEmpty(crossings);
        Assert.All(crossings, test => Assert.StartsWith("R", test.Red, StringComparison.Ordinal));
        Assert.All(crossings, test => Assert.StartsWith("C", test.Black, StringComparison.Ordinal));
        Assert.All(crossings, test => Assert.StartsWith("diode range", test.Expect, StringComparison.Ordinal));
        Assert.All(tests.Except(crossings), test => Assert.Equal(("0V (GND)", "beep"), (test.Red, test.Expect[..4])));
        var direct = Wired(WiredDesk.Toml(WiredDesk.Many("toggle-mini-on-on", 2)));
        Assert.Equal("c1, lever up: D14 to 0V (GND): beep; lever down: nothing", string.Join(' ', ContinuityTests.Of(direct.Plan, direct.Needs, direct.Wires.Nets).Take(1).Select(test => $"{test.Control}: {test.Black} to {test.Red}: {test.Expect}")));
    }

    /// <summary>Said aloud at the bench: a bare number has its kind before it, two of one name their item behind, and so has one that is called like another one's item.</summary>
    [Fact]
    public void Controls_are_named_as_one_says_them()
    {
        string[] ids = ["board/point-1", "board/point.2", "board/speed.1", "board/speed.2", "board/siding-taken.1", "board/turn.push", "board/lever.1", "board/lever.2"];
        string[] names = ["1", "3", "SPEED", "SPEED", "board/siding-taken.1", "TABLE, push", "2", "3"];
        var spoken = SpokenNames.Of([.. ids.Zip(names, (id, name) => new WiredNeed { Id = id, Name = name, Kind = WiredKind.States, Panel = 0 })]);
        Assert.Equal(["point 1", "point 3", "SPEED (speed.1)", "SPEED (speed.2)", "siding taken 1", "TABLE, push", "lever 2 (lever.1)", "lever 3"], ids.Select(id => spoken[id]));
    }

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void Tags_of_the_examples_stand_clear_and_all_find_room(string desk)
    {
        foreach (var panel in Wired(desk).Wires.Panels)
        {
            var drawing = LoomDrawing.Of(panel);
            Assert.Empty(drawing.Untagged);
            var layers = drawing.Layers.ToDictionary(layer => layer.Id, layer => layer.Region);
            foreach (var other in new[] { "looms", "bodies", "terminals", "terminal-names", "plug", "holes" })
            {
                Assert.True(layers["tags"].Intersect(layers[other]).AreaMm2 < 1e-6, other);
            }

            Assert.True(layers["plug"].Intersect(layers["bodies"]).AreaMm2 < 1e-6);

            // A terminal's name covers no dot and no edge, and stands beside the wires: none is interrupted for it, however many run there.
            var clear = layers["terminal-names"].Grow(0.2);
            var plateMm = panel.Laid.Panel.WidthMm;
            var ways = Region<BackSpace>.Union(panel.Wires.SelectMany(wire => wire.Way.Zip(wire.Way.Skip(1))).Select(side => Box<BackSpace>.Between(new(plateMm - side.First.XMm, side.First.YMm), new(plateMm - side.Second.XMm, side.Second.YMm)).Grow(0.2)).Select(Region<BackSpace>.Rectangle));
            Assert.True(layers["terminal-names"].Intersect(layers["looms"].Grow(0.05)).AreaMm2 < 1e-6, $"{desk}: names on looms");
            Assert.True(ways.Except(layers["looms"]).Intersect(clear).AreaMm2 < 1e-6, $"{desk}: {ways.Except(layers["looms"]).Intersect(clear).AreaMm2} mm2 of wires are cut for names");
            Assert.True(layers["terminal-names"].Intersect(layers["terminals"].Union(layers["body-edges"])).AreaMm2 < 1e-6);
            Assert.True(layers["terminal-names"].Intersect(ways).AreaMm2 < 1e-6, $"{desk}: {layers["terminal-names"].Intersect(ways).AreaMm2} mm2 of names on wires");

            // What is right from the front is left from behind.
            var width = panel.Laid.Panel.WidthMm;
            var part = panel.Laid.Parts.First(part => panel.Wires.Any(wire => wire.To.Item == part.Origin.Item));
            Assert.True(layers["bodies"].Contains(new Point<BackSpace>(width - part.Centre.XMm, part.Centre.YMm)));
        }
    }

    internal static (PinPlan Plan, ImmutableArray<WiredNeed> Needs, DeskWires Wires, LaidDesk Laid) Wired(string desk)
    {
        var laid = desk.Contains('\n', StringComparison.Ordinal) ? CheckedDesk.Laid(desk) : WiredDesk.Example(desk);
        var needs = WiringNeeds.Of(laid).Value;
        var plan = PinPlanning.Of(needs, [], laid.Desk.Controller!).Value;
        return (plan, needs, WirePlanning.Of(laid, WireNets.Of(plan, needs, laid.Desk.Controller!.LampAmperes), laid.Desk.Controller!, [], [], CancellationToken.None), laid);
    }

    /// <summary>For each terminal the places at the controller that wires lead to, by the lists alone: wires on the panel, plugs' contacts, cables.</summary>
    private static Dictionary<string, HashSet<string>> Joined(DeskWires wires)
    {
        var found = new Dictionary<string, HashSet<string>>();
        foreach (var panel in wires.Panels.Where(panel => panel.Plug is not null))
        {
            // One end of a chain's first wire is the plug; a solder joint is a terminal and what lies between it and the wire.
            var at = new Dictionary<(string, string, InlinePart), string>();
            foreach (var wire in panel.Wires)
            {
                var goes = wire.From.Item == panel.Plug!.Name
                    ? panel.Plug.Contacts.Single(contact => contact.Number.ToString(System.Globalization.CultureInfo.InvariantCulture) == wire.From.Terminal).ControllerEnd
                    : at[(wire.From.Item, wire.From.Terminal, wire.From.Inline)];
                if (!at.TryAdd((wire.To.Item, wire.To.Terminal, wire.To.Inline), goes))
                {
                    Assert.Equal(at[(wire.To.Item, wire.To.Terminal, wire.To.Inline)], goes);
                }

                if (!found.TryGetValue($"{wire.To.Item} {wire.To.Terminal}", out var ends))
                {
                    found[$"{wire.To.Item} {wire.To.Terminal}"] = ends = [];
                }

                ends.Add(goes);
            }
        }

        return found;
    }

    private static bool Inside(Box<PanelSpace> box, Point<PanelSpace> from, Point<PanelSpace> to) =>
        Math.Min(from.XMm, to.XMm) < box.RightMm && Math.Max(from.XMm, to.XMm) > box.LeftMm && Math.Min(from.YMm, to.YMm) < box.TopMm && Math.Max(from.YMm, to.YMm) > box.BottomMm;
}
