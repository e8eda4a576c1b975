using System.Collections.Immutable;
using static Lampblack.Parts.Origins;

namespace Lampblack.Parts;

/// <summary>Character and graphic displays. Small graphic modules differ in their screw holes, so they have a window only.</summary>
internal static class Displays
{
    private const string FrameAndRoom = "frame of the published table of measured displays + 0.3 mm (common practice, no source)";
    private const string AreaAndRoom = "lit area measured in a review + 1 mm (common practice, no source)";

    public static ImmutableArray<Part> All { get; } =
    [
        Display(
            "display-0-96-in",
            "Graphic display 0.96 in, window; the module is fixed from behind",
            Box(23, 12, AreaAndRoom, cornerMm: 0.5),
            new(new(27, SmallDisplay), new(27, SmallDisplay), Memory(5))),
        Display(
            "display-1-3-in",
            "Graphic display 1.3 in, window; the module is fixed from behind",
            Box(30.5, 15.7, FromMemory, cornerMm: 0.5),
            Behind(36, 34, 5)),
        Display(
            "display-16x2",
            "Character display, 16 x 2",
            Box(71.6, 24.6, FrameAndRoom, cornerMm: 0.5),
            new(new(80, MeasuredDisplays), new(36, MeasuredDisplays), new(12, CharacterDisplay))) with
        {
            ExtraHoles =
            [
                Screw(-37.5, -15.5, "M2.5", 2.9), Screw(37.5, -15.5, "M2.5", 2.9),
                Screw(37.5, 15.5, "M2.5", 2.9), Screw(-37.5, 15.5, "M2.5", 2.9),
            ],
            HasCharacters = true,
        },
        Display(
            "display-20x4",
            "Character display, 20 x 4",
            Box(97.5, 40, FromMemory, cornerMm: 0.5),
            Behind(98, 60, 14)) with
        {
            ExtraHoles =
            [
                Screw(-46.5, -27.5, "M3", 3.4), Screw(46.5, -27.5, "M3", 3.4),
                Screw(46.5, 27.5, "M3", 3.4), Screw(-46.5, 27.5, "M3", 3.4),
            ],
            HasCharacters = true,
        },
    ];

    private static Part Display(string id, string name, Cutout window, Body body) => new()
    {
        Id = id,
        Name = name,
        Class = PartClass.Display,
        Cutout = window,
        Body = body,
        Illuminated = true,
    };
}
