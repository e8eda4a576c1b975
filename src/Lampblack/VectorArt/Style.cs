using System;
using System.Collections.Generic;

namespace Lampblack.VectorArt;

/// <summary>How an element looks: its own declarations and what it takes from what it is in.</summary>
internal sealed class Style
{
    private readonly Style? _parent;
    private readonly Dictionary<string, string> _declared;

    public Style(Style? parent, Dictionary<string, string> declared)
    {
        (_parent, _declared) = (parent, declared);
        FontSize = SizeOfFont();
    }

    /// <summary>What an em is, in px.</summary>
    public double FontSize { get; }

    /// <summary>What the word currentColor stands for.</summary>
    public DrawnColour Current => Get("color") is { } text && !IsCurrent(text) ? ColourText.Read(text) ?? DrawnColour.Black : _parent?.Current ?? DrawnColour.Black;

    /// <summary>A property's value; null where nobody gives one.</summary>
    public string? Get(string name)
    {
        if (!_declared.TryGetValue(name, out var value))
        {
            return StyleNames.IsInherited(name) ? _parent?.Get(name) : null;
        }

        return value.Trim() switch
        {
            "inherit" => _parent?.Get(name),
            "unset" or "revert" when StyleNames.IsInherited(name) => _parent?.Get(name),
            "initial" or "unset" or "revert" => null,
            var plain => plain,
        };
    }

    /// <summary>What the element itself declares, not what it inherits.</summary>
    public string? Own(string name) => _declared.TryGetValue(name, out var value) ? value.Trim() : null;

    /// <summary>A share from 0 to 1.</summary>
    public double Share(string name) => Get(name) is { } text ? ColourText.OpacityText(text) ?? 1 : 1;

    /// <summary>A length in px; the usual one where none is given or it can't be read.</summary>
    public double Length(string name, double usual, double whole) => Lengths.Read(Get(name), FontSize, whole) ?? usual;

    /// <summary>A colour with currentColor put in; null where it is none.</summary>
    public DrawnColour? Colour(string text) => IsCurrent(text) ? Current : ColourText.Read(text);

    private static bool IsCurrent(string text) => text.Equals("currentColor", StringComparison.OrdinalIgnoreCase);

    private double SizeOfFont()
    {
        const double medium = 16;
        var above = _parent?.FontSize ?? medium;
        if (Own("font-size") is not { } text)
        {
            return above;
        }

        var size = text.ToLowerInvariant() switch
        {
            "xx-small" => 9,
            "x-small" => 10,
            "small" => 13,
            "medium" or "initial" => medium,
            "large" => 18,
            "x-large" => 24,
            "xx-large" => 32,
            "larger" => above * 1.2,
            "smaller" => above / 1.2,
            _ => Lengths.Read(text, above, above) ?? above,
        };
        return size >= 0 && size < 1e6 ? size : above;
    }
}
