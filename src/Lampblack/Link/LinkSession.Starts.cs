namespace Lampblack.Link;

/// <content>Whether a panel started, answered late, or lost a frame. Its encoders count from their start: one that is not noticed would be a turn that nobody made.</content>
public sealed partial class LinkSession
{
    /// <summary>In the panel's first second its time can't tell a start from a loss; so many frames are not lost at once (own measure, no source).</summary>
    private const int MostLost = 16;

    private const string Lost = "Some of what the panel said was lost; it was asked where everything stands.";

    private void Greet(HelloFrame hello, long ms)
    {
        var wasConnected = phase is Phase.Reading or Phase.Live;
        if (wasConnected && Hello is { } known && hello == known with { Sequence = hello.Sequence } && (hello.Sequence != 0 || uptime.CanTell))
        {
            // A second answer, to a greeting that lay on the line while the panel started. A panel that starts anew counts from 0, but so does one whose count is through.
            if (hello.Sequence == 0)
            {
                doubt = nextSequence != 0;
                AskWhere(ms);
            }
            else if (hello.Sequence != nextSequence)
            {
                Miss(ms);
            }

            return;
        }

        var wasRefused = phase == Phase.Refused;
        Hello = hello;
        if (LinkWords.Mismatch(hello, expected) is { } mismatch)
        {
            // Said once, not each time the panel is asked again.
            if (!wasRefused)
            {
                Tell(ms, mismatch.State, mismatch.Said);
            }

            phase = Phase.Refused;
            commands.Clear();
            return;
        }

        if (wasConnected)
        {
            Tell(ms, LineState.Restarted, Started(hello));
            commands.Clear();
        }

        uptime.Forget();
        doubt = null;

        if (controller != hello.Controller || states is null)
        {
            controller = hello.Controller;
            states = new(expected.Plan, controller);
            Readings = PanelReadings.Blank(expected.Plan.Controllers[controller]);
        }

        isRebased = false;
        AskWhere(ms);
    }

    /// <summary>
    /// Whether a frame of an encoder follows from what was known of it: an engine tells how far it was turned and where it stands then.
    /// The first frame of another run may by chance have the number that was due.
    /// </summary>
    private bool CarriesOn(PanelFrame frame) => frame is not EncoderFrame encoder
        || encoder.Number >= Readings.Encoders.Length
        || (short)(encoder.Position - Readings.Encoders[encoder.Number].Position) == encoder.Delta;

    /// <summary>What the panel tells of its time, or a count that leapt in its first second, shows that its hello was lost: it is greeted again.</summary>
    private void Restart(long ms)
    {
        Tell(ms, LineState.Restarted, doubt is null ? "The panel started anew, and what it said first was lost." : Started(Hello!));
        phase = Phase.Greeting;
        commands.Clear();
        (askedMs, mustGreet) = (ms, true);
    }

    /// <summary>The same run goes on: a doubtful hello was a late answer.</summary>
    /// <returns>Whether a loss was told.</returns>
    private bool Settle(long ms)
    {
        var isLost = doubt == true;
        if (isLost)
        {
            Tell(ms, LineState.Gap, Lost);
        }

        doubt = null;
        return isLost;
    }

    private void Miss(long ms)
    {
        Tell(ms, LineState.Gap, Lost);

        // What was missing before a doubtful hello is told with it.
        doubt = doubt is null ? null : false;
        AskWhere(ms);
    }

    private static string Started(HelloFrame hello) => $"The panel started anew ({LinkWords.ResetCause(hello.ResetCause)}).";
}
