using System.Collections.Immutable;
using static Lampblack.Parts.Origins;

namespace Lampblack.Parts;

/// <summary>Endless encoders.</summary>
internal static class Encoders
{
    private static readonly Part Push = new()
    {
        Id = "encoder-m7-push",
        Name = "Encoder, 12 mm body, M7 bushing, with push",
        Class = PartClass.Encoder,
        Cutout = Round(7.2, PanelControl),
        Bezel = Round(12, Encoder11),
        KnobDiameter = Practice(15),
        Body = new(new(12, MeasuredPots), Memory(14), Memory(11)),
        BushingLength = new(7, MeasuredPots),
        LargestPanelThickness = Memory(3.5),
        Poles = 1,
        Momentary = true,
        PushesDefault = true,
    };

    public static ImmutableArray<Part> All { get; } =
    [
        Push,
        Push with
        {
            Id = "encoder-m7",
            Name = "Encoder, 12 mm body, M7 bushing, without push",
            Poles = 0,
            Momentary = false,
            PushesDefault = false,
        },
        Push with
        {
            Id = "encoder-m9-push",
            Name = "Encoder, 12 mm body, M9 bushing, with push",
            Cutout = Round(9.4, FromMemory),
            BushingLength = Memory(7),
        },
    ];
}
