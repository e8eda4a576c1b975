using System.Collections.Immutable;
using System.Linq;
using System.Runtime.CompilerServices;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Parts;

namespace Lampblack.Jobs;

/// <summary>A part on the shelf, drawn at true scale.</summary>
/// <param name="Id">What the desk file calls it.</param>
/// <param name="Name">What it is.</param>
/// <param name="WidthMm">Width of its drawing.</param>
/// <param name="HeightMm">Height of its drawing.</param>
/// <param name="Front">What is seen of it in front, as SVG path data, y down.</param>
/// <param name="Hole">Its holes, likewise.</param>
/// <param name="Hint">Its hole in words.</param>
public sealed record ShelvedPart(string Id, string Name, double WidthMm, double HeightMm, string Front, string Hole, string Hint);

/// <summary>A drawer of the shelf: parts of one kind.</summary>
/// <param name="Name">What is in it.</param>
/// <param name="Parts">The parts.</param>
public sealed record Drawer(string Name, ImmutableArray<ShelvedPart> Parts);

/// <summary>All parts that a desk can name, in drawers.</summary>
public static class PartShelf
{
    private const double BorderMm = 0.5;

    // A page looks at its shelf with every change of the desk; a part is drawn once.
    private static readonly ConditionalWeakTable<Part, ShelvedPart> Drawings = [];

    /// <summary>The shelf of a desk, its own parts included.</summary>
    /// <param name="desk">The desk.</param>
    public static ImmutableArray<Drawer> Of(DeskView desk)
    {
        System.ArgumentNullException.ThrowIfNull(desk);
        return
        [
            .. desk.Laid.Desk.Parts.All.Where(part => part.Class != PartClass.Screw)
                .GroupBy(part => NameOf(part.Class))
                .Select(group => new Drawer(group.Key, [.. group.Select(part => Drawings.GetValue(part, Drawn))])),
        ];
    }

    private static ShelvedPart Drawn(Part part)
    {
        var (hole, front) = (part.Hole(), part.Front());
        var box = Region<ItemSpace>.Union([hole, front]).Bounds.Grow(BorderMm);
        var toDrawing = Affine<ItemSpace, PanelSpace>.Shift(-box.LeftMm, -box.BottomMm);
        return new(part.Id, part.Name, box.WidthMm, box.HeightMm, SvgPath.Of(front.Map(toDrawing), box.HeightMm), SvgPath.Of(hole.Map(toDrawing), box.HeightMm), $"hole {part.DrillText}");
    }

    private static string NameOf(PartClass kind) => kind switch
    {
        PartClass.Toggle => "Toggles",
        PartClass.PushButton => "Buttons",
        PartClass.KeySwitch => "Keys",
        PartClass.Rotary => "Selectors",
        PartClass.Potentiometer or PartClass.Slider => "Pots, sliders",
        PartClass.Encoder => "Encoders",
        PartClass.Lamp => "Lamps",
        PartClass.Meter or PartClass.Display => "Meters, displays",
        PartClass.Connector => "Sockets",
        _ => "Holes",
    };
}
