using System.Collections.Immutable;
using static Lampblack.Parts.Origins;

namespace Lampblack.Parts;

/// <summary>Instruments with a pointer or digits of their own.</summary>
internal static class Meters
{
    private const string BodyAndRoom = "body of the published table of measured panel meters + 0.3 mm (common practice, no source)";

    public static ImmutableArray<Part> All { get; } =
    [
        new()
        {
            Id = "meter-round-45",
            Name = "Pointer meter, round, 45 mm barrel",
            Class = PartClass.Meter,
            Cutout = Round(45.5, FromMemory),
            Bezel = Round(52, FromMemory),
            Body = Behind(45.5, 45.5, 45) with { IsRound = true },
        },
        new()
        {
            Id = "meter-48x29",
            Name = "Digital meter, 48 x 29 mm front, snaps in",
            OwnMounting = Mounting.SnapsIn,
            Class = PartClass.Meter,
            Cutout = Box(45.6, 26.3, BodyAndRoom),
            Bezel = Box(47.8, 28.8, MeasuredMeters),
            Body = Behind(46, 27, 25),
            LargestPanelThickness = Memory(3),
            Illuminated = true,
        },
        new()
        {
            Id = "meter-48x24",
            Name = "Digital meter, 48 x 24 mm front",
            Class = PartClass.Meter,
            Cutout = Box(45, 22.2, Iec61554) with { TolerancePlus = new(0.3, Iec61554) },
            Bezel = Box(48, 24, Din43700),
            Body = Behind(50, 24, 100),
            LargestPanelThickness = Memory(5),
            Illuminated = true,
        },
        new()
        {
            Id = "meter-96x48",
            Name = "Digital meter, 96 x 48 mm front",
            Class = PartClass.Meter,
            Cutout = Box(92, 45, Iec61554) with { TolerancePlus = new(0.6, Iec61554) },
            Bezel = Box(96, 48, Din43700),
            Body = Behind(98, 48, 110),
            LargestPanelThickness = Memory(6),
            Illuminated = true,
        },
    ];
}
