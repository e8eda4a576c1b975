using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Calibration;

/// <summary>One look at a calibration sheet: its verniers. Nothing is undone on it, whatever was learned before.</summary>
internal sealed class VernierLook
{
    /// <summary>By what a register entry says that it comes from verniers.</summary>
    public const string Source = "verniers";

    /// <summary>The option it is typed behind.</summary>
    public const string Option = "--vernier";

    /// <summary>How well a vernier is read: half of its least count, typed to the nearest tenth. From memory, no source.</summary>
    public static readonly double ReadingSdMm = Math.Sqrt((0.05 * 0.05) + (0.1 * 0.1 / 12));

    private readonly ImmutableArray<SheetReading> _readings;
    private readonly bool _isAnotherSheet;

    private VernierLook(ImmutableArray<SheetReading> readings, bool isAnotherSheet) => (_readings, _isAnotherSheet) = (readings, isAnotherSheet);

    /// <summary>Reads what was typed; null with findings.</summary>
    public static VernierLook? Read(PaperSize paper, TypedAnswers typed, List<Finding> findings)
    {
        if (CalibrationPlan.Of(paper) is not { } plan)
        {
            findings.Add(Finding.Stop("sheet-no-room", $"a calibration sheet does not fit on {paper.Name}, so there are no verniers on that paper", "is it another printer file? `lampblack printer list` shows them", item: Option));
            return null;
        }

        if (!typed.Dots.IsEmpty || !typed.Readings.IsEmpty || !typed.Bars.IsEmpty || typed.Step is not null)
        {
            findings.Add(Finding.Stop(
                "answer-mixed",
                "verniers of a calibration sheet and readings of another sheet were told together",
                "tell the verniers by themselves; tell dots, scales and bars of other sheets in a call of their own",
                item: Option));
            return null;
        }

        // A calibration sheet is made with nothing undone, which is register 0; typed, it says that the maker is sure that it is another sheet.
        var register = typed.Register?.Trim();
        if (register is not (null or "0"))
        {
            findings.Add(Finding.Stop("answer-mixed", $"{Shown.Code($"--register {register}")}: a calibration sheet has no register number, as nothing is undone on it", "leave it out", item: "--register"));
            return null;
        }

        var verniers = Vernier.Of(plan);
        var answers = new List<VernierAnswer>();
        foreach (var text in typed.Verniers)
        {
            if (VernierAnswer.Read(new(Option, text, findings), verniers) is not { } read)
            {
                return null;
            }

            answers.AddRange(read);
        }

        foreach (var again in answers.GroupBy(answer => answer.Vernier.Name).Where(same => same.Skip(1).Any()))
        {
            again.Last().Typed.Twice($"vernier {again.Key}");
        }

        return Learning.HasStop(findings) ? null : new([.. answers.Select(answer => ReadingOf(answer, paper))], register is not null);
    }

    /// <summary>The file with what was seen; null with findings.</summary>
    public PrinterFile? Learn(PrinterFile file, PaperSize paper, int number, List<Finding> findings) =>
        new RegisterLesson(file, paper, register: 0, _isAnotherSheet, number, findings).Learn(Source, _readings, _ => (0, 0));

    private static SheetReading ReadingOf(VernierAnswer answer, PaperSize paper)
    {
        var vernier = answer.Vernier;
        var place = new SheetPlace($"vernier {vernier.Name}", vernier.Place.XMm - (paper.WidthMm / 2), vernier.Place.YMm - (paper.HeightMm / 2), 0);
        return new(answer.Typed, place, vernier.IsUp, answer.ReadMm - Vernier.InRegisterMm, ReadingSdMm, ReadFrom.Vernier);
    }
}
