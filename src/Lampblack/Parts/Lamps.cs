using System.Collections.Immutable;
using static Lampblack.Parts.Origins;

namespace Lampblack.Parts;

/// <summary>Indicator lamps: bare emitters, in a clip, in a metal bezel, and a pixel.</summary>
internal static class Lamps
{
    public static ImmutableArray<Part> All { get; } =
    [
        Bare(3, 3.1),
        Bare(5, 5.1),
        Bare(8, 8.1),
        Held("lamp-3mm-clip", "3 mm lamp in a plastic clip", 4.9, 6.5),
        Held("lamp-5mm-clip", "5 mm lamp in a plastic clip", 6.4, 8.5),
        Held("lamp-3mm-bezel", "3 mm lamp in a metal bezel", 6, 8),
        Held("lamp-5mm-bezel", "5 mm lamp in a metal bezel", 8, 10),
        Held("lamp-8mm-bezel", "8 mm lamp in a metal bezel", 12, 14.5),
        Lamp("lamp-12mm-pixel", "12 mm pixel, pushed in from behind", Round(11.5, Pixel12), Behind(16, 16, 20)) with { IsPixel = true },
    ];

    private static Part Bare(int diameterMm, double holeMm) => Lamp(
        $"lamp-{diameterMm}mm",
        $"{diameterMm} mm lamp, bare, through the panel",
        Round(holeMm, FromMemory),
        Behind(diameterMm + 1, diameterMm + 1, 15));

    private static Part Held(string id, string name, double holeMm, double flangeMm) =>
        Lamp(id, name, Round(holeMm, FromMemory), Behind(flangeMm, flangeMm, 20)) with { Bezel = Round(flangeMm, FromMemory) };

    private static Part Lamp(string id, string name, Cutout cutout, Body body) => new()
    {
        Id = id,
        Name = name,
        Class = PartClass.Lamp,
        Cutout = cutout,
        Body = body,
        LargestPanelThickness = Memory(4),
        Illuminated = true,
    };
}
