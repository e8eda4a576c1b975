using System.Collections.Immutable;
using Lampblack.Geometry;
using Lampblack.Quantities;
using Lampblack.Sheets;

namespace Lampblack.Photos;

/// <summary>A sheet of a build, as far as a photo of it is measured by it.</summary>
/// <param name="Id">Its name in the build, such as <c>sheet-1</c>.</param>
/// <param name="PairCode">What is printed on both of its sides.</param>
/// <param name="Paper">The paper.</param>
/// <param name="Register">The register number that is undone on it.</param>
/// <param name="Marks">Its register marks, by number, in mm from the sheet's lower left corner in front view.</param>
public sealed record BuiltSheet(string Id, string PairCode, PaperSize Paper, int Register, ImmutableArray<RegisterMark> Marks)
{
    /// <summary>The printer file that the build was told; null where it was told none.</summary>
    public string? Printer { get; init; }

    /// <summary>What was undone on its mask.</summary>
    public Affine<SheetSpace, SheetSpace> Undone { get; init; } = Affine<SheetSpace, SheetSpace>.Identity;
}

/// <summary>The sheets of the build that was named, as far as photos of them can be read.</summary>
/// <param name="Sheets">Those with register marks.</param>
/// <param name="Why">Why there are none; null where there are, or where no build was named.</param>
public sealed record BuiltSheetSet(ImmutableArray<BuiltSheet> Sheets, string? Why);

/// <summary>What a photo of a sheet of a build tells.</summary>
/// <param name="FileName">The photo.</param>
/// <param name="Sheet">The sheet that it was taken for: the one whose marks lie as the photo shows them.</param>
/// <param name="IsFromBehind">Whether it shows the sheet from behind.</param>
/// <param name="MarksFound">How many windows were found.</param>
/// <param name="Marks">Each mark that could be measured.</param>
/// <param name="Fit">Where side 2 lies against what was meant; null where that can't be told.</param>
public sealed record BuiltSheetPhoto(string FileName, BuiltSheet Sheet, bool IsFromBehind, int MarksFound, ImmutableArray<MarkReading> Marks, MisregisterFit? Fit)
{
    /// <summary>Where the camera stood.</summary>
    internal CameraPlace? Camera { get; init; }

    /// <summary>How blurred the photo is, on the sheet, as a normal spread.</summary>
    internal double BlurMm { get; init; }
}
