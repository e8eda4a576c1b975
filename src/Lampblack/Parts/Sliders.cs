using System.Collections.Immutable;
using static Lampblack.Parts.Origins;

namespace Lampblack.Parts;

/// <summary>Slide potentiometers, upright, held by a screw at each end of the slot.</summary>
internal static class Sliders
{
    /// <summary>Width of the lever along the slot, in mm (4.0 on the 45 mm data sheet).</summary>
    private const double LeverMm = 4;

    /// <summary>Room at each end of the lever's run, in mm.</summary>
    private const double RoomMm = 1;

    public static ImmutableArray<Part> All { get; } =
    [
        Slider(30, FromMemory, 41, "M2", 2.4, Behind(10, 45, 12)),
        Slider(45, Slider45, 65, "M3", 3.4, new(new(13, Slider45), new(77.5, Slider45), Memory(15))),
        Slider(60, FromMemory, 80, "M3", 3.4, Behind(13, 92.5, 15)),
    ];

    private static Part Slider(int travelMm, string source, double screwPitchMm, string thread, double screwHoleMm, Body body) => new()
    {
        Id = $"slider-{travelMm}",
        Name = $"Slide potentiometer, {travelMm} mm travel, two {thread} screws {Parts.Cutout.Text(screwPitchMm)} mm apart",
        Class = PartClass.Slider,
        Cutout = new SlotCutout(
            new(travelMm + LeverMm + (2 * RoomMm), "travel + lever of 4 mm + 1 mm room at each end (common practice, no source)"),
            Practice(2.5),
            90),
        ExtraHoles = [Screw(0, screwPitchMm / 2, thread, screwHoleMm), Screw(0, -screwPitchMm / 2, thread, screwHoleMm)],
        Body = body,
        Travel = new(travelMm, source),
    };
}
