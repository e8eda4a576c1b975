using Lampblack.Parts;

namespace Lampblack.Desks;

/// <summary>What the maker works with, how well, and what the finished panel has to bear.</summary>
/// <param name="DrillErrorMm">How far a drilled hole may lie off its place.</param>
/// <param name="PaperErrorMm">How far a cut in the paper may lie off its place.</param>
/// <param name="FingerNewtons">Force of a pressing finger, in newtons.</param>
/// <param name="TemperatureSwingKelvin">Between the coldest and the warmest that the panel will be.</param>
public sealed record Bench(double DrillErrorMm, double PaperErrorMm, double FingerNewtons, double TemperatureSwingKelvin)
{
    /// <summary>0.5 mm (hand drilling wanders 0.3 to 0.6 mm, from memory), 0.3 mm, 20 N and 30 K (common practice, no source).</summary>
    public static Bench Usual { get; } = new(0.5, 0.3, 20, 30);

    /// <summary>The drills that are owned.</summary>
    public DrillSet Drills { get; init; } = DrillSet.Usual;

    /// <summary>The drills' point angle; null where the maker does not say.</summary>
    public double? PointDegrees { get; init; }
}
