using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Parts;

namespace Lampblack.Checks;

/// <summary>Bushings long enough for all that lies between shoulder and nut.</summary>
public static class StackRules
{
    /// <summary>A sheet of 120 g/m2, in mm (common practice, no source; the paper comes from the printer).</summary>
    public const double PaperMm = 0.14;

    /// <summary>A washer and the nut's thickness, in mm (from memory); used where only the bushing's length is known.</summary>
    public const double WasherMm = 0.8;

    /// <summary>See <see cref="WasherMm"/>.</summary>
    public const double NutMm = 2;

    private const double SlackMm = 1e-6;

    /// <summary>What a part has to clamp: cover, paper, glue, plate, diffuser.</summary>
    /// <param name="stack">The desk's layers.</param>
    public static double ThicknessMm(Stack stack)
    {
        ArgumentNullException.ThrowIfNull(stack);
        return stack.CoverMm + PaperMm + stack.GlueMm + stack.PlateMm + stack.DiffuserMm;
    }

    /// <summary>Checks a panel.</summary>
    internal static void Check(Inspection panel)
    {
        var thickness = ThicknessMm(panel.Desk.Stack);
        foreach (var part in panel.Laid.Parts)
        {
            if (Clamps(part.Part).Select(clamp => ((double Mm, Figure Figure, string What)?)clamp).MinBy(clamp => clamp!.Value.Mm) is not { } least || thickness <= least.Mm + SlackMm)
            {
                continue;
            }

            var isSure = !least.Figure.Source.Contains(CheckSources.Memory, StringComparison.Ordinal);
            var message = $"{Shown.Code(part.Origin.Item)} clamps {Shown.Mm(least.Mm, 2)} at most ({least.What}, {least.Figure.Source}); plate, glue, paper, cover and diffuser are {Shown.Mm(thickness, 2)}";
            const string Hint = "a thinner plate, a part with a longer bushing, or a diffuser cut away around the part; measure, and write `panel-max` or `bushing` in `[[caliper]]`";
            panel.Findings.Add(
                isSure
                    ? Finding.Stop("bushing-short", message, Hint, part.Origin.Span, part.Origin.Item)
                    : Finding.Warn("bushing-short", message + "; measured figures stop the build", Hint, part.Origin.Span, part.Origin.Item),
                least.Mm - thickness,
                part.Origin);
        }
    }

    private static IEnumerable<(double Mm, Figure Figure, string What)> Clamps(Part part)
    {
        if (part.LargestPanelThickness is { } most)
        {
            yield return (most.Mm, most, "`panel-max`");
        }

        if (part.BushingLength is { } length)
        {
            yield return (length.Mm - WasherMm - NutMm, length, $"bushing of {Shown.Mm(length.Mm)} less washer and nut");
        }
    }
}
