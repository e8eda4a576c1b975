using System.Collections.Immutable;
using static Lampblack.Parts.Origins;

namespace Lampblack.Parts;

/// <summary>Selectors; their positions are symmetric about straight up. The lug's hole stands below: turn the part to suit.</summary>
internal static class Rotaries
{
    private static readonly Part Small = new()
    {
        Id = "rotary-12x30",
        Name = "Selector, 18 mm body, M8 bushing, 12 positions 30 degrees apart",
        Class = PartClass.Rotary,
        Cutout = Round(8.2, Rotary18),
        ExtraHoles = [new(0, -7.5, new(2.2, Rotary18), "locating lug")],
        Bezel = Round(10, Rotary18),
        KnobDiameter = new(25, BarKnob),
        Body = new(new(18, Rotary18), new(18, Rotary18), Memory(25)),
        BushingLength = Memory(6),
        LargestPanelThickness = Memory(3),
        Poles = 1,
        Positions = new(12, 30, 90),
    };

    public static ImmutableArray<Part> All { get; } =
    [
        Small,
        Small with
        {
            Id = "rotary-10x36",
            Name = "Selector, 18 mm body, M8 bushing, 10 positions 36 degrees apart",
            Positions = new(10, 36, 90),
        },
        Small with
        {
            Id = "rotary-6x60",
            Name = "Selector, 18 mm body, M8 bushing, 6 positions 60 degrees apart",
            Positions = new(6, 60, 90),
        },
        Small with
        {
            Id = "rotary-6x30",
            Name = "Selector, 18 mm body, M8 bushing, two poles, 6 positions 30 degrees apart",
            Poles = 2,
            Positions = new(6, 30, 90),
        },
        Small with
        {
            Id = "rotary-3x30",
            Name = "Selector, 18 mm body, M8 bushing, four poles, 3 positions 30 degrees apart",
            Poles = 4,
            Positions = new(3, 30, 90),
        },
        new()
        {
            Id = "rotary-4x30",
            Name = "Selector, 1 in body, 3/8 in bushing, three poles, 4 positions 30 degrees apart",
            Class = PartClass.Rotary,
            Cutout = Round(9.8, FromMemory),
            ExtraHoles = [new(0, -11.1, new(3.3, Rotary1Inch), "non-turn tab (3.18 x 0.79 mm)")],
            Bezel = Round(14.27, Rotary1Inch),
            KnobDiameter = new(25, BarKnob),
            Body = new(new(29.72, Rotary1Inch), new(29.72, Rotary1Inch), Memory(30)),
            BushingLength = new(9.53, Rotary1Inch),
            LargestPanelThickness = Memory(5),
            Poles = 3,
            Positions = new(4, 30, 90),
        },
    ];
}
