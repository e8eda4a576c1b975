using System;
using System.Collections.Frozen;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.VectorArt;

/// <summary>The properties that are understood, and which of them an element takes from what it is in (SVG 1.1, property index).</summary>
internal static class StyleNames
{
    private static readonly FrozenSet<string> Inherited = FrozenSet.Create(
        "clip-rule", "color", "fill", "fill-opacity", "fill-rule", "font-family", "font-size", "font-style", "font-weight", "letter-spacing",
        "marker-end", "marker-mid", "marker-start", "paint-order", "stroke", "stroke-dasharray", "stroke-dashoffset", "stroke-linecap",
        "stroke-linejoin", "stroke-miterlimit", "stroke-opacity", "stroke-width", "text-anchor", "visibility", "white-space", "word-spacing", "font-variant", "direction", "writing-mode", "text-transform");

    private static readonly FrozenSet<string> Own = FrozenSet.Create(
        "alignment-baseline", "baseline-shift", "clip-path", "display", "dominant-baseline", "filter", "flood-color", "flood-opacity", "mask", "mask-type", "mix-blend-mode",
        "opacity", "overflow", "stop-color", "stop-opacity", "text-decoration", "text-decoration-line", "vector-effect", "isolation",
        "color-interpolation-filters");

    /// <summary>Whether an attribute of that name is part of an element's look.</summary>
    public static bool IsPresentation(string name) => Inherited.Contains(name) || Own.Contains(name);

    public static bool IsInherited(string name) => Inherited.Contains(name);

    /// <summary>Adds a declaration; one that stands for several is taken apart.</summary>
    public static void Expand(List<Declaration> into, string name, string value, bool isImportant)
    {
        switch (name)
        {
            case "marker":
                into.AddRange(((IEnumerable<string>)["marker-start", "marker-mid", "marker-end"]).Select(part => new Declaration(part, value, isImportant)));
                break;
            case "font":
                Font(into, value, isImportant);
                break;
            default:
                // Geometry may be styled too in SVG 2: x, width and so on.
                into.Add(new(name, value, isImportant));
                break;
        }
    }

    /// <summary>The shorthand font: words of style and weight, the size (with a line height after a slash), the families.</summary>
    private static void Font(List<Declaration> into, string value, bool isImportant)
    {
        var words = value.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        var size = Array.FindIndex(words, word => char.IsAsciiDigit(word[0]) && !int.TryParse(word, System.Globalization.CultureInfo.InvariantCulture, out _));
        if (size < 0 || size + 1 >= words.Length)
        {
            return;
        }

        foreach (var word in words.Take(size))
        {
            into.Add(new(word is "italic" or "oblique" ? "font-style" : "font-weight", word, isImportant));
        }

        into.Add(new("font-size", words[size].Split('/')[0], isImportant));
        into.Add(new("font-family", string.Join(' ', words.Skip(size + 1)), isImportant));
    }
}
