using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Geometry;

namespace Lampblack.Sheets;

/// <summary>The register marks in the waste of a sheet.</summary>
public static class WasteMarks
{
    /// <summary>Their size as a share of a calibration sheet's.</summary>
    public const double Share = 0.6;

    /// <summary>The number of the first; the others follow. No calibration sheet and no hole template has these.</summary>
    public const int FirstNumber = 33;

    /// <summary>How many there are at most.</summary>
    public const int Most = 6;

    /// <summary>Fewer do not tell where side 2 lies.</summary>
    public const int Fewest = 4;

    // Nearer to one point or line than this, marks tell neither how side 2 is turned nor where they lie in the photo.
    private const double LeastLengthMm = 40;
    private const double LeastBreadthMm = 11;

    private const double AirMm = 0.6;

    internal const string Prefix = "mark-";

    /// <summary>Whether a number is one of theirs.</summary>
    /// <param name="number">The number.</param>
    public static bool IsNumber(int number) => number is >= FirstNumber and < FirstNumber + Most;

    /// <summary>The marks of a sheet: number and middle, in mm from the sheet's lower left corner in front view.</summary>
    /// <param name="sheet">The sheet.</param>
    public static ImmutableArray<RegisterMark> Of(Sheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        return
        [
            .. sheet.Gauges.Where(gauge => gauge.Name.StartsWith(Prefix, StringComparison.Ordinal))
                .Select(gauge => new RegisterMark(int.Parse(gauge.Name[Prefix.Length..], CultureInfo.InvariantCulture), gauge.Box.Centre)),
        ];
    }

    /// <summary>Places them as far apart as the room allows: towards the sheet's corners first. None, and a finding, where they would tell nothing.</summary>
    internal static List<(Gauge Gauge, Box<SheetSpace> Box)> Place(FreeSpace free, Box<SheetSpace> room, string id, List<Finding> findings)
    {
        var trial = free.Copy();
        var placed = new List<(Gauge Gauge, Box<SheetSpace> Box)>();
        Point<SheetSpace>[] targets =
        [
            new(room.LeftMm, room.BottomMm), new(room.RightMm, room.TopMm), new(room.LeftMm, room.TopMm), new(room.RightMm, room.BottomMm),
            new(room.LeftMm, room.Centre.YMm), new(room.RightMm, room.Centre.YMm),
        ];
        foreach (var target in targets)
        {
            var gauge = new RegisterGauge(FirstNumber + placed.Count);
            var (width, height) = gauge.Sizes[0];
            if (trial.FindNear(width + (2 * AirMm), height + (2 * AirMm), target) is { } place)
            {
                trial.Take(place);
                placed.Add((gauge, place.Grow(-AirMm)));
            }
        }

        if (!IsSpread([.. placed.Select(mark => mark.Box.Centre)]))
        {
            findings.Add(Finding.Note(
                "gauge-no-room", $"{id} has no room for register marks, so a photo of it tells nothing of where side 2 lies", "a larger paper has room for them; the dot rows and scales can be read by eye all the same", null, id));
            return [];
        }

        foreach (var (_, box) in placed)
        {
            free.Take(box.Grow(AirMm));
        }

        return placed;
    }

    private static bool IsSpread(ImmutableArray<Point<SheetSpace>> middles)
    {
        if (middles.Length < Fewest)
        {
            return false;
        }

        var (width, height) = (middles.Max(middle => middle.XMm) - middles.Min(middle => middle.XMm), middles.Max(middle => middle.YMm) - middles.Min(middle => middle.YMm));
        return Math.Max(width, height) >= LeastLengthMm && Math.Min(width, height) >= LeastBreadthMm;
    }
}
