using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Lampblack.Link;

namespace Lampblack.Tests.Link;

/// <summary>A session and a scripted panel at the two ends of a line, and the time.</summary>
internal sealed class Line(uint hash = 0xC0FFEE42, ScriptedPanel? panel = null, LinkSession? session = null)
{
    private long ms = 1000;

    public LinkSession Session { get; } = session ?? new(new(YardPlan.Plan, [0xC0FFEE42]));

    public ScriptedPanel Panel { get; } = panel ?? new(YardPlan.Plan.Controllers[0], hash);

    public List<LinkEvent> Events { get; } = [];

    /// <summary>Whether nothing gets through.</summary>
    public bool IsCut { get; set; }

    public void Open()
    {
        Take(Session.Open(ms));
        Run();
    }

    /// <summary>Opens, and loses a frame of the first answer to the question where everything stands.</summary>
    /// <param name="lost">0 its acknowledgement, 1 the time, 2 contacts, 3 encoders, 4 wipers, 5 ladders, 6 indicators, 7 dimmers, 8 its end.</param>
    public void OpenHalf(int lost)
    {
        Take(Session.Open(ms));
        var hello = Panel.Take();
        Take(Session.Receive(hello, ms));
        var snapshot = Panel.Take();
        Take(Session.Receive(Without(snapshot, lost), ms));
        Run();
    }

    /// <summary>A frame of the panel gets lost, which shows; then one of the answer to the question where everything stands.</summary>
    public void LoseTwice(int lost)
    {
        Panel.Alive(1);
        Panel.Take();
        Panel.Alive(2);
        Take(Session.Receive(Panel.Take(), ms));
        Take(Session.Receive(Without(Panel.Take(), lost), ms));
        Run();
    }

    public void Tell(string id, double level)
    {
        Take(Session.Tell(Session.SetOf(id, level)!, ms));
        Run();
    }

    public void Rubbish(byte[] bytes) => Take(Session.Receive(bytes, ms));

    /// <summary>Everything on the line arrives.</summary>
    public void Run()
    {
        for (var bytes = Panel.Take(); bytes.Length > 0; bytes = Panel.Take())
        {
            if (!IsCut)
            {
                Take(Session.Receive(bytes, ms));
            }
        }
    }

    public void Wait(int milliseconds)
    {
        for (var end = ms + milliseconds; ms < end;)
        {
            ms++;
            Take(Session.Tick(ms));
            Run();
        }
    }

    /// <summary>The same session with a panel that has just got power.</summary>
    public Line WithFreshPanel() => new(panel: new(YardPlan.Plan.Controllers[0]), session: Session) { ms = ms };

    /// <summary>What controls did since the last call.</summary>
    public List<string> Said()
    {
        List<string> said = [.. Events.Select(Text).OfType<string>()];
        Events.RemoveAll(one => Text(one) is not null);
        return said;
    }

    /// <summary>What the line did since the last call.</summary>
    public List<LineState> States()
    {
        List<LineState> states = [.. Events.OfType<LineEvent>().Select(one => one.State)];
        Events.RemoveAll(one => one is LineEvent);
        return states;
    }

    private static byte[] Without(byte[] packets, int lost)
    {
        int[] ends = [0, .. packets.Index().Where(one => one.Item == 0).Select(one => one.Index + 1)];
        return [.. packets[..ends[lost]], .. packets[ends[lost + 1]..]];
    }

    private static string? Text(LinkEvent happened) => happened switch
    {
        StateEvent state => $"{state.Id} {state.State ?? "none"}",
        TurnEvent turn => string.Create(CultureInfo.InvariantCulture, $"{turn.Id} {turn.Steps}"),
        TravelEvent travel => string.Create(CultureInfo.InvariantCulture, $"{travel.Id} {travel.ValueShare}"),
        _ => null,
    };

    private void Take(LinkStep step)
    {
        Events.AddRange(step.Events);
        if (!IsCut)
        {
            Panel.Receive(step.Send.AsSpan());
        }
    }
}
