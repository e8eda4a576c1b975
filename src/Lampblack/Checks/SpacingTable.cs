using System.Collections.Immutable;

namespace Lampblack.Checks;

/// <summary>How far controls stand apart, from edge to edge, by their kinds.</summary>
public static class SpacingTable
{
    /// <summary>Gloved fingers on push-buttons (MIL-STD-1472, figure 11, from memory).</summary>
    public const double GlovedButtonMm = 25;

    /// <summary>
    /// NUREG-0700 Rev. 3, table 11.5, least distances for one hand. Rows: key, push-button, array, legend switch, slide, toggle, thumbwheel;
    /// columns: the same, then selector and knob.
    /// </summary>
    private static readonly ImmutableArray<ImmutableArray<double>> TableMm =
    [
        [25, 13, 38, 25, 19, 19, 13, 19, 19],
        [13, 13, 50, 50, 13, 13, 13, 13, 13],
        [38, 50, 50, 50, 38, 38, 38, 50, 50],
        [25, 50, 50, 50, 38, 38, 38, 50, 50],
        [19, 13, 38, 38, 13, 19, 13, 13, 13],
        [19, 13, 38, 38, 19, 19, 13, 19, 19],
        [13, 13, 38, 38, 13, 13, 13, 19, 19],
    ];

    /// <summary>The least distance between the edges of two controls that are worked independently, with its source.</summary>
    /// <param name="one">A kind.</param>
    /// <param name="other">A kind.</param>
    /// <param name="twoHands">Whether both may be worked at the same time, one with each hand.</param>
    /// <param name="gloves">Whether hands wear gloves; known for push-buttons only.</param>
    public static (double Mm, string Source) Least(ControlKind one, ControlKind other, bool twoHands = false, bool gloves = false)
    {
        var (low, high) = one <= other ? (one, other) : (other, one);
        var bare = (low, high, twoHands) switch
        {
            // MIL-STD-1472E figure 4: 25 mm for one hand, 75 mm for both at once.
            (ControlKind.Selector, ControlKind.Selector, true) => (75, CheckSources.MilSelector + ", two hands"),
            (ControlKind.Selector, ControlKind.Selector, false) => (25, CheckSources.MilSelector),

            // MIL-STD-1472E table VII.
            (ControlKind.Selector, ControlKind.Knob, _) => (25, CheckSources.MilSpacing),
            (ControlKind.Knob, ControlKind.Knob, true) => (50, CheckSources.MilKnob + ", two hands"),
            (ControlKind.Knob, ControlKind.Knob, false) => (25, CheckSources.MilKnob),
            _ => (TableMm[(int)low][(int)high], CheckSources.NuregSpacing),
        };
        var pushed = low is ControlKind.PushButton || high is ControlKind.PushButton;
        return gloves && pushed && bare.Item1 < GlovedButtonMm ? (GlovedButtonMm, CheckSources.MilButton + ", gloved") : bare;
    }

    /// <summary>The least distance within one row or grid, whose controls are worked one after the other with one finger; as for any others where no figure is known.</summary>
    /// <param name="kind">The kind.</param>
    /// <param name="twoHands">As for <see cref="Least"/>.</param>
    /// <param name="gloves">As for <see cref="Least"/>.</param>
    public static (double Mm, string Source) InSequence(ControlKind kind, bool twoHands = false, bool gloves = false) => (kind, gloves) switch
    {
        (ControlKind.PushButton, false) => (6, CheckSources.MilButton + ", one finger in sequence"),
        (ControlKind.Toggle, _) => (13, CheckSources.MilToggle + ", one finger in sequence"),
        _ => Least(kind, kind, twoHands, gloves),
    };

    /// <summary>The table's figure for two kinds in the given order, or null where it has none.</summary>
    /// <param name="row">From key to thumbwheel.</param>
    /// <param name="column">Any kind.</param>
    public static double? TabledMm(ControlKind row, ControlKind column) => (int)row < TableMm.Length ? TableMm[(int)row][(int)column] : null;

    /// <summary>The largest figure that any pair can ask for, in mm.</summary>
    internal static double LargestMm => 75;

    /// <summary>The same for one hand.</summary>
    internal static double LargestOfOneHandMm => 50;

    /// <summary>The same where there are neither keyboards nor legend switches.</summary>
    internal static double LargestOfPlainMm => 25;
}
