using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Parts;

namespace Lampblack.Checks;

/// <summary>Bodies, terminals and wires that fit behind the panel.</summary>
internal static class BodyRules
{
    /// <summary>Room for wires to bend away behind the terminals, in mm (from memory).</summary>
    public const double WiringMm = 10;

    private const double SlackMm = 1e-6;

    public static void Check(Inspection panel)
    {
        var bodies = panel.Laid.Parts.Where(part => part.Part.Body is not null).Select(part => (Part: part, Shape: part.Body())).ToList();
        Collisions(panel, bodies);
        Edges(panel, bodies);
        Fixings(panel, bodies);
        Depths(panel);
        Unknown(panel);
    }

    /// <summary>Whether every figure of the body was read or measured. A figure from memory stops nobody: measure first.</summary>
    private static bool IsSure(Body body) => new[] { body.Width, body.Height, body.Depth }.All(figure => !figure.Source.Contains(CheckSources.Memory, StringComparison.Ordinal));

    private static void Collisions(Inspection panel, List<(PlacedPart Part, Region<PanelSpace> Shape)> bodies)
    {
        foreach (var (first, second) in Neighbours.Pairs([.. bodies.Select(body => body.Shape.Bounds)], -SlackMm))
        {
            var (one, other) = (bodies[first], bodies[second]);
            var both = IsTurned(one.Part) || IsTurned(other.Part) ? one.Shape.Intersect(other.Shape).Bounds : Common(one.Shape.Bounds, other.Shape.Bounds);
            var overlap = Math.Min(both.WidthMm, both.HeightMm);
            if (overlap <= SlackMm)
            {
                continue;
            }

            var sure = IsSure(one.Part.Part.Body!) && IsSure(other.Part.Part.Body!);
            string Message() => $"the bodies of {Shown.Code(one.Part.Origin.Item)} and {Shown.Code(other.Part.Origin.Item)} run {Shown.Mm(overlap, 1)} into each other behind the panel ({Size(one.Part)} and {Size(other.Part)})";
            panel.Findings.Add(
                "bodies-collide",
                sure ? Severity.Stop : Severity.Warn,
                () => sure
                    ? Finding.Stop("bodies-collide", Message(), "move them apart", other.Part.Origin.Span, other.Part.Origin.Item)
                    : Finding.Warn(
                        "bodies-collide",
                        Message() + "; one of these sizes is from memory",
                        "move them apart, or measure both and write `body` in `[[caliper]]`; measured bodies that collide stop the build",
                        other.Part.Origin.Span,
                        other.Part.Origin.Item),
                -overlap,
                other.Part.Origin,
                one.Part.Origin);
        }
    }

    private static void Edges(Inspection panel, List<(PlacedPart Part, Region<PanelSpace> Shape)> bodies)
    {
        foreach (var (part, shape) in bodies)
        {
            var box = shape.Bounds;
            var inside = Math.Min(Math.Min(box.LeftMm, box.BottomMm), Math.Min(panel.Laid.Panel.WidthMm - box.RightMm, panel.Laid.Panel.HeightMm - box.TopMm));
            if (inside < -SlackMm)
            {
                panel.Findings.Add(
                    Finding.Warn(
                        "body-over-edge",
                        $"the body of {Shown.Code(part.Origin.Item)} reaches {Shown.Mm(-inside, 1)} over the panel's edge behind, where a frame or a box wall usually is ({Size(part)})",
                        "move it inwards, or turn the part",
                        part.Origin.Span,
                        part.Origin.Item),
                    inside,
                    part.Origin);
            }
        }
    }

    private static void Fixings(Inspection panel, List<(PlacedPart Part, Region<PanelSpace> Shape)> bodies)
    {
        var screws = panel.Laid.Parts.Where(part => part.Part.Body is null && panel.IsFastener(part))
            .Select(part => (Part: part, Shape: part.Covered.IsEmpty ? part.Holes[0] : part.Covered)).ToList();
        List<Box<PanelSpace>> boxes = [.. screws.Select(screw => screw.Shape.Bounds), .. bodies.Select(body => body.Shape.Bounds)];
        foreach (var (first, second) in Neighbours.Pairs(boxes, 0).Where(pair => pair.First < screws.Count && pair.Second >= screws.Count))
        {
            var (screw, body) = (screws[first], bodies[second - screws.Count]);
            if (screw.Shape.Touches(body.Shape))
            {
                panel.Findings.Add(
                    Finding.Warn(
                        "body-on-fixing",
                        $"the body of {Shown.Code(body.Part.Origin.Item)} stands where the screw {Shown.Code(screw.Part.Origin.Item)} and its washer go behind the panel ({Size(body.Part)})",
                        "move one of them",
                        body.Part.Origin.Span,
                        body.Part.Origin.Item),
                    0,
                    body.Part.Origin,
                    screw.Part.Origin);
            }
        }
    }

    private static void Depths(Inspection panel)
    {
        if (panel.Desk.DepthMm is not { } depth)
        {
            return;
        }

        foreach (var part in panel.Laid.Parts)
        {
            if (part.Part.Body is not { } body || body.Depth.Mm + WiringMm <= depth + SlackMm)
            {
                continue;
            }

            var isIn = body.Depth.Mm <= depth + SlackMm;
            var message = $"the body of {Shown.Code(part.Origin.Item)} with its terminals is {Shown.Mm(body.Depth.Mm)} deep ({body.Depth.Source})";
            panel.Findings.Add(
                isIn || !IsSure(body)
                    ? Finding.Warn(
                        "depth-short",
                        isIn
                            ? $"{message}, and its wires ask for {Shown.Mm(WiringMm)} more (from memory); `depth` is {Shown.Mm(depth)}"
                            : $"{message}; `depth` is {Shown.Mm(depth)}",
                        $"a box of {Shown.Mm(body.Depth.Mm + WiringMm)} or deeper, or terminals bent aside",
                        part.Origin.Span,
                        part.Origin.Item)
                    : Finding.Stop("depth-short", $"{message}; `depth` is {Shown.Mm(depth)}, and it does not go in", $"a box of {Shown.Mm(body.Depth.Mm + WiringMm)} or deeper", part.Origin.Span, part.Origin.Item),
                depth - body.Depth.Mm,
                part.Origin);
        }
    }

    private static void Unknown(Inspection panel)
    {
        foreach (var part in panel.Laid.Parts.Where(part => part.Part is { Body: null, Class: not (PartClass.Screw or PartClass.Plain) }))
        {
            panel.Findings.Add(
                Finding.Note(
                    "body-unknown",
                    $"nothing is known of the room that {Shown.Code(part.Part.Id)} takes behind the panel; {Shown.Code(part.Origin.Item)} is not checked against its neighbours, the edge and the depth",
                    "measure it and write `body = [width, height, depth]`",
                    part.Origin.Span,
                    part.Origin.Item),
                0,
                part.Origin);
        }
    }

    private static bool IsTurned(PlacedPart part) => Math.Abs(Math.IEEERemainder(part.TurnDegrees, 90)) > 1e-9;

    private static Box<PanelSpace> Common(Box<PanelSpace> one, Box<PanelSpace> other)
    {
        var (left, right) = (Math.Max(one.LeftMm, other.LeftMm), Math.Min(one.RightMm, other.RightMm));
        var (bottom, top) = (Math.Max(one.BottomMm, other.BottomMm), Math.Min(one.TopMm, other.TopMm));
        return new(left, bottom, Math.Max(0, right - left), Math.Max(0, top - bottom));
    }

    private static string Size(PlacedPart part) => $"{Shown.Number(part.Part.Body!.Width.Mm)} x {Shown.Mm(part.Part.Body.Height.Mm)}";
}
