using System.Collections.Immutable;
using static Lampblack.Parts.Origins;

namespace Lampblack.Parts;

/// <summary>Screws with their washers, plain holes, plugs and grommets.</summary>
internal static class Fixings
{
    public static ImmutableArray<Part> All { get; } =
    [
        Screw("m2", "M2", 2.4, 5),
        Screw("m2-5", "M2.5", 2.9, 6),
        Screw("m3", "M3", 3.4, 7),
        Screw("m4", "M4", 4.5, 9),
        Screw("m5", "M5", 5.5, 10),
        Plain("hole-6", "Plain hole, 6 mm", Round(6, CommonPractice)),
        Plain("hole-10", "Plain hole, 10 mm", Round(10, CommonPractice)),
        Plain("hole-1-4-in", "Plain hole, 1/4 in", new RoundCutout(Inch(1, 4))),
        Plain("hole-3-8-in", "Plain hole, 3/8 in", new RoundCutout(Inch(3, 8))),
        Plain("plug-16", "Blanking plug for a 16 mm hole", Round(16.2, Iec60947)) with { Bezel = Round(18, FromMemory), Body = Behind(18, 18, 10), OwnMounting = Mounting.SnapsIn },
        Plain("plug-22", "Blanking plug for a 22 mm hole", Round(22.3, Iec60947)) with { Bezel = Round(29, FromMemory), Body = Behind(29, 29, 12), OwnMounting = Mounting.SnapsIn },
        Plain("grommet-6", "Rubber grommet for a 6 mm cable", new RoundCutout(Inch(3, 8))) with { Bezel = Round(14, FromMemory), Body = Behind(14, 14, 3), OwnMounting = Mounting.SnapsIn },
    ];

    private static Part Screw(string id, string thread, double holeMm, double washerMm) => new()
    {
        Id = $"screw-{id}",
        Name = $"Screw {thread} with washer, clearance hole",
        Class = PartClass.Screw,
        Cutout = Round(holeMm, Iso273),
        Bezel = Round(washerMm, Iso7089),
    };

    private static Part Plain(string id, string name, Cutout cutout) => new()
    {
        Id = id,
        Name = name,
        Class = PartClass.Plain,
        Cutout = cutout,
    };
}
