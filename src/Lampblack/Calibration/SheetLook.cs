using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Sheets;

namespace Lampblack.Calibration;

/// <summary>One look at one sheet, or at one bracket: its dots and readings.</summary>
internal sealed class SheetLook
{
    private readonly PrinterFile _file;
    private readonly PaperSize _paper;
    private readonly bool _isRegisterTyped;
    private readonly ImmutableArray<DotsAnswer> _dots;
    private readonly ImmutableArray<ScaleAnswer> _scales;
    private readonly double _stepMm;
    private readonly List<Finding> _findings;

    private SheetLook(
        PrinterFile file, PaperSize paper, int register, bool isRegisterTyped, ImmutableArray<DotsAnswer> dots, ImmutableArray<ScaleAnswer> scales, double stepMm, List<Finding> findings)
    {
        _file = file;
        _paper = paper;
        Register = register;
        _isRegisterTyped = isRegisterTyped;
        _dots = dots;
        _scales = scales;
        _stepMm = stepMm;
        _findings = findings;
    }

    /// <summary>The register number that the sheet was made with.</summary>
    public int Register { get; }

    /// <summary>The best sheet of the bracket, once learned.</summary>
    public LearnedKeeper? Keeper { get; private set; }

    private bool IsEmpty => _dots.IsEmpty && _scales.IsEmpty;

    private bool IsBracket => _dots.Any(dots => dots.Bracket is not null);

    /// <summary>Reads what was typed; findings tell what can't be.</summary>
    public static SheetLook Read(PrinterFile file, PaperSize paper, TypedAnswers typed, List<Finding> findings)
    {
        var printer = PrinterProperties.Of(file, paper);
        ImmutableArray<DotsAnswer> dots = [.. typed.Dots.Select(text => DotsAnswer.Read(new("--dots", text, findings), paper)).OfType<DotsAnswer>()];
        ImmutableArray<ScaleAnswer> scales = [.. typed.Readings.Select(text => ScaleAnswer.Read(new("--reading", text, findings), paper, printer)).OfType<ScaleAnswer>()];
        var register = OtherAnswers.Register(typed.Register, file, findings) ?? file.Revision;
        var step = OtherAnswers.StepMm(typed.Step, findings) ?? Bracket.UsualStepMm;
        var look = new SheetLook(file, paper, register, typed.Register is not null, dots, scales, step, findings);
        if (!Learning.HasStop(findings))
        {
            look.CheckTogether(typed);
        }

        return look;
    }

    /// <summary>The file with what was seen; the file itself where no sheet was read; null with findings.</summary>
    /// <param name="file">What is known, with the bars of this very lesson.</param>
    /// <param name="number">The number that this lesson gets.</param>
    public PrinterFile? Learn(PrinterFile file, int number)
    {
        if (IsEmpty)
        {
            return file;
        }

        var lesson = new RegisterLesson(file, _paper, Register, _isRegisterTyped, number, _findings);
        var readings = Readings(lesson.SlopeSdRadians);
        if (Learning.HasStop(_findings))
        {
            return null;
        }

        if (readings.IsEmpty)
        {
            _findings.Add(Finding.Stop("answer-missing", "nothing that was typed tells how far side 2 lies off", "count both rows N and S, and E and W; or read the scales (`--reading`). Nothing was stored"));
            return null;
        }

        var from = IsBracket ? "bracket" : _dots.IsEmpty ? "readings" : _scales.IsEmpty ? "dots" : "both";
        var taught = lesson.Learn(from, readings, reading => Shift(reading.Typed));
        if (taught is not null && IsBracket)
        {
            NameKeeper(readings);
        }

        return taught;
    }

    /// <summary>What the look told of side 2; null where no sheet was read.</summary>
    /// <param name="taught">The file with it.</param>
    /// <param name="other">The register number of another sheet that was read in place of this look's; null where there is none.</param>
    public LearnedRegister? Told(PrinterFile taught, int? other = null)
    {
        if (IsEmpty && other is null)
        {
            return null;
        }

        var estimate = RegisterEstimate.Of(taught);
        var made = RegisterEstimate.Of(_file, other ?? Register);
        return new(
            estimate.ShiftRightMm - made.ShiftRightMm,
            estimate.ShiftUpMm - made.ShiftUpMm,
            estimate.TurnDegrees - made.TurnDegrees,
            estimate,
            Outlook.LeftMm(taught, _paper),
            Outlook.LeftAfterAnotherMm(taught, _paper));
    }

    private void CheckTogether(TypedAnswers typed)
    {
        foreach (var again in _scales.GroupBy(scale => scale.Place.Name).SelectMany(place => new[] { place.Where(scale => scale.RightMm is not null), place.Where(scale => scale.UpMm is not null) }).SelectMany(same => same.Skip(1)).Distinct())
        {
            again.Typed.Twice(again.Place.Name);
        }

        foreach (var again in _dots.GroupBy(dots => (dots.Bracket, dots.Place)).SelectMany(same => same.Skip(1)))
        {
            again.Typed.Twice(again.Bracket is { } sheet ? FormattableString.Invariant($"sheet {sheet}") : again.Place.Name);
        }

        foreach (var dots in _dots)
        {
            dots.CheckRows(typed.RowsOf);
        }

        if (IsBracket && (!_scales.IsEmpty || _dots.Any(dots => dots.Bracket is null)))
        {
            _findings.Add(Finding.Stop(
                "answer-mixed",
                "dots of a bracket's sheets and of other sheets were told together",
                "tell the bracket by itself, each count with its sheet's number, such as `--dots 5:N=1,E=0,S=0,W=2`; tell other sheets in a call of their own",
                item: "--dots"));
        }

        if ((typed.Step is not null && !IsBracket) || (typed.Register is not null && IsEmpty && typed.Bars.IsEmpty))
        {
            _findings.Add(Finding.Stop(
                "answer-missing",
                typed.Step is not null && !IsBracket ? "a bracket's step was told, but no dots of its sheets" : "a register number was told, but nothing that was read of the sheet",
                "add what was read, such as `--dots 5:N=1,E=0,S=0,W=2` of a bracket or `--reading NE:x=+0.3,y=-0.1` of a sheet"));
        }
    }

    private ImmutableArray<SheetReading> Readings(double slopeSdRadians)
    {
        var readings = ImmutableArray.CreateBuilder<SheetReading>();
        foreach (var scale in _scales)
        {
            var sd = Math.Sqrt((Outlook.ReadingSdMm * Outlook.ReadingSdMm) + Math.Pow(scale.Place.SdMm * slopeSdRadians, 2));
            readings.AddRange(new (bool IsUp, double? Mm)[] { (false, scale.RightMm), (true, scale.UpMm) }
                .Where(number => number.Mm is not null)
                .Select(number => new SheetReading(scale.Typed, scale.Place, number.IsUp, number.Mm!.Value, sd, ReadFrom.Scale)));
        }

        foreach (var dots in Usable())
        {
            var (right, up) = Shift(dots.Typed);
            readings.AddRange(DotRows.Read(dots, slopeSdRadians).Select(reading => dots.Bracket is not { } number ? reading : reading with
            {
                Place = reading.Place with { Name = FormattableString.Invariant($"sheet {number}") },
                ValueMm = reading.ValueMm - (reading.IsUp ? up : right),
                SdMm = Math.Sqrt((reading.SdMm * reading.SdMm) + (BracketOffset.ScatterSdMm * BracketOffset.ScatterSdMm)),
            }));
        }

        return readings.ToImmutable();
    }

    /// <summary>Blocks without a full row. A full one is left out where others tell enough, and stops where none does.</summary>
    private IEnumerable<DotsAnswer> Usable()
    {
        var usable = _dots.Where(dots => !DotRows.Full(dots).Any()).ToList();
        foreach (var full in _dots.Except(usable))
        {
            var found = $"{full.Typed.Shown}: all six dots of row {string.Join(" and ", DotRows.Full(full))} shine, so side 2 lies off by more than 0.6 mm and nobody knows how far";
            if (usable.Count > 0 || !_scales.IsEmpty)
            {
                _findings.Add(Finding.Note("dots-range", found, "this block was left out; the others tell enough", item: full.Typed.Option));
            }
            else
            {
                _findings.Add(Finding.Stop(
                    "dots-range",
                    found,
                    IsBracket ? "count the dots of a sheet of the bracket on which fewer shine. Nothing was stored" : "read the scales beside the turn boxes instead: `--reading NE:x=+0.8,y=-0.3`. Nothing was stored",
                    item: full.Typed.Option));
            }
        }

        return usable;
    }

    private (double RightMm, double UpMm) Shift(Typed typed) =>
        _dots.FirstOrDefault(dots => ReferenceEquals(dots.Typed, typed))?.Bracket is { } number ? BracketOffset.Shift(number, _stepMm) : (0, 0);

    private void NameKeeper(ImmutableArray<SheetReading> readings)
    {
        if (BracketOffset.Offset(readings) is not ({ } right, { } up))
        {
            _findings.Add(Finding.Warn("dots-half", "only one direction was read, so the best sheet of the bracket can't be named", "count all four rows of one sheet", item: "--dots"));
            return;
        }

        var (number, off) = BracketOffset.Keeper(right, up, _stepMm);
        Keeper = new(number, off);
        var reach = 1.5 * _stepMm;
        if (Math.Abs(right) > reach || Math.Abs(up) > reach)
        {
            _findings.Add(Finding.Warn(
                "bracket-outside",
                FormattableString.Invariant($"side 2 lies {Math.Max(Math.Abs(right), Math.Abs(up)):0.0} mm off, beyond the bracket's reach of {reach:0.##} mm; its best sheet, {number}, is still {off:0.0} mm off"),
                "print the next bracket with this printer file: it is centred on what was learned",
                item: "--dots"));
        }
    }
}
