using System.Collections.Immutable;
using static Lampblack.Parts.Origins;

namespace Lampblack.Parts;

/// <summary>Turning potentiometers. Tab holes stand to the left: turn the part to suit.</summary>
internal static class Potentiometers
{
    private static readonly Part Body9 = new()
    {
        Id = "pot-9mm",
        Name = "Potentiometer, 9 mm body, M7 bushing",
        Class = PartClass.Potentiometer,
        Cutout = Round(7.2, PanelControl),
        Bezel = Round(10.3, PanelControl),
        KnobDiameter = Practice(15),
        Body = Behind(10, 14, 12),
        BushingLength = Memory(7),
        LargestPanelThickness = Memory(3.5),
        SweepDegrees = 280,
    };

    private static readonly Part Body16 = new()
    {
        Id = "pot-16mm-m7",
        Name = "Potentiometer, 16 mm body, M7 bushing",
        Class = PartClass.Potentiometer,
        Cutout = Round(7.2, PanelControl),
        ExtraHoles = [new(-7.8, 0, Memory(2.8), "non-turn tab")],
        Bezel = Round(10.3, PanelControl),
        KnobDiameter = Practice(20),
        Body = Behind(17, 24, 16),
        BushingLength = Memory(7),
        LargestPanelThickness = Memory(3.5),
        SweepDegrees = 300,
    };

    public static ImmutableArray<Part> All { get; } =
    [
        Body9,
        Body16,
        Body16 with
        {
            Id = "pot-16mm-m9",
            Name = "Potentiometer, 16 mm body, M9 bushing",
            Cutout = Round(9.4, FromMemory),
            Bezel = Round(11, FromMemory),
        },
        new()
        {
            Id = "pot-24mm",
            Name = "Potentiometer, 24 mm body, 3/8 in bushing",
            Class = PartClass.Potentiometer,
            Cutout = Round(9.8, FromMemory),
            ExtraHoles = [new(-11, 0, new(3.2, MeasuredPots), "non-turn tab (3.03 x 1.12 mm)")],
            Bezel = Round(12.7, FromMemory),
            KnobDiameter = Practice(25),
            Body = new(new(24, MeasuredPots), Memory(40), new(12, MeasuredPots)),
            BushingLength = new(6.35, MeasuredPots),
            LargestPanelThickness = Memory(3),
            SweepDegrees = 300,
        },
        new()
        {
            Id = "pot-10-turn",
            Name = "Potentiometer, ten turns, 22 mm body, 3/8 in bushing",
            Class = PartClass.Potentiometer,
            Cutout = Round(10.44, TenTurn) with { TolerancePlus = new(0.07, TenTurn) },
            ExtraHoles = [new(0, -7.42, new(1.6, TenTurn), "anti-rotation pin")],
            Bezel = Round(12.7, FromMemory),
            KnobDiameter = Practice(25),
            Body = new(new(22.22, TenTurn), Memory(30), new(20.62, TenTurn)),
            BushingLength = new(7.92, TenTurn),
            LargestPanelThickness = new(3.81, TenTurn),
            SweepDegrees = 3600,
        },
    ];
}
