using System.Collections.Immutable;

namespace Lampblack.Books;

/// <summary>The lamp boards and wires of a desk, thought out once for all steps that speak of them: a copy of the facts for another maker has the same ones.</summary>
internal sealed class LampBoards
{
    private Entry? _last;

    /// <summary>Those of a desk.</summary>
    public Entry Of(BookFacts facts)
    {
        var last = System.Threading.Volatile.Read(ref _last);
        if (last is null || !last.IsOf(facts))
        {
            last = new(facts, LampBoard.Of(facts), null);
            last = last with { Wires = LampWires.Of(facts, last.Boards) };
            System.Threading.Volatile.Write(ref _last, last);
        }

        return last;
    }

    /// <summary>What was thought out, and of what.</summary>
    public sealed record Entry(BookFacts Facts, ImmutableArray<LampBoard> Boards, LampWires? Wires)
    {
        /// <summary>Whether nothing of what it rests on is another.</summary>
        public bool IsOf(BookFacts facts) => ReferenceEquals(Facts, facts)
            || (Facts.Boxes == facts.Boxes && Facts.Lamps == facts.Lamps && ReferenceEquals(Facts.Circuit, facts.Circuit) && ReferenceEquals(Facts.Wiring, facts.Wiring) && ReferenceEquals(Facts.LampType, facts.LampType) && ReferenceEquals(Facts.Laid, facts.Laid));
    }
}
