using System.Collections.Immutable;
using static Lampblack.Parts.Origins;

namespace Lampblack.Parts;

/// <summary>Lever switches. Up is the first position; the lever runs along y.</summary>
internal static class Toggles
{
    private static readonly Positions UpDown = new(2, 180, 0);
    private static readonly Positions UpMiddleDown = new(3, 90, 0);

    private static readonly Part Mini = new()
    {
        Id = "toggle-mini-on-on",
        Name = "Miniature toggle, on-on",
        Class = PartClass.Toggle,
        Cutout = Round(6.5, SwitchHardware),
        Bezel = Round(9.5, SwitchHardware),
        Body = Behind(6.9, 12.7, 12.8, MeasuredToggles),
        BushingLength = new(8.9, MeasuredToggles),
        LargestPanelThickness = Memory(4),
        Lever = new(Memory(10.4), Memory(3), 13),
        Poles = 1,
        Positions = UpDown,
    };

    private static readonly Part Standard = new()
    {
        Id = "toggle-standard-on-on",
        Name = "Standard toggle, 15/32 in bushing, on-on",
        Class = PartClass.Toggle,
        Cutout = Round(12.2, SwitchHardware),
        Bezel = Round(14, SwitchHardware),
        Body = Behind(18, 33, 33),
        BushingLength = Memory(11.9),
        LargestPanelThickness = Memory(6),
        Lever = new(Memory(17.5), Memory(6), 13),
        Poles = 1,
        Positions = UpDown,
    };

    public static ImmutableArray<Part> All { get; } =
    [
        Mini,
        Mini with { Id = "toggle-mini-on-off-on", Name = "Miniature toggle, on-off-on", Positions = UpMiddleDown },
        Mini with { Id = "toggle-mini-on-momentary", Name = "Miniature toggle, (on)-on, springs back from up", Momentary = true },
        Mini with
        {
            Id = "toggle-mini-momentary-both",
            Name = "Miniature toggle, (on)-off-(on), springs back to the middle",
            Positions = UpMiddleDown,
            Momentary = true,
        },
        Mini with
        {
            Id = "toggle-mini-on-on-2-pole",
            Name = "Miniature toggle, two poles, on-on",
            Body = Behind(12.6, 13.1, 13.5, MeasuredToggles),
            BushingLength = new(8, MeasuredToggles),
            Poles = 2,
        },
        Mini with
        {
            Id = "toggle-mini-on-on-keyed",
            Name = "Miniature toggle, on-on, hole with a notch against turning",
            Key = new(Memory(0.9), Memory(0.6), 270),
        },
        new()
        {
            Id = "toggle-submini-on-on",
            Name = "Sub-miniature toggle, no. 10-48 bushing, on-on",
            Class = PartClass.Toggle,
            Cutout = Round(4.9, FromMemory),
            Bezel = Round(6.4, FromMemory),
            Body = Behind(7, 9, 12),
            BushingLength = Memory(6.4),
            LargestPanelThickness = Memory(3),
            Lever = new(Memory(8), Memory(2.5), 13),
            Poles = 1,
            Positions = UpDown,
        },
        Standard,
        Standard with { Id = "toggle-standard-on-off-on", Name = "Standard toggle, 15/32 in bushing, on-off-on", Positions = UpMiddleDown },
        Standard with
        {
            Id = "toggle-standard-covered",
            Name = "Standard toggle under a hinged cover, on-on; the box around the closed cover, centred",
            Bezel = Box(18, 46, FromMemory),
            HasCover = true,
        },
    ];
}
