using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Sheets;

namespace Lampblack.Calibration;

/// <summary>What the sheets of a bracket tell of the printer, and which of them to keep.</summary>
internal static class BracketOffset
{
    /// <summary>How much one sheet lies off from the next, with nothing changed: standard deviation in mm, in x and y. Common practice, no source.</summary>
    public const double ScatterSdMm = 0.1;

    /// <summary>How the mask of a sheet was shifted, in front view.</summary>
    public static (double RightMm, double UpMm) Shift(int number, double stepMm)
    {
        var copy = Bracket.Copies(stepMm)[number - 1];
        return (copy.RightMm, copy.UpMm);
    }

    /// <summary>The sheet that is off the least, and by how much.</summary>
    /// <param name="rightMm">How far the mask would lie off to the right without a shift.</param>
    /// <param name="upMm">The same, upwards.</param>
    /// <param name="stepMm">The step.</param>
    public static (int Number, double OffMm) Keeper(double rightMm, double upMm, double stepMm) => Enumerable.Range(1, Bracket.Count)
        .Select(number => (number, Off: Off(number, rightMm, upMm, stepMm)))

        // Of equally good ones the middle sheet, as nothing was shifted there, then the first.
        .OrderBy(sheet => Math.Round(sheet.Off, 6, MidpointRounding.AwayFromZero)).ThenBy(sheet => sheet.number == 5 ? 0 : sheet.number)
        .First();

    /// <summary>How far the readings say the mask lies off without a shift; null in a direction that nobody read.</summary>
    public static (double? RightMm, double? UpMm) Offset(ImmutableArray<SheetReading> readings) => (Mean(readings, false), Mean(readings, true));

    private static double? Mean(ImmutableArray<SheetReading> readings, bool isUp)
    {
        var read = readings.Where(reading => reading.IsUp == isUp).ToList();
        return read.Count == 0 ? null : read.Sum(reading => reading.ValueMm / (reading.SdMm * reading.SdMm)) / read.Sum(reading => 1 / (reading.SdMm * reading.SdMm));
    }

    private static double Off(int number, double rightMm, double upMm, double stepMm)
    {
        var (right, up) = Shift(number, stepMm);
        return Math.Sqrt(((rightMm + right) * (rightMm + right)) + ((upMm + up) * (upMm + up)));
    }
}
