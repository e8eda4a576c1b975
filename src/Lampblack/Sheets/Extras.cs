using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Sheets;

/// <summary>What is wanted on the sheets besides the panels.</summary>
/// <param name="Fill">Whether spare copies fill what room is left.</param>
/// <param name="Coupon">A practice coupon for the first sheet that has room; null for none.</param>
public sealed record SheetWishes(bool Fill, Printable? Coupon = null);

/// <summary>What takes the room that panels and gauges leave, once in a build or as often as it goes.</summary>
internal sealed class Extras
{
    private const int MostSpares = 40;
    private Gauge? _coverage;
    private readonly ImmutableArray<int> _numbers;
    private Printable? _coupon;

    private Extras(Gauge? coverage, Printable? coupon, ImmutableArray<int> numbers) => (_coverage, _coupon, _numbers) = (coverage, coupon, numbers);

    public static Extras Of(PrinterProperties printer, BlackBuild build, SheetWishes wishes) =>
        new(build.Ink.Space == InkSpace.Cmyk && !printer.IsCoverageKnown ? new CoverageRow() : null, wishes.Coupon, WasteMarks.NumbersFor(printer));

    /// <summary>Takes the room of a sheet: the coupon, then the coverage row, each once, then register marks, then spare copies.</summary>
    public (ImmutableArray<PlacedPanel> Panels, ImmutableArray<(Gauge Gauge, Box<SheetSpace> Box)> Gauges) TakeRoom(
        ImmutableArray<PlacedPanel> panels, FreeSpace free, bool fill, Box<SheetSpace> room, string id, List<Finding> findings)
    {
        var all = panels.ToBuilder();
        if (_coupon is not null && Imposition.PlaceSpare(_coupon, free) is { } coupon)
        {
            all.Add(coupon);
            _coupon = null;
        }

        var gauges = ImmutableArray.CreateBuilder<(Gauge Gauge, Box<SheetSpace> Box)>();
        if (_coverage is not null && GaugePlaces.Find(_coverage, free) is { } box)
        {
            gauges.Add((_coverage, box));
            _coverage = null;
        }

        gauges.AddRange(WasteMarks.Place(free, room, _numbers, id, findings));
        if (fill)
        {
            all.AddRange(Spares(panels, free));
        }

        return (all.ToImmutable(), gauges.ToImmutable());
    }

    private static List<PlacedPanel> Spares(ImmutableArray<PlacedPanel> placed, FreeSpace free)
    {
        var spares = new List<PlacedPanel>();
        foreach (var panel in placed.Select(panel => panel.Panel).OrderBy(panel => panel.WidthMm * panel.HeightMm).ThenBy(panel => panel.Id, StringComparer.Ordinal))
        {
            while (spares.Count < MostSpares && Imposition.PlaceSpare(panel, free) is { } spare)
            {
                spares.Add(spare);
            }
        }

        return spares;
    }
}
