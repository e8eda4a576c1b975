using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Text;

namespace Lampblack.Lettering;

/// <summary>What a reader takes for one character: a base with its marks.</summary>
/// <param name="Offset">Where it begins in the text, in UTF-16 units.</param>
/// <param name="Text">What of it can be printed.</param>
/// <param name="Characters">Its code points.</param>
/// <param name="Visible">Whether ink is expected.</param>
internal sealed record TextElement(int Offset, string Text, ImmutableArray<uint> Characters, bool Visible)
{
    private const int JoinersFirst = 0x200C; // zero width non-joiner, then joiner: they shape what stands beside them
    private const int JoinersLast = 0x200D;

    /// <summary>Splits a text; what can't be printed is left out and named in <paramref name="unprintable"/>.</summary>
    public static ImmutableArray<TextElement> Split(string text, ICollection<(int Offset, string Name)> unprintable)
    {
        var elements = ImmutableArray.CreateBuilder<TextElement>();
        for (var start = 0; start < text.Length;)
        {
            var length = StringInfo.GetNextTextElementLength(text, start);
            var element = text.Substring(start, length);
            var characters = ImmutableArray.CreateBuilder<uint>(length);
            var kept = new StringBuilder(length);
            var visible = false;
            for (var index = 0; index < length;)
            {
                var whole = Rune.TryGetRuneAt(element, index, out var rune);
                if (whole && IsPrintable(rune))
                {
                    characters.Add((uint)rune.Value);
                    kept.Append(rune.ToString());
                    visible |= !Rune.IsWhiteSpace(rune) && Rune.GetUnicodeCategory(rune) is not (UnicodeCategory.Format or UnicodeCategory.NonSpacingMark);
                }
                else
                {
                    unprintable.Add((start + index, string.Create(CultureInfo.InvariantCulture, $"U+{(whole ? rune.Value : element[index]):X4}")));
                }

                index += whole ? rune.Utf16SequenceLength : 1;
            }

            if (characters.Count > 0)
            {
                elements.Add(new(start, kept.ToString(), characters.ToImmutable(), visible));
            }

            start += length;
        }

        return elements.ToImmutable();
    }

    private static bool IsPrintable(Rune rune) => rune.Value is >= JoinersFirst and <= JoinersLast || Rune.GetUnicodeCategory(rune) is not
        (UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator);
}
