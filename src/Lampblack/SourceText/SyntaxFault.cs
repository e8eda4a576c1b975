using System;
using System.Text;
using Lampblack.Findings;

namespace Lampblack.SourceText;

/// <summary>Puts the parser's complaint into plain words, by looking at the line that it is about.</summary>
internal readonly ref struct SyntaxFault
{
    private const string Hint = "A line is `key = value`; text stands between double quotes, comments begin with #.";

    private readonly Places _places;
    private readonly int _offset;
    private readonly int _lineStart;
    private readonly ReadOnlySpan<char> _line;

    private SyntaxFault(Places places, int offset)
    {
        _places = places;
        _lineStart = places.LineStart(offset);
        _line = places.Text.AsSpan(_lineStart, places.LineEnd(offset) - _lineStart);
        _offset = Math.Min(offset, _lineStart + _line.Length);
    }

    private int At => _offset - _lineStart;

    private ReadOnlySpan<char> Before => _line[..At].TrimEnd(" \t");

    private ReadOnlySpan<char> Rest => _line[At..];

    private bool AtEnd => Rest.IsWhiteSpace() || Rest.TrimStart()[0] == '#';

    /// <summary>The run of characters at the fault up to a blank or a sign of the grammar.</summary>
    private string Word
    {
        get
        {
            var end = Rest.IndexOfAny(" \t,=[]{}#");
            var word = end < 0 ? Rest : end == 0 ? Rest[..1] : Rest[..end];
            return word.ToString();
        }
    }

    /// <summary>The value that begins at the fault: up to a comma, a closing bracket, a comment or the end of the line.</summary>
    private string Value
    {
        get
        {
            var end = Rest.IndexOfAny(",]}#");
            return (end < 0 ? Rest : Rest[..end]).Trim().ToString();
        }
    }

    /// <summary>The finding for one of the parser's messages.</summary>
    public static Finding Explain(Places places, int offset, string message)
    {
        var fault = new SyntaxFault(places, offset);
        if (Has(message, "escape character") || Has(message, "Unicode scalar") || Has(message, "hexa"))
        {
            return fault.Escape();
        }

        if (Has(message, "leading zero") || Has(message, "underscore") || Has(message, "parse integer") || Has(message, "parse float") || Has(message, "digit") || Has(message, "date"))
        {
            return fault.Number(message);
        }

        if (fault.FirstInvisible() is { } invisible)
        {
            return invisible;
        }

        return Has(message, "Expecting `=`") ? fault.MissingEquals()
            : Has(message, "for a value") || Has(message, "expecting a value") ? fault.BadValue()
            : Has(message, "base key") || Has(message, "expecting `]") ? fault.BadName()
            : Has(message, "closing `]`") || Has(message, "Missing a `,`") || Has(message, "inline table") ? fault.Between()
            : Has(message, "token `newline`") ? fault.Behind()
            : fault.LineBegin();
    }

    /// <summary>Whether the parser misses the end of a line at the beginning of the next: it took the line break for a part of the fault before.</summary>
    public static bool IsAftermath(Places places, int offset, string message) =>
        Has(message, "token `newline`") && new SyntaxFault(places, offset).Before.IsWhiteSpace();

    private static bool Has(string message, string words) => message.Contains(words, StringComparison.OrdinalIgnoreCase);

    private Finding Stop(int start, int length, string message, string hint) =>
        Finding.Stop("toml-syntax", message, hint, _places.Span(start, start + length));

    private Finding Escape()
    {
        var slash = Before.LastIndexOf('\\');
        var start = slash < 0 ? At : slash;
        var shown = _line.Slice(start, Math.Min(2, _line.Length - start)).ToString();
        return Stop(
            _lineStart + start,
            shown.Length,
            $"{Shown.Code(shown)} does not name a character in a text between double quotes",
            "Write \\\\ for a backslash, or put the text between single quotes: 'C:\\art'.");
    }

    private Finding Number(string message)
    {
        // The parser points into the number; the number itself is what must be shown.
        var start = At;
        while (start > 0 && !" \t=,[{".Contains(_line[start - 1], StringComparison.Ordinal))
        {
            start--;
        }

        var length = _line[start..].IndexOfAny(" \t,]}#");
        var written = (length < 0 ? _line[start..] : _line.Slice(start, length)).ToString();
        var what = Has(message, "date") ? "is no date or time that there is"
            : Has(message, "leading zero") ? "begins with a zero too many"
            : Has(message, "underscore") ? "has an underscore that is not between two digits"
            : Has(message, "parse integer") ? "is too large for a whole number"
            : "is not a number";
        return Stop(_lineStart + start, written.Length, $"{Shown.Code(written)} {what}", $"If it is meant as text, write {Shown.Quoted(written)}.");
    }

    /// <summary>Characters that come with pasted text: they look like blanks or like nothing.</summary>
    private Finding? FirstInvisible()
    {
        if (At >= _line.Length || Rune.DecodeFromUtf16(Rest, out var rune, out var length) != System.Buffers.OperationStatus.Done || !Shown.IsInvisible(rune))
        {
            return null;
        }

        return Stop(_offset, length, $"the invisible character {Shown.CodePoint(rune)} stands here", "Delete it, or put a plain blank in its place. It often comes with text pasted from a web page.");
    }

    private Finding MissingEquals()
    {
        var key = Before.TrimStart(" \t").ToString();
        if (AtEnd)
        {
            return Stop(_lineStart + Before.Length - key.Length, key.Length, $"{Shown.Code(key)} stands alone, without `=` and a value", Hint);
        }

        if (key is "\"\"" or "''" && Rest[0] == key[0])
        {
            return Stop(_offset - 2, 3, "three quotes can't stand round a key", "Put the key between single or double quotes.");
        }

        if (Rest[0] == ':')
        {
            return Stop(_offset, 1, $"`:` stands where `=` belongs, behind {Shown.Code(key)}", $"Write {Shown.Code(key + " = …")}.");
        }

        if (At > 0 && Before.Length == At && !char.IsAscii(Rest[0]))
        {
            return Stop(_offset, Word.Length, $"a key with {Shown.Code(Word[..1])} in it needs quotes", "Without quotes a key has only the letters a to z, digits, _ and -.");
        }

        return Stop(_offset, Word.Length, $"`=` is missing between {Shown.Code(key)} and {Shown.Code(Word)}", Hint);
    }

    private Finding BadValue()
    {
        if (AtEnd)
        {
            return Stop(_offset, 0, $"the value is missing behind {Shown.Code(Before.TrimStart(" \t").ToString())}", Hint);
        }

        if ("“”„‟«»‘’‚".Contains(Rest[0], StringComparison.Ordinal))
        {
            return Stop(_offset, 1, $"{Shown.Code(Word[..1])} is a quote mark of print, not of TOML", "Write the plain quote mark \" before and behind the text.");
        }

        if (Rest[0] is ',' or ']' or '}')
        {
            return Stop(_offset, 1, $"a value is missing before {Shown.Code(Word)}", "Add the value, or delete the comma too many.");
        }

        var value = Value.Length == 0 ? Word : Value;
        if (value.ToLowerInvariant() is "true" or "false")
        {
            return Stop(_offset, value.Length, $"{Shown.Code(value)} has capitals", $"Write {Shown.Code(value.ToLowerInvariant())}, or {Shown.Quoted(value)} if it is meant as text.");
        }

        if ((value[0] == '.' || value[^1] == '.') && value.Trim('.').AsSpan().IndexOfAnyExceptInRange('0', '9') < 0 && value.Length > 1)
        {
            return Stop(_offset, value.Length, $"{Shown.Code(value)} has no digit on one side of the point", "Write a digit on both sides of the point, such as 0.5.");
        }

        return char.IsLetter(value[0])
            ? Stop(_offset, value.Length, $"the text {Shown.Code(value)} has no quotes", $"Write {Shown.Quoted(value)}.")
            : Stop(_offset, value.Length, $"{Shown.Code(value)} is no value", Hint);
    }

    private Finding BadName()
    {
        var header = _line.TrimStart(" \t").ToString();
        return Stop(
            _offset,
            AtEnd ? 0 : 1,
            header.StartsWith('[') ? $"the header {Shown.Code(header)} can't be read" : $"the key before {Shown.Code(Word)} is not complete",
            "A header is [name] or [[name]], a key is a name; names with other signs than a to z, digits, _ and - need quotes.");
    }

    /// <summary>Something between the items of a list or of a table between braces.</summary>
    private Finding Between()
    {
        if (Unquoted() is { } unquoted)
        {
            return unquoted;
        }

        return Rest.Length > 0 && Rest[0] is ']' or '}'
            ? Stop(_offset, 1, $"{Shown.Code(Rest[..1].ToString())} does not close what is open here", "[ is closed by ], and { by }.")
            : AtEnd ? Stop(_offset, 0, "a comma or a closing bracket is missing here", Hint)
            : Stop(_offset, Word.Length, $"a comma is missing before {Shown.Code(Word)}", "Put commas between the items; text stands between double quotes.");
    }

    /// <summary>Something behind a value that was complete, or behind a header.</summary>
    private Finding Behind()
    {
        if (Unquoted() is { } unquoted)
        {
            return unquoted;
        }

        if (_line.TrimStart(" \t") is ['[', ..])
        {
            return Stop(_offset, Word.Length, $"{Shown.Code(Word)} stands behind a header", "Put it on a line of its own.");
        }

        if (Rest.StartsWith("//") || Rest.StartsWith("--") || Rest.StartsWith("/*"))
        {
            return Stop(_offset, 2, $"{Shown.Code(Rest[..2].ToString())} begins no comment", "Comments begin with #.");
        }

        if (Rest.Length > 0 && Rest[0] is ';' or ',')
        {
            return Stop(_offset, 1, $"{Shown.Code(Rest[..1].ToString())} stands behind the value", "Delete it: the value ends with its line.");
        }

        if (Rest.Length > 0 && Rest[0] is ']' or '}')
        {
            return Stop(_offset, 1, $"{Shown.Code(Rest[..1].ToString())} closes nothing", "Delete it, or add the bracket that opens.");
        }

        return Rest.Length > 0 && Rest[0] != '=' && Rest.Contains('=')
            ? Stop(_offset, Word.Length, $"a second key begins on the same line: {Shown.Code(Word)}", "Put every key on a line of its own.")
            : Before is [.., '"' or '\'']
                ? Stop(_offset, Word.Length, $"{Shown.Code(Word)} stands behind the closing quote", "Quotes inside a text are written \\\" there.")
                : Stop(_offset, Word.Length, $"{Shown.Code(Word)} stands behind a value that was complete", Hint);
    }

    /// <summary>A number with a unit, a fraction or a decimal comma, for which the parser saw the number only.</summary>
    private Finding? Unquoted()
    {
        if (AtEnd || Before.IsEmpty || !(char.IsAsciiDigit(Before[^1]) || Before[^1] == '.'))
        {
            return null;
        }

        var start = Before.LastIndexOfAny(" \t=,[{") + 1;
        if (Rest[0] == ',' && Rest.Length > 1 && char.IsAsciiDigit(Rest[1]) && Before.Contains('='))
        {
            var comma = _line[start..].ToString();
            var end = comma.AsSpan().IndexOfAny(" \t#");
            comma = end < 0 ? comma : comma[..end];
            return Stop(_lineStart + start, comma.Length, $"{Shown.Code(comma)} has a decimal comma", $"Write {Shown.Code(comma.Replace(',', '.'))}, or a text with a unit: {Shown.Quoted(comma + " mm")}.");
        }

        if (!(char.IsLetter(Rest[0]) || Rest[0] is '/' or '"' or '\'' or '%' or '″' or '”' or '°') || Rest.StartsWith("//") || Rest.Contains('='))
        {
            return null;
        }

        var gap = _line[Before.Length..At].ToString();
        var value = _line[start..Before.Length].ToString() + gap + Value;
        return Stop(_lineStart + start, value.Length, $"{Shown.Code(value)} is more than a number and has no quotes", $"Write {Shown.Quoted(value)}.");
    }

    private Finding LineBegin()
    {
        if (Rest.StartsWith("/") || Rest.StartsWith(";") || Rest.StartsWith("*"))
        {
            return Stop(_offset, 1, $"{Shown.Code(Rest[..1].ToString())} begins no comment", "Comments begin with #.");
        }

        if (Rest.StartsWith("="))
        {
            return Stop(_offset, 1, "the key before `=` is missing", Hint);
        }

        return Stop(_offset, AtEnd ? 0 : Word.Length, AtEnd ? "this line can't be read" : $"{Shown.Code(Word)} can't stand here", Hint);
    }
}
