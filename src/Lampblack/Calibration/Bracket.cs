using System;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Calibration;

/// <summary>Nine sheets whose masks are shifted by a step left, not at all or right, and up, not at all or down; numbered as one reads: 1 is left and up, 9 right and down.</summary>
internal static class Bracket
{
    /// <summary>The usual step: some sheet lies within 0.495 mm of any offset up to 1.05 mm.</summary>
    public const double UsualStepMm = 0.7;

    /// <summary>How much one sheet lies off from the next, with nothing changed: standard deviation in mm, in x and y. Common practice, no source.</summary>
    public const double ScatterSdMm = 0.1;

    /// <summary>How the mask of a sheet was shifted, in front view.</summary>
    public static (double RightMm, double UpMm) Shift(int number, double stepMm) => (((number - 1) % 3 - 1) * stepMm, (1 - (number - 1) / 3) * stepMm);

    /// <summary>The sheet that is off the least, and by how much.</summary>
    /// <param name="rightMm">How far the mask would lie off to the right without a shift.</param>
    /// <param name="upMm">The same, upwards.</param>
    /// <param name="stepMm">The step.</param>
    public static (int Number, double OffMm) Keeper(double rightMm, double upMm, double stepMm) => Enumerable.Range(1, 9)
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
