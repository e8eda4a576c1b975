using System;
using System.Collections.Immutable;
using System.Globalization;
using Lampblack.Printers;

namespace Lampblack.Jobs;

/// <summary>What a maker typed after a look at a sheet, as it was typed; the manual tells the forms.</summary>
/// <param name="Dots">Counts of dots, one text per block.</param>
/// <param name="Readings">Readings of scales, one text per place.</param>
/// <param name="Tick">Where the tick of a which-way sheet was seen; null where nobody said.</param>
/// <param name="Cross">On which side the pencil cross is; null where nobody said.</param>
/// <param name="Bars">Measured bars, one text per sheet.</param>
/// <param name="Flaked">Patches that flaked.</param>
/// <param name="Held">Patches that held.</param>
/// <param name="Register">The number behind <c>register</c> on the sheet; null for the newest.</param>
/// <param name="Step">The bracket's step; null for the usual one.</param>
public sealed record LearnAnswers(
    ImmutableArray<string> Dots,
    ImmutableArray<string> Readings,
    string? Tick,
    string? Cross,
    ImmutableArray<string> Bars,
    ImmutableArray<string> Flaked,
    ImmutableArray<string> Held,
    string? Register,
    string? Step)
{
    /// <summary><c>report.json</c> of the build whose sheet was read; empty where nobody named one. It tells where the sheets have their rows.</summary>
    public ImmutableArray<byte> Report { get; init; } = [];

    /// <summary>Readings of a calibration sheet's verniers, one text for one or more.</summary>
    public ImmutableArray<string> Verniers { get; init; } = [];

    /// <summary>The day on which this is learned, such as <c>2026-03-09</c>; null where nobody told it.</summary>
    public string? Date { get; init; }

    /// <summary>What photos of sheets show.</summary>
    public PhotosOfSheets? Photos { get; init; }

    /// <summary>A day as <see cref="Date"/> has it.</summary>
    /// <param name="day">The day.</param>
    public static string Day(DateOnly day) => day.ToString(PrinterWords.DateForm, CultureInfo.InvariantCulture);

    /// <summary>Nothing told.</summary>
    public static LearnAnswers Nothing { get; } = new([], [], null, null, [], [], [], null, null);

    /// <summary>Whether nothing was told that could be learned from.</summary>
    public bool IsEmpty => Dots.IsEmpty && Readings.IsEmpty && Verniers.IsEmpty && Photos is null && Bars.IsEmpty && Flaked.IsEmpty && Held.IsEmpty && Tick is null && Cross is null;
}
