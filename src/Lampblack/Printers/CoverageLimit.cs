using System;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Printers;

/// <summary>How much toner a printer's fuser melts on this path, as rubbing, folding and taping told.</summary>
/// <param name="HeldCoverage">The highest coverage that held and lies below every one that flaked; null where none is known.</param>
/// <param name="FlakedCoverage">The lowest coverage that flaked; null where none is known.</param>
/// <param name="Sheets">How many coverage rows it rests on.</param>
public sealed record CoverageLimit(double? HeldCoverage, double? FlakedCoverage, int Sheets)
{
    // Shares come from whole percents: a rounding is no layer of toner.
    private const double Rounding = 1e-9;

    /// <summary>The limit from the coverage rows of a printer file.</summary>
    public static CoverageLimit Of(PrinterFile file)
    {
        ArgumentNullException.ThrowIfNull(file);
        ImmutableArray<double> flaked = [.. file.Coverage.SelectMany(entry => entry.Flaked)];
        double? lowest = flaked.IsEmpty ? null : flaked.Min();
        ImmutableArray<double> held = [.. file.Coverage.SelectMany(entry => entry.Held).Where(coverage => lowest is null || coverage < lowest - Rounding)];
        return new(held.IsEmpty ? null : held.Max(), lowest, file.Coverage.Length);
    }

    /// <summary>Whether a coverage is known to hold.</summary>
    public bool Holds(double totalCoverage) => HeldCoverage is { } held && totalCoverage <= held + Rounding;

    /// <summary>Whether a coverage lies above what is known to hold, or where something has flaked.</summary>
    public bool Forbids(double totalCoverage) => HeldCoverage is { } held ? totalCoverage > held + Rounding : FlakedCoverage is { } flaked && totalCoverage > flaked - Rounding;
}
