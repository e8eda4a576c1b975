using System;
using System.Collections.Generic;
using Lampblack.Findings;

namespace Lampblack.VectorArt;

/// <summary>Turns the XML reader's lines and positions into places of the file.</summary>
internal sealed class TextPlaces
{
    private const int Block = 1024;

    private readonly string _file;
    private readonly string _text;
    private readonly List<int> _lines = [0];

    // Halves of characters before each block: a file may be one line of many megabytes.
    private readonly int[] _halvesBefore;

    public TextPlaces(string file, string text)
    {
        (_file, _text) = (file, text);
        _halvesBefore = new int[(text.Length / Block) + 1];
        var halves = 0;
        for (var index = 0; index < text.Length; index++)
        {
            if (index % Block == 0)
            {
                _halvesBefore[index / Block] = halves;
            }

            halves += char.IsLowSurrogate(text[index]) ? 1 : 0;

            // As XML counts: CR LF, LF and CR each end one line.
            if (text[index] == '\n' || (text[index] == '\r' && (index + 1 == text.Length || text[index + 1] != '\n')))
            {
                _lines.Add(index + 1);
            }
        }
    }

    /// <summary>A place by its line and its position in UTF-16 units, both from 1, moved by some units.</summary>
    public SourceSpan Of(int line, int position, int moved = 0)
    {
        line = int.Clamp(line, 1, _lines.Count);
        var start = _lines[line - 1];
        var offset = int.Clamp(start + position - 1 + moved, start, _text.Length);
        return new(_file, offset, 0, line, offset - start - (Halves(offset) - Halves(start)) + 1);
    }

    private int Halves(int offset)
    {
        var block = Math.Min(offset / Block, _halvesBefore.Length - 1);
        var halves = _halvesBefore[block];
        for (var index = block * Block; index < offset; index++)
        {
            halves += char.IsLowSurrogate(_text[index]) ? 1 : 0;
        }

        return halves;
    }
}
