using System.Collections.Generic;
using System.Linq;

namespace Lampblack.Tests.SourceText;

/// <summary>Makes slips of the pen: characters and lines added, lost, doubled and moved. The same seed gives the same texts on every machine.</summary>
internal static class Mutants
{
    private static readonly string[] Pieces =
    [
        "\"", "'", "[", "]", "{", "}", "=", ",", ".", "\n", "\r\n", "#", "[[", "]]", "\"\"\"", "'''", "\\", "\\u00", "a", "1", " ", "-", "é", "😀", "true", "ON", "inf", "1e999", "\u0001",
        "[panel]\n", "[[panel]]\n", "[panel.control]\n", "[[panel.control]]\n", "id = 1\n", "[x]\n", "[x.y]\n", "[[x.y]]\n", "x.y = 1\n", "x.y.z = 1\n", "x = {}\n", "x = []\n",
    ];

    public static IEnumerable<string> Of(string sample, int count, uint seed)
    {
        var random = new Generator(seed);
        for (var i = 0; i < count; i++)
        {
            var text = sample;
            for (var slips = 1 + random.Next(4); slips > 0; slips--)
            {
                text = Slip(text, random);
            }

            yield return text;
        }
    }

    private static string Slip(string text, Generator random)
    {
        var at = random.Next(text.Length + 1);
        switch (random.Next(4))
        {
            case 0:
                return text.Insert(at, Pieces[random.Next(Pieces.Length)]);
            case 1:
                return text.Remove(at, System.Math.Min(text.Length - at, 1 + random.Next(3)));
            case 2:
                var from = random.Next(text.Length + 1);
                return text.Insert(at, text.Substring(from, System.Math.Min(text.Length - from, random.Next(40))));
            default:
                var lines = text.Split('\n').ToList();
                var line = lines[random.Next(lines.Count)];
                if (random.Next(2) == 0)
                {
                    lines.Remove(line);
                }

                lines.Insert(random.Next(lines.Count + 1), line);
                return string.Join('\n', lines);
        }
    }

    /// <summary>Marsaglia's xorshift of 32 bits (Journal of Statistical Software 8/14, 2003).</summary>
    internal sealed class Generator(uint seed)
    {
        private uint _state = seed * 2654435761u;

        public int Next(int below)
        {
            _state ^= _state << 13;
            _state ^= _state >> 17;
            _state ^= _state << 5;
            return (int)(_state % (uint)below);
        }
    }
}
