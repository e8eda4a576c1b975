using System.Collections.Generic;
using System.Linq;
using Lampblack.Cutting;

namespace Lampblack.Tests.Cutting;

/// <summary>
/// What can be cut from a small plate, by trying every cut at every whole mm: slow, and so plain that one sees that it is right. Each piece is wanted once and is a bit of a mask.
/// </summary>
internal sealed class EveryCut(CutTask task, bool rotate)
{
    private readonly Dictionary<(int Width, int Height), HashSet<int>> _known = [];

    /// <summary>The greatest value of one plate.</summary>
    public long BestValue(CutStock stock) => Masks((int)stock.WidthMm, (int)stock.HeightMm).Max(ValueOf);

    /// <summary>The fewest plates for all pieces; 0 where not all can be cut.</summary>
    public int FewestPlates(CutStock stock)
    {
        var one = Masks((int)stock.WidthMm, (int)stock.HeightMm);
        var all = (1 << task.Pieces.Length) - 1;
        var reached = new HashSet<int> { 0 };
        for (var plates = 0; plates <= task.Pieces.Length; plates++)
        {
            if (reached.Contains(all))
            {
                return plates;
            }

            reached = [.. reached.SelectMany(before => one.Select(more => before | more))];
        }

        return 0;
    }

    private long ValueOf(int mask) => Enumerable.Range(0, task.Pieces.Length).Where(piece => (mask & (1 << piece)) != 0).Sum(piece => (long)(task.Pieces[piece].Value ?? 0));

    private HashSet<int> Masks(int width, int height)
    {
        if (width <= 0 || height <= 0)
        {
            return [0];
        }

        if (_known.TryGetValue((width, height), out var known))
        {
            return known;
        }

        HashSet<int> masks = [0];
        for (var piece = 0; piece < task.Pieces.Length; piece++)
        {
            var (w, h) = ((int)task.Pieces[piece].WidthMm, (int)task.Pieces[piece].HeightMm);
            if ((w == width && h == height) || (rotate && h == width && w == height))
            {
                masks.Add(1 << piece);
            }
        }

        var (kerf, narrowest) = ((int)task.Rules.KerfMm, (int)task.Rules.NarrowestMm);
        for (var at = 1; at < width; at++)
        {
            Join(at, width - at - kerf, Masks(at, height), Masks(width - at - kerf, height));
        }

        for (var at = 1; at < height; at++)
        {
            Join(at, height - at - kerf, Masks(width, at), Masks(width, height - at - kerf));
        }

        _known[(width, height)] = masks;
        return masks;

        void Join(int near, int far, HashSet<int> first, HashSet<int> second)
        {
            if (narrowest > 0 && (near < narrowest || far < narrowest))
            {
                return;
            }

            masks.UnionWith(first.SelectMany(one => second.Where(other => (one & other) == 0).Select(other => one | other)));
        }
    }
}
