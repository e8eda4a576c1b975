using System;
using System.Globalization;
using System.Text;
using Lampblack.Findings;

namespace Lampblack.SourceText;

/// <content>Brackets left open: told by the line that follows.</content>
internal sealed partial class TomlScan
{
    private static bool IsKeyCharacter(char c) => char.IsAsciiLetterOrDigit(c) || c is '_' or '-';

    private void EndLine(int lineEnd)
    {
        if (_open.Count == 0)
        {
            _inHeader = false;
            return;
        }

        if (_inHeader)
        {
            OpenHeader();
        }
        else if (BeginsWithHeader(lineEnd + 1) || (BeginsWithKey(lineEnd + 1) && !MayGoOnWithKey()))
        {
            var next = _places.Span(lineEnd + 1, lineEnd + 1);
            CloseOpen(lineEnd, string.Create(CultureInfo.InvariantCulture, $"line {next.Line}"));
        }
    }

    private void OpenHeader()
    {
        _inHeader = false;
        var start = _places.LineStart(_open.Peek());
        Repaired.Add(_lastEnd, Closers());
        _faultyLines.Add(_places.Line(start));
        var header = _text[start.._lastEnd].Trim();
        _findings.Add(Finding.Stop(
            "toml-syntax",
            $"the header {Shown.Code(header)} is not closed",
            header.StartsWith("[[", StringComparison.Ordinal) ? "Two brackets open it, so two must close it: [[panel]]." : "Close it with a bracket: [lighting].",
            _places.Span(_lastEnd - header.Length, _lastEnd)));
        _open.Clear();
    }

    /// <summary>Between braces a key may follow on a new line, after a comma or the opening brace itself.</summary>
    private bool MayGoOnWithKey() => _text[_open.Peek()] == '{' && _lastEnd > 0 && _text[_lastEnd - 1] is ',' or '{';

    private bool BeginsWithKey(int i)
    {
        i = SkipBlanks(i);
        var start = i;
        while (i < _text.Length && (IsKeyCharacter(_text[i]) || _text[i] == '.'))
        {
            i++;
        }

        var end = SkipBlanks(i);
        return i > start && end < _text.Length && _text[end] == '=';
    }

    /// <summary>Whether the line can only be a header: a bare name between brackets is no list.</summary>
    private bool BeginsWithHeader(int i)
    {
        i = SkipBlanks(i);
        var brackets = 0;
        for (; i < _text.Length && _text[i] == '[' && brackets < 2; i++)
        {
            brackets++;
        }

        var start = i;
        while (i < _text.Length && (IsKeyCharacter(_text[i]) || _text[i] == '.'))
        {
            i++;
        }

        return brackets > 0
            && i > start
            && i < _text.Length
            && _text[i] == ']'
            && char.IsAsciiLetter(_text[start])
            && _text[start..i] is not ("true" or "false" or "inf" or "nan");
    }

    private int SkipBlanks(int i)
    {
        while (i < _text.Length && _text[i] is ' ' or '\t')
        {
            i++;
        }

        return i;
    }

    private void CloseOpen(int before, string where)
    {
        var opener = _open.Peek();
        var list = _text[opener] == '[';
        _faultyLines.Add(_places.Line(Math.Max(0, _lastEnd - 1)));
        _findings.Add(Finding.Stop(
            "toml-syntax",
            $"the {(list ? "list" : "table")} that opens here is not closed before {where}",
            list ? "Add ] behind its last item." : "Add } behind its last value, or a comma if more keys follow.",
            _places.Span(opener, opener + 1)));
        Repaired.Add(Math.Min(_lastEnd, before), Closers());
        _open.Clear();
    }

    private string Closers()
    {
        var closers = new StringBuilder();
        foreach (var opener in _open)
        {
            closers.Append(_text[opener] == '[' ? ']' : '}');
        }

        return closers.ToString();
    }
}
