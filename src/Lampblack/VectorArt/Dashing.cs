using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.VectorArt;

/// <summary>Cuts a line into dashes (SVG 1.1, 11.4).</summary>
internal static class Dashing
{
    /// <summary>The dashes; one of no length stays, as it may have ends that show.</summary>
    public static List<List<Stretch>> Cut(List<Stretch> stretches, bool isClosed, Stroke stroke, Budget budget)
    {
        var (index, left) = Start(stroke);
        var dashes = new List<List<Stretch>>();
        var open = index % 2 == 0 ? new List<Stretch>() : null;
        var startsInDash = open is not null;
        foreach (var stretch in stretches)
        {
            List<Spot>? spots = open is null ? null : [stretch.Spots[0]];
            var startWay = stretch.StartWay;
            for (var at = 1; at < stretch.Spots.Count; at++)
            {
                var (from, to) = (stretch.Spots[at - 1], stretch.Spots[at]);
                var length = (to - from).Length;
                var way = (to - from).Unit();
                double gone = 0;
                while (length - gone > left)
                {
                    gone += left;
                    var spot = Spot.Between(from, to, gone / length);
                    budget.Spend(2);
                    if (open is not null)
                    {
                        spots!.Add(spot);
                        dashes.Add([.. open, new(WithLength(spots, startWay), startWay, way)]);
                        (open, spots) = (null, null);
                    }
                    else
                    {
                        (open, spots, startWay) = ([], [spot], way);
                    }

                    index = (index + 1) % stroke.Dashes.Count;
                    left = stroke.Dashes[index];
                }

                left -= length - gone;
                spots?.Add(to);
            }

            if (open is not null)
            {
                open.Add(new(WithLength(spots!, startWay), startWay, stretch.EndWay));
            }
        }

        if (open is { Count: > 0 })
        {
            // A closed line that ends and begins within dashes has one dash across its start.
            if (isClosed && startsInDash && dashes.Count > 0)
            {
                dashes[0] = [.. open, .. dashes[0]];
            }
            else
            {
                dashes.Add(open);
            }
        }

        return dashes;
    }

    /// <summary>Which dash or gap a line begins in, and how much of it is left.</summary>
    private static (int Index, double Left) Start(Stroke stroke)
    {
        var total = stroke.Dashes.Sum();
        var rest = stroke.DashOffset % total;
        rest = rest < 0 ? rest + total : rest;
        var index = 0;
        while (index < stroke.Dashes.Count - 1 && rest >= stroke.Dashes[index])
        {
            rest -= stroke.Dashes[index++];
        }

        return (index, Math.Max(0, stroke.Dashes[index] - rest));
    }

    /// <summary>Points without repeated ones; a dash without length gets one so short that only its ends are seen.</summary>
    private static List<Spot> WithLength(List<Spot> spots, Spot way)
    {
        var kept = new List<Spot> { spots[0] };
        kept.AddRange(spots.Skip(1).Where((spot, index) => spot != spots[index]));
        if (kept.Count == 1)
        {
            kept.Add(kept[0] + (1e-9 * way));
        }

        return kept;
    }
}
