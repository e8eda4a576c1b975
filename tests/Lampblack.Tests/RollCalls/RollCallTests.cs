using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.RollCalls;
using Lampblack.Tests.Checks;
using Lampblack.Tests.Link;
using Lampblack.Tests.Wiring;
using Lampblack.Wiring;
using Xunit;

namespace Lampblack.Tests.RollCalls;

public sealed class RollCallTests
{
    [Fact]
    public void Every_position_direction_end_and_lamp_is_asked_for()
    {
        var (record, maker, _) = Call(panel => { });
        Assert.True(record.IsGood);
        Assert.Equal(
            ["yard/points", "yard/call", "yard/road", "yard/speed", "yard/volume", "yard/scene", "yard/call.lamp", "legends"],
            record.Results.Select(result => result.Id));
        Assert.Equal(0, maker.Entered);
        Assert.NotEmpty(record.Bounces);
    }

    [Theory]
    [InlineData("diode", "The diode of the contact of POINTS for LOOP is the wrong way round: its band points to the column, D36 (column 2).")]
    [InlineData("phases", "The terminals A and B of SPEED are exchanged: swap the wires at D49 (SPEED, terminal A) and D48 (SPEED, terminal B).")]
    [InlineData("ends", "The two ends of VOLUME are exchanged: swap 0 V and 5 V at its outer terminals.")]
    [InlineData("throws", "Two throws are exchanged: swap the wires of the contact of POINTS for MAIN and the contact of POINTS for LOOP, or turn the part by half a turn.")]
    [InlineData("stuck", "The contact of ROAD for 3 is always closed: its terminals are bridged, or the contact sticks.")]
    public void What_is_wrong_is_said_first_and_in_words_of_the_bench(string fault, string sentence)
    {
        var (record, _, _) = Call(panel =>
        {
            switch (fault)
            {
                case "diode":
                    panel.ReverseDiode(1);
                    break;
                case "phases":
                    panel.ExchangePins(Yard.Encoders[0].PhaseA, Yard.Encoders[0].PhaseB);
                    break;
                case "ends":
                    panel.ExchangeEnds(0);
                    break;
                case "throws":
                    panel.ExchangeContacts(0, 1);
                    break;
                default:
                    panel.BridgeContact(5);
                    break;
            }
        });
        Assert.False(record.IsGood);
        Assert.True(record.IsOneCause);
        Assert.Equal(sentence, record.Causes[0]);
    }

    [Fact]
    public void Two_faults_at_once_are_told_control_by_control()
    {
        var (record, _, _) = Call(panel =>
        {
            panel.ExchangeEnds(0);
            panel.ReverseDiode(1);
        });
        Assert.False(record.IsOneCause);
        Assert.Contains(record.Causes, cause => cause.StartsWith("The two ends of VOLUME", StringComparison.Ordinal));
        Assert.Contains(record.Causes, cause => cause.Contains("POINTS for LOOP", StringComparison.Ordinal));
        Assert.Equal(["yard/points", "yard/volume"], record.Results.Where(result => result.Verdict == RollCallVerdict.Wrong).Select(result => result.Id));

        // Each is told its own, not what is wrong with the other.
        Assert.Equal("The two ends of VOLUME are exchanged: swap 0 V and 5 V at its outer terminals.", record.Results.Single(result => result.Id == "yard/volume").Said[0]);
        Assert.All(record.Results.Single(result => result.Id == "yard/volume").Said, said => Assert.DoesNotContain("POINTS", said, StringComparison.Ordinal));
        Assert.All(record.Results.Single(result => result.Id == "yard/points").Said, said => Assert.DoesNotContain("VOLUME", said, StringComparison.Ordinal));
        Assert.Contains("Several things are wrong; under each control stands what is likeliest.", RollCallLines.Of(record));
    }

    /// <summary>A reversed diode explains what a switch says, never that a lamp is dark.</summary>
    [Fact]
    public void A_cause_is_not_said_to_explain_a_lamp_that_stays_dark()
    {
        var (record, _, _) = Call(panel => panel.ReverseDiode(1), id => id == "yard/call.lamp" ? RollCallAnswer.No : RollCallAnswer.Done);
        Assert.True(record.IsOneCause);
        string[] lines = [.. RollCallLines.Of(record)];
        Assert.Contains(lines, line => line.Contains("The lamp of CALL stays dark", StringComparison.Ordinal));
        Assert.DoesNotContain(lines, line => line.Contains("explains it all", StringComparison.Ordinal));
        Assert.Contains(lines, line => line.Contains("explains the rest", StringComparison.Ordinal));
        Assert.Contains(lines, line => line.Contains("The diode of the contact of POINTS for LOOP", StringComparison.Ordinal));
    }

    [Fact]
    public void A_cause_that_explains_all_is_said_to()
    {
        var (record, _, _) = Call(panel => panel.ReverseDiode(1));
        string[] lines = [.. RollCallLines.Of(record)];
        Assert.Contains(lines, line => line.Contains("explains it all", StringComparison.Ordinal));
        Assert.Single(lines, line => line.Contains("The diode of the contact of POINTS for LOOP", StringComparison.Ordinal));
    }

    [Fact]
    public void A_lamp_that_stays_dark_is_known_from_the_maker_alone()
    {
        var (record, _, _) = Call(panel => { }, id => id == "legends" ? RollCallAnswer.No : RollCallAnswer.Other);
        Assert.Contains("D6", record.Results.Single(result => result.Id == "legends").Said.Single(), StringComparison.Ordinal);
        Assert.Contains("D41", record.Results.Single(result => result.Id == "yard/call.lamp").Said.Single(), StringComparison.Ordinal);
    }

    /// <summary>Rows 2 and 3 have no wires yet: of them nothing is expected, and the row that is soldered is called.</summary>
    [Fact]
    public void On_a_half_wired_panel_only_what_is_called_has_to_answer()
    {
        var (record, maker, _) = Call(
            panel =>
            {
                panel.CutPin(Yard.Rows[1]);
                panel.CutPin(Yard.Rows[2]);
                panel.CutPin(Yard.Wipers[0].Pin);
            },
            only: ["yard/points", "yard/call"]);
        Assert.True(record.IsGood);
        Assert.Equal(["yard/points", "yard/call"], record.Results.Select(result => result.Id));
        Assert.Equal(0, maker.Entered);
    }

    [Fact]
    public void What_answered_before_is_not_called_again()
    {
        var (record, _, _) = Call(panel => { }, answered: ["yard/points", "yard/speed", "legends"]);
        Assert.Equal(["yard/call", "yard/road", "yard/volume", "yard/scene", "yard/call.lamp"], record.Results.Select(result => result.Id));
    }

    [Fact]
    public void A_roll_that_is_stopped_tells_who_was_not_called()
    {
        RollCall roll = new(YardPlan.Plan, 0, [], []);
        roll.Hear([], Lampblack.Link.PanelReadings.Blank(Yard), true, 0);
        roll.Answer(RollCallAnswer.Done, 10);
        roll.Answer(RollCallAnswer.Skip, 20);
        Assert.Equal("yard/call", roll.Ask!.Id);
        roll.Answer(RollCallAnswer.Stop, 30);
        Assert.True(roll.IsDone);
        var record = roll.Record();
        Assert.False(record.IsGood);
        Assert.Equal(RollCallVerdict.Skipped, record.Results[0].Verdict);
        Assert.All(record.Results.Skip(1), result => Assert.Equal(RollCallVerdict.NotCalled, result.Verdict));

        // A panel that comes back afterwards is not asked for reports again.
        roll.TakeCommands();
        roll.Hear([], Lampblack.Link.PanelReadings.Blank(Yard), false, 40);
        roll.Hear([], Lampblack.Link.PanelReadings.Blank(Yard), true, 50);
        Assert.Empty(roll.TakeCommands());
    }

    /// <summary>A meter speaks no more than a lamp does: the maker is asked at 0, half and full, and what is wrong at one of them is not made good by the others.</summary>
    [Theory]
    [InlineData(-1, RollCallVerdict.Answered, "")]
    [InlineData(0, RollCallVerdict.Wrong, "The pointer of p/heat does not go to 0")]
    [InlineData(1, RollCallVerdict.Wrong, "The pointer of p/heat does not go where it should")]
    [InlineData(2, RollCallVerdict.Wrong, "The pointer of p/heat does not go where it should")]
    public void A_meter_is_asked_for_at_three_places(int failing, RollCallVerdict verdict, string sentence)
    {
        var desk = WiredDesk.Planned(WiredDesk.Toml(CheckedDesk.Control("meter-round-45", 100, 100, "id = \"heat\""))).Plan;
        RollCall roll = new(desk, 0, [], []);
        List<int> levels = [];
        List<string> asked = [];
        roll.Hear([], Lampblack.Link.PanelReadings.Blank(desk.Controllers[0]) with { Dimmers = [7] }, true, 0);
        roll.Answer(RollCallAnswer.Done, 10);
        for (var question = 0; !roll.IsDone; question++)
        {
            levels.AddRange(roll.TakeCommands().OfType<Lampblack.Link.SetDimmer>().TakeLast(1).Select(command => (int)command.Level));
            asked.Add(roll.Ask!.Sentence);
            roll.Answer(question == failing ? RollCallAnswer.No : RollCallAnswer.Done, 20 + question);
        }

        levels.AddRange(roll.TakeCommands().OfType<Lampblack.Link.SetDimmer>().Select(command => (int)command.Level));
        Assert.Equal([0, 32767, 65535, 0, 7], levels);
        Assert.Equal(3, asked.Distinct().Count());
        Assert.Equal((1, 1), (roll.JudgedCount, roll.Count));
        Assert.All(asked, one => Assert.Contains("the pointer of p/heat", one, StringComparison.Ordinal));
        var result = Assert.Single(roll.Record().Results);
        Assert.Equal(("p/heat", verdict), (result.Id, result.Verdict));
        Assert.StartsWith(sentence, string.Join(' ', result.Said), StringComparison.Ordinal);
    }

    /// <summary>A roll that is stopped between a meter's questions knows nothing of it; and a "no" to the last one is news.</summary>
    [Fact]
    public void A_meter_is_judged_after_its_last_question()
    {
        foreach (var answered in new[] { 1, 2 })
        {
            var stopped = Meters(1);
            for (var question = 0; question < answered; question++)
            {
                stopped.Answer(RollCallAnswer.Done, 20);
                Assert.Equal(0, stopped.JudgedCount);
            }

            stopped.Answer(RollCallAnswer.Stop, 30);
            Assert.Equal(RollCallVerdict.NotCalled, Assert.Single(stopped.Record().Results).Verdict);
        }

        var roll = Meters(1);
        roll.Answer(RollCallAnswer.Done, 20);
        roll.Answer(RollCallAnswer.Done, 21);
        roll.Answer(RollCallAnswer.No, 22);
        Assert.Equal(1, roll.JudgedCount);
        Assert.Equal(RollCallVerdict.Wrong, Assert.Single(roll.Record().Results).Verdict);
    }

    /// <summary>A meter that is left out at any of its questions is not asked for again.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public void A_meter_is_left_out_whole(int before)
    {
        var roll = Meters(2);
        for (var question = 0; question < before; question++)
        {
            roll.Answer(RollCallAnswer.Done, 20);
        }

        roll.Answer(RollCallAnswer.Skip, 30);
        Assert.Equal("p/heat2", roll.Ask!.Id);
        roll.Answer(RollCallAnswer.Stop, 40);
        Assert.Equal([RollCallVerdict.Skipped, RollCallVerdict.NotCalled], roll.Record().Results.Select(result => result.Verdict));
    }

    /// <summary>A pointer that was left at a level would be taken for one that moves in another's place.</summary>
    [Fact]
    public void All_pointers_go_to_0_first_and_back_at_the_end()
    {
        var roll = Meters(2);
        Assert.Equal([(0, 0), (1, 0), (0, 0)], Levels());
        roll.Answer(RollCallAnswer.Done, 20);
        roll.Answer(RollCallAnswer.Done, 21);
        roll.Answer(RollCallAnswer.Done, 22);
        Assert.Equal([(0, 32767), (0, 65535), (0, 0), (1, 0)], Levels());
        roll.Answer(RollCallAnswer.Stop, 23);
        Assert.Equal([(1, 0), (0, 101), (1, 102)], Levels());

        IEnumerable<(int, int)> Levels() => roll.TakeCommands().OfType<Lampblack.Link.SetDimmer>().Select(command => ((int)command.Number, (int)command.Level));
    }

    [Fact]
    public void At_0_no_other_pointer_can_move_in_its_place()
    {
        var roll = Meters(1);
        Assert.False(roll.Ask!.MayBeOther);
        var asked = roll.Ask.Sentence;
        roll.Answer(RollCallAnswer.Other, 20);
        Assert.Equal(asked, roll.Ask!.Sentence);
        roll.Answer(RollCallAnswer.Done, 21);
        Assert.True(roll.Ask!.MayBeOther);
        Assert.True(roll.Ask.IsQuestion);
    }

    /// <summary>4.75 V, a resistor 5 % high and 0.2 V in the coil: of 1 mA 0.781 are left with 5600 ohms, of 4.25 mA 0.689 of the scale with 1500; what lacks is rounded up.</summary>
    [Theory]
    [InlineData("", "up to 11 % of the scale below", "at most 22 % of the scale short")]
    [InlineData("meter-current = 4.25", "up to 16 % of the scale below", "at most 32 % of the scale short")]
    public void A_pointer_is_asked_for_as_near_as_it_can_come(string more, string middle, string end)
    {
        var roll = Meters(1, more);
        roll.Answer(RollCallAnswer.Done, 20);
        Assert.Contains(middle, roll.Ask!.Sentence, StringComparison.Ordinal);
        roll.Answer(RollCallAnswer.Done, 21);
        Assert.Contains(end, roll.Ask!.Sentence, StringComparison.Ordinal);
    }

    /// <summary>A roll-call of a kiln's meters alone, before its first question; they stand at 101, 102 and so on.</summary>
    private static RollCall Meters(int count, string more = "")
    {
        var desk = WiredDesk.Planned(WiredDesk.Toml(string.Concat(Enumerable.Range(1, count).Select(number => CheckedDesk.Control("meter-round-45", 100 * number, 100, $"id = \"heat{number}\"\n{more}"))))).Plan;
        RollCall roll = new(desk, 0, [], []);
        roll.Hear([], Lampblack.Link.PanelReadings.Blank(desk.Controllers[0]) with { Dimmers = [.. Enumerable.Range(101, count)] }, true, 0);
        roll.Answer(RollCallAnswer.Done, 10);
        return roll;
    }

    private static ControllerPlan Yard => YardPlan.Plan.Controllers[0];

    private static (RollCallRecord Record, Maker Maker, NetPanel Panel) Call(
        Action<NetPanel> fault, Func<string, RollCallAnswer>? lamp = null, string[]? only = null, string[]? answered = null)
    {
        NetPanel panel = new(Yard, new(11));
        fault(panel);
        Maker maker = new(YardPlan.Plan, panel, new(12), new(YardPlan.Plan, 0, [.. only ?? []], [.. answered ?? []]));
        maker.Prepare();
        return (maker.Call(lamp), maker, panel);
    }
}
