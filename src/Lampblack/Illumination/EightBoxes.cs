using System;
using System.Collections.Generic;
using System.Linq;
using System.Runtime.Intrinsics;
using Lanes = System.Runtime.Intrinsics.Vector256<float>;

namespace Lampblack.Illumination;

/// <summary>Up to eight boxes that stand upright from the mask inwards, side by side, so that a way is tried with all eight at once. Each is a little larger than it is, so that rounding never loses one.</summary>
/// <param name="LeftMm">Their left sides.</param>
/// <param name="RightMm">Their right sides.</param>
/// <param name="BottomMm">Their lower sides.</param>
/// <param name="TopMm">Their upper sides.</param>
/// <param name="DepthMm">How deep they reach; far before the mask where there is none.</param>
internal readonly record struct EightBoxes(Lanes LeftMm, Lanes RightMm, Lanes BottomMm, Lanes TopMm, Lanes DepthMm)
{
    public const int Count = 8;

    /// <summary>Far more than a place of a large panel is off in 32 bits (a tenth of a thousandth of a mm), far less than a body is wide.</summary>
    private const double LargerMm = 2e-3;

    private static readonly UprightBox None = new(0, 0, 0, 0, -1e4);

    /// <summary>Eight at a time, in their order; the last ones may be none.</summary>
    public static EightBoxes[] Of(IEnumerable<UprightBox> boxes) => [.. boxes.Chunk(Count).Select(eight => new EightBoxes(
        All(eight, box => box.LeftMm - LargerMm), All(eight, box => box.RightMm + LargerMm), All(eight, box => box.BottomMm - LargerMm), All(eight, box => box.TopMm + LargerMm), All(eight, box => box.DepthMm + LargerMm)))];

    private static Lanes All(UprightBox[] eight, Func<UprightBox, double> value) =>
        Vector256.Create([.. Enumerable.Range(0, Count).Select(place => (float)value(place < eight.Length ? eight[place] : None))]);
}

/// <summary>A box that stands upright from the mask inwards; all in mm.</summary>
internal readonly record struct UprightBox(double LeftMm, double RightMm, double BottomMm, double TopMm, double DepthMm)
{
    /// <summary>The one around some.</summary>
    public static UprightBox Around(IReadOnlyCollection<UprightBox> boxes) =>
        new(boxes.Min(box => box.LeftMm), boxes.Max(box => box.RightMm), boxes.Min(box => box.BottomMm), boxes.Max(box => box.TopMm), boxes.Max(box => box.DepthMm));
}
