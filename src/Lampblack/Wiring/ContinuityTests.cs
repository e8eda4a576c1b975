using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;

namespace Lampblack.Wiring;

/// <summary>One look with the meter.</summary>
/// <param name="Number">From 1.</param>
/// <param name="Control">What to hold or turn; empty where nothing.</param>
/// <param name="Red">Where the red lead goes.</param>
/// <param name="Black">Where the black lead goes.</param>
/// <param name="Expect">What the meter has to say.</param>
public sealed record ContinuityTest(int Number, string Control, string Red, string Black, string Expect)
{
    internal const string Tag = "tag ";

    /// <summary>Whether its black lead goes to a tag of a part, not to an end of the cable.</summary>
    public bool IsAtTag => Black.StartsWith(Tag, StringComparison.Ordinal);
}

/// <summary>Tests with a meter before the controller is plugged in: every net at the controller's end of the cable, every contact through its diode, and wires from part to part at their tags.</summary>
public static class ContinuityTests
{
    /// <summary>The tests, in the order of the work: nothing shorted, then control by control in the desk's order.</summary>
    /// <param name="plan">The pin plan.</param>
    /// <param name="needs">What it was made for.</param>
    /// <param name="nets">What is joined.</param>
    public static ImmutableArray<ContinuityTest> Of(PinPlan plan, ImmutableArray<WiredNeed> needs, WireNets nets)
    {
        var tests = new List<ContinuityTest>();
        var names = SpokenNames.Of(needs);
        void Add(string control, string red, string black, string expect) => tests.Add(new(tests.Count + 1, control, red, black, expect));
        foreach (var controller in plan.Controllers)
        {
            var here = nets.Nets.Where(net => net.Controller == controller.Index).ToList();
            if (here.Any(net => net.Role == NetRole.Supply))
            {
                Add("all knobs and selectors in the middle", End(here.First(net => net.Role == NetRole.Supply)), End(here.First(net => net.Role == NetRole.Zero)), "no beep: 5V and 0V are not shorted");
            }

            foreach (var need in needs)
            {
                var terminals = here.SelectMany(net => net.Terminals.Where(terminal => terminal.ItemId == need.Id).Select(terminal => (Net: net, Terminal: terminal))).ToList();
                switch (need.Kind)
                {
                    case WiredKind.States when controller.Contacts.Any(contact => contact.ItemId == need.Id):
                        foreach (var contact in need.Contacts)
                        {
                            var common = terminals.First(one => one.Terminal.Terminal == contact.Common);
                            var thrown = terminals.First(one => one.Terminal.Terminal == contact.Throw);
                            var position = need.Positions[contact.Closed.IndexOf(true)];
                            var open = contact.Closed.IndexOf(false);
                            var (red, black) = thrown.Terminal.Inline == InlinePart.DiodeToTerminal ? (thrown, common) : (common, thrown);
                            var isDiode = thrown.Terminal.Inline != InlinePart.None;
                            Add($"{names[need.Id]}, {SpokenNames.Standing(need, position)}", End(red.Net), End(black.Net), (isDiode ? "diode range: about 0.6 V, and nothing with the leads exchanged" : "beep") + $"; {SpokenNames.Standing(need, need.Positions[open])}: nothing");
                        }

                        break;
                    case WiredKind.States when terminals.Count > 0:
                        var pin = terminals.First(one => one.Net.Role == NetRole.Signal).Net;
                        Add($"{names[need.Id]}, {SpokenNames.Standing(need, need.Positions[0])}", End(pin), End(here.First(net => net.Role == NetRole.Zero)), "beep; at each further position some ohms more");
                        break;
                    case WiredKind.Encoder:
                        foreach (var phase in terminals.Where(one => one.Net.Role == NetRole.Signal))
                        {
                            Add($"{names[need.Id]}, turned slowly", End(phase.Net), End(here.First(net => net.Role == NetRole.Zero)), $"beep comes and goes (phase {phase.Terminal.Terminal})");
                        }

                        break;
                    case WiredKind.Analog when terminals.Count > 0:
                        Add($"{names[need.Id]}, turned up", End(terminals.First(one => one.Net.Role == NetRole.Signal).Net), End(here.First(net => net.Role == NetRole.Zero)), "ohms rise from about 0");
                        break;
                    case WiredKind.Meter when terminals.Count > 0:
                        var ohms = terminals.Max(one => one.Terminal.InlineOhms);
                        Add(names[need.Id], End(terminals.First(one => one.Net.Role == NetRole.Signal).Net), End(here.First(net => net.Role == NetRole.Zero)), string.Create(CultureInfo.InvariantCulture, $"ohms: {ohms:0} and a little more; the pointer may twitch, and then to the right"));
                        break;
                    case WiredKind.Indicator when terminals.Count > 0:
                        Add(names[need.Id], End(terminals.First(one => one.Net.Role == NetRole.Signal).Net), End(here.First(net => net.Role == NetRole.Zero)), "diode range: the lamp glows faintly, or about 1.8 V and more; nothing with the leads exchanged");
                        break;
                    case WiredKind.Data:
                        foreach (var (net, terminal) in terminals.Where(one => !one.Net.IsLocal))
                        {
                            Add(names[need.Id], End(net), $"{ContinuityTest.Tag}{terminal.Terminal} of {names[need.Id]}", terminal.Inline == InlinePart.Resistor ? string.Create(CultureInfo.InvariantCulture, $"ohms: {terminal.InlineOhms:0} and a little more or less; at every other wire's end nothing") : "beep; at every other wire's end nothing");
                        }

                        foreach (var net in terminals.Select(one => one.Net).Where(net => net.IsLocal && net.Terminals[^1].ItemId == need.Id))
                        {
                            var (from, to) = (net.Terminals[0], net.Terminals[^1]);
                            Add(names[need.Id], $"{ContinuityTest.Tag}{from.Terminal} of {names[from.ItemId]}", $"{ContinuityTest.Tag}{to.Terminal} of {names[to.ItemId]}", $"beep: {net.Name} joins them");
                        }

                        break;
                }
            }
        }

        foreach (var wire in nets.Adapters)
        {
            Add($"{wire.Name}, {AdapterWire.Adapter} not plugged in", $"{wire.From} of the adapter’s pin row", $"{plan.At(wire.Controller)}{wire.Pin} at the controller’s pin row", "beep; at the other two nothing");
        }

        return [.. tests];
    }

    /// <summary>A net as one holds a lead to it.</summary>
    private static string End(WireNet net) => (net.Register?.AtSocket ?? net.ControllerEnd) is var end && end == net.Name ? net.Name : $"{net.Name} ({end})";
}
