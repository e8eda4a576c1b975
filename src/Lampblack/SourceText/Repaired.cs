using System.Collections.Generic;
using System.Text;

namespace Lampblack.SourceText;

/// <summary>A text in which missing quotes and brackets have been added for the parser, and the way back to the user's own offsets.</summary>
/// <remarks>One missing quote would otherwise swallow the rest of the file, and the maker would see one fault at a time and no preview.</remarks>
internal sealed class Repaired
{
    private readonly char[] _text;
    private readonly List<(int At, string Added)> _additions = [];
    private readonly List<(int FromOffset, int Added)> _shifts = [];

    public Repaired(string text) => _text = text.ToCharArray();

    /// <summary>Puts another character in place of one.</summary>
    public void Replace(int offset, char with) => _text[offset] = with;

    /// <summary>Adds text before an offset; offsets never go back from one call to the next.</summary>
    public void Add(int offset, string added) => _additions.Add((offset, added));

    /// <summary>The repaired text; after this, <see cref="Original"/> works.</summary>
    public string Build()
    {
        var built = new StringBuilder(_text.Length + (_additions.Count * 2));
        var copied = 0;
        var shift = 0;
        foreach (var (at, added) in _additions)
        {
            built.Append(_text, copied, at - copied);
            copied = at;

            // Each added character lies at the place that it was added to.
            for (var i = 0; i < added.Length; i++)
            {
                built.Append(added[i]);
                shift++;
                _shifts.Add((built.Length, shift));
            }
        }

        built.Append(_text, copied, _text.Length - copied);
        return built.ToString();
    }

    /// <summary>The user's own offset for one in the repaired text.</summary>
    public int Original(int offset)
    {
        var low = 0;
        var high = _shifts.Count;
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (_shifts[middle].FromOffset <= offset)
            {
                low = middle + 1;
            }
            else
            {
                high = middle;
            }
        }

        return low == 0 ? offset : offset - _shifts[low - 1].Added;
    }
}
