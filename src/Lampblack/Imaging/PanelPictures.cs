using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Optics;

namespace Lampblack.Imaging;

/// <summary>Pictures of a panel as the eye or a lamp would show it, worked out in linear light and then encoded.</summary>
/// <remarks>
/// No curve is laid over the light but sRGB's own: twice the light is twice the light. What is left out: gloss, the plate's edge glow, light
/// that the box gives back a second time, uneven emitters, and the eye's getting used to the dark or to a coloured light.
/// </remarks>
public static class PanelPictures
{
    /// <summary>Linear light of the brightest thing in a lit picture: just below white (sRGB code 249), so that nothing hides by being cut off.</summary>
    public const double OpenLegend = 0.95;

    /// <summary>The unlit face in room light. A perfect white diffuser would be white.</summary>
    public static Picture Day(PanelRaster panel)
    {
        ArgumentNullException.ThrowIfNull(panel);
        return panel.Picture(panel.Reflectance);
    }

    /// <summary>
    /// The panel lit from behind, in rooms of several brightnesses. Light passes the mask, is smeared by the paper, and passes each colour of the front once; room
    /// light is added. Exposed so that an open, unprinted legend in the common light is <see cref="OpenLegend"/>: from deep night (0) towards day (large shares) without a jump.
    /// </summary>
    /// <param name="panel">The panel; its misregister shows.</param>
    /// <param name="light">The light behind it.</param>
    /// <param name="roomShares">For each picture the light that falls on the face, as a share of the strongest light that falls on the back; 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A share is negative.</exception>
    public static ImmutableArray<Picture> Lit(PanelRaster panel, Backlight light, params ImmutableArray<double> roomShares)
    {
        ArgumentNullException.ThrowIfNull(panel);
        ArgumentNullException.ThrowIfNull(light);
        foreach (var roomShare in roomShares)
        {
            ArgumentOutOfRangeException.ThrowIfNegative(roomShare);
        }

        // Shares of the strongest light, so that the room's share means the same for a dim lamp and a bright one.
        // The common light sets the exposure: a cell's own, stronger lamp, meant for a covered legend, must not darken the rest.
        var strongest = light.Colour.Peak > 0 ? light.Colour.Peak : light.Peak > 0 ? light.Peak : 1;
        var behind = panel.LightBehind(light);
        return panel.Pictures(roomShares.Length, rows =>
        {
            using var front = panel.FrontTransmission(rows);
            using var face = panel.Reflectance(rows);
            using var passed = panel.OnlyPanel(behind(rows).Multiply(front), rows).Scale(panel.Paper.Transmittance / strongest);
            return [.. roomShares.Select(roomShare => passed.Copy().Add(face, roomShare).Scale(Exposure(panel.Paper, roomShare)))];
        });
    }

    private static double Exposure(PaperOptics paper, double roomShare)
    {
        var open = paper.Transmittance + (roomShare * paper.Reflectance);
        return open > 0 ? OpenLegend / open : 0;
    }

    /// <summary>
    /// The print held to a white lamp before it is cut: front and mask with their misregister, the unprinted paper around them at <see cref="OpenLegend"/>.
    /// Nothing is marked or brightened: what leaks on paper leaks here.
    /// </summary>
    public static Picture ThroughLight(PanelRaster panel)
    {
        ArgumentNullException.ThrowIfNull(panel);
        return panel.Picture(rows =>
        {
            using var front = panel.FrontTransmission(rows);
            return panel.MaskLight(rows).Multiply(front).Scale(OpenLegend);
        });
    }

    /// <summary>The mask's print in room light, laid out as it lies seen from the front (on paper it is the mirror image), in register.</summary>
    public static Picture Mask(PanelRaster panel)
    {
        ArgumentNullException.ThrowIfNull(panel);
        return panel.Picture(panel.MaskFace);
    }
}
