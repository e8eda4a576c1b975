using System.Collections.Generic;
using Lampblack.Findings;

namespace Lampblack.VectorArt;

/// <summary>An element of the file. Elements of other namespaces are not kept.</summary>
/// <param name="name">Its name.</param>
/// <param name="parent">What it is in; null for the outermost.</param>
/// <param name="places">Where its file's lines begin.</param>
/// <param name="line">The line of its tag's name, from 1.</param>
/// <param name="position">The place of its tag's name in that line, from 1.</param>
internal sealed class SvgElement(string name, SvgElement? parent, TextPlaces places, int line, int position)
{
    private Dictionary<string, string>? _attributes;
    private string[]? _classes;

    public string Name { get; } = name;

    public SvgElement? Parent { get; } = parent;

    /// <summary>Where its tag begins.</summary>
    public SourceSpan Place => places.Of(line, position, -1);

    /// <summary>Elements and texts in their order: a text is an element named #text.</summary>
    public List<SvgElement> Children { get; } = [];

    /// <summary>What a #text says; empty for elements.</summary>
    public string Text { get; init; } = string.Empty;

    public string? Id => this["id"];

    public string[] Classes => _classes ??= (this["class"] ?? string.Empty).Split((char[]?)null, System.StringSplitOptions.RemoveEmptyEntries);

    /// <summary>What the file's own tags, and the style sheets, say about its look; filled when it is first asked for.</summary>
    public Dictionary<string, string>? Declared { get; set; }

    public IEnumerable<KeyValuePair<string, string>> Attributes => _attributes ?? [];

    /// <summary>An attribute as it stands; href is that of XLink too.</summary>
    public string? this[string attribute]
    {
        get => _attributes?.GetValueOrDefault(attribute);
        set => (_attributes ??= [])[attribute] = value!;
    }

    /// <summary>How findings name it.</summary>
    public string Shown => Id is { } id ? $"<{Name} id=\"{Findings.Shown.Short(id)}\">" : $"<{Name}>";

    /// <summary>All text in it.</summary>
    public string AllText()
    {
        if (Name == "#text")
        {
            return Text;
        }

        var text = new System.Text.StringBuilder();
        foreach (var child in Children)
        {
            text.Append(child.AllText());
        }

        return text.ToString();
    }
}
