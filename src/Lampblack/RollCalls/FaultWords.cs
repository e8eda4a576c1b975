using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Parts;
using Lampblack.Wiring;

namespace Lampblack.RollCalls;

/// <summary>Says what is wrong, and what to resolder, in words of the workbench.</summary>
internal sealed class FaultWords(ControllerPlan plan, ImmutableArray<WiredControl> controls)
{
    /// <summary>A fault as a sentence.</summary>
    public string Of(Fault fault)
    {
        var sentence = Sentence(fault);
        return char.ToUpperInvariant(sentence[0]) + sentence[1..];
    }

    /// <summary>
    /// Faults as sentences, in their order. A wire that is exchanged with one of several at which nothing is read says the same whichever it is:
    /// one sentence names them all, for there is one wire to look at.
    /// </summary>
    public ImmutableArray<string> Of(ImmutableArray<Fault> faults) =>
    [
        .. faults.GroupBy(fault => Idle(fault) is var (busy, idle) ? (object)(busy, Role(idle).Role) : fault)
            .Select(group => Idle(group.First()) is null ? [group.First()] : group.Distinct().ToList())
            .Select(alike => alike.Count == 1 ? Of(alike[0]) : OfIdle([.. alike])),
    ];

    private string OfIdle(ImmutableArray<Fault> alike)
    {
        var pairs = alike.Select(fault => Idle(fault)!.Value).ToList();
        var busy = pairs[0].Busy;
        var isCrossed = (Role(busy).Role, Role(pairs[0].Idle).Role) is ("row", "column") or ("column", "row");
        var pins = pairs.Select(pair => Pin(pair.Idle)).ToList();
        return $"{(isCrossed ? "A row and a column" : "Two wires")} are exchanged: the wire at {Pin(busy)} with the one at {string.Join(", ", pins[..^1])} or {pins[^1]}. "
            + "Nothing is read there, so each looks the same: see at which of them it is, and swap the two.";
    }

    /// <summary>Exchanged pins of which one is a row or column without a contact: which is which; null for all other faults.</summary>
    private (ControllerPin Busy, ControllerPin Idle)? Idle(Fault fault) =>
        fault is not PinsExchanged { One: var one, Other: var other } ? null : IsIdle(other) ? (one, other) : IsIdle(one) ? (other, one) : null;

    private bool IsIdle(ControllerPin pin) => Role(pin) switch
    {
        ("row", var row) => !plan.Contacts.Any(contact => contact.Place is MatrixInput at && at.Row == row - 1),
        ("column", var column) => !plan.Contacts.Any(contact => contact.Place is MatrixInput at && at.Column == column - 1),
        _ => false,
    };

    private string Sentence(Fault fault) => fault switch
    {
        PinsExchanged { One: var a, Other: var b } when PhasesOf(a, b) is { } encoder => $"The terminals A and B of {encoder} are exchanged: swap the wires at {Pin(a)} and {Pin(b)}.",
        PinsExchanged { One: var a, Other: var b } when Role(a) is ("row", _) && Role(b) is ("column", _) || Role(a) is ("column", _) && Role(b) is ("row", _) =>
            $"A row and a column are exchanged: swap the wires at {Pin(a)} and {Pin(b)}.",
        PinsExchanged exchanged => $"Two wires are exchanged: swap the wires at {Pin(exchanged.One)} and {Pin(exchanged.Other)}.",
        PinOff off => $"No wire reaches {Pin(off.Pin)}: it is off at the controller or at the first control, broken, or in a wrong pin.",
        PinsJoined joined => $"{Pin(joined.One)} and {Pin(joined.Other)} touch: look for a bridge of solder or a strand between them.",
        PinGrounded grounded => $"{Pin(grounded.Pin)} touches 0 V: look for a bridge of solder or a pinched wire.",
        DiodeReversed diode => $"The diode of {Contact(diode.Contact)} is the wrong way round: its band points to the column, {Pin(plan.Columns[At(diode.Contact).Column])}.",
        ContactOff off => $"{Contact(off.Contact)} never closes: a lead is off, its diode is dead, or the contact itself.",
        ContactStuck stuck => $"{Contact(stuck.Contact)} is always closed: its terminals are bridged, or the contact sticks.",
        ContactsExchanged { One: var a, Other: var b } when ControlOf(a) == ControlOf(b) => $"Two throws are exchanged: swap the wires of {Contact(a)} and {Contact(b)}, or turn the part by half a turn.",
        ContactsExchanged exchanged => $"Two contacts are exchanged: swap the wires of {Contact(exchanged.One)} and {Contact(exchanged.Other)}.",
        RowLeadsExchanged rows => $"The row wires of {Contact(rows.One)} and {Contact(rows.Other)} are exchanged: swap them.",
        ColumnLeadsExchanged columns => $"The column wires of {Contact(columns.One)} and {Contact(columns.Other)} are exchanged: swap them.",
        EndsExchanged ends => $"The two ends of {Named(WiredKind.Analog, ends.Wiper)} are exchanged: swap 0 V and 5 V at its outer terminals.",
        EndOff { IsLow: true } off => $"The end of {Named(WiredKind.Analog, off.Wiper)} that goes to 0 V has no wire.",
        EndOff off => $"The end of {Named(WiredKind.Analog, off.Wiper)} that goes to 5 V has no wire.",
        _ => throw new ArgumentOutOfRangeException(nameof(fault)),
    };

    /// <summary>A misfit as the end of "while it was called, ...".</summary>
    public string Of(Misfit misfit) => misfit.Kind switch
    {
        MisfitKind.Contact => Contact(misfit.Number),
        MisfitKind.Encoder => Named(WiredKind.Encoder, misfit.Number),
        MisfitKind.Wiper => Named(WiredKind.Analog, misfit.Number),
        _ => controls.FirstOrDefault(control => control.Kind == WiredKind.States && control.Contacts.IsEmpty && control.Number == misfit.Number)?.Name ?? Number("ladder", misfit.Number),
    };

    /// <summary>A pin as it is printed on the board, with what it is for.</summary>
    public string Pin(ControllerPin pin)
    {
        var (role, number) = Role(pin);
        return role switch
        {
            "row" or "column" => string.Create(CultureInfo.InvariantCulture, $"{pin.Header} ({role} {number})"),
            "" => pin.Header,
            _ => $"{pin.Header} ({role})",
        };
    }

    /// <summary>A contact by its control and the states in which it is closed.</summary>
    public string Contact(int contact)
    {
        if (ControlOf(contact) is not { } control)
        {
            return Number("contact", contact);
        }

        var at = control.Contacts.IndexOf(contact);
        var states = control.States.Where(state => state.Closed[at]).Select(state => state.Name).ToList();
        return states.Count == 0 || control.Contacts.Length == 1
            ? $"the contact of {control.Name}"
            : $"the contact of {control.Name} for {string.Join(", ", states)}{(control.Contacts.Take(at).Any(other => IsTwin(control, other, contact)) ? " (its second pole)" : string.Empty)}";
    }

    private static bool IsTwin(WiredControl control, int one, int other) =>
        control.States.All(state => state.Closed[control.Contacts.IndexOf(one)] == state.Closed[control.Contacts.IndexOf(other)]);

    private (string Role, int Number) Role(ControllerPin pin)
    {
        var (row, column) = (plan.Rows.IndexOf(pin), plan.Columns.IndexOf(pin));
        if (row >= 0 || column >= 0)
        {
            return row >= 0 ? ("row", row + 1) : ("column", column + 1);
        }

        for (var contact = 0; contact < plan.Contacts.Length; contact++)
        {
            if (plan.Contacts[contact].Place is DirectInput at && at.Pin == pin)
            {
                return (Contact(contact), 0);
            }
        }

        foreach (var (number, encoder) in plan.Encoders.Index())
        {
            if (encoder.PhaseA == pin || encoder.PhaseB == pin)
            {
                return ($"{Named(WiredKind.Encoder, number)}, terminal {(encoder.PhaseA == pin ? 'A' : 'B')}", 0);
            }
        }

        foreach (var (number, wiper) in plan.Wipers.Index())
        {
            if (wiper.Pin == pin)
            {
                return ($"{Named(WiredKind.Analog, number)}, wiper", 0);
            }
        }

        foreach (var (number, ladder) in plan.Ladders.Index())
        {
            if (ladder.Pin == pin)
            {
                return (Of(new Misfit(MisfitKind.Ladder, number)), 0);
            }
        }

        return (string.Empty, 0);
    }

    private string? PhasesOf(ControllerPin a, ControllerPin b)
    {
        var number = plan.Encoders.Index().FirstOrDefault(one => (one.Item.PhaseA, one.Item.PhaseB) == (a, b) || (one.Item.PhaseA, one.Item.PhaseB) == (b, a), (-1, null!)).Index;
        return number < 0 ? null : Named(WiredKind.Encoder, number);
    }

    private string Named(WiredKind kind, int number) =>
        controls.FirstOrDefault(control => control.Kind == kind && control.Number == number)?.Name ?? Number(kind == WiredKind.Encoder ? "encoder" : "potentiometer", number);

    private WiredControl? ControlOf(int contact) => controls.FirstOrDefault(control => control.Contacts.Contains(contact));

    private MatrixInput At(int contact) => (MatrixInput)plan.Contacts[contact].Place;

    private static string Number(string what, int number) => string.Create(CultureInfo.InvariantCulture, $"{what} {number + 1}");
}
