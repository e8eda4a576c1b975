using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;

namespace Lampblack.VectorArt;

/// <summary>A letter of a text with all that is said about its place. Lengths are in px of the text.</summary>
/// <param name="Text">What a reader takes for one character.</param>
/// <param name="Element">The text, tspan or the like that it stands in.</param>
/// <param name="Style">How that looks.</param>
internal sealed record Letter(string Text, SvgElement Element, Style Style)
{
    public double? X { get; init; }

    public double? Y { get; init; }

    public double Dx { get; init; }

    public double Dy { get; init; }

    public double TurnDegrees { get; init; }

    /// <summary>Whether it follows the one before as in a word, so that both are kerned together.</summary>
    public bool IsPlain => X is null && Y is null && Dx == 0 && Dy == 0 && TurnDegrees == 0;
}

/// <summary>Gathers the letters of a text element (SVG 1.1, chapter 10): white space as CSS has it, lists of places letter by letter.</summary>
internal sealed class TextLetters(Func<SvgElement, Style, Style> styleOf, Viewport view, Budget budget, Action<SvgElement> tellUndrawn)
{
    private readonly List<Letter> _letters = [];
    private readonly List<(List<double> X, List<double> Y, List<double> Dx, List<double> Dy, List<double> Turn, int Start)> _lists = [];

    public static List<Letter> Of(SvgElement text, Style style, Viewport view, Budget budget, Func<SvgElement, Style, Style> styleOf, Action<SvgElement> tellUndrawn)
    {
        var gathered = new TextLetters(styleOf, view, budget, tellUndrawn);
        gathered.Gather(text, style);
        while (gathered._letters is [.., { Text: " " } last] && !KeepsSpaces(last))
        {
            gathered._letters.RemoveAt(gathered._letters.Count - 1);
        }

        return gathered._letters;
    }

    private void Gather(SvgElement element, Style style)
    {
        _lists.Add((
            Numbers("x", view.Width), Numbers("y", view.Height), Numbers("dx", view.Width), Numbers("dy", view.Height), NumberReader.List(element["rotate"] ?? string.Empty) ?? [], _letters.Count));
        foreach (var child in element.Children)
        {
            switch (child.Name)
            {
                case "#text":
                    Add(child.Text, element, style);
                    break;
                case "tspan" or "a":
                    budget.SpendElement();
                    var own = styleOf(child, style);
                    if (own.Get("display") != "none")
                    {
                        Gather(child, own);
                    }

                    break;
                default:
                    tellUndrawn(child);
                    break;
            }
        }

        _lists.RemoveAt(_lists.Count - 1);

        List<double> Numbers(string name, double whole) => [.. (element[name] ?? string.Empty)
            .Split([',', ' ', '\t', '\r', '\n'], StringSplitOptions.RemoveEmptyEntries)
            .Select(word => Lengths.Read(word, style.FontSize, whole) ?? 0)];
    }

    private void Add(string text, SvgElement element, Style style)
    {
        var plain = text.Replace("\r\n", " ", StringComparison.Ordinal).Replace('\n', ' ').Replace('\r', ' ').Replace('\t', ' ');
        for (var at = 0; at < plain.Length;)
        {
            var length = StringInfo.GetNextTextElementLength(plain, at);
            var letter = new Letter(plain.Substring(at, length), element, style);
            at += length;
            if (letter.Text == " " && !KeepsSpaces(letter) && (_letters.Count == 0 || _letters[^1].Text == " "))
            {
                continue;
            }

            budget.Spend(1);
            var index = _letters.Count;
            _letters.Add(letter with
            {
                X = Nearest(list => list.X, index),
                Y = Nearest(list => list.Y, index),
                Dx = Nearest(list => list.Dx, index) ?? 0,
                Dy = Nearest(list => list.Dy, index) ?? 0,
                TurnDegrees = Turn(index),
            });
        }
    }

    /// <summary>What the innermost list says about a letter.</summary>
    private double? Nearest(Func<(List<double> X, List<double> Y, List<double> Dx, List<double> Dy, List<double> Turn, int Start), List<double>> list, int index)
    {
        for (var at = _lists.Count - 1; at >= 0; at--)
        {
            if (index - _lists[at].Start < list(_lists[at]).Count)
            {
                return list(_lists[at])[index - _lists[at].Start];
            }
        }

        return null;
    }

    // The last turn of a list holds for all letters after it.
    private double Turn(int index) => _lists.FindLast(list => list.Turn.Count > 0) is { Turn: not null } last ? last.Turn[Math.Min(index - last.Start, last.Turn.Count - 1)] : 0;

    private static bool KeepsSpaces(Letter letter)
    {
        if (letter.Style.Get("white-space") is { } said)
        {
            return said is "pre" or "pre-wrap" or "break-spaces";
        }

        for (var element = letter.Element; element is not null; element = element.Parent)
        {
            if (element["xml:space"] is { } space)
            {
                return space == "preserve";
            }
        }

        return false;
    }
}
