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

    /// <summary>What was found of the meter that is asked for.</summary>
    private ImmutableArray<string> pointer = [];

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
            // A pointer that stands anywhere would be taken for one that moves in another's place.
            Meters(_ => 0);
            Switch(lamps[at], true);
        }
    }

    /// <summary>All meters of the controller, where any is asked for.</summary>
    private void Meters(System.Func<int, int> level)
    {
        if (lamps.Any(lamp => lamp.MeterShare is not null))
        {
            commands.AddRange(plan.Dimmers.Index().Where(one => one.Item.IsMeter).Select(one => new SetDimmer((byte)one.Index, (ushort)level(one.Index))));
        }
    }

    private void Switch(Lamp lamp, bool isOn) => commands.Add(lamp.MeterShare is not null && !isOn ? new SetDimmer((byte)lamp.Number, 0) : lamp.IsDimmer
        ? new SetDimmer((byte)lamp.Number, isOn ? (ushort)(ushort.MaxValue * (lamp.MeterShare ?? 1)) : (ushort)levelsBefore[lamp.Number])
        : new SetIndicator((byte)lamp.Number, isOn));

    private void Light(RollCallAnswer answer)
    {
        var lamp = lamps[at];
        if (lamp.MeterShare is null or 1 || answer == RollCallAnswer.Skip)
        {
            Switch(lamp, false);
        }

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
            RollCallAnswer.No when lamp.MeterShare == 0 => [$"The pointer of {lamp.Name} does not go to 0: turn the screw on its face until it does; if it moves at once when its wire is taken off {where}, that wire touches another."],
            RollCallAnswer.No when lamp.MeterShare is not null => [$"The pointer of {lamp.Name} does not go where it should: is its + at the resistor and its - at 0 V, the resistor the one of the wire list, its wire at {where}?"],
            RollCallAnswer.Other when lamp.MeterShare is not null => [$"Another meter moves in place of {lamp.Name}: its wire at {where} is exchanged with that meter's, swap the two."],
            RollCallAnswer.No when lamp.IsDimmer => [$"The light of {lamp.Name} stays dark: is its supply on, its fuse whole, the transistor's gate at {where}?"],
            RollCallAnswer.No => [$"The lamp of {lamp.Name} stays dark: is it the right way round (its longer lead towards plus), its resistor in, its wire at {where}?"],
            RollCallAnswer.Other => [$"Another lamp shines in place of {lamp.Name}: its wire at {where} is exchanged with that lamp's, swap the two."],
            _ => [],
        };
        said.AddRange(found.Except(pointer));
        pointer = [.. pointer.Union(found)];

        // Of a meter nothing is known before its last question: a roll that is stopped between them asks for it anew.
        if (lamp.MeterShare is null or 1 || answer == RollCallAnswer.Skip)
        {
            results[lamp.Id] = new(
                lamp.Id,
                lamp.Name,
                !pointer.IsEmpty ? RollCallVerdict.Wrong : answer == RollCallAnswer.Skip ? RollCallVerdict.Skipped : RollCallVerdict.Answered,
                pointer);
            pointer = [];
            while (at + 1 < lamps.Length && lamps[at + 1].Id == lamp.Id)
            {
                at++;
            }
        }

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

    /// <summary>At 0 no pointer moves, and so none in another's place.</summary>
    private static bool MayBeOther(Lamp lamp) => lamp.MeterShare != 0;

    /// <summary>How far short of where it is sent a pointer may stop, in hundredths of its scale.</summary>
    private int ShortPercent(Lamp lamp) => (int)System.Math.Ceiling(100 * lamp.MeterShare!.Value * (1 - MeterResistor.LeastShare(plan.Dimmers[lamp.Number].FullScaleAmperes)));

    private string Question(Lamp lamp) => lamp.MeterShare switch
    {
        0 => $"Does the pointer of {lamp.Name} stand at 0?",
        1 => System.FormattableString.Invariant($"Does the pointer of {lamp.Name} stand near the end of its scale, at most {ShortPercent(lamp)} % of the scale short of it?"),
        not null => System.FormattableString.Invariant($"Does the pointer of {lamp.Name} stand in the middle of its scale or up to {ShortPercent(lamp)} % of the scale below, and no other one?"),
        _ => lamp.IsDimmer ? $"Is the light of {lamp.Name} fully on?" : $"Does the lamp of {lamp.Name} shine, and only that one?",
    };

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

        if (phase == Phase.Lamps)
        {
            Meters(number => levelsBefore[number]);
        }

        phase = Phase.Done;
        commands.Add(new ReportBounce(false));
        said.AddRange(bounces.OrderBy(one => one.Key).Where(one => one.Value.Ticks >= LongBounceTicks)
            .Select(one => RollCallWords.Bounce(words.Contact(one.Key), one.Value.Changes, one.Value.Ticks)));
    }

    /// <summary>Something that shines, or a meter at one of the levels that are asked for.</summary>
    private sealed record Lamp(string Id, string Name, int Number, bool IsDimmer)
    {
        /// <summary>Of a meter: where its pointer is to stand, 0 to 1.</summary>
        public double? MeterShare { get; init; }
    }
}
