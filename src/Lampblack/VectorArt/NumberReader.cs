using System;
using System.Collections.Generic;
using System.Globalization;

namespace Lampblack.VectorArt;

/// <summary>Reads numbers one after the other, parted by blanks, commas or nothing (SVG 1.1, 4.2 and 8.3.9).</summary>
internal ref struct NumberReader(ReadOnlySpan<char> text)
{
    private readonly ReadOnlySpan<char> _text = text;

    public int Place { get; private set; }

    public readonly bool IsAtEnd => Place >= _text.Length;

    public readonly char Here => _text[Place];

    /// <summary>All numbers of a list; null where anything else is in it.</summary>
    public static List<double>? List(string text)
    {
        var reader = new NumberReader(text);
        var numbers = new List<double>();
        reader.SkipBlanks();
        while (!reader.IsAtEnd)
        {
            if (!reader.TryNumber(out var number))
            {
                return null;
            }

            numbers.Add(number);
            reader.SkipComma();
        }

        return numbers;
    }

    /// <summary>A text that is one number and nothing else.</summary>
    public static double? Single(string? text) => text is not null && List(text) is [var number] ? number : null;

    public void Skip(int count = 1) => Place += count;

    public void SkipBlanks()
    {
        while (!IsAtEnd && char.IsWhiteSpace(Here))
        {
            Place++;
        }
    }

    /// <summary>Blanks with at most one comma among them.</summary>
    public void SkipComma()
    {
        SkipBlanks();
        if (!IsAtEnd && Here == ',')
        {
            Place++;
            SkipBlanks();
        }
    }

    /// <summary>The next number; one too large to be kept is not a number.</summary>
    public bool TryNumber(out double number)
    {
        var end = Place;
        if (end < _text.Length && _text[end] is '+' or '-')
        {
            end++;
        }

        var digits = Digits(ref end);
        if (end < _text.Length && _text[end] == '.')
        {
            end++;
            digits += Digits(ref end);
        }

        number = 0;
        if (digits == 0)
        {
            return false;
        }

        // "2em" and "2e" are a number and what follows; an exponent has digits.
        if (end < _text.Length && _text[end] is 'e' or 'E')
        {
            var after = end + 1;
            if (after < _text.Length && _text[after] is '+' or '-')
            {
                after++;
            }

            end = Digits(ref after) > 0 ? after : end;
        }

        if (!double.TryParse(_text[Place..end], NumberStyles.Float, CultureInfo.InvariantCulture, out number) || !double.IsFinite(number))
        {
            return false;
        }

        Place = end;
        return true;
    }

    /// <summary>An arc's flag: one digit, which may stand right before the next number.</summary>
    public bool TryFlag(out bool flag)
    {
        flag = !IsAtEnd && Here == '1';
        if (IsAtEnd || Here is not ('0' or '1'))
        {
            return false;
        }

        Place++;
        return true;
    }

    private readonly int Digits(ref int end)
    {
        var start = end;
        while (end < _text.Length && char.IsAsciiDigit(_text[end]))
        {
            end++;
        }

        return end - start;
    }
}
