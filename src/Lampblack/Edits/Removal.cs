using System;
using Lampblack.SourceText;

namespace Lampblack.Edits;

/// <summary>Takes a stretch out of lines, or out of what stands between brackets or braces.</summary>
internal static class Removal
{
    /// <summary>Takes a key with its value out, and its line where nothing else is on it.</summary>
    public static Splice FromLines(DeskText desk, int start, int end)
    {
        var (text, places) = (desk.Text, desk.Places);
        var (lineStart, lineEnd) = (places.LineStart(start), places.LineEnd(end));
        if (text[end..lineEnd].Trim() is { Length: > 0 })
        {
            // A remark behind it stays, on its own line.
            var remark = end;
            while (char.IsWhiteSpace(text[remark]))
            {
                remark++;
            }

            return new(start, remark - start, string.Empty);
        }

        if (desk.Layout.Below(lineEnd) is { } next)
        {
            return new(lineStart, next - lineStart, string.Empty);
        }

        // The last line has no break of its own: that of the line before goes.
        lineStart -= lineStart == 0 ? 0 : lineStart > 1 && text[lineStart - 2] == '\r' ? 2 : 1;
        return new(lineStart, text.Length - lineStart, string.Empty);
    }

    /// <summary>Takes one of several out, with its comma; null where a remark stands in the way.</summary>
    public static Splice? FromBraces(DeskText desk, int start, int end)
    {
        var (text, places) = (desk.Text, desk.Places);
        var before = start;
        while (before > 0 && char.IsWhiteSpace(text[before - 1]))
        {
            before--;
        }

        var after = end;
        while (after < text.Length && char.IsWhiteSpace(text[after]))
        {
            after++;
        }

        if (before > 0 && text[before - 1] == ',' && !IsRemark(before - 1))
        {
            return new(before - 1, end - before + 1, string.Empty);
        }

        if (after < text.Length && text[after] == ',')
        {
            after++;
            while (after < text.Length && text[after] is ' ' or '\t')
            {
                after++;
            }

            return new(start, after - start, string.Empty);
        }

        return before > 0 && after < text.Length && text[before - 1] is '{' or '[' && text[after] is '}' or ']'
            ? new(before, after - before, string.Empty)
            : null;

        // Whether there may be a remark before this comma on its line, so that it is perhaps none. Before something on the same line there can't.
        bool IsRemark(int offset) => places.Line(offset) != places.Line(start) && text[places.LineStart(offset)..offset].Contains('#', StringComparison.Ordinal);
    }
}
