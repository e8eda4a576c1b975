namespace Lampblack.Printers;

/// <summary>How dark one patch of the black wedge is to light from behind, above bare paper.</summary>
/// <param name="Id">Its name on the calibration sheet, such as <c>both-400-image</c>.</param>
/// <param name="Density">Transmission density above paper's own (ISO 5-2): 2 lets a hundredth of paper's light through.</param>
/// <param name="UncertaintyDensity">Its standard deviation; of a lower bound 0.</param>
/// <param name="IsLowerBound">Whether the patch is at least so dark, with 99 % probability, and nobody can tell how much darker: stray light hides it.</param>
/// <param name="IsInferred">Whether it was not measured but follows from the single layers.</param>
public sealed record PatchDensity(string Id, double Density, double UncertaintyDensity, bool IsLowerBound, bool IsInferred = false);
