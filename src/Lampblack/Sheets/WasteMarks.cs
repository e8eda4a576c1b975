using System;
using System.Buffers.Binary;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Security.Cryptography;
using System.Text;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Printers;

namespace Lampblack.Sheets;

/// <summary>The register marks in the waste of a sheet.</summary>
public static class WasteMarks
{
    /// <summary>Their size as a share of a calibration sheet's.</summary>
    public const double Share = RegisterMark.SmallShare;

    /// <summary>The lowest number that they can have. No calibration sheet and no hole template has these.</summary>
    public const int FirstNumber = 33;

    /// <summary>How many numbers there are for them: more than a sheet has marks, so that sheets with other things undone have others.</summary>
    public const int Numbers = 12;

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
    public static bool IsNumber(int number) => number is >= FirstNumber and < FirstNumber + Numbers;

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
    /// <param name="free">The room that is left; it is taken.</param>
    /// <param name="room">All that can be printed on.</param>
    /// <param name="numbers">The numbers, of which the first are given.</param>
    /// <param name="id">The sheet, for findings.</param>
    /// <param name="findings">Where findings go.</param>
    internal static List<(Gauge Gauge, Box<SheetSpace> Box)> Place(FreeSpace free, Box<SheetSpace> room, ImmutableArray<int> numbers, string id, List<Finding> findings)
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
            var gauge = new RegisterGauge(numbers[placed.Count]);
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

    /// <summary>
    /// The numbers for a printer, in an order that follows from all that is undone for it: a sheet that was printed before the last lesson carries others than one after it,
    /// and is not taken for it.
    /// </summary>
    /// <param name="printer">What is known of the printer.</param>
    internal static ImmutableArray<int> NumbersFor(PrinterProperties printer)
    {
        var (one, two) = (printer.SideOne, printer.SideTwo);
        double[] undone = [one.Xx, one.Xy, one.XMm, one.Yx, one.Yy, one.YMm, two.Xx, two.Xy, two.XMm, two.Yx, two.Yy, two.YMm];
        var text = string.Join(' ', undone.Select(number => number.ToString("F6", CultureInfo.InvariantCulture))) + FormattableString.Invariant($" {printer.HalfTurnOfBack} {printer.Revision}");
        var hash = SHA256.HashData(Encoding.UTF8.GetBytes(text));
        var left = Enumerable.Range(FirstNumber, Numbers).ToList();
        var chosen = ImmutableArray.CreateBuilder<int>(Most);
        for (var place = 0; place < Most; place++)
        {
            var index = BinaryPrimitives.ReadUInt16LittleEndian(hash.AsSpan(2 * place)) % left.Count;
            chosen.Add(left[index]);
            left.RemoveAt(index);
        }

        return chosen.MoveToImmutable();
    }

    /// <summary>Whether marks reach far enough in every direction.</summary>
    private static bool IsSpread(ImmutableArray<Point<SheetSpace>> middles)
    {
        if (middles.Length < Fewest)
        {
            return false;
        }

        var reaches = Enumerable.Range(0, 36).Select(step => step * Math.PI / 36).Select(angle => middles.Select(middle => (middle.XMm * Math.Cos(angle)) + (middle.YMm * Math.Sin(angle))).ToList())
            .Select(along => along.Max() - along.Min()).ToList();
        return reaches.Max() >= LeastLengthMm && reaches.Min() >= LeastBreadthMm;
    }
}
