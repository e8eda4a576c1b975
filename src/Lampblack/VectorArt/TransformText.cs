using System;
using System.Collections.Generic;

namespace Lampblack.VectorArt;

/// <summary>Reads transform lists (SVG 1.1, 7.6; lengths and angles with units too, as styles write them).</summary>
internal static class TransformText
{
    /// <summary>The map; null where the text is none.</summary>
    public static Matrix? Read(string? text)
    {
        if (string.IsNullOrWhiteSpace(text) || text.Trim() is "none")
        {
            return Matrix.Identity;
        }

        var map = Matrix.Identity;
        var rest = text.AsSpan().Trim();
        while (rest.Length > 0)
        {
            var open = rest.IndexOf('(');
            var close = rest.IndexOf(')');
            if (open < 0 || close < open || One(rest[..open].Trim().ToString(), rest[(open + 1)..close].ToString()) is not { } next)
            {
                return null;
            }

            map *= next;
            rest = rest[(close + 1)..].TrimStart([' ', '\t', '\r', '\n', ',']);
        }

        return map.IsFinite ? map : null;
    }

    private static Matrix? One(string name, string text)
    {
        var isTurn = name is "rotate" or "skewX" or "skewY";
        return Numbers(text, isTurn) is not { } numbers ? null : (name, numbers) switch
        {
            ("matrix", [var a, var b, var c, var d, var e, var f]) => new Matrix(a, b, c, d, e, f),
            ("translate", [var x]) => Matrix.Shift(x, 0),
            ("translate", [var x, var y]) => Matrix.Shift(x, y),
            ("translateX", [var x]) => Matrix.Shift(x, 0),
            ("translateY", [var y]) => Matrix.Shift(0, y),
            ("scale", [var both]) => Matrix.Scale(both, both),
            ("scale", [var x, var y]) => Matrix.Scale(x, y),
            ("scaleX", [var x]) => Matrix.Scale(x, 1),
            ("scaleY", [var y]) => Matrix.Scale(1, y),
            ("rotate", [var degrees]) => Matrix.Turn(degrees),
            ("rotate", [var degrees, var x, var y]) => Matrix.Shift(x, y) * Matrix.Turn(degrees) * Matrix.Shift(-x, -y),
            ("skewX", [var degrees]) => new Matrix(1, 0, Math.Tan(degrees * Math.PI / 180), 1, 0, 0),
            ("skewY", [var degrees]) => new Matrix(1, Math.Tan(degrees * Math.PI / 180), 0, 1, 0, 0),
            _ => null,
        };
    }

    private static List<double>? Numbers(string text, bool isTurn)
    {
        if (NumberReader.List(text) is { } plain)
        {
            return plain;
        }

        var numbers = new List<double>();
        foreach (var word in text.Split([',', ' ', '\t', '\r', '\n'], StringSplitOptions.RemoveEmptyEntries))
        {
            if ((isTurn ? Degrees(word) : Lengths.Read(word, 16, null)) is not { } number)
            {
                return null;
            }

            numbers.Add(number);
        }

        return numbers;
    }

    /// <summary>An angle in degrees, with or without a unit.</summary>
    public static double? Degrees(string word)
    {
        foreach (var (unit, degrees) in (ReadOnlySpan<(string Unit, double Degrees)>)[("deg", 1), ("grad", 0.9), ("rad", 180 / Math.PI), ("turn", 360)])
        {
            if (word.EndsWith(unit, StringComparison.OrdinalIgnoreCase))
            {
                return NumberReader.Single(word[..^unit.Length]) * degrees;
            }
        }

        return NumberReader.Single(word);
    }
}
