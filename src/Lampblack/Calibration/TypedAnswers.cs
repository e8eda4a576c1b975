using System.Collections.Immutable;

namespace Lampblack.Calibration;

/// <summary>What a maker typed after a look at a sheet, as it was typed.</summary>
/// <param name="Dots">Counts of dots that shine, one text per block: <c>6-21:N=2,E=0,S=0,W=1</c>.</param>
/// <param name="Readings">Readings of the scales, one text per place: <c>NE:x=+0.3,y=-0.1</c>.</param>
/// <param name="Tick">Where the tick of a which-way sheet was seen: <c>A</c>, <c>B</c>, <c>front</c> or <c>none</c>.</param>
/// <param name="Cross">On which side the pencil cross is: <c>front</c> or <c>back</c>.</param>
/// <param name="Bars">Measured bars of 100 mm, one text per sheet: <c>front=99.8,back=99.7</c>.</param>
/// <param name="Flaked">Patches that flaked: <c>C300,C320</c>.</param>
/// <param name="Held">Patches that held: <c>C240</c>.</param>
/// <param name="Register">The number behind <c>register</c> on the sheet that was read; null for the newest.</param>
/// <param name="Step">The step of the bracket that was read; null for 0.7 mm.</param>
public sealed record TypedAnswers(
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
    /// <summary>The sheets of the build that was read, by name, and where each has its rows; empty where nobody told the build.</summary>
    public ImmutableArray<(string Sheet, string? Place)> RowsOf { get; init; } = [];

    /// <summary>Readings of a calibration sheet's verniers: <c>1x=5.3,1y=4.8</c>.</summary>
    public ImmutableArray<string> Verniers { get; init; } = [];

    /// <summary>The day on which this is learned, such as <c>2026-03-09</c>; null where nobody told it.</summary>
    public string? Date { get; init; }

    /// <summary>Sheets that photos show.</summary>
    public ImmutableArray<PhotographedSheet> Sheets { get; init; } = [];

    /// <summary>Nothing typed.</summary>
    public static TypedAnswers Nothing { get; } = new([], [], null, null, [], [], [], null, null);
}
