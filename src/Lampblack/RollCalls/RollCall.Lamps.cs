using System.Collections.Immutable;
using System.Linq;
using Lampblack.Link;
using Lampblack.Wiring;

namespace Lampblack.RollCalls;

/// <content>Lamps say nothing themselves: the maker is asked.</content>
public sealed partial class RollCall
{
    /// <summary>As many causes are told at once; they come in the order in which to look.</summary>
    private const int Named = 3;

    /// <summary>Bounce from here on is told: the lock-out of 20 ms has little left (own measure, no source).</summary>
    private const int LongBounceTicks = 15 * 8;

    private void StartLamps()
    {
        phase = Phase.Lamps;
        at = 0;
        if (lamps.IsEmpty)
        {
            End();
        }
        else
        {
            Switch(lamps[at], true);
        }
    }

    private void Switch(Lamp lamp, bool isOn) => commands.Add(lamp.IsDimmer
        ? new SetDimmer((byte)lamp.Number, isOn ? ushort.MaxValue : (ushort)levelsBefore[lamp.Number])
        : new SetIndicator((byte)lamp.Number, isOn));

    private void Light(RollCallAnswer answer)
    {
        var lamp = lamps[at];
        Switch(lamp, false);
        var where = lamp.IsDimmer
            ? words.Pin(plan.Dimmers[lamp.Number].Pin)
            : plan.Indicators[lamp.Number].Place switch
            {
                DirectOutput direct => words.Pin(direct.Pin),
                ChainOutput chain => System.FormattableString.Invariant($"output {(char)('A' + chain.Output)} of shift register {chain.Chip + 1}"),
                _ => string.Empty,
            };
        ImmutableArray<string> found = answer switch
        {
            RollCallAnswer.No when lamp.IsDimmer => [$"The light of {lamp.Name} stays dark: is its supply on, its fuse whole, the transistor's gate at {where}?"],
            RollCallAnswer.No => [$"The lamp of {lamp.Name} stays dark: is it the right way round (its longer lead towards plus), its resistor in, its wire at {where}?"],
            RollCallAnswer.Other => [$"Another lamp shines in place of {lamp.Name}: its wire at {where} is exchanged with that lamp's, swap the two."],
            _ => [],
        };
        results[lamp.Id] = new(
            lamp.Id,
            lamp.Name,
            answer switch { RollCallAnswer.Done => RollCallVerdict.Answered, RollCallAnswer.Skip => RollCallVerdict.Skipped, _ => RollCallVerdict.Wrong },
            found);
        said.AddRange(found);
        at++;
        if (at == lamps.Length)
        {
            End();
        }
        else
        {
            Switch(lamps[at], true);
        }
    }

    private void End()
    {
        if (phase == Phase.Done)
        {
            return;
        }

        if (phase == Phase.Lamps && at < lamps.Length)
        {
            Switch(lamps[at], false);
        }

        phase = Phase.Done;
        commands.Add(new ReportBounce(false));
        said.AddRange(bounces.OrderBy(one => one.Key).Where(one => one.Value.Ticks >= LongBounceTicks)
            .Select(one => RollCallWords.Bounce(words.Contact(one.Key), one.Value.Changes, one.Value.Ticks)));
    }

    /// <summary>Something that shines.</summary>
    private sealed record Lamp(string Id, string Name, int Number, bool IsDimmer);
}
