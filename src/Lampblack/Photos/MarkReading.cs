using Lampblack.Geometry;

namespace Lampblack.Photos;

/// <summary>What one mark of a photo tells.</summary>
/// <param name="Number">The mark's number.</param>
/// <param name="Place">Where it is meant to be: front view, from the sheet's lower left corner.</param>
/// <param name="RightMm">How far the back's disc lies to the right of the front's window's middle.</param>
/// <param name="UpMm">The same, upwards.</param>
/// <param name="SdMm">How well each is known, by how the edges' points scatter.</param>
/// <param name="ResidualMm">How far that is from where the fit has it.</param>
/// <param name="IsUsed">Whether it was used for the fit; a mark that does not go with the others is left out.</param>
public sealed record MarkReading(int Number, Point<SheetSpace> Place, double RightMm, double UpMm, double SdMm, double ResidualMm, bool IsUsed);
