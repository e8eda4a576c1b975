using System;
using Lampblack.Parts;

namespace Lampblack.Books;

/// <summary>A part from the side, the panel's front up: what of it lies before the panel, in its hole, and behind.</summary>
/// <param name="HeadWidthMm">Nut, bezel or head across.</param>
/// <param name="HoleMm">Its hole.</param>
/// <param name="ThreadMm">Length of its thread; null where none is known.</param>
/// <param name="BodyWidthMm">Its body, across.</param>
/// <param name="BodyDepthMm">Its body, away from the panel.</param>
/// <param name="KnobMm">Its knob; 0 for none.</param>
/// <param name="HasLever">Whether it has a lever.</param>
internal sealed record PartSide(double HeadWidthMm, double HoleMm, double? ThreadMm, double BodyWidthMm, double BodyDepthMm, double KnobMm, bool HasLever)
{
    // What no list tells, as such things look. Ours.
    private const double HeadShare = 1.6;
    private const double HeadHighMm = 2;
    private const double LeverMm = 9;
    private const double KnobHighMm = 11;
    private const double ShankMm = 10;

    public static PartSide Of(Part part)
    {
        var hole = part.Cutout.Shape().Bounds;
        var head = part.Bezel?.Shape().Bounds.WidthMm ?? (HeadShare * hole.WidthMm);
        return new(Math.Max(head, hole.WidthMm), hole.WidthMm, part.BushingLength?.Mm, part.Body?.Width.Mm ?? hole.WidthMm, part.Body?.Depth.Mm ?? ShankMm, part.KnobDiameter?.Mm ?? 0, part.Lever is not null);
    }

    /// <summary>What stands before the panel's face.</summary>
    public double AboveMm => HeadHighMm + (HasLever ? LeverMm : KnobMm > 0 ? KnobHighMm : 0);

    /// <summary>What lies below it.</summary>
    public double BelowMm => (ThreadMm ?? 0) + BodyDepthMm;

    /// <summary>The largest of its sizes.</summary>
    public double LargestMm => Math.Max(Math.Max(HeadWidthMm, KnobMm), Math.Max(BodyWidthMm, AboveMm + BelowMm));

    /// <summary>Draws it around a middle line.</summary>
    /// <param name="pen">The pen.</param>
    /// <param name="xMm">The middle line.</param>
    /// <param name="faceMm">The panel's face.</param>
    /// <param name="scale">How large.</param>
    public void Draw(ActPen pen, double xMm, double faceMm, double scale)
    {
        if (HasLever)
        {
            pen.Trace($"M{xMm - (0.18 * HoleMm * scale):0.##} {faceMm - (HeadHighMm * scale):0.##}l{1.2 * scale:0.##} {-LeverMm * scale:0.##}h{0.36 * HoleMm * scale:0.##}l{-0.6 * scale:0.##} {LeverMm * scale:0.##}z", ActPen.Metal);
        }
        else if (KnobMm > 0)
        {
            pen.Box(xMm - (KnobMm * scale / 2), faceMm - ((HeadHighMm + KnobHighMm) * scale), KnobMm * scale, KnobHighMm * scale, ActPen.Black, cornerMm: 0.8);
        }

        var thread = ThreadMm ?? 0;
        pen.Box(xMm - (HoleMm * scale / 2), faceMm, HoleMm * scale, Math.Max(thread, 0.2) * scale, ActPen.Metal)
            .Box(xMm - (BodyWidthMm * scale / 2), faceMm + (thread * scale), BodyWidthMm * scale, BodyDepthMm * scale, ActPen.Paper)
            .Box(xMm - (HeadWidthMm * scale / 2), faceMm - (HeadHighMm * scale), HeadWidthMm * scale, HeadHighMm * scale, ActPen.Metal);
        for (var at = 1.0; at < thread; at++)
        {
            pen.Line(xMm - (HoleMm * scale / 2), faceMm + (at * scale), xMm + (HoleMm * scale / 2), faceMm + ((at - 0.5) * scale), 0.2);
        }
    }
}
