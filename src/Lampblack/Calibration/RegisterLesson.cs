using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Calibration;

/// <summary>From what was read of one sheet, or of one bracket, to an entry of the printer file.</summary>
internal sealed class RegisterLesson(PrinterFile file, PaperSize paper, int register, bool isRegisterTyped, int number, List<Finding> findings)
{
    // Sheets scatter; only beyond this, and 4 standard deviations, is it worth a word. Ours.
    private const double ScatterMm = 1;
    private const double Sds = 4;

    // Two sheets may well show the same two numbers; hardly the same four.
    private const int LeastToTell = 4;

    // Sheets in good register show next to nothing time and again, and nothing is lost by counting one twice.
    private const double SmallMm = 0.2;

    // What sheets say that were made just before this lesson.
    private readonly int _newest = number - 1;

    private readonly RegisterEstimate _made = RegisterEstimate.Of(file, register);

    /// <summary>What was undone on the sheet, where that is known from the sheet's own build; else it follows from the register number.</summary>
    public Affine<SheetSpace, SheetSpace>? Undone { get; init; }

    private Affine<SheetSpace, SheetSpace> Made => Undone ?? _made.On(paper);

    /// <summary>How far side 2 of this sheet may be turned or stretched, as a share.</summary>
    public double SlopeSdRadians => Math.Sqrt(Math.Pow(_made.TurnSdDegrees * Math.PI / 180, 2) + Math.Pow(_made.StretchXSdPercent / 100, 2));

    /// <summary>The file with the entry; null with findings.</summary>
    /// <param name="from">How it was read.</param>
    /// <param name="readings">What was read, with the shift of the mask taken out.</param>
    /// <param name="shiftOf">How the mask was shifted in front view where a reading was taken.</param>
    public PrinterFile? Learn(string from, ImmutableArray<SheetReading> readings, Func<SheetReading, (double RightMm, double UpMm)> shiftOf)
    {
        if (OddOne.In(readings) is { } odd)
        {
            if (odd.StretchShare is not { } stretch)
            {
                findings.Add(Finding.Stop("readings-contradict", $"the readings do not fit together: {odd.Message}", odd.Hint));
                return null;
            }

            if (Math.Abs(stretch) * 100 > RegisterEstimate.LargestStretchPercent)
            {
                return Refused(ScaleCause.Scaled(stretch * 100));
            }
        }

        var entry = new RegisterEntry(from, Entries(readings, shiftOf, Made), number);
        var taught = file with { Register = file.Register.Add(entry with { RmsMm = Rounded(RegisterEstimate.RmsMm(entry)) }) };
        if (ScaleCause.Scaled(taught.Register[^1]) is { } scaled)
        {
            return Refused(scaled);
        }

        return FitsEarlier(readings, shiftOf, isSure: isRegisterTyped || IsCalibrationSheet(from)) && !IsTypedTwice(from, readings, shiftOf) ? taught : null;
    }

    /// <summary>Whether these are the very readings of the last lesson, of the sheet it was learned from: counted twice, they would be undone twice.</summary>
    private bool IsTypedTwice(string from, ImmutableArray<SheetReading> readings, Func<SheetReading, (double RightMm, double UpMm)> shiftOf)
    {
        if (IsCalibrationSheet(from))
        {
            return IsSheetTwice(from, Entries(readings, shiftOf, Made));
        }

        if (isRegisterTyped || file.Register.IsEmpty || register != _newest || readings.Length < LeastToTell
            || readings.All(reading => Math.Abs(reading.ValueMm) < SmallMm))
        {
            return false;
        }

        var before = file.RegisterNumbers[^1] - 1;
        if (!file.Knows(before) || !Entries(readings, shiftOf, RegisterEstimate.Of(file, before).On(paper)).SequenceEqual(file.Register[^1].Readings))
        {
            return false;
        }

        findings.Add(Finding.Stop(
            "register-twice",
            "these are the very readings that were learned last, so they may be of the same sheet typed twice",
            FormattableString.Invariant($"if it is another sheet, add the number that stands behind `register` on it: `--register {_newest}`, or `--register {before}`. Nothing was stored"),
            item: "--register"));
        return true;
    }

    /// <summary>The same of a calibration sheet. What was undone on it is put back, so that its readings can be compared with those of any lesson.</summary>
    private bool IsSheetTwice(string from, ImmutableArray<RegisterReading> entries)
    {
        if (isRegisterTyped || !file.Register.Any(known => known.From == from && known.Readings.SequenceEqual(entries)))
        {
            return false;
        }

        findings.Add(Finding.Stop(
            "register-twice",
            from == PhotoLook.Source ? "these very photos were learned from before" : "these are the very readings of a calibration sheet that was learned before, so they may be of the same sheet typed twice",
            from == PhotoLook.Source ? "take a new photo, best of another copy. Nothing was stored" : "if it is another copy, add `--register 0`. Nothing was stored",
            item: from == PhotoLook.Source ? PhotoLook.Option : VernierLook.Option));
        return true;
    }

    private static bool IsCalibrationSheet(string from) => from is VernierLook.Source or PhotoLook.Source;

    private PrinterFile? Refused(Finding scaled)
    {
        findings.Add(scaled with { Hint = scaled.Hint + ". Nothing was stored" });
        return null;
    }

    /// <summary>Whether it can be stored beside what earlier sheets told; a warning where it lies far from that.</summary>
    private bool FitsEarlier(ImmutableArray<SheetReading> readings, Func<SheetReading, (double RightMm, double UpMm)> shiftOf, bool isSure)
    {
        if (_newest == 0)
        {
            return true;
        }

        if (Apart(readings, shiftOf, Made) is not { } apart)
        {
            CheckChanged(Entries(readings, shiftOf, Made));
            return true;
        }

        var found = FormattableString.Invariant($"{apart.Reading.Name} lies {apart.Mm:0.0} mm from where earlier sheets of this printer file put it");
        int? other = isSure ? null : file.Revisions.Where(one => one <= _newest).Reverse().Cast<int?>()
            .FirstOrDefault(number => number != register && Apart(readings, shiftOf, RegisterEstimate.Of(file, number!.Value).On(paper)) is null);
        if (other is { } number)
        {
            findings.Add(Finding.Stop(
                "register-apart",
                FormattableString.Invariant($"{found}; it would fit a sheet that says `register {number}`"),
                FormattableString.Invariant($"look at the number printed on the sheet and add it: `--register {number}`, or `--register {register}` if that is what it says. Nothing was stored"),
                item: "--register"));
            return false;
        }

        findings.Add(Finding.Warn(
            "register-apart",
            $"{found}; it was stored all the same",
            "has the slot, the paper, the edge or the turning changed? Another path needs another printer file; else read one more sheet"));
        return true;
    }

    /// <summary>Says where a sheet lies farther from earlier ones than sheets of this printer scatter.</summary>
    private void CheckChanged(ImmutableArray<RegisterReading> entries)
    {
        if (!file.Register.IsEmpty && RegisterEstimate.Of(file).Against(new(string.Empty, entries)) is { IsChanged: true } test)
        {
            findings.Add(Finding.Warn(
                "printer-changed",
                FormattableString.Invariant($"this sheet lies farther from what earlier sheets told than sheets of this printer scatter: chi-square {test.ChiSquare:0} of {test.Observations} readings, and {test.Limit:0} is exceeded once in a thousand times; it was stored all the same"),
                "has the slot, the paper, the heavy setting or the room's damp changed? Another path needs another printer file; if the printer itself has changed, `lampblack printer forget NAME --what register` and learn anew"));
        }
    }

    private (SheetReading Reading, double Mm)? Apart(ImmutableArray<SheetReading> readings, Func<SheetReading, (double RightMm, double UpMm)> shiftOf, Affine<SheetSpace, SheetSpace> made)
    {
        var known = RegisterEstimate.Of(file);
        (SheetReading Reading, double Mm)? worst = null;
        foreach (var reading in readings)
        {
            var entry = Entry(reading, shiftOf(reading), made);
            var expected = known.At(entry.XMm, entry.YMm);
            var mm = Math.Abs(entry.RightMm is { } right ? right - expected.RightMm : entry.UpMm!.Value - expected.UpMm);
            var sd = Math.Sqrt((reading.SdMm * reading.SdMm) + Math.Pow(reading.IsUp ? expected.UpSdMm : expected.RightSdMm, 2));
            if (mm > (Sds * sd) + ScatterMm && mm > (worst?.Mm ?? 0))
            {
                worst = (reading, mm);
            }
        }

        return worst;
    }

    private ImmutableArray<RegisterReading> Entries(ImmutableArray<SheetReading> readings, Func<SheetReading, (double RightMm, double UpMm)> shiftOf, Affine<SheetSpace, SheetSpace> made) =>
    [
        .. readings.Select(reading => Entry(reading, shiftOf(reading), made))
            .GroupBy(entry => (entry.XMm, entry.YMm, entry.SdMm))
            .SelectMany(same => same.Count() == 2 && same.Count(entry => entry.RightMm is not null) == 1
                ? [same.First() with { RightMm = same.First(entry => entry.RightMm is not null).RightMm, UpMm = same.First(entry => entry.UpMm is not null).UpMm }]
                : same.AsEnumerable()),
    ];

    /// <summary>The reading with everything undone that the sheet was made with: a mask meant for p was printed at q = A⁻¹ (p + shift) and landed at p + what was read.</summary>
    private RegisterReading Entry(SheetReading reading, (double RightMm, double UpMm) shift, Affine<SheetSpace, SheetSpace> made)
    {
        var meant = new Point<SheetSpace>(reading.Place.XMm + shift.RightMm + (paper.WidthMm / 2), reading.Place.YMm + shift.UpMm + (paper.HeightMm / 2));
        var printed = made.Inverse().Apply(meant);
        return new(
            Rounded(printed.XMm - (paper.WidthMm / 2)),
            Rounded(printed.YMm - (paper.HeightMm / 2)),
            reading.IsUp ? null : Rounded(meant.XMm + reading.ValueMm - printed.XMm),
            reading.IsUp ? Rounded(meant.YMm + reading.ValueMm - printed.YMm) : null,
            Rounded(reading.SdMm));
    }

    private static double Rounded(double mm) => Math.Round(mm, 4, MidpointRounding.AwayFromZero);
}
