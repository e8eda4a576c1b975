namespace Lampblack.Desks;

/// <summary>How well the maker works, and what the finished panel has to bear.</summary>
/// <param name="DrillErrorMm">How far a drilled hole may lie off its place.</param>
/// <param name="PaperErrorMm">How far a cut in the paper may lie off its place.</param>
/// <param name="FingerNewtons">Force of a pressing finger, in newtons.</param>
/// <param name="TemperatureSwingKelvin">Between the coldest and the warmest that the panel will be.</param>
public sealed record Bench(double DrillErrorMm, double PaperErrorMm, double FingerNewtons, double TemperatureSwingKelvin)
{
    /// <summary>0.5 mm (hand drilling wanders 0.3 to 0.6 mm, from memory), 0.3 mm, 20 N and 30 K (common practice, no source).</summary>
    public static Bench Usual { get; } = new(0.5, 0.3, 20, 30);
}
