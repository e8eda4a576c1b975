using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using Lampblack.Printers;

namespace Lampblack.Calibration;

/// <summary>What was learned, in sentences for the maker.</summary>
internal static class LearnedWords
{
    /// <summary>The sentences, the most useful first.</summary>
    public static ImmutableArray<string> Of(PrinterFile file, TurnEntry? turn, LearnedRegister? register, LearnedKeeper? keeper, bool bars, bool coverage)
    {
        var words = new List<string>();
        if (turn is not null)
        {
            words.Add(OfTick(turn.Tick, file.Path.Turning));
            words.AddRange(OfFace(turn.Face));
        }

        if (keeper is not null)
        {
            words.Add(FormattableString.Invariant($"Keep sheet {keeper.Number} of the bracket: its mask lies {keeper.OffMm:0.00} mm off."));
        }

        if (register is not null)
        {
            words.AddRange(OfRegister(file, register, keeper is not null));
        }

        if (bars)
        {
            var scale = ScaleEstimate.Of(file);
            var tall = scale.UprightBars == 0 ? string.Empty : FormattableString.Invariant($" and {Math.Abs(scale.StretchYPercent):0.00} % {(scale.StretchYPercent < 0 ? "shorter" : "taller")} (give or take {2 * scale.StretchYSdPercent:0.00} %)");
            words.Add(FormattableString.Invariant($"This printer prints {Math.Abs(scale.StretchXPercent):0.00} % {(scale.StretchXPercent < 0 ? "narrower" : "wider")} than meant (give or take {2 * scale.StretchXSdPercent:0.00} %){tall}; the next build undoes it{(register is null ? FormattableString.Invariant($" and prints `register {file.Revision}` on its sheets") : string.Empty)}."));
        }

        if (coverage)
        {
            words.Add(OfCoverage(CoverageLimit.Of(file)));
        }

        return [.. words];
    }

    private static IEnumerable<string> OfRegister(PrinterFile file, LearnedRegister register, bool isBracket)
    {
        yield return $"{(isBracket ? "Without a shift" : "On this sheet, as far as all sheets together tell,")} side 2 lay {Off(register.OnSheetRightMm, register.OnSheetUpMm)} at the middle, {Turned(register.OnSheetTurnDegrees)}.";
        var estimate = register.Estimate;
        yield return FormattableString.Invariant($"This printer puts side 2 {Off(estimate.ShiftRightMm, estimate.ShiftUpMm)}, {Turned(estimate.TurnDegrees)} (give or take {2 * Math.Max(estimate.ShiftRightSdMm, estimate.ShiftUpSdMm):0.00} mm and {2 * estimate.TurnSdDegrees:0.00} degrees).");
        yield return FormattableString.Invariant($"The next build undoes that and prints `register {file.Revision}` on its sheets. Left over at the worst corner: at most {register.LeftMm:0.00} mm, 19 times out of 20, besides what sheets scatter by themselves.");
        yield return register.WantsAnother
            ? FormattableString.Invariant($"Another sheet is worth it: build, print, read all four scales and count one block of dots. That brings it to about {register.LeftAfterAnotherMm:0.00} mm.")
            : "Another sheet is not needed.";
    }

    private static string Off(double rightMm, double upMm) =>
        FormattableString.Invariant($"{Math.Abs(rightMm):0.00} mm to the {(rightMm < 0 ? "left" : "right")} and {Math.Abs(upMm):0.00} mm {(upMm < 0 ? "down" : "up")}");

    private static string Turned(double degrees) =>
        Math.Abs(degrees) < 0.005 ? "not turned" : FormattableString.Invariant($"turned {Math.Abs(degrees):0.00} degrees {(degrees < 0 ? "clockwise" : "counter-clockwise")}");

    private static string OfTick(Tick tick, Turning turning) => (tick, turning) switch
    {
        (Tick.A, Turning.ByHand) => "Tick in A: the sheet was turned the right way. Go on like this: same edge first, white side to be printed.",
        (Tick.A, _) => "Tick in A: the printer turns the sheet the right way. Go on with two-sided, long edge.",
        (Tick.B, Turning.ByHand) => "Tick in B: the back came out turned about (the other edge went in first, or the printer takes the long edge first). The next build turns the mask page by half a turn, so go on turning the sheet just as you did.",
        (Tick.B, _) => "Tick in B: the printer turns about the short edge. The next build turns the mask page by half a turn; leave the dialog as it was.",
        (_, Turning.ByHand) => "Tick on the side of the arrow: side 2 was printed on the face that had been printed already. Put the sheet in with its other face up, same edge first, and print another which-way sheet.",
        _ => "Tick on the side of the arrow: both pages were printed on one face, so the printer did not turn the sheet itself. Choose two-sided, long edge, in the dialog, and print another which-way sheet.",
    };

    private static IEnumerable<string> OfFace(PrintedFace face) => face switch
    {
        PrintedFace.Upper => ["Cross beside the front: the face that lies up in the slot is printed. For side 2 lay the sheet in with its white side up."],
        PrintedFace.Lower => ["Cross on the back: the face that lies down in the slot is printed. For side 2 lay the sheet in with its white side down."],
        _ => [],
    };

    private static string OfCoverage(CoverageLimit limit) => (limit.HeldCoverage, limit.FlakedCoverage) switch
    {
        ({ } held, { } flaked) => FormattableString.Invariant($"Toner holds up to {100 * held:0} % here and flakes from {100 * flaked:0} % on. The next build's black stays at {100 * held:0} %."),
        ({ } held, null) => FormattableString.Invariant($"Toner holds up to {100 * held:0} % here; nothing has flaked yet. The next build's black may use {100 * held:0} %."),
        (null, { } flaked) => FormattableString.Invariant($"Toner flakes from {100 * flaked:0} % on, and nothing is known to hold. Use a lighter black, and test a lower patch."),
        _ => "Nothing is known of what toner holds.",
    };
}
