using System;
using System.Collections.Generic;
using System.Globalization;
using Lampblack.Findings;

namespace Lampblack.SourceText;

/// <summary>One pass over a text before it is parsed: finds what is left open, control characters, and nesting that is too deep, and repairs what it can.</summary>
/// <remarks>A quote outside a comment always begins a text in TOML, so this needs no grammar.</remarks>
internal sealed partial class TomlScan
{
    private readonly Places _places;
    private readonly string _text;
    private readonly ICollection<Finding> _findings;
    private readonly Stack<int> _open = new();
    private readonly HashSet<int> _faultyLines = [];
    private readonly HashSet<int> _openTexts = [];
    private readonly bool _lostReported;

    /// <summary>End of the last thing that is neither blank nor comment: where a missing bracket is added.</summary>
    private int _lastEnd;
    private bool _inHeader;
    private bool _loneReturnReported;
    private int _signs;

    public TomlScan(Places places, ICollection<Finding> findings)
    {
        _places = places;
        _text = places.Text;
        _findings = findings;
        _lostReported = findings.Count > 0;
        Repaired = new(_text);
    }

    /// <summary>The text for the parser.</summary>
    public Repaired Repaired { get; }

    /// <summary>Whether something left open has been reported on a line, so that the parser's opinion of it is of no interest.</summary>
    public bool IsFaultyLine(int line) => _faultyLines.Contains(line);

    /// <summary>Whether the text beginning here had no closing quote.</summary>
    public bool IsOpenText(int offset) => _openTexts.Contains(offset);

    /// <summary>Goes through the text.</summary>
    /// <returns>False where the text must not be parsed at all.</returns>
    public bool Run()
    {
        LostCharacters();
        var blankSoFar = true;
        for (var i = 0; i < _text.Length;)
        {
            var c = _text[i];
            if (c == '\n' || (c == '\r' && !IsLineBreak(i)))
            {
                if (c == '\r')
                {
                    LoneReturn(i);
                }

                EndLine(i);
                blankSoFar = true;
                i++;
                continue;
            }

            if (c is ' ' or '\t' or '\r')
            {
                i++;
                continue;
            }

            if (c == '#')
            {
                i = Comment(i);
                continue;
            }

            _inHeader |= blankSoFar && _open.Count == 0 && c == '[';
            blankSoFar = false;
            i = c is '"' or '\'' ? Text(i) : Sign(i);
            _lastEnd = Math.Max(_lastEnd, i);
            if (_open.Count > TomlText.MaxDepth)
            {
                TooDeep();
                return false;
            }

            if (_signs > TomlText.MaxNodes * 2)
            {
                TooMany(i);
                return false;
            }
        }

        EndLine(_text.Length);
        if (_open.Count > 0)
        {
            CloseOpen(_text.Length, "the end of the file");
        }

        return true;
    }

    private bool IsLineBreak(int i) => _text[i] == '\n' || (_text[i] == '\r' && i + 1 < _text.Length && _text[i + 1] == '\n');

    private int Sign(int i)
    {
        var c = _text[i];
        _signs += c is '=' or ',' or '[' or '{' ? 1 : 0;
        switch (c)
        {
            case '[' or '{':
                _open.Push(i);
                break;
            case ']' or '}':
                var opener = c == ']' ? '[' : '{';
                if (_open.Count > 0 && _text[_open.Peek()] == opener)
                {
                    _open.Pop();
                }

                break;
            default:
                if (char.IsControl(c) && c < '\u0080')
                {
                    StrayControl(i);
                }

                break;
        }

        return i + 1;
    }

    private int Comment(int i)
    {
        for (; i < _text.Length && _text[i] is not ('\n' or '\r'); i++)
        {
            if (char.IsControl(_text[i]) && _text[i] is not '\t' and < '\u0080')
            {
                StrayControl(i);
            }
        }

        return i;
    }

    /// <summary>From an opening quote to behind the closing one.</summary>
    private int Text(int start)
    {
        var quote = _text[start];
        var escapes = quote == '"';
        var several = string.CompareOrdinal(_text, start, new string(quote, 3), 0, 3) == 0;
        var i = start + (several ? 3 : 1);
        while (i < _text.Length)
        {
            var c = _text[i];
            if (c == quote && (!several || string.CompareOrdinal(_text, i, new string(quote, 3), 0, 3) == 0))
            {
                return several ? EndOfSeveral(i, quote) : i + 1;
            }

            if (!several && c is '\n' or '\r')
            {
                return OpenText(start, i);
            }

            if (escapes && c == '\\' && i + 1 < _text.Length && _text[i + 1] is not ('\n' or '\r'))
            {
                i += 2;
                continue;
            }

            if (char.IsControl(c) && c is not '\t' && !IsLineBreak(i) && c < '\u0080')
            {
                ControlInText(i);
            }

            i++;
        }

        return several ? OpenSeveral(start, quote) : OpenText(start, _text.Length);
    }

    /// <summary>Up to two more quotes may stand before the closing three and belong to the text.</summary>
    private int EndOfSeveral(int i, char quote)
    {
        i += 3;
        for (var more = 0; more < 2 && i < _text.Length && _text[i] == quote; more++)
        {
            i++;
        }

        return i;
    }

    /// <summary>A text whose line ends before its closing quote does: the quote is added, before brackets that close what stands open.</summary>
    private int OpenText(int start, int lineEnd)
    {
        var end = lineEnd;
        if (_open.Count > 0)
        {
            var closers = 0;
            while (end > start + 1 && (_text[end - 1] is ' ' or '\t' or ',' || (_text[end - 1] is ']' or '}' && ++closers <= _open.Count)))
            {
                end--;
            }
        }

        var slashes = 0;
        while (end - 1 - slashes > start && _text[end - 1 - slashes] == '\\')
        {
            slashes++;
        }

        if (_text[start] == '"' && slashes % 2 == 1)
        {
            Repaired.Replace(end - 1, ' ');
        }

        Repaired.Add(end, _text[start].ToString());
        _openTexts.Add(start);
        _faultyLines.Add(_places.Line(start));
        var before = start > 0 ? _text[start - 1] : ' ';
        if (char.IsAsciiDigit(before))
        {
            _findings.Add(Finding.Stop(
                "toml-syntax",
                $"a number with {Shown.Code(_text[start].ToString())} behind it must stand between quotes",
                "Write inches as text: \"1/4 in\" or '1/4\"'.",
                _places.Span(start, end)));
        }
        else if (char.IsLetter(before) && _text[start] == '"')
        {
            _findings.Add(Finding.Stop(
                "toml-syntax",
                "this line has a double quote too many or one too few",
                "Text stands between two double quotes; a quote inside it is written \\\".",
                _places.Span(start, end)));
        }
        else if (char.IsLetter(before))
        {
            _findings.Add(Finding.Stop(
                "toml-syntax",
                $"the text around {Shown.Code(_text[start].ToString())} has no quotes",
                "Put the whole text between double quotes, such as \"DON'T TOUCH\".",
                _places.Span(start, end)));
        }
        else
        {
            _findings.Add(Finding.Stop(
                "toml-syntax",
                $"the text that begins here has no closing {Shown.Code(_text[start].ToString())} on its line",
                "Add the quote where the text ends. A text of several lines stands between \"\"\" and \"\"\".",
                _places.Span(start, end)));
        }

        return end;
    }

    private int OpenSeveral(int start, char quote)
    {
        // The line break keeps a backslash at the end from escaping the added quotes.
        Repaired.Add(_text.Length, "\n" + new string(quote, 3));
        _openTexts.Add(start);
        _faultyLines.Add(_places.Line(start));
        _findings.Add(Finding.Stop(
            "toml-syntax",
            $"the text that begins here has no closing {Shown.Code(new string(quote, 3))}; everything to the end of the file belongs to it",
            $"Add {new string(quote, 3)} where the text ends.",
            _places.Span(start, start + 3)));
        return _text.Length;
    }

    private void LoneReturn(int i)
    {
        Repaired.Replace(i, '\n');
        if (_loneReturnReported)
        {
            return;
        }

        _loneReturnReported = true;
        _findings.Add(Finding.Stop(
            "toml-syntax",
            "a line ends with a carriage return alone (U+000D)",
            "Save the file with line ends LF or CR LF.",
            _places.Span(i, i + 1)));
    }

    private void StrayControl(int i)
    {
        Repaired.Replace(i, ' ');
        _findings.Add(Finding.Stop(
            "toml-syntax",
            $"the control character {Shown.CodePoint(new(_text[i]))} stands here, and nothing shows it",
            "Delete it.",
            _places.Span(i, i + 1)));
    }

    private void ControlInText(int i)
    {
        Repaired.Replace(i, ' ');
        _findings.Add(Finding.Stop(
            "text-control-character",
            $"the text holds the control character {Shown.CodePoint(new(_text[i]))}, which can't be printed",
            "Delete it; only line breaks and tabs may stand in a text.",
            _places.Span(i, i + 1)));
    }

    /// <summary>U+FFFD stands for a character that was lost; the parser takes it for a fault of decoding and would complain of everything behind it.</summary>
    private void LostCharacters()
    {
        for (var i = _text.IndexOf('\uFFFD', StringComparison.Ordinal); i >= 0; i = _text.IndexOf('\uFFFD', i + 1))
        {
            Repaired.Replace(i, '?');
            if (!_lostReported)
            {
                _findings.Add(Finding.Stop(
                    "toml-encoding",
                    "a character has been lost here (U+FFFD), by saving the file in another encoding before",
                    "Write the character again.",
                    _places.Span(i, i + 1)));
            }
        }
    }

    private void TooDeep() => _findings.Add(Finding.Stop(
        "toml-depth",
        string.Create(CultureInfo.InvariantCulture, $"more than {TomlText.MaxDepth} brackets stand inside one another"),
        "Close the lists that should have ended before, or write the file with fewer levels.",
        _places.Span(_open.Peek(), _open.Peek() + 1)));

    private void TooMany(int i) => _findings.Add(Finding.Stop(
        "toml-too-large",
        string.Create(CultureInfo.InvariantCulture, $"the file holds more than {TomlText.MaxNodes} values"),
        "Split it into several files.",
        _places.Span(i - 1, i)));
}
