using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Findings;
using Lampblack.Printers;

namespace Lampblack.Jobs;

/// <summary>One thing that a maker told about the path.</summary>
/// <param name="Key">Its key in the printer file.</param>
/// <param name="Title">What it is.</param>
/// <param name="Text">What was told, in words.</param>
public sealed record PrinterTrait(string Key, string Title, string Text);

/// <summary>One number that was learned.</summary>
/// <param name="Key">A stable name, with its unit at the end.</param>
/// <param name="Value">The number, in the unit that the key names.</param>
/// <param name="Sd">Its standard deviation, in the same unit; null where it has none.</param>
public sealed record PrinterFigure(string Key, double Value, double? Sd);

/// <summary>One thing that can be learned about a printer.</summary>
/// <param name="Key">A stable name: <c>turn</c>, <c>register</c>, <c>bars</c>, <c>coverage</c>, <c>wedge</c>, <c>gain</c>, <c>planes</c>.</param>
/// <param name="Title">What it is.</param>
/// <param name="IsKnown">Whether anything of it was learned; otherwise common practice holds.</param>
/// <param name="Sheets">From how many sheets.</param>
/// <param name="Text">What is known, or what is used instead, in words.</param>
/// <param name="Next">How to learn it, or how to learn it better; empty where there is nothing more to do.</param>
/// <param name="Figures">The numbers.</param>
public sealed record PrinterFact(string Key, string Title, bool IsKnown, int Sheets, string Text, string Next, ImmutableArray<PrinterFigure> Figures);

/// <summary>What is known of a printer, for a person and for a program.</summary>
/// <param name="Name">The printer's name.</param>
/// <param name="Revision">What sheets made with it say behind <c>register</c>.</param>
/// <param name="Forgotten">The last such number of which something was forgotten; 0 for none.</param>
/// <param name="Path">What was told about the path.</param>
/// <param name="Facts">What was learned, and what was not.</param>
public sealed record PrinterAccount(string Name, int Revision, int Forgotten, ImmutableArray<PrinterTrait> Path, ImmutableArray<PrinterFact> Facts)
{
    private const string Unsaid = "not said";
    private const string ByPhotos = "photograph the calibration sheet (`lampblack printer sheet`), then `lampblack printer learn` with the photos";

    internal static PrinterAccount Of(PrinterFile file)
    {
        ArgumentNullException.ThrowIfNull(file);
        return new(file.Name, file.Revision, file.Forgotten, [.. Traits(file.Path)], [Turn(file), Register(file), Bars(file), Coverage(file), Blacks(file), Gain(file), Planes(file)]);
    }

    private static IEnumerable<PrinterTrait> Traits(PrinterPath path)
    {
        yield return new("colour", "inks", path.Colour ? "colour" : "black only");
        yield return new("slot", "slot", path.Slot is { } slot ? Shown.Short(slot) : Unsaid);
        yield return new("paper", "paper", path.Paper + (path.WeightGramsPerM2 is { } weight ? Invariant($", {weight:0.#} g/m2") : ", weight not said"));
        yield return new("edge", "goes in first", path.Edge switch { FirstEdge.Short => "the short edge", FirstEdge.Long => "the long edge", _ => Unsaid });
        yield return new("turning", "turned", path.Turning == Turning.ByHand ? "by hand" : "by the printer");
        yield return new("order", "printed first", path.Order == SideOrder.FrontFirst ? "the front" : "the mask");
        yield return new("heavy", "heavy setting", path.HeavySetting is { } heavy ? Shown.Short(heavy) : Unsaid);
        yield return new("margin", "margins", Invariant($"{path.MarginMm:0.##} mm all round, {path.LeadingEdgeMm:0.##} mm at the leading edge free of heavy toner"));
    }

    private static PrinterFact Turn(PrinterFile file)
    {
        const string How = "print the which-way sheet (`lampblack printer which-way`), then `lampblack printer learn` with `--tick`";
        var (text, next) = file.Turns.IsEmpty
            ? ("not learned; the sheet is taken to be turned with the same edge first" + (file.HalfTurnOfBack ? ", and as the long edge leads, the back page is given a half-turn" : ""), How)
            : file.Turns[^1].Tick switch
            {
                Tick.A => ("the tick was in box A: the same edge goes first, the back needs no half-turn", ""),
                Tick.B => ("the tick was in box B: the back page is given a half-turn", ""),
                _ => ("the tick was on the arrow's own side: the wrong face was printed", "lay the sheet in with the other face up, and print the which-way sheet once more"),
            };
        var face = file.Face;
        var printed = face switch { PrintedFace.Upper => "; the face that lies up is printed", PrintedFace.Lower => "; the face that lies down is printed", _ => "" };
        return new("turn", "turning", !file.Turns.IsEmpty, file.Turns.Length, text + printed, next, []);
    }

    private static PrinterFact Register(PrinterFile file)
    {
        const string How = "print the calibration sheet (`lampblack printer sheet`) and learn from photos of it; or read the dot rows or the reading scales of a printed sheet, then `lampblack printer learn` with `--dots` or `--reading`";
        var known = RegisterEstimate.Of(file);
        ImmutableArray<PrinterFigure> figures =
        [
            new("rightMm", known.ShiftRightMm, known.ShiftRightSdMm), new("upMm", known.ShiftUpMm, known.ShiftUpSdMm), new("turnDegrees", known.TurnDegrees, known.TurnSdDegrees),
            new("stretchXPercent", known.StretchXPercent, known.StretchXSdPercent), new("stretchYPercent", known.StretchYPercent, known.StretchYSdPercent),
            new("shearPercent", known.ShearPercent, known.ShearSdPercent),
            new("scatterMm", known.Scatter.ShiftMm, null), new("scatterTurnDegrees", known.Scatter.TurnDegrees, null), new("scatterStretchPercent", known.Scatter.StretchPercent, null),
        ];
        var text = known.Sheets == 0
            ? Invariant($"not learned; side 2 is taken to land where it is meant, give or take {known.ShiftRightSdMm:0.0} mm and {known.TurnSdDegrees:0.0} degrees")
            : Invariant($"side 2 lands {Way(known.ShiftRightMm, "right", "left")} ± {known.ShiftRightSdMm:0.00} and {Way(known.ShiftUpMm, "up", "down")} ± {known.ShiftUpSdMm:0.00}, turned {Math.Abs(known.TurnDegrees):0.000} ± {known.TurnSdDegrees:0.000} degrees {(known.TurnDegrees < 0 ? "clockwise" : "counter-clockwise")}, wider by {known.StretchXPercent:0.00} ± {known.StretchXSdPercent:0.00} %, taller by {known.StretchYPercent:0.00} ± {known.StretchYSdPercent:0.00} %, sheared by {known.ShearPercent:0.00} ± {known.ShearSdPercent:0.00} %; the next build undoes it. Sheets scatter by {known.Scatter.ShiftMm:0.00} mm and {known.Scatter.TurnDegrees:0.000} degrees around that (standard deviations{(known.Sheets < 5 ? ", mostly from memory until more sheets are seen" : "")})");
        return new("register", "register", known.Sheets > 0, known.Sheets, text, known.Sheets < 3 ? How : "", figures);
    }

    private static PrinterFact Bars(PrinterFile file)
    {
        var scale = ScaleEstimate.Of(file);
        var text = scale.Sheets + scale.UprightBars == 0
            ? Invariant($"not learned; the front is taken to be true to size, give or take {scale.StretchXSdPercent:0.0} %")
            : Invariant($"the front is printed {Math.Abs(scale.StretchXPercent):0.00} ± {scale.StretchXSdPercent:0.00} % {(scale.StretchXPercent < 0 ? "narrower" : "wider")} and {Math.Abs(scale.StretchYPercent):0.00} ± {scale.StretchYSdPercent:0.00} % {(scale.StretchYPercent < 0 ? "shorter" : "taller")} than meant; the next build undoes it");
        const string How = "measure the bars of 250 and 180 mm on a calibration sheet, or the bar of 100 mm on a printed sheet, with a ruler, then `lampblack printer learn` with `--bar`";
        return new("bars", "width", scale.Sheets + scale.UprightBars > 0, scale.Sheets + scale.UprightBars, text, scale.Sheets == 0 || scale.UprightBars == 0 ? How : "", [new("stretchXPercent", scale.StretchXPercent, scale.StretchXSdPercent), new("stretchYPercent", scale.StretchYPercent, scale.StretchYSdPercent)]);
    }

    private static PrinterFact Coverage(PrinterFile file)
    {
        const string How = "print the coverage row of a coupon, rub, fold and tape it, then `lampblack printer learn` with `--held` and `--flaked`";
        if (!file.Path.Colour)
        {
            return new("coverage", "toner", false, file.Coverage.Length, "black only: one layer of toner, which fusers are made for", "", []);
        }

        var limit = CoverageLimit.Of(file);
        var figures = new List<PrinterFigure>();
        if (limit.HeldCoverage is { } held)
        {
            figures.Add(new("heldPercent", held * 100, null));
        }

        if (limit.FlakedCoverage is { } flaked)
        {
            figures.Add(new("flakedPercent", flaked * 100, null));
        }

        var text = (limit.HeldCoverage, limit.FlakedCoverage) switch
        {
            (null, null) => "not learned; 240 % is used, common practice, and more than 260 % comes with a warning",
            (null, { } low) => Invariant($"{low * 100:0} % flaked, and nothing below it is known to hold; 240 % is used where it is less"),
            ({ } high, null) => Invariant($"{high * 100:0} % held; the black `learned` uses it up"),
            ({ } high, { } low) => Invariant($"{high * 100:0} % held and {low * 100:0} % flaked; the black `learned` uses up what held"),
        };
        return new("coverage", "toner", limit.HeldCoverage is not null, limit.Sheets, text, limit.HeldCoverage is null ? How : "", [.. figures]);
    }

    private static PrinterFact Blacks(PrinterFile file)
    {
        var wedge = WedgeEstimate.Of(file);
        if (wedge.Sheets == 0)
        {
            return new("wedge", "blacks", false, 0, "not measured; the default black is common practice", ByPhotos, []);
        }

        var paper = Quantities.PaperSize.Find(file.Path.Paper) ?? Quantities.PaperSize.All[0];
        var builds = PrinterProperties.Of(file, paper).Builds;
        var figures = builds.Select(build => (build.Name, Known: wedge.OfBuild(build))).Where(pair => pair.Known is not null).ToList();
        var told = figures.Select(pair => Invariant($"{pair.Name} {(pair.Known!.IsLowerBound ? "at least " : string.Empty)}{pair.Known.Density:0.00}{(pair.Known.IsLowerBound ? string.Empty : Invariant($" ± {pair.Known.UncertaintyDensity:0.00}"))}"));
        return new(
            "wedge", "blacks", true, wedge.Sheets, $"one layer keeps back (density): {string.Join(", ", told)}; the next build uses {builds[0].Name}", "",
            [.. figures.Select(pair => new PrinterFigure($"{pair.Name}Density", pair.Known!.Density, pair.Known.IsLowerBound ? null : pair.Known.UncertaintyDensity))]);
    }

    private static PrinterFact Gain(PrinterFile file)
    {
        var gain = GainEstimate.Of(file);
        if (gain.Sheets == 0)
        {
            return new("gain", "toner's growth", false, 0, "not measured; edges are printed where they are drawn", ByPhotos, []);
        }

        var next = gain.PullBackMm > 0 ? Invariant($"the next build pulls edges of black back by {gain.PullBackMm:0.000} mm") : "nothing is pulled back for that";
        return new(
            "gain", "toner's growth", true, gain.Sheets, Invariant($"each edge of black lies {EdgeWords.Told(gain)} further than meant; {next}"), "",
            [new("growthMm", gain.GrowthMm, gain.SdMm), new("acrossMm", gain.AcrossMm, null), new("alongMm", gain.AlongMm, null), new("pullBackMm", gain.PullBackMm, null)]);
    }

    private static PrinterFact Planes(PrinterFile file)
    {
        if (!file.Path.Colour)
        {
            return new("planes", "colours", false, file.Planes.Length, "black only: no colour can lie off it", "", []);
        }

        if (file.Planes.IsEmpty)
        {
            return new("planes", "colours", false, 0, Invariant($"not measured; they end {PrinterProperties.Unmeasured.StandBackMm:0.0} mm inside black's edges, common practice"), ByPhotos, []);
        }

        var planes = PlanesEstimate.Of(file);
        return new(
            "planes", "colours", true, planes.Sheets, Invariant($"they lie off black by {EdgeWords.Told(planes)}, and scatter by {planes.ScatterMm:0.00} mm; the next build ends them {planes.StandBackMm():0.00} mm inside its edges"), "",
            [
                .. planes.Known.SelectMany(letter => new PrinterFigure[] { new($"{letter}RightMm", planes.Off(letter).RightMm, planes.Off(letter).SdMm), new($"{letter}UpMm", planes.Off(letter).UpMm, planes.Off(letter).SdMm) }),
                new("scatterMm", planes.ScatterMm, null), new("standBackMm", planes.StandBackMm(), null),
            ]);
    }

    private static string Way(double mm, string positive, string negative) =>
        Invariant($"{Math.Abs(mm):0.00} mm {(mm < 0 ? negative : positive)}");

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
