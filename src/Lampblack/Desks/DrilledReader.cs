using System;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>Reads where a control's hole was drilled.</summary>
internal static class DrilledReader
{
    /// <summary>The key in the desk file.</summary>
    public const string Key = "drilled";

    /// <summary>A hole further off than this belongs to another place of the design.</summary>
    public const double FarthestMm = 5;

    // A hand drill wanders 0.3 to 0.6 mm (common practice, no source); beyond three times that a decimal comma or a sign is the likelier cause.
    private const double UsualMm = 2;

    public static DrilledOffset? Read(TableReader table, DeskReading reading, string id, Repetition copies)
    {
        if (table.PlaceMm(Key, -FarthestMm, FarthestMm) is not { } off)
        {
            return null;
        }

        if (copies.Count > 1)
        {
            reading.Findings.Add(Finding.Stop(
                "drilled-copies",
                $"`{id}` is a row or grid of {copies.Count} holes, and `drilled` tells of one hole only",
                "write the copies as controls of their own, each with its own `at` and `drilled`",
                table.SpanOf(Key),
                id));
            return null;
        }

        var drilled = new DrilledOffset(off.XMm, off.YMm);
        if (Math.Max(Math.Abs(off.XMm), Math.Abs(off.YMm)) > UsualMm)
        {
            reading.Findings.Add(Finding.Warn(
                "drilled-far",
                $"the hole of `{id}` is said to be drilled {Words(drilled)} of its place; by hand it is seldom more than 0.6 mm",
                "measure once more, from `at` to the middle of the hole; decimals have a point: 0.3, not 0,3",
                table.SpanOf(Key),
                id));
        }

        return drilled;
    }

    /// <summary>An offset in words: <c>0.3 mm right and 0.2 mm down</c>.</summary>
    public static string Words(DrilledOffset off) =>
        $"{Shown.Mm(Math.Abs(off.DxMm))} {(off.DxMm < 0 ? "left" : "right")} and {Shown.Mm(Math.Abs(off.DyMm))} {(off.DyMm < 0 ? "down" : "up")}";
}
