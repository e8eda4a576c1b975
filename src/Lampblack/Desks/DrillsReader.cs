using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Parts;
using Lampblack.Quantities;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>Reads which drills the maker owns: names of series, and single sizes.</summary>
internal static class DrillsReader
{
    private const double SmallestMm = 0.3;
    private const double LargestMm = 100;
    private const int MostDrills = 500;

    private static readonly ImmutableSortedDictionary<string, ImmutableArray<Drill>> Series = ImmutableSortedDictionary.CreateRange<string, ImmutableArray<Drill>>(
        StringComparer.Ordinal,
        [new("metric", DrillTables.Metric), new("inch", DrillTables.Inch), new("numbers", DrillTables.Numbers), new("letters", DrillTables.Letters)]);

    /// <summary>The drills under the key <c>drills</c>; the usual box where there are none.</summary>
    public static DrillSet Read(TableReader bench, DeskReading reading)
    {
        var node = bench.Raw("drills");
        if (node is null)
        {
            return DrillSet.Usual;
        }

        var drills = new List<Drill>();
        var items = node is ListNode list ? list.Items : [node];
        foreach (var item in items.Take(MostDrills))
        {
            switch (item)
            {
                case TextNode text when Series.TryGetValue(text.Value, out var series):
                    drills.AddRange(series);
                    break;
                case TextNode text when LengthText.TryRead(text.Value, out var mm, out _):
                    // Inches keep the words they are marked with on the drill.
                    Add(mm, text.Value.AsSpan().IndexOfAny('i', '"') >= 0 ? text.Value.Trim() : null, item);
                    break;
                case NumberNode number:
                    Add(number.Value, null, item);
                    break;
                case TextNode text:
                    Wrong($"`drills` has {Shown.Quoted(text.Value)}, which is neither a series nor a size", Nearest.To(text.Value, Series.Keys), item);
                    break;
                case BrokenNode:
                    break;
                default:
                    Wrong("`drills` has something that is neither a series nor a size", null, item);
                    break;
            }
        }

        return drills.Count == 0 ? DrillSet.Usual : DrillSet.Of(drills);

        void Add(double mm, string? name, Node item)
        {
            if (mm is >= SmallestMm and <= LargestMm)
            {
                drills.Add(name is null ? DrillTables.OfMm(mm) : new(name, mm));
            }
            else
            {
                Wrong($"`drills` has a drill of {Shown.Mm(mm)}; from {SmallestMm} to {LargestMm} mm are possible", null, item);
            }
        }

        void Wrong(string message, string? nearest, Node item) => reading.Findings.Add(Finding.Stop(
            "drills-form",
            message,
            nearest is null ? "write series and sizes: `drills = [\"metric\", \"letters\", 6.35, \"15/32 in\"]`; series are `metric`, `inch`, `numbers`, `letters`" : $"did you mean `{nearest}`?",
            item.Span));
    }
}
