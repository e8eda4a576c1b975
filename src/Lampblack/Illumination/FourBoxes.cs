using System;
using System.Collections.Generic;
using System.Linq;
using System.Runtime.Intrinsics;
using Lanes = System.Runtime.Intrinsics.Vector256<double>;

namespace Lampblack.Illumination;

/// <summary>Up to four boxes that stand upright from the mask inwards, side by side, so that a way is tried with all four at once.</summary>
/// <param name="Left">Their left sides, in mm.</param>
/// <param name="Right">Their right sides, in mm.</param>
/// <param name="Bottom">Their lower sides, in mm.</param>
/// <param name="Top">Their upper sides, in mm.</param>
/// <param name="Depth">How deep they reach, in mm; negative where there is none.</param>
internal readonly record struct FourBoxes(Lanes Left, Lanes Right, Lanes Bottom, Lanes Top, Lanes Depth)
{
    public const int Count = 4;

    private static readonly UprightBox None = new(0, 0, 0, 0, -1);

    /// <summary>Four at a time, in their order; the last ones may be none.</summary>
    public static FourBoxes[] Of(IEnumerable<UprightBox> boxes) => [.. boxes.Chunk(Count).Select(four => new FourBoxes(
        All(four, box => box.Left), All(four, box => box.Right), All(four, box => box.Bottom), All(four, box => box.Top), All(four, box => box.DepthMm)))];

    private static Lanes All(UprightBox[] four, Func<UprightBox, double> value)
    {
        return Vector256.Create(One(0), One(1), One(2), One(3));

        double One(int place) => value(place < four.Length ? four[place] : None);
    }
}

/// <summary>A box that stands upright from the mask inwards; all in mm.</summary>
internal readonly record struct UprightBox(double Left, double Right, double Bottom, double Top, double DepthMm)
{
    /// <summary>The one around some.</summary>
    public static UprightBox Around(IReadOnlyCollection<UprightBox> boxes) =>
        new(boxes.Min(box => box.Left), boxes.Max(box => box.Right), boxes.Min(box => box.Bottom), boxes.Max(box => box.Top), boxes.Max(box => box.DepthMm));
}
