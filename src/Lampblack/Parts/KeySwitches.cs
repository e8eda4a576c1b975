using System.Collections.Immutable;
using static Lampblack.Parts.Origins;

namespace Lampblack.Parts;

/// <summary>Key switches. Off is upright, as MIL-STD-1472E fig. 5 asks, and a quarter turn clockwise is on.</summary>
internal static class KeySwitches
{
    private static readonly Part Key12 = new()
    {
        Id = "key-12",
        Name = "12 mm key switch, off upright, on a quarter turn clockwise",
        Class = PartClass.KeySwitch,
        Cutout = Round(12.1, Iec60947) with { TolerancePlus = new(0.2, Iec60947) },
        Bezel = Round(14, FromMemory),
        Body = Behind(14, 14, 28),
        LargestPanelThickness = Memory(5),
        Poles = 1,
        Positions = new(2, 90, 45),
    };

    public static ImmutableArray<Part> All { get; } =
    [
        Key12,
        Key12 with
        {
            Id = "key-16",
            Name = "16 mm key switch, off upright, on a quarter turn clockwise",
            Cutout = Round(16.2, Iec60947) with { TolerancePlus = new(0.2, Iec60947) },
            Bezel = Round(18, FromMemory),
            Body = Behind(18, 18, 40),
        },
        Key12 with
        {
            Id = "key-19",
            Name = "19 mm key switch, flats against turning, off upright, on a quarter turn clockwise",
            Cutout = new FlattedCutout(Memory(19.2), Memory(16.2)),
            Bezel = Round(22, FromMemory),
            Body = Behind(24, 24, 45),
            LargestPanelThickness = Memory(8),
        },
    ];
}
