using System;
using System.Collections.Generic;
using System.Linq;
using System.Runtime.Intrinsics;
using Lanes = System.Runtime.Intrinsics.Vector256<double>;

namespace Lampblack.Illumination;

/// <summary>Up to four boxes that stand upright from the mask inwards, side by side, so that a way is tried with all four at once.</summary>
/// <param name="LeftMm">Their left sides.</param>
/// <param name="RightMm">Their right sides.</param>
/// <param name="BottomMm">Their lower sides.</param>
/// <param name="TopMm">Their upper sides.</param>
/// <param name="DepthMm">How deep they reach; negative where there is none.</param>
internal readonly record struct FourBoxes(Lanes LeftMm, Lanes RightMm, Lanes BottomMm, Lanes TopMm, Lanes DepthMm)
{
    public const int Count = 4;

    private static readonly UprightBox None = new(0, 0, 0, 0, -1);

    /// <summary>Four at a time, in their order; the last ones may be none.</summary>
    public static FourBoxes[] Of(IEnumerable<UprightBox> boxes) => [.. boxes.Chunk(Count).Select(four => new FourBoxes(
        All(four, box => box.LeftMm), All(four, box => box.RightMm), All(four, box => box.BottomMm), All(four, box => box.TopMm), All(four, box => box.DepthMm)))];

    private static Lanes All(UprightBox[] four, Func<UprightBox, double> value)
    {
        return Vector256.Create(One(0), One(1), One(2), One(3));

        double One(int place) => value(place < four.Length ? four[place] : None);
    }
}

/// <summary>A box that stands upright from the mask inwards; all in mm.</summary>
internal readonly record struct UprightBox(double LeftMm, double RightMm, double BottomMm, double TopMm, double DepthMm)
{
    /// <summary>The one around some.</summary>
    public static UprightBox Around(IReadOnlyCollection<UprightBox> boxes) =>
        new(boxes.Min(box => box.LeftMm), boxes.Max(box => box.RightMm), boxes.Min(box => box.BottomMm), boxes.Max(box => box.TopMm), boxes.Max(box => box.DepthMm));
}
