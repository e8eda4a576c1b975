using System.Collections.Immutable;
using Lampblack.Wiring;

namespace Lampblack.Link;

/// <summary>What a controller last said of everything it reads.</summary>
/// <param name="Contacts">For each contact whether it is closed.</param>
/// <param name="Encoders">For each encoder its position in edges and its illegal steps.</param>
/// <param name="Wipers">For each wiper 0 to 4092.</param>
/// <param name="Ladders">For each ladder its position and 0 to 4092.</param>
public sealed record PanelReadings(
    ImmutableArray<bool> Contacts, ImmutableArray<EncoderReading> Encoders, ImmutableArray<int> Wipers, ImmutableArray<LadderReading> Ladders)
{
    /// <summary>For each dimmer the level of the last snapshot, 0 to 65535; empty before.</summary>
    public ImmutableArray<int> Dimmers { get; init; } = [];

    /// <summary>Nothing closed, everything at its beginning.</summary>
    /// <param name="plan">The controller.</param>
    public static PanelReadings Blank(ControllerPlan plan)
    {
        System.ArgumentNullException.ThrowIfNull(plan);
        return new PanelReadings(
            [.. new bool[plan.Contacts.Length]],
            [.. new EncoderReading[plan.Encoders.Length]],
            [.. new int[plan.Wipers.Length]],
            ImmutableArray.CreateRange(System.Linq.Enumerable.Repeat(new LadderReading(LadderFrame.None, 0), plan.Ladders.Length)))
        {
            Dimmers = [.. new int[plan.Dimmers.Length]],
        };
    }

    /// <summary>The same with what a frame says; what the controller has not is left out.</summary>
    /// <param name="frame">Any frame.</param>
    public PanelReadings With(PanelFrame frame) => frame switch
    {
        ContactFrame contact when contact.Number < Contacts.Length => this with { Contacts = Contacts.SetItem(contact.Number, contact.IsClosed) },
        EncoderFrame encoder when encoder.Number < Encoders.Length => this with { Encoders = Encoders.SetItem(encoder.Number, new(encoder.Position, encoder.Illegal)) },
        WiperFrame wiper when wiper.Number < Wipers.Length => this with { Wipers = Wipers.SetItem(wiper.Number, wiper.Value) },
        LadderFrame ladder when ladder.Number < Ladders.Length => this with { Ladders = Ladders.SetItem(ladder.Number, new(ladder.Position, ladder.Value)) },
        SnapshotFrame snapshot => With(snapshot),
        _ => this,
    };

    private PanelReadings With(SnapshotFrame snapshot) => snapshot.Kind switch
    {
        SnapshotKind.Contacts => this with { Contacts = Spliced(Contacts, snapshot, (_, entry) => entry != 0) },
        SnapshotKind.Encoders => this with { Encoders = Spliced(Encoders, snapshot, (old, entry) => old with { Position = (short)entry }) },
        SnapshotKind.Wipers => this with { Wipers = Spliced(Wipers, snapshot, (_, entry) => entry) },
        SnapshotKind.Ladders => this with { Ladders = Spliced(Ladders, snapshot, (_, entry) => new((byte)entry, entry >> 8)) },
        SnapshotKind.Dimmers => this with { Dimmers = Spliced(Dimmers, snapshot, (_, entry) => entry) },
        _ => this,
    };

    private static ImmutableArray<T> Spliced<T>(ImmutableArray<T> all, SnapshotFrame snapshot, System.Func<T, int, T> read)
    {
        var next = all.ToBuilder();
        for (var index = 0; index < snapshot.Entries.Length && snapshot.First + index < all.Length; index++)
        {
            next[snapshot.First + index] = read(all[snapshot.First + index], snapshot.Entries[index]);
        }

        return next.ToImmutable();
    }
}

/// <summary>What an encoder last said.</summary>
/// <param name="Position">Edges since the start; wraps at 16 bits.</param>
/// <param name="Illegal">Illegal steps so far; wraps at 8 bits.</param>
public readonly record struct EncoderReading(short Position, byte Illegal);

/// <summary>What a ladder last said.</summary>
/// <param name="Position">0 for the first; 255 for none.</param>
/// <param name="Value">0 to 4092.</param>
public readonly record struct LadderReading(byte Position, int Value);
