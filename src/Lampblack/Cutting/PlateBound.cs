using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.Cutting;

/// <summary>What a block can be worth at most once the rest of its plate is cut: the least of two bounds, one of cuts and one of areas.</summary>
internal sealed class PlateBound
{
    /// <summary>Tables beyond this many steps are not made; then areas alone bound.</summary>
    private const long MostTableSteps = 4_000_000_000;

    private readonly AroundValue? _around;
    private readonly long _area;
    private readonly List<(int Kind, long Area, long Value)> _dense;

    private PlateBound(FreeValue? free, AroundValue? around, long area, List<(int Kind, long Area, long Value)> dense, int width, int height)
    {
        (Free, _around, _area, _dense) = (free, around, area, dense);
        Best = Free?.Best(width, height);
    }

    /// <summary>The values where nobody counts; null where there are none.</summary>
    public FreeValue? Free { get; }

    /// <summary>The best plan where nobody counts; null where it isn't known.</summary>
    public Block? Best { get; }

    public static PlateBound Of(Model model, Plate plate, int[] counts, Work work)
    {
        var kinds = Enumerable.Range(0, counts.Length).Where(kind => counts[kind] > 0).ToList();
        var pieces = kinds.SelectMany(kind => model.PiecesOf(kind).Where(piece => !(piece.IsTurned && plate.HasGrain))).ToList();

        // With a narrowest strip, blocks have widths that are no sums of lengths of what is left; without limits, sums of sums are positions again.
        int Often(int kind) => model.Narrowest > 0 ? int.MaxValue : counts[kind];
        var across = Positions.Of(pieces.Select(piece => (piece.Wide.Length, Often(piece.Kind))), plate.Width);
        var up = Positions.Of(pieces.Select(piece => (piece.High.Length, Often(piece.Kind))), plate.Height);
        var free = FreeValue.StepsOf(across, up) <= MostTableSteps ? FreeValue.Of(across, up, pieces, work) : null;
        var around = free is null ? null : AroundValue.Of(across, up, free, work);
        var dense = kinds.Select(kind => (kind, model.Kinds[kind].Area, model.Kinds[kind].Value))
            .OrderByDescending(kind => (decimal)kind.Value / kind.Area)
            .ToList();
        return new(free, around, plate.Area, dense, plate.Width, plate.Height);
    }

    /// <summary>The bound of a whole plate that nothing is cut from yet.</summary>
    public long OfPlate(int[] counts) => Math.Min(Best?.Value ?? long.MaxValue, Rest(_area, kind => counts[kind]));

    /// <summary>The bound of a block; as soon as it is no more than <paramref name="enough"/>, it need not be exact.</summary>
    public long Of(Block block, Tally used, TallyForm form, int[] counts, long enough)
    {
        var bound = block.Value + (_around?.Of(block.Wide.Length, block.High.Length) ?? long.MaxValue / 4);
        return bound <= enough
            ? bound
            : Math.Min(bound, block.Value + Rest(_area - ((long)block.Wide.Length * block.High.Length), kind => counts[kind] - form.CountOf(used, kind)));
    }

    /// <summary>The densest pieces that are left, by area, the last one in part (Dantzig, Operations Research 5, 1957).</summary>
    private long Rest(long area, Func<int, int> left)
    {
        long value = 0;
        foreach (var (kind, size, worth) in _dense)
        {
            var count = left(kind);
            if (count * size <= area)
            {
                (area, value) = (area - (count * size), value + (count * worth));
            }
            else
            {
                return value + (long)((Int128)worth * area / size);
            }
        }

        return value;
    }
}
