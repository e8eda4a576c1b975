using System;

namespace Lampblack.Optics;

/// <summary>How paper softens the light of an opening in the mask that it lies before.</summary>
/// <remarks>From the line spread (pi/kp) exp(-2 pi |x|/kp); see <see cref="PaperOptics.SpreadMm"/>.</remarks>
public static class HaloLight
{
    /// <summary>From the mask's edge to where only a tenth of its light is left: half of an edge's width from 10 to 90 %, kp ln 5 / 2 pi.</summary>
    public static double SoftEdgeMm(PaperOptics paper)
    {
        ArgumentNullException.ThrowIfNull(paper);
        return paper.SpreadMm * Math.Log(5) / (2 * Math.PI);
    }

    /// <summary>Width of an edge from 10 to 90 % of its light.</summary>
    public static double EdgeWidthMm(PaperOptics paper) => 2 * SoftEdgeMm(paper);

    /// <summary>Width of the dim ring around a legend: what its opening is larger, and the paper's softness.</summary>
    /// <param name="paper">The paper.</param>
    /// <param name="spreadMm">How much larger the opening is all round.</param>
    public static double WidthMm(PaperOptics paper, double spreadMm) => spreadMm + SoftEdgeMm(paper);

    /// <summary>Share of its light that is left in the middle of a long opening: 1 - exp(-pi w / kp).</summary>
    /// <param name="paper">The paper.</param>
    /// <param name="openingMm">How wide the opening is.</param>
    public static double MiddleShare(PaperOptics paper, double openingMm)
    {
        ArgumentNullException.ThrowIfNull(paper);
        return paper.SpreadMm > 0 ? 1 - Math.Exp(-Math.PI * openingMm / paper.SpreadMm) : 1;
    }
}
