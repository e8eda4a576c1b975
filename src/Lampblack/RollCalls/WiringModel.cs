using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Parts;
using Lampblack.Wiring;

namespace Lampblack.RollCalls;

/// <summary>What a controller would read; null for what can't be told, such as a pin that hangs in the air.</summary>
/// <param name="Closed">For each contact.</param>
/// <param name="Phases">For each encoder A and B, one after the other.</param>
/// <param name="TravelShares">For each wiper.</param>
/// <param name="Positions">For each ladder; -1 for none.</param>
internal sealed record Predicted(ImmutableArray<bool?> Closed, ImmutableArray<bool?> Phases, ImmutableArray<double?> TravelShares, ImmutableArray<int?> Positions);

/// <summary>
/// A panel's wires as nodes and the ways current can take between them: good ones, or with one fault.
/// Pins that read are pulled up; a pin reads closed where current finds a way from it to 0 V or to the column that is driven low.
/// </summary>
internal sealed class WiringModel
{
    private const double ReadsLowShare = 0.3;

    private readonly ControllerPlan plan;
    private readonly Fault? fault;
    private readonly Dictionary<ControllerPin, int> pins = [];
    private readonly List<Way> joints = [];
    private readonly int zero;

    /// <summary>A controller's wires.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="fault">What is wrong; null for nothing.</param>
    public WiringModel(ControllerPlan plan, Fault? fault)
    {
        (this.plan, this.fault) = (plan, fault);
        foreach (var pin in PinsOf(plan))
        {
            pins.TryAdd(pin, pins.Count);
        }

        zero = 2 * pins.Count;
        foreach (var (pin, index) in pins)
        {
            switch (fault)
            {
                case PinOff off when off.Pin == pin:
                    break;
                case PinsExchanged exchanged when exchanged.One == pin:
                    Join(index, Net(exchanged.Other));
                    break;
                case PinsExchanged exchanged when exchanged.Other == pin:
                    Join(index, Net(exchanged.One));
                    break;
                default:
                    Join(index, Net(pin));
                    break;
            }
        }

        switch (fault)
        {
            case PinsJoined joined:
                Join(pins[joined.One], pins[joined.Other]);
                break;
            case PinGrounded grounded:
                Join(pins[grounded.Pin], zero);
                break;
        }
    }

    /// <summary>Every pin that reads, and every column, in the plan's order.</summary>
    public static IEnumerable<ControllerPin> PinsOf(ControllerPlan plan) => plan.Columns
        .Concat(plan.Rows)
        .Concat(plan.Contacts.Select(contact => contact.Place).OfType<DirectInput>().Select(place => place.Pin))
        .Concat(plan.Encoders.SelectMany(encoder => new[] { encoder.PhaseA, encoder.PhaseB }))
        .Concat(plan.Wipers.Select(wiper => wiper.Pin))
        .Concat(plan.Ladders.Select(ladder => ladder.Pin))
        .Distinct();

    /// <summary>Each way in which encoders may rest that were left at some detent, as far as it shows.</summary>
    /// <param name="hands">How the controls stand.</param>
    public IEnumerable<Hands> Rests(Hands hands)
    {
        var unknown = hands.Quarters.IndexOf(-1);
        if (unknown < 0)
        {
            return [hands];
        }

        // The phases of an encoder that the fault has nothing to do with reach no other pin, and nobody asks where it rests.
        var encoder = plan.Encoders[unknown];
        ImmutableArray<int> places = !Concerns(encoder.PhaseA) && !Concerns(encoder.PhaseB) ? [0] : encoder.EdgesPerDetent == 2 ? [0, 2] : [0, 1, 2, 3];
        return places.SelectMany(place => Rests(hands.AtQuarter(unknown, place)));
    }

    private bool Concerns(ControllerPin pin) => fault switch
    {
        PinsExchanged exchanged => exchanged.One == pin || exchanged.Other == pin,
        PinsJoined joined => joined.One == pin || joined.Other == pin,
        _ => false,
    };

    /// <summary>What the controller reads.</summary>
    /// <param name="hands">How the controls stand, encoders too.</param>
    public Predicted Read(Hands hands)
    {
        WayMap map = new(Ways(hands), zero + 1);
        var closed = new bool?[plan.Contacts.Length];
        var phases = new bool?[2 * plan.Encoders.Length];
        var low = new bool[plan.Columns.Length + 1][];
        for (var column = 0; column < low.Length; column++)
        {
            // The last one is for panels without columns, and for the moment in which none is driven.
            low[column] = map.Reach(zero, column < plan.Columns.Length ? pins[plan.Columns[column]] : -1, onlyBoth: false);
        }

        for (var contact = 0; contact < closed.Length; contact++)
        {
            closed[contact] = plan.Contacts[contact].Place switch
            {
                MatrixInput at => low[at.Column][pins[plan.Rows[at.Row]]],
                DirectInput at => Always(low, pins[at.Pin]),
                _ => hands.Closed[InPlaceOf(contact)] || fault is ContactStuck stuck && stuck.Contact == contact,
            };
            if (fault is ContactOff off && off.Contact == contact && plan.Contacts[contact].Place is ChainInput)
            {
                closed[contact] = false;
            }
        }

        for (var encoder = 0; encoder < plan.Encoders.Length; encoder++)
        {
            phases[2 * encoder] = Always(low, pins[plan.Encoders[encoder].PhaseA]);
            phases[(2 * encoder) + 1] = Always(low, pins[plan.Encoders[encoder].PhaseB]);
        }

        return new(
            [.. closed],
            [.. phases],
            [.. plan.Wipers.Select(wiper => Volts(map, hands, pins[wiper.Pin]))],
            [.. plan.Ladders.Select(ladder => Position(ladder, Volts(map, hands, pins[ladder.Pin])))]);
    }

    private static bool? Always(bool[][] low, int pin) => low.All(one => one[pin]) ? true : low.Any(one => one[pin]) ? null : false;

    private static int? Position(PlannedLadder ladder, double? share)
    {
        if (share is not { } known)
        {
            return null;
        }

        var count = known * 1023;
        for (var position = 0; position < ladder.Windows.Length; position++)
        {
            if (count >= ladder.Windows[position].LowCount && count <= ladder.Windows[position].HighCount)
            {
                return position;
            }
        }

        return -1;
    }

    /// <summary>The contact that stands in another's place.</summary>
    private int InPlaceOf(int contact) => fault is ContactsExchanged exchanged
        ? contact == exchanged.One ? exchanged.Other : contact == exchanged.Other ? exchanged.One : contact
        : contact;

    private List<Way> Ways(Hands hands)
    {
        List<Way> ways = [.. joints];
        for (var contact = 0; contact < plan.Contacts.Length; contact++)
        {
            var isClosed = fault switch
            {
                ContactOff off when off.Contact == contact => false,
                ContactStuck stuck when stuck.Contact == contact => true,
                _ => hands.Closed[contact],
            };
            if (isClosed)
            {
                AddContact(ways, contact);
            }
        }

        for (var encoder = 0; encoder < plan.Encoders.Length; encoder++)
        {
            if (hands.Quarters[encoder] is 1 or 2)
            {
                Both(ways, Net(plan.Encoders[encoder].PhaseA), zero);
            }

            if (hands.Quarters[encoder] is 2 or 3)
            {
                Both(ways, Net(plan.Encoders[encoder].PhaseB), zero);
            }
        }

        for (var wiper = 0; wiper < plan.Wipers.Length; wiper++)
        {
            // A digital pin on this wire reads it as low near the lower end.
            if (Share(wiper, hands) < ReadsLowShare)
            {
                ways.Add(new(Net(plan.Wipers[wiper].Pin), zero, false));
            }
        }

        return ways;
    }

    private void AddContact(List<Way> ways, int contact)
    {
        var place = plan.Contacts[InPlaceOf(contact)].Place;
        if (place is DirectInput direct)
        {
            Both(ways, Net(direct.Pin), zero);
        }
        else if (place is MatrixInput at)
        {
            var row = Net(plan.Rows[Lead<RowLeadsExchanged>(contact, at).Row]);
            var column = Net(plan.Columns[Lead<ColumnLeadsExchanged>(contact, at).Column]);
            if (!plan.Diodes)
            {
                Both(ways, row, column);
            }
            else
            {
                ways.Add(fault is DiodeReversed reversed && reversed.Contact == contact ? new(column, row, false) : new(row, column, false));
            }
        }
    }

    private MatrixInput Lead<T>(int contact, MatrixInput own)
        where T : Fault
    {
        var (one, other) = fault switch
        {
            RowLeadsExchanged rows when fault is T => (rows.One, rows.Other),
            ColumnLeadsExchanged columns when fault is T => (columns.One, columns.Other),
            _ => (-1, -1),
        };
        return contact == one ? (MatrixInput)plan.Contacts[other].Place : contact == other ? (MatrixInput)plan.Contacts[one].Place : own;
    }

    private double Share(int wiper, Hands hands) => fault switch
    {
        EndsExchanged ends when ends.Wiper == wiper => 1 - hands.TravelShares[wiper],
        EndOff off when off.Wiper == wiper => off.IsLow ? 1 : 0,
        _ => hands.TravelShares[wiper],
    };

    private double? Volts(WayMap map, Hands hands, int pin)
    {
        var reached = map.Reach(pin, -1, onlyBoth: true);
        if (reached[zero])
        {
            return 0;
        }

        List<double> sources =
        [
            .. Enumerable.Range(0, plan.Wipers.Length).Where(wiper => reached[Net(plan.Wipers[wiper].Pin)]).Select(wiper => Share(wiper, hands)),
            .. Enumerable.Range(0, plan.Ladders.Length)
                .Where(ladder => hands.Positions[ladder] >= 0 && reached[Net(plan.Ladders[ladder].Pin)])
                .Select(ladder => plan.Ladders[ladder].Windows[hands.Positions[ladder]])
                .Select(window => (window.LowCount + window.HighCount) / 2.0 / 1023),
        ];
        return sources.Count == 0 ? null : sources.Average();
    }

    private int Net(ControllerPin pin) => pins.Count + pins[pin];

    private void Join(int one, int other) => Both(joints, one, other);

    private static void Both(List<Way> ways, int one, int other) => ways.Add(new(one, other, true));
}
