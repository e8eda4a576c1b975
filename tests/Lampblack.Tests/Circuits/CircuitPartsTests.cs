using System;
using System.Linq;
using System.Text;
using Lampblack.Circuits;
using Xunit;

namespace Lampblack.Tests.Circuits;

public sealed class CircuitPartsTests
{
    [Fact]
    public void The_list_counts_every_lamp_and_every_resistor()
    {
        var random = new Random(5);
        foreach (var _ in Enumerable.Range(0, 100))
        {
            var plan = CircuitDesign.Of(CircuitPropertyTests.Sound(random));
            var parts = CircuitParts.Of(plan);
            var switches = plan.Channels.Count(channel => channel.Switch is not null);
            Assert.Equal(plan.Channels.Sum(channel => channel.Channel.Count), parts.Where(part => part.What == "lamp diode").Sum(part => part.Count));
            Assert.Equal(plan.Channels.Sum(channel => channel.Strings.Sum(kind => kind.StringCount)) + (2 * switches), parts.Where(part => part.What == "resistor").Sum(part => part.Count));
            Assert.Equal(switches, parts.Count(part => part.Label.StartsWith('Q')));
            var labels = parts.Select(part => part.Label).Where(label => label.Length > 0).ToList();
            Assert.Equal(labels.Count, labels.Distinct().Count());
        }
    }

    [Fact]
    public void Pixels_come_with_what_their_data_and_supply_need()
    {
        var wish = Wishes.Of(5, Wishes.Pixels(10));
        Assert.Equal(["RD1", "CL1"], CircuitParts.Of(CircuitDesign.Of(wish)).Select(part => part.Label).Where(label => label is not ("" or "F1")));
        Assert.Contains(CircuitParts.Of(CircuitDesign.Of(wish with { ControllerVolts = 3.3 })), part => part.What == "level shifter");
    }

    [Fact]
    public void A_transistor_is_made_for_more_than_comes_and_its_sheet_states_it_at_the_pin_s_volts()
    {
        foreach (var (controller, gate) in new[] { (5.0, 4.5), (3.3, 2.5) })
        {
            foreach (var units in new[] { 1, 10, 100, 300 })
            {
                var plan = CircuitDesign.Of(Wishes.Of(24, Wishes.Strip(24, 0.02, 6, units * 6)) with { ControllerVolts = controller });
                var (one, most) = (plan.Channels[0].Switch!, plan.Channels[0].HighestAmperes);
                Assert.Equal(gate, one.GateVolts);
                Assert.InRange(one.DrainVolts, 1.5 * 26.4, 100);
                Assert.InRange(one.DrainAmperes, 2 * most, double.MaxValue);
                Assert.InRange(one.OnOhms * most, 0, 0.01 * 24 * (1 + 1e-9));
                Assert.InRange(one.LossWatts, 0, 0.25 * (1 + 1e-9));

                // A pin gives what its sheet states levels for: 20 mA at 5 V, 12 mA at 3.3 V.
                Assert.InRange(controller / one.GateOhms, 0.005, controller > 4 ? 0.02 : 0.012);
            }
        }
    }

    [Fact]
    public void The_table_is_one_row_for_each_part_and_keeps_commas_in_their_fields()
    {
        var channel = new LampChannel("\"North\", upper", new SingleDiodes(DiodeCurve.Red, 0.015, 0.03), 4, IsDimmed: true);
        var plan = CircuitDesign.Of(Wishes.Of(12, channel));
        var lines = Encoding.UTF8.GetString(CircuitParts.Csv(plan).AsSpan()).Split("\r\n");
        Assert.Equal("label,part,value,rating,count,note", lines[0]);
        Assert.Equal(CircuitParts.Of(plan).Length + 2, lines.Length);
        Assert.Equal(string.Empty, lines[^1]);
        Assert.Contains(lines, line => line.EndsWith(",4,\"\"\"North\"\", upper\"", StringComparison.Ordinal));
    }
}
