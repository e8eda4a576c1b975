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
    private int _count;

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
}
