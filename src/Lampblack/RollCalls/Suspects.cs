using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Parts;
using Lampblack.Wiring;

namespace Lampblack.RollCalls;

/// <summary>Every single fault that could have to do with what did not fit, the likeliest first.</summary>
internal static class Suspects
{
    /// <summary>Faults in a fixed order: what is often done wrong goes before what seldom is (common practice, no source).</summary>
    /// <param name="plan">The controller.</param>
    /// <param name="misfits">What did not fit.</param>
    public static IEnumerable<Fault> Of(ControllerPlan plan, IReadOnlyCollection<Misfit> misfits)
    {
        var contacts = misfits.Where(one => one.Kind == MisfitKind.Contact).Select(one => one.Number).Distinct().Order().ToImmutableArray();
        var all = Enumerable.Range(0, plan.Contacts.Length).ToImmutableArray();
        var pins = misfits.SelectMany(one => PinsOf(plan, one)).Distinct().ToImmutableArray();
        var every = WiringModel.PinsOf(plan).ToImmutableArray();
        bool IsOdd(ControllerPin pin) => pins.Contains(pin);
        var exchanged = Pairs(pins, every).OrderByDescending(pair => IsOdd(pair.One) && IsOdd(pair.Other)).ToList();
        var joined = Pairs(pins, every).OrderBy(pair => Distance(every, pair.One, pair.Other)).ToLookup(pair => Distance(every, pair.One, pair.Other) <= 1);
        return
        [
            .. plan.Encoders.Where((_, number) => misfits.Contains(new(MisfitKind.Encoder, number))).Select(encoder => new PinsExchanged(encoder.PhaseA, encoder.PhaseB)),
            .. misfits.Where(one => one.Kind == MisfitKind.Wiper).Select(one => new EndsExchanged(one.Number)),
            .. pins.Select(pin => new PinOff(pin)),
            .. contacts.Where(contact => plan.Contacts[contact].Place is MatrixInput && plan.Diodes).Select(contact => new DiodeReversed(contact)),
            .. Pairs(contacts, all).Select(pair => new ContactsExchanged(pair.One, pair.Other)),
            .. contacts.Select(contact => new ContactStuck(contact)),
            .. exchanged.Select(pair => new PinsExchanged(pair.One, pair.Other)),
            .. joined[true].Select(pair => new PinsJoined(pair.One, pair.Other)),
            .. contacts.Select(contact => new ContactOff(contact)),
            .. pins.Select(pin => new PinGrounded(pin)),
            .. misfits.Where(one => one.Kind == MisfitKind.Wiper).SelectMany(one => new[] { new EndOff(one.Number, true), new EndOff(one.Number, false) }),
            .. Pairs(contacts, all).Where(pair => Cross(plan, pair.One, pair.Other)).SelectMany(pair => new Fault[] { new RowLeadsExchanged(pair.One, pair.Other), new ColumnLeadsExchanged(pair.One, pair.Other) }),
            .. joined[false].Select(pair => new PinsJoined(pair.One, pair.Other)),
        ];
    }

    private static IEnumerable<ControllerPin> PinsOf(ControllerPlan plan, Misfit misfit) => misfit.Kind switch
    {
        MisfitKind.Contact => plan.Contacts[misfit.Number].Place switch
        {
            MatrixInput at => [plan.Rows[at.Row], plan.Columns[at.Column]],
            DirectInput at => [at.Pin],
            _ => [],
        },
        MisfitKind.Encoder => [plan.Encoders[misfit.Number].PhaseA, plan.Encoders[misfit.Number].PhaseB],
        MisfitKind.Wiper => [plan.Wipers[misfit.Number].Pin],
        _ => [plan.Ladders[misfit.Number].Pin],
    };

    /// <summary>Each pair of a suspect and anyone, once, in order.</summary>
    private static IEnumerable<(T One, T Other)> Pairs<T>(ImmutableArray<T> some, ImmutableArray<T> all)
        where T : notnull
    {
        var places = all.Index().ToDictionary(one => one.Item, one => one.Index);
        HashSet<(int, int)> told = [];
        foreach (var one in some)
        {
            foreach (var other in all)
            {
                var (first, second) = (places[one], places[other]);
                if (first != second && told.Add((int.Min(first, second), int.Max(first, second))))
                {
                    yield return first < second ? (one, other) : (other, one);
                }
            }
        }
    }

    /// <summary>Leads can be exchanged one by one only between contacts that share neither row nor column.</summary>
    private static bool Cross(ControllerPlan plan, int one, int other) =>
        plan.Contacts[one].Place is MatrixInput a && plan.Contacts[other].Place is MatrixInput b && a.Row != b.Row && a.Column != b.Column;

    /// <summary>How far apart two pins are: neighbours on a port are likeliest to touch.</summary>
    private static int Distance(ImmutableArray<ControllerPin> every, ControllerPin one, ControllerPin other) =>
        one.Port == other.Port ? int.Abs(one.Bit - other.Bit) : 8 + int.Abs(every.IndexOf(one) - every.IndexOf(other));
}
