using System;
using System.Linq;
using Lampblack.Bitmaps;
using Lampblack.Geometry;
using Lampblack.Quantities;

namespace Lampblack.Formats;

/// <summary>
/// An area in an ink, whole or in dots. In a list, a later one lies opaque over the earlier ones; one in <see cref="Ink.None"/>, or in
/// <see cref="Ink.Bare"/> of another colour space, bares the paper again.
/// </summary>
/// <typeparam name="TSpace">The space it is in.</typeparam>
/// <param name="Region">Where the ink goes; with dots, the outline of all of them, set or not.</param>
/// <param name="Ink">What is printed there; with a colour picture, what it is on average, and in which colour space it is sent.</param>
/// <remarks>A class, though small: lists of structs are compiled anew for each space when they are first met, which took longer than all the lists together.</remarks>
public sealed record Painted<TSpace>(Region<TSpace> Region, Ink Ink)
    where TSpace : struct, ISpace
{
    /// <summary>The dots that are printed instead of the whole region, in their place; null where all of it is printed.</summary>
    public PlacedDots<TSpace>? Dots { get; private init; }

    /// <summary>How much of the plane is covered, dots that are not printed left out.</summary>
    public double AreaMm2 => Dots is null ? Region.AreaMm2 : Dots.Content.PrintedDots * Math.Abs(Dots.Placement.Determinant);

    /// <summary>The set dots of a picture in one ink, the others left as they are.</summary>
    /// <param name="dots">The picture.</param>
    /// <param name="placement">Where its dots go.</param>
    /// <param name="ink">The ink.</param>
    public static Painted<TSpace> Stencil(BitRaster dots, Affine<DotSpace, TSpace> placement, Ink ink) => Of(new Stencil(dots), placement, ink);

    /// <summary>A picture in many colours, or the dots of it that its mask has.</summary>
    /// <param name="picture">The picture.</param>
    /// <param name="placement">Where its dots go.</param>
    public static Painted<TSpace> Picture(ColourDots picture, Affine<DotSpace, TSpace> placement)
    {
        ArgumentNullException.ThrowIfNull(picture);
        return Of(picture, placement, picture.MeanInk);
    }

    /// <summary>The same in another space: the one place where what is painted is moved, turned or mirrored.</summary>
    public Painted<TTo> Map<TTo>(Affine<TSpace, TTo> map)
        where TTo : struct, ISpace
    {
        ArgumentNullException.ThrowIfNull(map);
        return new(Region.Map(map), Ink) { Dots = Dots is null ? null : new(Dots.Content, Dots.Placement.Then(map)) };
    }

    private static Painted<TSpace> Of(DotContent content, Affine<DotSpace, TSpace> placement, Ink ink)
    {
        ArgumentNullException.ThrowIfNull(placement);
        Point<DotSpace>[] corners = [new(0, 0), new(content.WidthDots, 0), new(content.WidthDots, content.HeightDots), new(0, content.HeightDots)];
        return new(Region<TSpace>.FromCorners([.. corners.Select(placement.Apply)]), ink) { Dots = new(content, placement) };
    }
}

/// <summary>Dots in their place.</summary>
/// <typeparam name="TSpace">The space they are placed in.</typeparam>
/// <param name="Content">The dots.</param>
/// <param name="Placement">Where they go.</param>
public sealed record PlacedDots<TSpace>(DotContent Content, Affine<DotSpace, TSpace> Placement)
    where TSpace : struct, ISpace;
