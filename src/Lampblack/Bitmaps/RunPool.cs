using System.Collections.Generic;

namespace Lampblack.Bitmaps;

/// <summary>A run of dots in a row, from its first column up to its end, in a chain of runs.</summary>
internal readonly record struct ChainedRun(int Row, int Start, int End, int Next);

/// <summary>Chains of runs; what is given back is used again.</summary>
internal sealed class RunPool
{
    private readonly List<ChainedRun> _runs = [];
    private int _free = DotPiece.None;

    public ChainedRun this[int index] => _runs[index];

    /// <summary>A run that ends its chain.</summary>
    public int Add(int row, int start, int end)
    {
        var run = new ChainedRun(row, start, end, DotPiece.None);
        if (_free == DotPiece.None)
        {
            _runs.Add(run);
            return _runs.Count - 1;
        }

        var index = _free;
        _free = _runs[index].Next;
        _runs[index] = run;
        return index;
    }

    /// <summary>Hangs a chain to the last run of another.</summary>
    public void Chain(int last, int next) => _runs[last] = _runs[last] with { Next = next };

    /// <summary>Gives a chain back.</summary>
    public void Release(int first, int last)
    {
        if (first != DotPiece.None)
        {
            Chain(last, _free);
            _free = first;
        }
    }

    /// <summary>The runs of a chain.</summary>
    public IEnumerable<ChainedRun> From(int first)
    {
        for (var index = first; index != DotPiece.None; index = _runs[index].Next)
        {
            yield return _runs[index];
        }
    }
}
