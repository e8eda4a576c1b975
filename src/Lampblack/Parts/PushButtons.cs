using System.Collections.Immutable;
using static Lampblack.Parts.Origins;

namespace Lampblack.Parts;

/// <summary>Push-buttons. Each size comes springing back, latching and lit.</summary>
internal static class PushButtons
{
    private static readonly Part Button12 = new()
    {
        Id = "button-12-momentary",
        Name = "12 mm push-button, momentary",
        Class = PartClass.PushButton,
        Cutout = Round(12.1, Iec60947) with { TolerancePlus = new(0.2, Iec60947) },
        Bezel = Round(14, FromMemory),
        Body = Behind(14, 14, 25),
        LargestPanelThickness = Memory(5),
        Poles = 1,
        Momentary = true,
    };

    private static readonly Part Button16 = new()
    {
        Id = "button-16-momentary",
        Name = "16 mm push-button, momentary",
        Class = PartClass.PushButton,
        Cutout = Round(16, Origins.Button16) with { TolerancePlus = new(0.2, Origins.Button16) },
        Bezel = Round(18, FromMemory),
        Body = Behind(18, 18, 28),
        LargestPanelThickness = new(3.2, Origins.Button16),
        LeastPitch = new(19, Origins.Button16),
        Poles = 1,
        Momentary = true,
    };

    private static readonly Part Button19 = new()
    {
        Id = "button-19-momentary",
        Name = "19 mm metal push-button, momentary",
        Class = PartClass.PushButton,
        Cutout = Round(19.2, FromMemory),
        Bezel = Round(22, FromMemory),
        Body = Behind(22, 22, 38),
        LargestPanelThickness = Memory(8),
        Poles = 1,
        Momentary = true,
    };

    private static readonly Part Button22 = new()
    {
        Id = "button-22-momentary",
        Name = "22 mm industrial push-button, momentary, hole with a notch on top",
        Class = PartClass.PushButton,
        Cutout = Round(22.3, Iec60947) with { TolerancePlus = new(0.4, Iec60947) },
        Key = new(new(3.2, Iec60947), new(1.8, Iec60947), 90),
        Bezel = Round(29, FromMemory),
        Body = Behind(30, 42, 55),
        LargestPanelThickness = Memory(6),
        Poles = 1,
        Momentary = true,
    };

    public static ImmutableArray<Part> All { get; } =
    [
        Button12,
        Button12 with { Id = "button-12-latching", Name = "12 mm push-button, latching", Momentary = false },
        Button16,
        Button16 with { Id = "button-16-latching", Name = "16 mm push-button, latching", Momentary = false },
        Button16 with { Id = "button-16-lit", Name = "16 mm push-button, momentary, illuminated", Illuminated = true },
        Button19,
        Button19 with { Id = "button-19-latching", Name = "19 mm metal push-button, latching", Momentary = false },
        Button19 with { Id = "button-19-lit", Name = "19 mm metal push-button, momentary, illuminated ring", Illuminated = true },
        Button22,
        Button22 with { Id = "button-22-latching", Name = "22 mm industrial push-button, latching, hole with a notch on top", Momentary = false },
        Button22 with { Id = "button-22-lit", Name = "22 mm industrial push-button, momentary, illuminated, hole with a notch on top", Illuminated = true },
        Button19 with
        {
            Id = "button-22-metal-lit",
            Name = "22 mm metal push-button, momentary, illuminated ring",
            Cutout = Round(22.2, FromMemory),
            Bezel = Round(25, FromMemory),
            Body = Behind(25, 25, 40),
            Illuminated = true,
        },
    ];
}
