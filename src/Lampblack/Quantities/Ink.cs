using System;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Quantities;

/// <summary>The colour space in which an ink's numbers are sent to the printer. Drivers treat the three differently, so it is part of the ink.</summary>
public enum InkSpace
{
    /// <summary>Four inks: cyan, magenta, yellow, black; 0 none, 1 full.</summary>
    Cmyk,

    /// <summary>One number: 0 black, 1 white.</summary>
    Gray,

    /// <summary>Red, green, blue light: 0 none, 1 full.</summary>
    Rgb,
}

/// <summary>What is printed at a place: a colour space and its numbers, sent to the printer just so.</summary>
public sealed record Ink
{
    private Ink(InkSpace space, ImmutableArray<double> amounts)
    {
        Space = space;
        Amounts = amounts;
    }

    /// <summary>Bare paper.</summary>
    public static Ink None { get; } = Cmyk(0, 0, 0, 0);

    /// <summary>Full K alone.</summary>
    public static Ink FullK { get; } = Cmyk(0, 0, 0, 1);

    /// <summary>The colour space.</summary>
    public InkSpace Space { get; }

    /// <summary>The numbers in the order of the space, each from 0 to 1.</summary>
    public ImmutableArray<double> Amounts { get; }

    /// <summary>Toner laid down as a share of one full layer (4 at most) where it can be told: CMYK sums its inks, gray is K alone, RGB is counted as its complement in three inks.</summary>
    public double TotalCoverage => Toners.CyanCoverage + Toners.MagentaCoverage + Toners.YellowCoverage + Toners.BlackCoverage;

    /// <summary>
    /// Each toner as a share of one full layer. Gray is K alone, as ISO 32000-1 10.3.3 converts it; RGB is taken as its complement in three inks without black
    /// generation, which is only one of the ways a driver may go (10.3.4 leaves it to the device).
    /// </summary>
    public (double CyanCoverage, double MagentaCoverage, double YellowCoverage, double BlackCoverage) Toners => Space switch
    {
        InkSpace.Cmyk => (Amounts[0], Amounts[1], Amounts[2], Amounts[3]),
        InkSpace.Gray => (0, 0, 0, 1 - Amounts[0]),
        _ => (1 - Amounts[0], 1 - Amounts[1], 1 - Amounts[2], 0),
    };

    /// <summary>Four inks, each from 0 (none) to 1 (full).</summary>
    /// <exception cref="ArgumentOutOfRangeException">An amount is not from 0 to 1.</exception>
    public static Ink Cmyk(double cyan, double magenta, double yellow, double black) =>
        new(InkSpace.Cmyk, [Share(cyan), Share(magenta), Share(yellow), Share(black)]);

    /// <summary>Gray from 0 (black) to 1 (white).</summary>
    /// <exception cref="ArgumentOutOfRangeException">The amount is not from 0 to 1.</exception>
    public static Ink Gray(double lightness) => new(InkSpace.Gray, [Share(lightness)]);

    /// <summary>Red, green and blue light, each from 0 (none) to 1 (full).</summary>
    /// <exception cref="ArgumentOutOfRangeException">An amount is not from 0 to 1.</exception>
    public static Ink Rgb(double red, double green, double blue) => new(InkSpace.Rgb, [Share(red), Share(green), Share(blue)]);

    /// <summary>Bare paper, said in a colour space: nothing else on the page need be in another one, and a driver that sees only gray sends no colours.</summary>
    public static Ink Bare(InkSpace space) => space switch
    {
        InkSpace.Gray => Gray(1),
        InkSpace.Rgb => Rgb(1, 1, 1),
        _ => None,
    };

    /// <summary>Whether two inks are the same space and numbers.</summary>
    public bool Equals(Ink? other) => other is not null && Space == other.Space && Amounts.SequenceEqual(other.Amounts);

    /// <inheritdoc/>
    public override int GetHashCode() => Amounts.Aggregate((int)Space, HashCode.Combine);

    private static double Share(double amount) => amount is >= 0 and <= 1
        ? amount
        : throw new ArgumentOutOfRangeException(nameof(amount), amount, "an ink's amounts go from 0 to 1");
}
