using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Quantities;

namespace Lampblack.Jobs;

/// <summary>Reads <c>ID=dx,dy</c>.</summary>
internal static class DrilledWords
{
    private const string Example = "write it as `shutter=0.3,-0.2`: mm to the right and up, decimals with a point";

    public static (string Address, DrilledOffset Offset)? Read(string mark, List<Finding> findings)
    {
        var parts = mark.Split('=', 2);
        if (parts.Length < 2 || parts[0].Trim().Length == 0)
        {
            findings.Add(Finding.Stop("drilled-form", $"{Shown.Code(mark)} does not say which control and how far, with `=` between", Example));
            return null;
        }

        // Two lengths with decimal commas can be parted by a semicolon.
        var value = parts[1].Trim().TrimStart('[').TrimEnd(']');
        var lengths = value.Split(value.Contains(';', StringComparison.Ordinal) ? ';' : ',');
        if (lengths.Length != 2)
        {
            if (lengths.Length is 3 or 4 && Meant(parts[0].Trim(), lengths) is { Length: > 0 } meant)
            {
                findings.Add(Finding.Stop(
                    "drilled-form",
                    $"{Shown.Code(mark)} has {lengths.Length - 1} commas, and one of them parts the two lengths",
                    $"did you mean {meant}? Decimals have a point here; with decimal commas a semicolon parts the two, as in `{parts[0].Trim()}=0,3;-0,2`"));
                return null;
            }

            findings.Add(Finding.Stop("drilled-form", $"{Shown.Code(mark)} must have two lengths, right and up, found {lengths.Length}", Example));
            return null;
        }

        var read = lengths.Select(text => Length(mark, text.Trim(), findings)).ToArray();
        return read[0] is { } dx && read[1] is { } dy ? (parts[0].Trim(), new(DrilledEdit.Rounded(dx), DrilledEdit.Rounded(dy))) : null;
    }

    /// <summary>What three or four numbers between commas can stand for, where some are decimals of the one before.</summary>
    private static string Meant(string address, string[] pieces)
    {
        var ways = pieces.Length == 3
            ? new[] { (Joined(pieces[0], pieces[1]), pieces[2].Trim()), (pieces[0].Trim(), Joined(pieces[1], pieces[2])) }
            : [(Joined(pieces[0], pieces[1]), Joined(pieces[2], pieces[3]))];
        return string.Join(" or ", ways.Where(way => IsLength(way.Item1) && IsLength(way.Item2)).Select(way => Shown.Code($"{address}={way.Item1},{way.Item2}")));
    }

    private static string Joined(string whole, string decimals) => $"{whole.Trim()}.{decimals.Trim()}";

    private static bool IsLength(string text) => LengthText.TryRead(text, out var mm, out _) && Math.Abs(mm) <= DrilledReader.FarthestMm;

    private static double? Length(string mark, string text, List<Finding> findings)
    {
        if (!LengthText.TryRead(text, out var mm, out var problem))
        {
            findings.Add(Finding.Stop("drilled-form", $"{Shown.Code(mark)}: {Shown.Quoted(text)} {problem}", Example));
            return null;
        }

        if (Math.Abs(mm) <= DrilledReader.FarthestMm)
        {
            return mm;
        }

        findings.Add(Finding.Stop(
            "drilled-form",
            $"{Shown.Code(mark)}: {Shown.Mm(mm)} is more than the {Shown.Mm(DrilledReader.FarthestMm)} that a hole may lie off",
            "it is the way from the control's `at` to the hole, not the hole's place on the panel; a hole so far off is another design: change `at`"));
        return null;
    }
}
