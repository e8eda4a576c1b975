using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Lampblack.Quantities;

namespace Lampblack.Edits;

/// <summary>Lengths of a desk file as a maker reads and types them in the unit of their rulers. The file keeps its own units, usually mm.</summary>
public static class LengthEntry
{
    private const double MmPerInch = 25.4;
    private const string Between = ", ";

    /// <summary>Lengths as they are told: in the maker's unit, which stands behind the last of them. To 0.0001 mm or inch; fractions of an inch stay as they were written.</summary>
    /// <param name="written">As the file has them: one length, or several with a comma and a blank between.</param>
    /// <param name="unit">The maker's unit.</param>
    /// <returns>The words; <paramref name="written"/> itself where it holds no lengths.</returns>
    public static string Told(string written, LengthUnit unit)
    {
        ArgumentNullException.ThrowIfNull(written);
        var amounts = Amounts(written, unit);
        return amounts.Count == 0 ? written : $"{string.Join(Between, amounts)} {LengthWords.Name(unit)}";
    }

    /// <summary>What a maker typed, as the file is to have it: what is in the maker's unit, named or not, becomes mm; what names another unit is left as it was typed; what is still told as before stays as the file has it.</summary>
    /// <param name="written">As the file has it so far; empty where it says nothing.</param>
    /// <param name="typed">What was typed. A unit behind the last length holds for all that name none.</param>
    /// <param name="unit">The maker's unit, which holds where none is named.</param>
    /// <param name="isPair">Whether two lengths are wanted, such as a place: then commas, semicolons, blanks and <c> x </c> part them.</param>
    /// <returns>Lengths with a comma and a blank between; <paramref name="typed"/> itself where it is not understood.</returns>
    public static string Meant(string written, string typed, LengthUnit unit, bool isPair)
    {
        ArgumentNullException.ThrowIfNull(written);
        ArgumentNullException.ThrowIfNull(typed);
        var parts = isPair ? Parted(typed.Trim()) : [typed.Trim()];
        var before = written.Split(Between);
        var told = Amounts(written, unit);
        var (_, shared) = Ending(parts[^1]);
        var meant = new List<string>();
        foreach (var (index, part) in parts.Index())
        {
            var (amount, own) = Ending(part);
            var named = own.Length > 0 ? own : shared;
            if (IsUnit(named, unit) && index < told.Count && amount == told[index])
            {
                meant.Add(before[index]);
            }
            else if (Meant(amount, named, unit) is { } one)
            {
                meant.Add(one);
            }
            else
            {
                return typed;
            }
        }

        return string.Join(Between, meant);
    }

    /// <summary>One length; null where it is none, or a fraction of a millimetre, as which nobody means it.</summary>
    private static string? Meant(string amount, string named, LengthUnit unit)
    {
        var isFraction = amount.Contains('/', StringComparison.Ordinal);
        if ((isFraction && named.Length == 0 && unit == LengthUnit.Millimetre)
            || !LengthText.TryRead($"{amount} {(named.Length > 0 ? named : LengthWords.Name(unit))}", out var mm, out _))
        {
            return null;
        }

        return IsUnit(named, unit) || IsUnit(named, LengthUnit.Millimetre) ? Number(mm) : $"{amount} {named}";
    }

    /// <summary>The amounts in a unit, without its name; none where one of them is no length.</summary>
    private static List<string> Amounts(string written, LengthUnit unit)
    {
        var amounts = new List<string>();
        foreach (var part in written.Split(Between))
        {
            if (!LengthText.TryRead(part, out var mm, out _))
            {
                return [];
            }

            var (amount, named) = Ending(part);
            var isFraction = unit == LengthUnit.Inch && named.Length > 0 && IsUnit(named, unit) && amount.Contains('/', StringComparison.Ordinal);
            amounts.Add(isFraction ? amount : Number(unit == LengthUnit.Inch ? mm / MmPerInch : mm));
        }

        return amounts;
    }

    private static string[] Parted(string typed)
    {
        const StringSplitOptions Tidy = StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries;
        var sign = new[] { " x ", " × ", ";", Between, "," }.FirstOrDefault(sign => typed.Contains(sign, StringComparison.Ordinal));
        var parts = sign is not null ? typed.Split(sign, Tidy)
            : typed.Contains('/', StringComparison.Ordinal) || typed.Any(char.IsLetter) ? [typed]
            : typed.Split(' ', Tidy);
        return parts.Length == 0 ? [typed] : parts;
    }

    /// <summary>A length without its unit, and the unit.</summary>
    private static (string Amount, string Unit) Ending(string length)
    {
        var at = length.Length;
        while (at > 0 && !char.IsNumber(length[at - 1]) && length[at - 1] is not ('.' or ',' or '/'))
        {
            at--;
        }

        return (length[..at].Trim(), length[at..].Trim());
    }

    private static bool IsUnit(string named, LengthUnit unit) => named.Length == 0 || (unit == LengthUnit.Millimetre
        ? named.Equals("mm", StringComparison.OrdinalIgnoreCase)
        : named is "\"" or "\u2033" or "\u201D" or "\u201C" || named.ToUpperInvariant() is "IN" or "INCH" or "INCHES");

    private static string Number(double amount) => (Math.Round(amount, 4, MidpointRounding.AwayFromZero) + 0.0).ToString("0.####", CultureInfo.InvariantCulture);
}
