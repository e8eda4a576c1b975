using System.Linq;
using Lampblack.Findings;
using Lampblack.Parts;

namespace Lampblack.Checks;

/// <summary>
/// Parts in plain round holes that only their nut keeps from turning. A knob that is pushed against its stop turns the whole part, and its wires with it;
/// a lever or an endless knob does so only once the nut is loose (common practice, no source).
/// </summary>
internal static class TurningRules
{
    private const string Hint = "drill the hole for its tab or pin (`extra-hole`), take one with a notch or a flat, or lay a toothed washer between body and plate and let it stand";

    public static void Check(Inspection panel)
    {
        foreach (var control in panel.Controls.Where(control => IsLoose(control.Placed.Part)))
        {
            var (part, origin) = (control.Placed.Part, control.Origin);
            var how = HasStop(part) ? "whoever pushes its knob against the stop turns the whole part, and its wires with it" : "the part turns once its nut is loose";
            panel.Findings.Add(
                "turns-loose",
                Severity.Note,
                () => Finding.Note(
                    "turns-loose",
                    $"the hole of {Shown.Code(origin.Item)} ({Shown.Code(part.Id)}) is plain and round; {how} ({CheckSources.Practice})",
                    Hint,
                    origin.Span,
                    origin.Item),
                0,
                origin,
                partId: part.Id);
        }
    }

    /// <summary>Whether nothing but friction holds it: a tab, lug, pin or screw beside a hole does, and so does every hole that is not a plain circle.</summary>
    private static bool IsLoose(Part part) =>
        part is { Class: PartClass.Toggle or PartClass.Rotary or PartClass.Potentiometer or PartClass.Encoder, Cutout: RoundCutout, Key: null, ExtraHoles.IsEmpty: true };

    /// <summary>Whether its knob comes to a stop. A selector's does, as far as the list knows.</summary>
    private static bool HasStop(Part part) => part.Class is PartClass.Rotary or PartClass.Potentiometer;
}
