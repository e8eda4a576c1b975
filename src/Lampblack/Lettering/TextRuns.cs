using System;
using System.Collections.Concurrent;
using System.Threading;

namespace Lampblack.Lettering;

/// <summary>Lines of one font that were set before: a desk is laid out anew after every edit, and nearly all its words are the same.</summary>
internal sealed class TextRuns
{
    // Some 12 kB each; a panel of 400 controls has 1,200.
    private const int Most = 2000;

    private readonly ConcurrentDictionary<(string Text, double CapHeightMm, double LetterSpacingMm, double ChordErrorMm), TextRun> _runs = [];
    // A few dozen bytes each; a chart of 400 holes asks for some 4,000 when its cells are wrapped.
    private const int MostWidths = 20_000;

    private readonly ConcurrentDictionary<(string Text, bool IsSpaced), (long AdvanceUnits, int Gaps)> _widths = [];
    private int _count;
    private int _widthCount;

    /// <summary>The line as it was set before; else as it is set now.</summary>
    public TextRun Of(string text, double capHeightMm, double letterSpacingMm, double chordErrorMm, Func<TextRun> set)
    {
        var key = (text, capHeightMm, letterSpacingMm, chordErrorMm);
        if (_runs.TryGetValue(key, out var known))
        {
            return known;
        }

        var run = set();
        if (Interlocked.Increment(ref _count) > Most)
        {
            // All at once: which are still wanted shows with the next layout.
            _runs.Clear();
            _count = 1;
        }

        _runs[key] = run;
        return run;
    }

    /// <summary>How far a line reaches, in the font's units, and how many gaps between letters it has: the same at any height.</summary>
    public (long AdvanceUnits, int Gaps) WidthOf(string text, bool isSpaced, Func<(long AdvanceUnits, int Gaps)> measure)
    {
        var key = (text, isSpaced);
        if (_widths.TryGetValue(key, out var known))
        {
            return known;
        }

        var width = measure();
        if (Interlocked.Increment(ref _widthCount) > MostWidths)
        {
            _widths.Clear();
            _widthCount = 1;
        }

        _widths[key] = width;
        return width;
    }
}
