using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Imaging;
using Lampblack.Optics;
using Lampblack.Parts;
using Lampblack.Quantities;
using Lampblack.Separations;

namespace Lampblack.Jobs;

/// <summary>What coloured lamps do to coloured legends: some all but go out, others can't be told apart any more.</summary>
internal static class LampColours
{
    /// <summary>A legend that shows less than this of what bare paper shows before the same lamps is as good as dark. Ours; no source.</summary>
    private const double LeastShare = 0.25;

    /// <summary>Colours nearer than this (CIE 1976 L*a*b*) are taken for the same from across a desk, those further than the second for different. Ours; no source.</summary>
    private const double AlikeSteps = 20;
    private const double DifferentSteps = 35;

    public static IEnumerable<Finding> Of(EmitterColour lamps, ImmutableArray<PanelLight> panels, ImmutableArray<PanelSeparation> separations)
    {
        // White lamps show every ink in its own colour, near enough.
        if (lamps is EmitterColour.WarmWhite or EmitterColour.CoolWhite)
        {
            yield break;
        }

        foreach (var (light, separation) in panels.Zip(separations))
        {
            var panel = separation.Artwork.Laid.Panel;
            foreach (var dead in light.Legends.Where(legend => legend.LitShare < LeastShare))
            {
                yield return Finding.Warn(
                    "lamp-colour",
                    $"before these lamps the ink of `{dead.Item}` lets through only {Shown.Percent(dead.LitShare)} of what bare paper does: when lit it looks nearly out beside white ones",
                    "take another ink for it (white shines before any lamps), or other lamps under `[lighting]`; look at it towards midnight",
                    SpanOf(separation, dead.Item),
                    dead.Item);
            }

            var seen = light.Legends.Where(legend => legend.LitShare >= LeastShare).OrderBy(legend => legend.Ink == Ink.None ? 0 : 1).ThenBy(legend => legend.Item, StringComparer.Ordinal).ToList();
            foreach (var (index, legend) in seen.Index())
            {
                if (seen.Take(index).FirstOrDefault(other => Steps(legend.DayColour, other.DayColour) > DifferentSteps && Steps(legend.LitColour, other.LitColour) < AlikeSteps) is { } twin)
                {
                    yield return Finding.Note(
                        "lamp-colour",
                        $"before these lamps the ink of `{legend.Item}` on panel `{panel.Id}` looks like {(twin.Ink == Ink.None ? "white" : $"that of `{twin.Item}`")}: when lit they can't be told apart by colour",
                        "let words or shapes say what the colour says, or take lamps that keep the colours apart",
                        SpanOf(separation, legend.Item),
                        legend.Item);
                }
            }
        }
    }

    private static SourceSpan? SpanOf(PanelSeparation separation, string item) => separation.Shapes.Visible.FirstOrDefault(mark => mark.Origin.Item == item)?.Origin.Span;

    /// <summary>How far two colours are apart: the straight way in CIE 1976 L*a*b* before the white of sRGB (CIE 15).</summary>
    private static double Steps(LinearColour first, LinearColour second)
    {
        var (a, b) = (Lab(first), Lab(second));
        return Math.Sqrt(Math.Pow(a.L - b.L, 2) + Math.Pow(a.A - b.A, 2) + Math.Pow(a.B - b.B, 2));
    }

    private static (double L, double A, double B) Lab(LinearColour colour)
    {
        var (x, y, z) = Srgb.ToXyz(colour);
        var (whiteX, whiteY, whiteZ) = Srgb.ToXyz(LinearColour.White);
        var (fx, fy, fz) = (Root(x / whiteX), Root(y / whiteY), Root(z / whiteZ));
        return ((116 * fy) - 16, 500 * (fx - fy), 200 * (fy - fz));
    }

    private static double Root(double share) => share > 216.0 / 24389 ? Math.Cbrt(share) : ((24389.0 / 27 * share) + 16) / 116;
}
