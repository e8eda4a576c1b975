using System;
using System.Collections.Generic;

namespace Lampblack.VectorArt;

/// <summary>Reads selectors: elements, classes, ids, attributes, the universal one, one inside another, one right inside another.</summary>
internal static class SelectorText
{
    /// <summary>The parts; null where the selector has something that is not understood here.</summary>
    public static List<Compound>? Read(string text)
    {
        var parts = new List<Compound>();
        var isChild = false;
        for (var at = 0; at < text.Length;)
        {
            if (char.IsWhiteSpace(text[at]))
            {
                at++;
            }
            else if (text[at] == '>' && parts.Count > 0)
            {
                isChild = true;
                at++;
            }
            else if (One(text, ref at, isChild) is { } part)
            {
                parts.Add(part);
                isChild = false;
            }
            else
            {
                return null;
            }
        }

        return parts.Count > 0 && !isChild ? parts : null;
    }

    private static Compound? One(string text, ref int at, bool isChild)
    {
        string? element = null;
        string? id = null;
        var classes = new List<string>();
        var attributes = new List<(string, string?)>();
        var start = at;
        while (at < text.Length && !char.IsWhiteSpace(text[at]) && text[at] != '>')
        {
            switch (text[at])
            {
                case '*' when at == start:
                    at++;
                    break;
                case '.':
                    at++;
                    classes.Add(Name(text, ref at));
                    break;
                case '#':
                    at++;
                    id = Name(text, ref at);
                    break;
                case '[':
                    var end = text.IndexOf(']', at);
                    if (end < 0 || text.IndexOfAny(['~', '|', '^', '$', '*'], at, end - at) >= 0)
                    {
                        return null;
                    }

                    var equals = text.IndexOf('=', at, end - at);
                    attributes.Add(equals < 0
                        ? (text[(at + 1)..end].Trim(), null)
                        : (text[(at + 1)..equals].Trim(), text[(equals + 1)..end].Trim().Trim('"', '\'')));
                    at = end + 1;
                    break;
                case ':' when text.AsSpan(at).StartsWith(":root"):
                    element = "svg";
                    at += 5;
                    break;
                default:
                    var name = at == start ? Name(text, ref at) : string.Empty;
                    if (name.Length == 0)
                    {
                        return null;
                    }

                    element = name;
                    break;
            }
        }

        return classes.Contains(string.Empty) || id?.Length == 0 ? null : new(element, id, classes, attributes, isChild);
    }

    private static string Name(string text, ref int at)
    {
        var start = at;
        while (at < text.Length && (char.IsLetterOrDigit(text[at]) || text[at] is '-' or '_' || text[at] > 127 || (text[at] == '\\' && at + 1 < text.Length)))
        {
            at += text[at] == '\\' ? 2 : 1;
        }

        return text[start..at].Replace("\\", string.Empty, StringComparison.Ordinal);
    }
}
