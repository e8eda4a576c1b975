using System.Collections.Immutable;
using System.Text;
using Lampblack.Edits;
using Lampblack.Jobs;
using Lampblack.Tests.Suites;
using Lampblack.Tests.Wiring;
using Xunit;

namespace Lampblack.Tests.Edits;

/// <summary>What an edit costs, in the few words near the hand: a print as long as nothing is drilled, and wires only where some are laid.</summary>
public sealed class EditPriceTests
{
    private const string Desk = """
        lampblack = 1
        [controller]
        chip = "ATmega2560"
        [[panel]]
        id = "p"
        size = [120, 60]
          [[panel.control]]
          id = "pump"
          part = "toggle-mini-on-on"
          at = [25, 25]
          legend = "PUMP"
          states = ["ON", "OFF"]
          [[panel.control]]
          id = "heat"
          part = "pot-9mm"
          at = [60, 25]
          legend = "HEAT"
          [[panel.legend]]
          id = "cold"
          text = "COLD"
          at = [95, 50]
        """;

    private static readonly string Drilled = Desk.Replace("at = [60, 25]", "at = [60, 25]\n  drilled = [0.2, -0.1]", System.StringComparison.Ordinal);

    private static readonly ImmutableArray<byte> Plan = WiringPlanFile.Written(WiredDesk.Planned(Desk).Plan);

    public static TheoryData<string, DeskEdit, string> Prices => new()
    {
        // Nothing drilled, nothing wired: whatever it is, paper will do.
        { "plain", new MoveItems([new("p/pump", 3, 0)]), "a new print" },
        { "plain", new SetWords("p/pump", ["WELL"]), "a new print" },
        { "plain", new SetKey("p/heat", "part", KeyValue.Of("rotary-6x30")), "a new print" },
        { "plain", new RemoveItems(["p/heat"]), "a new print" },
        { "plain", new SetKey("p", "size", new KeyList([new KeyNumber(130), new KeyNumber(60)])), "a new print" },

        // A plate that is drilled asks for another hole, or is lost.
        { "drilled", new MoveItems([new("p/cold", 3, 0)]), "a new print" },
        { "drilled", new MoveItems([new("p/pump", 3, 0)]), "a new print and a new hole" },
        { "drilled", new CopyItems(["p/pump"], 30, 0), "a new print and a new hole" },
        { "drilled", new MoveItems([new("p/heat", 3, 0)]), "a new plate" },
        { "drilled", new RemoveItems(["p/heat"]), "a new plate" },
        { "drilled", new SetKey("p", "size", new KeyList([new KeyNumber(130), new KeyNumber(60)])), "a new plate" },

        // What is wired already keeps its wires where it can.
        { "wired", new MoveItems([new("p/pump", 3, 0)]), "a new print" },
        { "wired", new SetWords("p/pump", ["WELL"]), "a new print" },
        { "wired", new SetKey("p/pump", "part", KeyValue.Of("toggle-submini-on-on")), "a new print" },
        { "wired", new SetKey("p/heat", "part", KeyValue.Of("rotary-6x30")), "a new print; other wires for HEAT" },
        { "wired", new SetKey("p/cold", "ink", KeyValue.Of("amber")), "a new print" },
        { "wired", new RemoveItems(["p/heat", "p/pump"]), "a new print; other wires for PUMP, HEAT" },
        { "wired", new AddItem("p", "control", [("part", KeyValue.Of("pot-9mm")), ("at", new KeyList([new KeyNumber(95), new KeyNumber(20)])), ("legend", KeyValue.Of("FAN"))]), "a new print; other wires for FAN" },
        { "both", new RemoveItems(["p/heat"]), "a new plate; other wires for HEAT" },

        // What is refused, or changes nothing, costs nothing.
        { "both", new SetKey("p/pump", "part", KeyValue.Of("no-such-part")), "" },
        { "both", new MoveItems([new("p/pump", 0, 0)]), "" },
    };

    [Theory]
    [MemberData(nameof(Prices))]
    public void A_price_is_no_higher_than_the_bench_asks(string state, DeskEdit edit, string price)
    {
        var desk = Encoding.UTF8.GetBytes(state is "drilled" or "both" ? Drilled : Desk);
        Assert.Equal(price, Edit.Price(ExampleDesks.Alone(desk), edit, state is "wired" or "both" ? Plan : []));
    }
}
