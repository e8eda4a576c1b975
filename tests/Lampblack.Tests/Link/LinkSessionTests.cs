using System.Linq;
using Lampblack.Link;
using Xunit;

namespace Lampblack.Tests.Link;

public sealed class LinkSessionTests
{
    private const uint Hash = 0xC0FFEE42;

    [Fact]
    public void A_panel_says_who_it_is_and_where_everything_stands()
    {
        Line line = new();
        line.Panel.Contacts[3] = true;
        line.Open();
        Assert.Equal([LineState.Waiting, LineState.Connected], line.States());
        Assert.Equal(["yard/points OFF", "yard/call out", "yard/road 1", "yard/volume 0", "yard/scene DAY"], line.Said());
        Assert.True(line.Session.IsLive);
    }

    [Fact]
    public void What_the_hand_does_is_told_once()
    {
        var line = Connected();
        line.Panel.Set(0, true);
        line.Panel.Set(2, true);
        line.Panel.Set(2, false);
        line.Panel.Turn(0, 8);
        line.Panel.Turn(0, -2);
        line.Panel.Turn(0, -2);
        line.Panel.Move(0, 2046);
        line.Panel.Stand(0, 2, 4000);
        line.Run();
        Assert.Equal(["yard/points MAIN", "yard/call in", "yard/call out", "yard/speed 2", "yard/speed -1", "yard/volume 0.5", "yard/scene NIGHT"], line.Said());
    }

    [Fact]
    public void Between_two_positions_of_a_selector_nothing_is_told_for_20_ms()
    {
        var line = Connected();
        line.Panel.Set(3, true);
        line.Run();
        line.Said();
        line.Panel.Set(3, false);
        line.Run();
        line.Wait(19);
        Assert.Empty(line.Said());
        line.Panel.Set(4, true);
        line.Run();
        Assert.Equal(["yard/road 2"], line.Said());
        line.Panel.Set(4, false);
        line.Run();
        line.Wait(21);
        Assert.Equal(["yard/road none"], line.Said());
    }

    [Fact]
    public void A_lost_frame_is_noticed_and_made_good()
    {
        var line = Connected();
        line.Panel.Lost = 1;
        line.Panel.Set(0, true);
        line.Panel.Set(2, true);
        line.Run();
        Assert.Contains(LineState.Gap, line.States());
        Assert.Equal(["yard/points MAIN", "yard/call in"], line.Said());
        Assert.Equal(2, line.Panel.Commands.Count(command => command is AskSnapshot));
        line.Panel.Set(2, false);
        line.Run();
        Assert.Equal(["yard/call out"], line.Said());
    }

    /// <summary>An encoder far from 0, and a switch and a lever that do not stand at the beginning: what is not heard of them must not be taken for something.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    [InlineData(7)]
    [InlineData(8)]
    public void A_lost_frame_of_the_first_snapshot_turns_no_knob_and_throws_no_switch(int lost)
    {
        Line line = new();
        line.Panel.Turn(0, 120);
        line.Panel.Move(0, 2046);
        line.Panel.Stand(0, 2, 4000);
        line.Panel.Contacts[0] = true;
        line.Panel.Contacts[3] = true;
        line.Panel.Take();
        line.OpenHalf(lost);
        line.Wait(2500);
        Assert.True(line.Session.IsLive);
        Assert.Equal([LineState.Waiting, LineState.Gap, LineState.Connected], line.States());
        Assert.Equal(["yard/points MAIN", "yard/call out", "yard/road 1", "yard/volume 0.5", "yard/scene NIGHT"], line.Said());
        line.Panel.Turn(0, 4);
        line.Run();
        Assert.Equal(["yard/speed 1"], line.Said());
    }

    /// <summary>What changed meanwhile is told once and as it is, although the first answer lacks it.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(8)]
    public void A_lost_frame_of_a_later_snapshot_hides_nothing_and_makes_nothing_up(int lost)
    {
        var line = Connected();
        line.Panel.Turn(0, 120);
        line.Run();
        Assert.Equal(["yard/speed 30"], line.Said());
        line.Panel.Turn(0, -8);
        line.Panel.Contacts[2] = true;
        line.Panel.Take();
        line.LoseTwice(lost);
        line.Wait(2500);
        Assert.Equal([LineState.Gap, LineState.Gap], line.States());
        Assert.Equal(["yard/call in", "yard/speed -2"], line.Said());
    }

    [Theory]
    [InlineData(2, Hash, LineState.OtherVersion, "version 2 of the link")]
    [InlineData(1, Hash + 1, LineState.OtherPlan, "another desk")]
    public void A_panel_that_does_not_fit_is_told_apart_and_not_listened_to(byte version, uint hash, LineState expected, string words)
    {
        Line line = new(hash);
        line.Panel.LinkVersion = version;
        line.Open();
        line.Panel.Set(0, true);
        line.Run();
        line.Wait(5000);
        var told = Assert.Single(line.Events.OfType<LineEvent>(), one => one.State == expected);
        Assert.Contains(words, told.Said, System.StringComparison.Ordinal);
        Assert.Empty(line.Said());
        Assert.False(line.Session.IsLive);
    }

    [Fact]
    public void A_panel_with_other_counts_is_told_apart_even_when_no_hash_is_known()
    {
        var plan = YardPlan.Plan.Controllers[0];
        Line line = new(Hash, new(plan with { Contacts = plan.Contacts[..5] }));
        line.Open();
        Assert.Contains("5 contacts", Assert.Single(line.Events.OfType<LineEvent>(), one => one.State == LineState.OtherPlan).Said, System.StringComparison.Ordinal);
    }

    [Fact]
    public void A_command_is_sent_again_until_it_is_acknowledged()
    {
        var line = Connected();
        line.Panel.Deaf = 2;
        line.Tell("yard/call.lamp", 1);
        line.Wait(400);
        Assert.Equal([1], line.Panel.Indicators);
        line.Tell("legends", 0.25);
        Assert.Equal([16384], line.Panel.Dimmers);
        Assert.Empty(line.States());
        Assert.Null(line.Session.SetOf("yard/points", 1));
        Assert.Null(line.Session.SetOf("legends", 1.5));
    }

    [Fact]
    public void A_command_for_a_panel_that_says_nothing_wakes_nobody_before_its_time()
    {
        LinkSession session = new(new(YardPlan.Plan, [Hash]));
        session.Open(1000);
        session.Tell(session.SetOf("yard/call.lamp", 1)!, 1010);
        Assert.Equal(1500, session.DueMs);
        session.Tick(1500);
        Assert.Equal(2000, session.DueMs);
    }

    [Fact]
    public void A_command_that_gets_no_answer_wakes_nobody_before_it_is_sent_again()
    {
        var line = Connected();
        line.Panel.Deaf = 1;
        var before = line.Session.DueMs;
        line.Tell("yard/call.lamp", 1);
        Assert.InRange(line.Session.DueMs - before, -3000 + 150, -3000 + 200);
    }

    [Fact]
    public void A_command_that_is_never_acknowledged_is_told_and_the_next_goes_on()
    {
        var line = Connected();
        line.Panel.Deaf = 5;
        line.Tell("yard/call.lamp", 1);
        line.Tell("legends", 1);
        line.Wait(1000);
        Assert.Equal([LineState.Refused], line.States());
        Assert.Equal([65535], line.Panel.Dimmers);
    }

    [Fact]
    public void Silence_is_told_and_ends_by_itself()
    {
        var line = Connected();
        line.Panel.Set(0, true);
        line.Run();
        line.Said();
        line.IsCut = true;
        line.Wait(3100);
        Assert.Equal([LineState.Silent], line.States());
        line.IsCut = false;
        line.Panel.Contacts[0] = false;
        line.Wait(1000);
        Assert.Equal([LineState.Connected], line.States());
        Assert.Equal(["yard/points OFF"], line.Said());
    }

    [Fact]
    public void A_pulse_each_second_is_not_silence()
    {
        var line = Connected();
        for (var second = 0; second < 10; second++)
        {
            line.Panel.Alive(second);
            line.Wait(1000);
        }

        Assert.Empty(line.Events);
    }

    [Fact]
    public void Rubbish_between_frames_does_no_harm()
    {
        XorShift chance = new(7);
        var line = Connected();
        for (var round = 0; round < 300; round++)
        {
            line.Rubbish([.. Enumerable.Range(0, chance.Below(60)).Select(_ => (byte)chance.Below(256)), 0]);
            line.Panel.Set(2, round % 2 == 0);
            line.Run();
            Assert.Equal([round % 2 == 0 ? "yard/call in" : "yard/call out"], line.Said());
        }
    }

    internal static Line Connected()
    {
        Line line = new();
        line.Open();
        line.Wait(30);
        line.Events.Clear();
        return line;
    }
}
