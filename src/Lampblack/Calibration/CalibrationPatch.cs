using Lampblack.Geometry;
using Lampblack.Quantities;

namespace Lampblack.Calibration;

/// <summary>A patch of the calibration sheet whose darkness against light is measured.</summary>
/// <param name="Id">Its name, such as <c>both-400-image</c>.</param>
/// <param name="Box">Where it lies, in front view. Side 2 may lie off, so only its middle is of use where the back has ink.</param>
/// <param name="Front">What is printed on the front; null for nothing.</param>
/// <param name="Back">What is printed on the back; null for nothing.</param>
/// <param name="IsImage">Whether it is sent as an image; else as a filled path. Drivers treat the two differently.</param>
public sealed record CalibrationPatch(string Id, Box<SheetSpace> Box, Ink? Front, Ink? Back, bool IsImage)
{
    /// <summary>What is left of the box wherever side 2 lies, as far as 1.5 mm either way.</summary>
    public Box<SheetSpace> Core => Box.Grow(-1.5);

    /// <summary>Whether it is bare paper to compare with.</summary>
    public bool IsPaper => Front is null && Back is null;
}
