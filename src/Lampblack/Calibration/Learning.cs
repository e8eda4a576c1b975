using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Calibration;

/// <summary>From what a maker typed after a look at a sheet to a printer file that knows more.</summary>
public static class Learning
{
    private const string Examples = "such as `--dots 6-21:N=2,E=0,S=0,W=1`, `--reading NE:x=+0.3,y=-0.1`, `--vernier 1x=5.3,1y=4.8`, `--tick A`, `--bar front=99.8,back=99.7` or `--flaked C300 --held C240`";

    /// <summary>Learns from all that was typed at once, or from nothing of it where anything is wrong.</summary>
    /// <param name="file">What is known so far.</param>
    /// <param name="paper">The paper of its path.</param>
    /// <param name="typed">What was typed.</param>
    public static Checked<Learned> Learn(PrinterFile file, PaperSize paper, TypedAnswers typed)
    {
        ArgumentNullException.ThrowIfNull(file);
        ArgumentNullException.ThrowIfNull(paper);
        ArgumentNullException.ThrowIfNull(typed);
        var findings = new List<Finding>();

        // Beside what must be dealt with first, nothing else is worth a word: it is said when the answers can be learned.
        Checked<Learned> Nothing() => new(new(file, [], null, null), [.. findings.Where(finding => finding.Severity == Severity.Stop)]);
        if (typed.Dots.IsEmpty && typed.Readings.IsEmpty && typed.Verniers.IsEmpty && typed.Sheets.IsEmpty && typed.Bars.IsEmpty && typed.Flaked.IsEmpty && typed.Held.IsEmpty && typed.Tick is null && typed.Cross is null)
        {
            findings.Add(Finding.Stop("answer-missing", "nothing was told that could be learned from", $"tell what you saw, {Examples}"));
            return Nothing();
        }

        var date = typed.Date is null ? null : PrinterWords.Date(typed.Date);
        if (typed.Date is { } day && date is null)
        {
            findings.Add(PrinterEntryReader.BadDate(day) with { Item = "--date" });
        }

        var turn = OtherAnswers.Turn(typed.Tick, typed.Cross, findings);
        var coverage = OtherAnswers.Coverage(typed.Flaked, typed.Held, findings);
        ImmutableArray<BarAnswer?> bars = [.. typed.Bars.Select(text => BarAnswer.Read(new("--bar", text, findings)))];
        var verniers = typed.Verniers.IsEmpty ? null : VernierLook.Read(paper, typed, findings);
        var photos = typed.Sheets.IsEmpty ? null : PhotoLook.Read(paper, typed, findings);
        var look = SheetLook.Read(file, paper, verniers is null ? typed : typed with { Register = null }, findings);
        if (HasStop(findings))
        {
            return Nothing();
        }

        // All that is told at once is one lesson: no sheet can have been made with only half of it.
        var number = file.Revision + 1;
        PrinterFile? Sheet(PrinterFile known) => (photos, verniers) switch
        {
            ({ } seen, _) => seen.Learn(known, paper, number, findings),
            (_, { } told) => told.Learn(known, paper, number, findings),
            _ => look.Learn(known, number),
        };

        var taught = bars.OfType<BarAnswer>().Aggregate(file, (known, bar) => known with { Bars = known.Bars.Add(Absolute(bar, file, look.Register, number)) });
        if (bars.OfType<BarAnswer>().Zip(taught.Bars.Skip(file.Bars.Length)).Any(pair => !pair.First.IsBelieved(pair.Second.FrontMm, pair.Second.BackMm, "with what the sheet was made with put back, "))
            || Sheet(taught) is not { } read)
        {
            return Nothing();
        }

        taught = read;
        Compare(file, turn, coverage, findings);
        taught = turn is null ? taught : taught with { Turns = taught.Turns.Add(turn) };
        taught = coverage is null ? taught : taught with { Coverage = taught.Coverage.Add(coverage) };
        taught = Dated(file, taught, date);
        var register = look.Told(taught, photos?.RegisterIn(file) ?? (verniers is null ? null : 0));
        var words = LearnedWords.Of(taught, turn, register, look.Keeper, !bars.IsEmpty, coverage is not null);
        return new(new(taught, [.. words, .. EdgeWords.Of(file, taught)], register, look.Keeper), [.. findings]);
    }

    /// <summary>The file with the day at all that was added.</summary>
    private static PrinterFile Dated(PrinterFile before, PrinterFile after, DateOnly? date)
    {
        return after with
        {
            Turns = New(before.Turns, after.Turns),
            Register = New(before.Register, after.Register),
            Bars = New(before.Bars, after.Bars),
            Coverage = New(before.Coverage, after.Coverage),
            Wedges = New(before.Wedges, after.Wedges),
            Gains = New(before.Gains, after.Gains),
            Planes = New(before.Planes, after.Planes),
        };

        ImmutableArray<T> New<T>(ImmutableArray<T> known, ImmutableArray<T> all)
            where T : PrinterEntry => [.. all.Select((entry, index) => index < known.Length ? entry : entry with { Date = date })];
    }

    /// <summary>Whether anything must be dealt with first.</summary>
    internal static bool HasStop(List<Finding> findings) => findings.Exists(finding => finding.Severity == Severity.Stop);

    /// <summary>The bars as they would be with nothing undone: what the sheet had been made with is put back.</summary>
    private static BarEntry Absolute(BarAnswer bar, PrinterFile file, int register, int number)
    {
        var one = 1 + (ScaleEstimate.Of(file, register).StretchXPercent / 100);
        var two = one * (1 + (RegisterEstimate.Of(file, register).StretchXPercent / 100));
        return new(Rounded(bar.FrontMm * one), Rounded(bar.BackMm * two), number) { AlongMm = bar.AlongMm, AcrossMm = bar.AcrossMm };
    }

    private static double? Rounded(double? mm) => mm is { } value ? Math.Round(value, 3, MidpointRounding.AwayFromZero) : null;

    private static void Compare(PrinterFile file, TurnEntry? turn, CoverageEntry? coverage, List<Finding> findings)
    {
        if (turn is not null && !file.Turns.IsEmpty && file.Turns[^1] is var last && last.Tick != Tick.Front && (last.Tick != turn.Tick || (turn.Face != PrintedFace.Unknown && last.Face != PrintedFace.Unknown && last.Face != turn.Face)))
        {
            findings.Add(Finding.Warn(
                "tick-changed",
                "an earlier which-way sheet of this printer file told something else; the last answer counts",
                "has the slot, the edge or the turning changed? Another path needs another printer file; else print one more which-way sheet",
                item: "--tick"));
        }

        var known = CoverageLimit.Of(file);
        var flaked = coverage is { Flaked.IsEmpty: false } ? coverage.Flaked.Min() : double.MaxValue;
        var held = coverage is { Held.IsEmpty: false } ? coverage.Held.Max() : 0;
        if ((known.HeldCoverage is { } before && flaked <= before) || (known.FlakedCoverage is { } broken && held >= broken))
        {
            findings.Add(Finding.Warn(
                "coverage-apart",
                "this coverage row tells something else than an earlier one; the lower limit counts",
                "has the paper or the heavy setting changed? Another path needs another printer file",
                item: "--held"));
        }
    }
}
