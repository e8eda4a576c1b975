using System.Linq;
using Lampblack.Link;
using Xunit;

namespace Lampblack.Tests.Link;

/// <summary>Starts of the panel, and answers that come late: encoders count from the start, so that one not noticed would be a turn that nobody made.</summary>
public sealed class LinkStartTests
{
    [Fact]
    public void A_panel_that_starts_anew_is_told_and_no_turn_is_made_up()
    {
        var line = LinkSessionTests.Connected();
        line.Panel.Turn(0, 100);
        line.Run();
        line.Said();
        Line fresh = line.WithFreshPanel();
        fresh.Panel.ResetCause = 8;
        fresh.Panel.Start();
        fresh.Run();
        Assert.Equal([LineState.Restarted, LineState.Connected], fresh.States());
        Assert.Empty(fresh.Said());
    }

    /// <summary>A greeting that lay on the line is answered once more; a frame that got lost before the answer is a gap, no start, and no turn is forgotten.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(3)]
    public void A_late_answer_to_a_greeting_is_no_start(int lost)
    {
        var line = LinkSessionTests.Connected();
        line.Panel.Turn(0, 8);
        line.Run();
        line.Said();
        line.Panel.Lost = lost;
        line.Panel.Turn(0, 8);
        line.Panel.Alive(1);
        line.Panel.Alive(2);
        line.Panel.AnswerHello();
        line.Run();
        Assert.Equal(lost == 0 ? [] : [LineState.Gap], line.States());
        Assert.Equal(["yard/speed 2"], line.Said());
    }

    /// <summary>A knob was turned before the start: a snapshot that is taken for one of the same run would turn it back.</summary>
    [Theory]
    [InlineData(17, false)] // the count of the new run does not carry on the old one
    [InlineData(17, true, LineState.Gap)]
    [InlineData(0, true, LineState.Gap)]
    [InlineData(1, false)]  // it does, by chance
    public void A_start_whose_hello_is_lost_is_a_start_and_makes_no_turn_up(byte next, bool isTurned, params LineState[] first)
    {
        var line = Turned(next);
        line.Panel.Forget();
        line.Panel.Lost = 1;
        line.Panel.Start();
        if (isTurned)
        {
            line.Panel.Turn(0, 4);
        }

        line.Panel.Alive(1);
        line.Run();
        Assert.Equal([.. first, LineState.Restarted, LineState.Connected], line.States());
        Assert.Empty(line.Said());
        line.Panel.Turn(0, 4);
        line.Run();
        Assert.Equal(["yard/speed 1"], line.Said());
    }

    /// <summary>The first frame of another run has by chance the number that was due (one in 256), and it is an encoder's: where it stands does not follow from where it stood.</summary>
    [Fact]
    public void A_frame_of_another_run_that_carries_on_the_count_makes_no_turn_up()
    {
        var line = Turned(1);
        line.Panel.Forget();
        line.Panel.Lost = 1;
        line.Panel.Start();
        line.Panel.Turn(0, 4);
        line.Run();
        Assert.Empty(line.Said());
        Assert.Equal([LineState.Gap, LineState.Restarted, LineState.Connected], line.States());
        line.Panel.Turn(0, 4);
        line.Run();
        Assert.Equal(["yard/speed 1"], line.Said());
    }

    /// <summary>Two starts within a second, the second hello lost: both runs tell 0 seconds, and the count alone shows it, whatever comes first.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_start_within_the_first_second_of_another_makes_no_turn_up(bool isTurned)
    {
        var line = LinkSessionTests.Connected();
        line.Panel.Turn(0, 100);
        line.Run();
        Assert.Equal(["yard/speed 25"], line.Said());
        for (var way = 4; line.Panel.Sequence < 60; way = -way)
        {
            line.Panel.Turn(0, way);
        }

        line.Run();
        line.Said();
        line.Panel.Forget();
        line.Panel.Lost = 1;
        line.Panel.Start();
        if (isTurned)
        {
            line.Panel.Turn(0, 4);
        }
        else
        {
            line.Panel.Move(0, 700);
        }

        line.Run();
        Assert.DoesNotContain(line.Said(), said => said.StartsWith("yard/speed", System.StringComparison.Ordinal));
        Assert.Equal([LineState.Restarted, LineState.Connected], line.States());
    }

    /// <summary>A few frames lost in the first second are a loss as at any time: what was turned is told.</summary>
    [Fact]
    public void Frames_lost_in_the_first_second_are_no_start()
    {
        var line = LinkSessionTests.Connected();
        line.Panel.Lost = 5;
        for (var turn = 0; turn < 6; turn++)
        {
            line.Panel.Turn(0, 4);
        }

        line.Run();
        Assert.Equal([LineState.Gap], line.States());
        Assert.Equal(["yard/speed 6"], line.Said());
    }

    /// <summary>An engine that tells its time with its pulse alone may have run for days when it is first heard: until then a burst of losses is a loss, and what was turned is told.</summary>
    [Fact]
    public void Frames_lost_before_the_panel_told_its_time_are_no_start()
    {
        Line line = new();
        line.Panel.TellsTime = false;
        line.Open();
        line.Wait(30);
        line.Events.Clear();
        line.Panel.Lost = 20;
        for (var turn = 0; turn < 21; turn++)
        {
            line.Panel.Turn(0, 4);
        }

        line.Run();
        Assert.Equal([LineState.Gap], line.States());
        Assert.Equal(["yard/speed 21"], line.Said());
    }

    /// <summary>What was put into another state before the panel was asked is told as it stands: a contact that is closed at the start says nothing by itself.</summary>
    [Fact]
    public void What_was_operated_before_the_panel_was_connected_is_told_as_it_stands()
    {
        Line line = new();
        line.Panel.Contacts[2] = true;
        line.Panel.Start();
        line.Panel.Set(0, true);
        line.Open();
        line.Wait(30);
        Assert.Equal(["yard/points MAIN", "yard/call in"], line.Said().Where(said => said.StartsWith("yard/points", System.StringComparison.Ordinal) || said.StartsWith("yard/call", System.StringComparison.Ordinal)));
    }

    /// <summary>The count is through and begins again at 0, just when a second answer to a greeting comes.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(251, LineState.Gap)]
    public void A_late_answer_that_has_number_0_is_no_start(byte next, params LineState[] told)
    {
        var line = Turned(next);
        line.Panel.Turn(0, 8);
        line.Panel.Take();
        line.Panel.Sequence = 0;
        line.Panel.AnswerHello();
        line.Run();
        Assert.Equal(told, line.States());
        Assert.Equal(["yard/speed 2"], line.Said());
    }

    // Engines that tell the time each second only: a hello with number 0 is rather taken for a start, and no turn is made up.
    [Theory]
    [InlineData(0, true)]
    [InlineData(251, true)]
    [InlineData(0, false)]
    public void A_start_that_says_hello_is_a_start_whatever_was_counted(byte next, bool tellsTime)
    {
        var line = Turned(next, tellsTime);
        line.Panel.Forget();
        line.Panel.Start();
        line.Run();
        Assert.Equal([LineState.Restarted, LineState.Connected], line.States());
        Assert.Empty(line.Said());
    }

    /// <summary>The greeting after a start whose hello was lost gets lost too, and the panel goes on telling what happens at it: it is greeted again all the same.</summary>
    [Fact]
    public void A_panel_that_talks_is_greeted_again_until_it_answers()
    {
        var line = Turned(17);
        line.Panel.Forget();
        line.Panel.Lost = 1;
        line.Panel.Start();
        line.Panel.Deaf = 1;
        for (var beat = 0; beat < 8; beat++)
        {
            line.Panel.Alive(1);
            line.Run();
            Assert.Equal(beat >= 5, line.Session.IsLive);
            line.Wait(100);
        }

        Assert.Equal([LineState.Restarted, LineState.Connected], line.States());
    }

    /// <summary>A frame is lost before an answer that has number 0, and one behind it: what was lost is told once.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void What_was_lost_before_a_late_answer_is_told_once(bool isTurned)
    {
        var line = Turned(251);
        line.Panel.Turn(0, 4);
        line.Panel.Take();
        line.Panel.Sequence = 0;
        line.Panel.AnswerHello();
        line.Panel.Lost = 1;
        line.Panel.Turn(0, 4);
        if (isTurned)
        {
            line.Panel.Turn(0, 4);
        }

        line.Panel.Alive(61);
        line.Run();
        Assert.Equal([LineState.Gap], line.States());
        Assert.Equal([isTurned ? "yard/speed 3" : "yard/speed 2"], line.Said());
    }

    /// <summary>65535 seconds are 18 hours; then the panel's time begins again.</summary>
    [Fact]
    public void A_time_that_is_through_is_no_start()
    {
        var line = LinkSessionTests.Connected();
        foreach (var seconds in new[] { 30000, 60000, 65535, 0, 1 })
        {
            line.Panel.Alive(seconds);
            line.Run();
        }

        Assert.Empty(line.States());
    }

    [Fact]
    public void Another_cause_of_the_start_is_a_start_whatever_its_number()
    {
        var line = LinkSessionTests.Connected();
        line.Panel.ResetCause = 2;
        line.Panel.AnswerHello();
        line.Run();
        Assert.Equal([LineState.Restarted, LineState.Connected], line.States());
    }

    /// <summary>Connected for a minute, a knob turned, and the panel's count come so far that the next frame has this number.</summary>
    private static Line Turned(byte next, bool tellsTime = true)
    {
        var line = LinkSessionTests.Connected();
        line.Panel.TellsTime = tellsTime;
        line.Panel.Turn(0, 100);
        for (line.Panel.Alive(60); line.Panel.Sequence != next; line.Panel.Alive(60))
        {
        }

        line.Run();
        Assert.Empty(line.States());
        Assert.Equal(["yard/speed 25"], line.Said());
        return line;
    }
}
