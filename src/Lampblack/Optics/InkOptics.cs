using System;
using Lampblack.Quantities;

namespace Lampblack.Optics;

/// <summary>Transmission density of one full toner layer in the three bands of sRGB, passed once.</summary>
/// <param name="Red">In the red band; 0 is clear.</param>
/// <param name="Green">In the green band.</param>
/// <param name="Blue">In the blue band.</param>
public readonly record struct BandDensities(double Red, double Green, double Blue)
{
    /// <summary>What passes where the layer covers a share from 0 to 1 of the place.</summary>
    public LinearColour Transmission(double coverage) => new(
        Density.Transmittance(Red, coverage), Density.Transmittance(Green, coverage), Density.Transmittance(Blue, coverage));
}

/// <summary>What a printer's inks do to light: clear colour filters lying on the paper, without scatter of their own.</summary>
/// <param name="Cyan">One full layer of cyan.</param>
/// <param name="Magenta">One full layer of magenta.</param>
/// <param name="Yellow">One full layer of yellow.</param>
/// <param name="Black">One full layer of black.</param>
/// <param name="SurfaceReflectance">Share that the toner's own surface throws back, from 0 to 1; it is what keeps printed black from being darker.</param>
/// <remarks>
/// Three wide bands are a coarse spectrum: narrow lamp light may look more or less strongly coloured than predicted.
/// Layers multiply, which is exact for independent screens (Demichel) of absorbing toner.
/// </remarks>
public sealed record InkOptics(BandDensities Cyan, BandDensities Magenta, BandDensities Yellow, BandDensities Black, double SurfaceReflectance)
{
    /// <summary>
    /// Figures to start from, to be replaced by a printer's own wedge. All densities are from memory, to be measured:
    /// black 1.6 in one layer; a colour passes about 0.2 of the light it is meant to stop; a surface of 3 %, so that solid black reads about 1.5
    /// in reflection (1.3 to 1.6 are usual, and a lamp's mirror image in the gloss is not counted).
    /// </summary>
    public static InkOptics Assumed { get; } = new(
        new(0.70, 0.18, 0.07), new(0.05, 0.75, 0.30), new(0.01, 0.05, 0.70), new(1.60, 1.60, 1.60), SurfaceReflectance: 0.03);

    /// <summary>What an ink lets through once, as when it is lit from behind; paper not included.</summary>
    public LinearColour Transmission(Ink ink)
    {
        ArgumentNullException.ThrowIfNull(ink);
        var (cyan, magenta, yellow, black) = ink.Toners;
        return Cyan.Transmission(cyan) * Magenta.Transmission(magenta) * Yellow.Transmission(yellow) * Black.Transmission(black);
    }

    /// <summary>What an ink on paper throws back in room light: paper seen through the ink twice, and the toner's surface.</summary>
    /// <remarks>
    /// Squaring the mean transmission of a screen is Yule-Nielsen with n = 2: the paper mixes the light fully between going in and coming out.
    /// The surface counts where toner lies; bare paper's own surface is part of its reflectance.
    /// </remarks>
    public LinearColour Reflectance(Ink ink, PaperOptics paper)
    {
        ArgumentNullException.ThrowIfNull(ink);
        ArgumentNullException.ThrowIfNull(paper);
        var (cyan, magenta, yellow, black) = ink.Toners;
        var bare = (1 - cyan) * (1 - magenta) * (1 - yellow) * (1 - black);
        var surface = SurfaceReflectance * (1 - bare);
        var through = Transmission(ink);
        var inside = paper.Reflectance * (through * through);
        var skin = new Surface(surface, 0);
        return new(skin.Seen(inside.Red), skin.Seen(inside.Green), skin.Seen(inside.Blue));
    }
}
