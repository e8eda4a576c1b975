using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Findings;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Jobs;

/// <summary>What was learned, for the shells.</summary>
/// <param name="File">The printer file with it; as it was where anything stops.</param>
/// <param name="Words">What was learned and what comes next, in plain sentences.</param>
/// <param name="Figures">The numbers behind the sentences, by name; each name tells its unit.</param>
/// <param name="WantsAnotherSheet">Whether another sheet is worth it; null where nothing was learned of the register.</param>
/// <param name="Keeper">The best sheet of a bracket; null where none was read.</param>
public sealed record LearnResult(
    PrinterFile File, ImmutableArray<string> Words, ImmutableSortedDictionary<string, double> Figures, bool? WantsAnotherSheet, int? Keeper);

/// <summary>Learns from what a maker read off a sheet.</summary>
public static class Learn
{
    private const string Apart = "register-apart";

    /// <summary>Learns from all answers at once, or from none of them where one can't be.</summary>
    /// <param name="file">What is known so far.</param>
    /// <param name="answers">What was typed.</param>
    public static Checked<LearnResult> Run(PrinterFile file, LearnAnswers answers)
    {
        ArgumentNullException.ThrowIfNull(file);
        ArgumentNullException.ThrowIfNull(answers);
        if (PaperSize.Find(file.Path.Paper) is not { } paper)
        {
            var unknown = UnknownPaper.Finding(file.Path.Paper);
            return new(new(file, [], Numbers(null, null), null, null), [unknown]);
        }

        if (answers.Photos is { CanTeach: false } useless)
        {
            return new(new(file, [], Numbers(null, null), null, null), useless.Findings);
        }

        var learned = Learning.Learn(
            file,
            paper,
            new(answers.Dots, answers.Readings, answers.Tick, answers.Cross, answers.Bars, answers.Flaked, answers.Held, answers.Register, answers.Step)
            {
                Verniers = answers.Verniers,
                Date = answers.Date,
                Sheets = answers.Photos?.Seen ?? [],
                RowsOf = [.. ComparisonReport.Read(answers.Report.AsMemory())?.Sheets.Select(sheet => (sheet.Id, sheet.DotRows)) ?? []],
            });
        var (taught, words, register, keeper) = learned.Value;
        return new(new(taught, words, Numbers(register, keeper), register?.WantsAnother, keeper?.Number), [.. answers.Photos?.Findings ?? [], .. learned.Findings]);
    }

    /// <summary>Why one answer by itself will not do, as sentences; null where it will.</summary>
    /// <param name="file">What is known so far.</param>
    /// <param name="answer">The answer, and nothing else.</param>
    public static string? Problem(PrinterFile file, LearnAnswers answer) =>
        Run(file, answer).Findings.FirstOrDefault(finding => finding.Severity == Severity.Stop && finding.Code != Apart) is { } stop ? $"{stop.Message}; {stop.Hint}." : null;

    /// <summary>What is told of a reading by itself that lies far from where earlier sheets put it; null where it does not. A <c>stop</c> where it would fit another register number.</summary>
    /// <param name="file">What is known so far.</param>
    /// <param name="answer">The answer, and the register number if it was told.</param>
    public static Finding? Doubt(PrinterFile file, LearnAnswers answer) => Run(file, answer).Findings.FirstOrDefault(finding => finding.Code == Apart);

    private static ImmutableSortedDictionary<string, double> Numbers(LearnedRegister? register, LearnedKeeper? keeper)
    {
        var numbers = ImmutableSortedDictionary.CreateBuilder<string, double>(StringComparer.Ordinal);
        if (register is not null)
        {
            numbers["onSheetRightMm"] = register.OnSheetRightMm;
            numbers["onSheetUpMm"] = register.OnSheetUpMm;
            numbers["onSheetTurnDegrees"] = register.OnSheetTurnDegrees;
            numbers["rightMm"] = register.Estimate.ShiftRightMm;
            numbers["rightSdMm"] = register.Estimate.ShiftRightSdMm;
            numbers["upMm"] = register.Estimate.ShiftUpMm;
            numbers["upSdMm"] = register.Estimate.ShiftUpSdMm;
            numbers["turnDegrees"] = register.Estimate.TurnDegrees;
            numbers["turnSdDegrees"] = register.Estimate.TurnSdDegrees;
            numbers["leftMm"] = register.LeftMm;
            numbers["leftAfterAnotherMm"] = register.LeftAfterAnotherMm;
        }

        if (keeper is not null)
        {
            numbers["keeperOffMm"] = keeper.OffMm;
        }

        return numbers.ToImmutable();
    }
}
