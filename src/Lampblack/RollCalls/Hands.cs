using System.Collections.Immutable;
using System.Linq;
using Lampblack.Wiring;

namespace Lampblack.RollCalls;

/// <summary>How the maker's hands have left the controls of one controller: what is true of them, not what was read.</summary>
/// <param name="Closed">For each contact whether it is closed.</param>
/// <param name="Quarters">For each encoder 0 to 3: open-open, A closed, both closed, B closed; clockwise counts up; -1 where it may rest at any detent.</param>
/// <param name="TravelShares">For each wiper 0 to 1.</param>
/// <param name="Positions">For each ladder its position; -1 for none.</param>
internal sealed record Hands(ImmutableArray<bool> Closed, ImmutableArray<int> Quarters, ImmutableArray<double> TravelShares, ImmutableArray<int> Positions)
{
    /// <summary>Everything open and at its beginning.</summary>
    public static Hands Blank(ControllerPlan plan) =>
        new([.. new bool[plan.Contacts.Length]], [.. new int[plan.Encoders.Length]], [.. new double[plan.Wipers.Length]], [.. plan.Ladders.Select(_ => -1)]);

    /// <summary>The same with a control in one of its states.</summary>
    public Hands InState(WiredControl control, int state)
    {
        if (control.Contacts.IsEmpty)
        {
            return this with { Positions = Positions.SetItem(control.Number, state) };
        }

        var closed = Closed.ToBuilder();
        foreach (var (contact, isClosed) in control.Contacts.Zip(control.States[state].Closed))
        {
            closed[contact] = isClosed;
        }

        return this with { Closed = closed.ToImmutable() };
    }

    /// <summary>The same with an encoder at some detent: those with fewer than 4 edges to a detent rest at several places of the cycle.</summary>
    public Hands AtRest(ControllerPlan plan, int encoder) => this with { Quarters = Quarters.SetItem(encoder, plan.Encoders[encoder].EdgesPerDetent == 4 ? 0 : -1) };

    /// <summary>The same with a wiper elsewhere.</summary>
    public Hands Travelled(int wiper, double share) => this with { TravelShares = TravelShares.SetItem(wiper, share) };

    /// <summary>The same with an encoder a quarter of a cycle on.</summary>
    public Hands AtQuarter(int encoder, int quarter) => this with { Quarters = Quarters.SetItem(encoder, quarter & 3) };
}
