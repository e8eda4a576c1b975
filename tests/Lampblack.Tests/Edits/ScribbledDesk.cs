using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using System.Text;

namespace Lampblack.Tests.Edits;

/// <summary>Desks as people write them: any line ends, indents, remarks, orders and forms of keys, tables between braces, foreign letters. The same number gives the same text.</summary>
internal sealed class ScribbledDesk
{
    private readonly Random _random;
    private readonly StringBuilder _text = new();
    private readonly bool _inline;
    private int _number;

    private ScribbledDesk(int seed)
    {
        _random = new(seed);
        _inline = Chance(0.25);
        _text.Append(Pick("", "\uFEFF")).Append("# Gerät 🔭 [[panel]]").Append(Break()).Append("lampblack = 1").Append(Break());
        if (!_inline && Chance(0.3))
        {
            _text.Append("[lighting] # lamps").Append(Break()).Append("colour = \"red\"").Append(Break());
        }

        if (_inline)
        {
            _text.Insert(_text.Length, Chance(0.3) ? "" : Break());
            Braces();
        }
        else
        {
            Headers();
        }
    }

    public static string Of(int seed) => new ScribbledDesk(seed)._text.ToString();

    private void Headers()
    {
        for (var panel = 0; panel < _random.Next(1, 4); panel++)
        {
            _text.Append(Blank()).Append("[[panel]]").Append(Remark()).Append(Break());
            foreach (var key in PanelKeys(panel))
            {
                _text.Append(key).Append(Remark()).Append(Break());
            }

            for (var item = 0; item < _random.Next(0, 6); item++)
            {
                var indent = Pick("", "  ", "\t");
                var (kind, keys, dial) = Item(true);
                _text.Append(Blank()).Append(Chance(0.3) ? $"{indent}# over it \"{item}\"{Break()}" : "").Append(indent).Append("[[panel.").Append(kind).Append("]]").Append(Remark()).Append(Break());
                foreach (var key in keys)
                {
                    _text.Append(indent).Append(key).Append(Remark()).Append(Break());
                }

                if (dial.Length > 0)
                {
                    _text.Append(Blank()).Append(indent).Append("  [panel.").Append(kind).Append(".dial]").Append(Break()).Append(indent).Append("  ").Append(dial.Replace(";", Break() + indent + "  ", StringComparison.Ordinal)).Append(Break());
                }

                _text.Append(Chance(0.2) ? $"{indent}# gap = 3{Break()}" : "");
            }
        }

        if (Chance(0.3))
        {
            while (_text[^1] is '\n' or '\r')
            {
                _text.Length--;
            }
        }
    }

    private void Braces()
    {
        var (before, after) = Chance(0.5) ? ("\n  ", ",") : (" ", "");
        _text.Append("panel = [");
        for (var panel = 0; panel < _random.Next(1, 3); panel++)
        {
            _text.Append(panel > 0 ? ", " : "").Append("{ ").AppendJoin(", ", PanelKeys(panel));
            var items = Enumerable.Range(0, _random.Next(0, 6)).Select(_ => Item(false)).GroupBy(item => item.Kind);
            foreach (var kind in items)
            {
                _text.Append(CultureInfo.InvariantCulture, $", {kind.Key} = [{before}").AppendJoin($",{before}", kind.Select(item => $"{{ {string.Join(", ", item.Keys)} }}"))
                    .Append(after).Append(before == " " ? "" : "\n").Append(']');
            }

            _text.Append(" }");
        }

        _text.Append(']').Append(Pick("", "\n", "\r\n"));
    }

    private IEnumerable<string> PanelKeys(int panel) =>
        Shuffled([$"id = \"p{panel}\"", "size = [300, \"20 cm\"]", .. Chance(0.4) ? [Pick("fixings = { inset = 6 }", "fixings.inset = \"1/4 in\"", "fixings = { hole = 4, at = [[9, 9], [20, 9]] }")] : (string[])[]]);

    private (string Kind, IEnumerable<string> Keys, string Dial) Item(bool headed)
    {
        var kind = Pick("control", "control", "legend", "dial", "rule", "area", "art");
        var isPot = kind == "control" && Chance(0.5);
        var copies = Chance(0.3) ? _random.Next(2, 5) : 1;
        string[] keys = kind switch
        {
            "control" => [Place(), isPot ? "part = \"pot-9mm\"" : "part = 'toggle-mini-on-on'", .. Words("legend", copies), .. Chance(0.3) && !isPot ? ["states = [ \"ON\", 'ÄB#' ]"] : (string[])[], .. copies == 1 && Chance(0.3) ? ["drilled = [0.1, -0.2]"] : (string[])[]],
            "legend" => [Place(), .. Words("text", copies, true)],
            "dial" => [Place(), "radius = 12", "to = 5"],
            "rule" => [Pick("line = [[10, 10], [\"3 cm\", 20],[40,5]]", "arc = [50, 50, 10]", "box = [10.50, 10, 30, 20]", "bracket = [[1, 1], [20, 1]]", "arrow = [ [1, 1], [20, 1] ]")],
            "area" => [Pick("box = [10, 10, 30, 20]", "disc = [30, 30, 3]", "corners = [[10, 10], [20, 10], [15, 25]]")],
            _ => ["file = \"a.svg\"", .. Chance(0.5) ? [Place()] : (string[])[]],
        };
        var repeat = copies == 1 ? [] : Chance(0.5) || copies % 2 == 1
            ? new[] { Pick($"row = {{ count = {copies}, step = 20 }}", $"row.step = [15, \"2 mm\"]\0row.count = {copies}") }
            : [$"grid = {{ step = [20, 15], columns = {copies / 2}, rows = 2 }}"];
        var dial = isPot ? Pick("", "", "from = 0;to = 10", "ranges = [{ from = 2, to = 4 }];to = 10") : "";
        var isApart = headed && Chance(0.5);
        var inner = dial.Length == 0 || isApart ? [] : Chance(0.5) ? new[] { $"dial = {{ {dial.Replace(";", ", ", StringComparison.Ordinal)} }}" } : ["dial." + dial.Replace(";", "\0dial.", StringComparison.Ordinal)];
        string[] all = [.. keys, .. Chance(0.7) ? [$"id = \"i{++_number}\""] : (string[])[], .. repeat, .. inner, .. Chance(0.2) && kind is "control" or "legend" ? ["turn = 30"] : (string[])[]];
        return (kind, Shuffled(all).SelectMany(key => key.Split('\0')), isApart ? dial : "");
    }

    private string[] Words(string key, int copies, bool must = false) => copies > 1 && Chance(0.5)
        ? [$"{key}s = [{string.Join(", ", Enumerable.Range(0, copies).Select(copy => Pick($"\"W{copy}\"", $"'é{copy}'", "\"\"", "\"A\\nB\"")))}]"]
        : must || Chance(0.6) ? [$"{key} = {Pick("\"SHUTTER\"", "'RAIN'", "[\"FLAT\", \"FIELD\"]", "\"FLAT\\nFIELD 🔥\"")}"] : [];

    private string Place() => $"at = [{Pick("", " ")}{Length()}, {Pick("", "  ")}{Length()}{Pick("", " ", ",")}]";

    private string Length() => Pick("20", "31.50", "1e1", "\"1/4 in\"", "'2,5cm'", "\"12 pt\"", "0x20", "\"6.35 mm\"", "1_00");

    private IEnumerable<string> Shuffled(IReadOnlyList<string> keys) => keys.OrderBy(_ => _random.Next()).ToList();

    private string Blank() => Chance(0.6) ? Break() : Chance(0.2) ? Break() + "# alone" + Break() + Break() : "";

    private string Remark() => Chance(0.2) ? " # [x] = \"é\"" : "";

    private string Break() => Pick("\n", "\n", "\n", "\r\n");

    private string Pick(params string[] choices) => choices[_random.Next(choices.Length)];

    private bool Chance(double share) => _random.NextDouble() < share;
}
