using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Lampblack.Printers;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>Which files a job made besides front, mask and duplex of each sheet.</summary>
/// <param name="Bracket">The file for a copy shop.</param>
/// <param name="Film">A mask for a film beside each sheet.</param>
/// <param name="SecondPass">Sides that were asked to be printed twice.</param>
/// <param name="PartCard">The part card.</param>
internal sealed record JobFiles(bool Bracket, bool Film, SecondPass SecondPass, bool PartCard)
{
    /// <summary>Whether there is any that most jobs don't have.</summary>
    public bool HasMore => Bracket || Film || SecondPass != SecondPass.None;

    /// <summary>What a request leads to.</summary>
    public static JobFiles Of(BuildRequest request, bool hasParts) => new(request.BracketStepMm is not null, request.Film, request.SecondPass, hasParts);

    /// <summary>The two sides of a sheet in the order in which a printer's path prints them.</summary>
    public static (string First, string Second) Sides(PrinterFile? printer) =>
        printer?.Path.Order == SideOrder.MaskFirst ? ("mask", "front") : ("front", "mask");

    /// <summary>Whether the which-way sheet that counts told that the back comes out turned about.</summary>
    public static bool IsTurnedAbout(PrinterFile? printer) => printer?.Turns.LastOrDefault(turn => turn.Tick != Tick.Front) is { Tick: Tick.B };

    /// <summary>The sides of a sheet that have a file for a second pass, in the order of the first passes. A side of which nothing is printed twice has none.</summary>
    public IEnumerable<string> Twice(PrinterFile? printer, Sheet sheet)
    {
        var (first, second) = Sides(printer);
        return new[] { first, second }.Where(side => side == "front"
            ? SecondPass.HasFlag(SecondPass.Front) && sheet.Panels.Any(panel => !panel.Panel.FrontAgain.IsEmpty)
            : SecondPass.HasFlag(SecondPass.Mask) && sheet.Panels.Any(panel => !panel.Panel.MaskAgain.IsEmpty));
    }

    /// <summary>A printer's word as it is typed: in quotes where it has a blank, and NAME where there is none.</summary>
    public static string Typed(string? word) => word is null ? "NAME" : word.Any(char.IsWhiteSpace) ? $"\"{word}\"" : word;

    /// <summary>What is typed of what was seen on a job's first sheet: the printer as it is called, and a place that has rows; its scales where it has none.</summary>
    /// <param name="request">What the maker asked for.</param>
    /// <param name="sheet">The sheet.</param>
    public static string LearnExample(BuildRequest request, Sheet sheet)
    {
        var typed = Typed(request.PrinterWord ?? request.Printer?.Name);
        var seen = DotPlace.Of(sheet) is { } place
            ? string.Create(CultureInfo.InvariantCulture, $"--dots {(request.BracketStepMm is null ? string.Empty : "5@")}{place}:N=2,E=0,S=0,W=1")
            : "--reading NE:x=+0.3,y=-0.1";
        var register = request.Printer is { Revision: > 0 } known ? string.Create(CultureInfo.InvariantCulture, $" --register {known.Revision}") : string.Empty;
        return $"lampblack printer learn {typed} {seen}{register}";
    }
}
