using System.Collections.Immutable;
using static Lampblack.Parts.Origins;

namespace Lampblack.Parts;

/// <summary>Sockets and feed-throughs for low voltage and data; nothing here is for mains.</summary>
internal static class Connectors
{
    public static ImmutableArray<Part> All { get; } =
    [
        new()
        {
            Id = "connector-usb-round-24",
            Name = "USB feed-through, round 24 mm hole, 26 x 31 mm flange, two screws across",
            Class = PartClass.Connector,
            Cutout = Round(24, FromMemory),
            ExtraHoles = [Screw(-9.5, 12, "M3", 3.4), Screw(9.5, -12, "M3", 3.4)],
            Bezel = Box(26, 31, FromMemory, cornerMm: 2),
            Body = Behind(26, 31, 45),
        },
        new()
        {
            Id = "connector-usb-round-22",
            Name = "USB feed-through, round, for a 22 mm hole",
            Class = PartClass.Connector,
            Cutout = Round(22.3, FromMemory),
            Bezel = Round(29, FromMemory),
            Body = Behind(29, 29, 45),
            LargestPanelThickness = Memory(6),
        },
        new()
        {
            Id = "connector-usb-rect",
            Name = "USB socket on a cable, rectangular, two screws 30 mm apart",
            Class = PartClass.Connector,
            Cutout = Box(15, 8, FromMemory, cornerMm: 0.5),
            ExtraHoles = [Screw(-15, 0, "M3", 3.4), Screw(15, 0, "M3", 3.4)],
            Body = Behind(40, 13, 30),
        },
        new()
        {
            Id = "connector-dc-8",
            Name = "Low-voltage DC socket, M8 bushing",
            Class = PartClass.Connector,
            Cutout = Round(8.2, FromMemory),
            Bezel = Round(10, FromMemory),
            Body = Behind(12, 12, 20),
            LargestPanelThickness = Memory(5),
        },
    ];
}
