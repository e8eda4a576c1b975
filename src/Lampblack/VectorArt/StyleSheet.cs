using System;
using System.Collections.Generic;
using System.Linq;
using System.Text.RegularExpressions;
using Lampblack.Findings;

namespace Lampblack.VectorArt;

/// <summary>All style sheets of a drawing.</summary>
internal sealed partial class StyleSheet
{
    private readonly Dictionary<string, List<StyleRule>> _rules = [];
    private readonly FindingLog _log;
    private int _count;
    private long _matches;

    public StyleSheet(SvgElement root, FindingLog log)
    {
        _log = log;
        var waiting = new Stack<SvgElement>([root]);
        while (waiting.TryPop(out var element))
        {
            if (element is { Name: "style" } && (element["type"] ?? "text/css") is "text/css" or "")
            {
                Read(Comment().Replace(element.AllText(), " "), element);
            }

            foreach (var child in Enumerable.Reverse(element.Children))
            {
                waiting.Push(child);
            }
        }
    }

    /// <summary>What is said about an element: its attributes, then rules by weight, then its style; the important ones after all others.</summary>
    public Dictionary<string, string> Declared(SvgElement element)
    {
        if (element.Declared is { } known)
        {
            return known;
        }

        var declared = new Dictionary<string, string>();
        foreach (var (name, value) in element.Attributes)
        {
            if (StyleNames.IsPresentation(name))
            {
                declared[name] = value;
            }
        }

        var inline = Declarations(element["style"]);
        var found = Candidates(element).Where(rule => rule.Matches(element)).OrderBy(rule => rule.Weight).ThenBy(rule => rule.Order)
            .SelectMany(rule => rule.Declarations).ToList();
        foreach (var declaration in (IEnumerable<Declaration>)
            [.. found.Where(one => !one.IsImportant), .. inline.Where(one => !one.IsImportant), .. found.Where(one => one.IsImportant), .. inline.Where(one => one.IsImportant)])
        {
            declared[declaration.Name] = declaration.Value;
        }

        return element.Declared = declared;
    }

    private IEnumerable<StyleRule> Candidates(SvgElement element)
    {
        foreach (var key in (IEnumerable<string>)["*", element.Name, "#" + element.Id, .. element.Classes.Select(name => "." + name)])
        {
            if (_rules.TryGetValue(key, out var rules))
            {
                if ((_matches += rules.Count) > Limits.Matches)
                {
                    throw new TooMuchException(TooMuch.Rules);
                }

                foreach (var rule in rules)
                {
                    yield return rule;
                }
            }
        }
    }

    private void Read(string text, SvgElement source)
    {
        for (var at = 0; at < text.Length;)
        {
            var open = text.IndexOfAny(['{', ';'], at);
            if (open < 0)
            {
                return;
            }

            var head = text[at..open].Trim();
            if (text[open] == ';')
            {
                if (head.StartsWith("@import", StringComparison.OrdinalIgnoreCase))
                {
                    _log.External("a style sheet", head["@import".Length..].Trim(), source.Place);
                }

                at = open + 1;
                continue;
            }

            var close = End(text, open);
            var body = text[(open + 1)..close];
            if (!head.StartsWith('@'))
            {
                AddRules(head, body, source);
            }
            else
            {
                _log.Add(
                    Finding.Note("svg-style-rule", $"A style sheet has the rule {Shown.Quoted(head)}, which is passed over.", "Where something looks different from the drawing program, export with plain attributes instead of style sheets.", source.Place),
                    head);
            }

            at = close + 1;
        }
    }

    private void AddRules(string head, string body, SvgElement source)
    {
        var declarations = Declarations(body);
        foreach (var selector in head.Split(','))
        {
            if (SelectorText.Read(selector.Trim()) is { } parts)
            {
                var last = parts[^1];
                var key = last.Id is { } id ? "#" + id : last.Classes.Count > 0 ? "." + last.Classes[0] : last.Element ?? "*";
                if (!_rules.TryGetValue(key, out var rules))
                {
                    _rules[key] = rules = [];
                }

                rules.Add(new(parts, declarations, _count++));
            }
            else
            {
                _log.Add(
                    Finding.Note("svg-style-rule", $"A style sheet has the selector {Shown.Quoted(selector.Trim())}, which is passed over.", "Elements, classes, ids, attributes with a value, and one inside another are understood. Export with plain attributes where something looks different.", source.Place),
                    selector);
            }
        }
    }

    /// <summary>The brace that closes the one at a place; the text's end where there is none.</summary>
    private static int End(string text, int open)
    {
        var depth = 0;
        for (var at = open; at < text.Length; at++)
        {
            depth += text[at] switch { '{' => 1, '}' => -1, _ => 0 };
            if (depth == 0)
            {
                return at;
            }
        }

        return text.Length;
    }

    /// <summary>Declarations parted by semicolons; those within quotes or brackets part nothing.</summary>
    private static List<Declaration> Declarations(string? text)
    {
        var declarations = new List<Declaration>();
        text ??= string.Empty;
        var (start, depth, quote) = (0, 0, '\0');
        for (var at = 0; at <= text.Length; at++)
        {
            var letter = at < text.Length ? text[at] : ';';
            if (at == text.Length || (letter == ';' && depth <= 0 && quote == '\0'))
            {
                Add(text[start..at]);
                start = at + 1;
            }
            else if (quote != '\0')
            {
                quote = letter == quote ? '\0' : quote;
            }
            else if (letter is '"' or '\'')
            {
                quote = letter;
            }
            else
            {
                depth += letter switch { '(' => 1, ')' => -1, _ => 0 };
            }
        }

        return declarations;

        void Add(string part)
        {
            var colon = part.IndexOf(':', StringComparison.Ordinal);
            if (colon > 0)
            {
                var value = part[(colon + 1)..].Trim();
                var mark = value.LastIndexOf('!');
                var isImportant = mark >= 0 && value[(mark + 1)..].Trim().Equals("important", StringComparison.OrdinalIgnoreCase);
                StyleNames.Expand(declarations, part[..colon].Trim().ToLowerInvariant(), isImportant ? value[..mark].Trim() : value, isImportant);
            }
        }
    }

    [GeneratedRegex(@"/\*.*?(\*/|\z)|<!--|-->", RegexOptions.Singleline)]
    private static partial Regex Comment();
}
