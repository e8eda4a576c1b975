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
            findings.Add(Finding.Stop("drilled-form", $"{Shown.Code(mark)} must have two lengths, right and up, found {lengths.Length}", Example));
            return null;
        }

        var read = lengths.Select(text => Length(mark, text.Trim(), findings)).ToArray();
        return read[0] is { } dx && read[1] is { } dy ? (parts[0].Trim(), new(DrilledEdit.Rounded(dx), DrilledEdit.Rounded(dy))) : null;
    }

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
