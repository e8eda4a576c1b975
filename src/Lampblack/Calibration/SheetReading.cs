using System;
using System.Collections.Immutable;
using Lampblack.Numerics;
using Lampblack.Printers;

namespace Lampblack.Calibration;

/// <summary>One number that was read of a sheet: how far side 2 lies off at one place, to the right or up, with all undone that the sheet was made with.</summary>
/// <param name="Typed">As it was typed.</param>
/// <param name="Place">Where it was read.</param>
/// <param name="IsUp">Whether it is upwards; else to the right.</param>
/// <param name="ValueMm">How far.</param>
/// <param name="SdMm">Standard deviation of that.</param>
/// <param name="Kind">What it was read from.</param>
internal sealed record SheetReading(Typed Typed, SheetPlace Place, bool IsUp, double ValueMm, double SdMm, ReadFrom Kind)
{
    /// <summary>How it is named to the maker.</summary>
    public string Name => Kind switch
    {
        ReadFrom.Vernier => Place.Name,
        ReadFrom.Photo => Place.Name,
        ReadFrom.Scale => $"{Place.Name} {(IsUp ? "y" : "x")}",
        _ => $"{(IsUp ? "N/S" : "E/W")} of {Place.Name}",
    };

    /// <summary>A value as the maker reads and types it: a vernier's own number, else mm with a sign.</summary>
    /// <param name="valueMm">How far side 2 would lie off.</param>
    public string Shown(double valueMm) => Kind == ReadFrom.Vernier
        ? FormattableString.Invariant($"{Vernier.InRegisterMm + valueMm:0.0}")
        : FormattableString.Invariant($"{valueMm:+0.0;-0.0;0.0} mm");

    /// <summary>Shares of shift right and up, turn, stretch of x and y, shear in it.</summary>
    public ImmutableArray<double> Shares => IsUp ? RegisterEstimate.Up(Place.XMm, Place.YMm) : RegisterEstimate.Right(Place.XMm, Place.YMm);

    /// <summary>As an equation.</summary>
    public Observation Observation => new(Shares, ValueMm, SdMm);
}

/// <summary>What a number was read from.</summary>
internal enum ReadFrom
{
    /// <summary>A scale beside a turn box.</summary>
    Scale,

    /// <summary>A block of dots.</summary>
    Dots,

    /// <summary>A block of dots on a sheet of a bracket.</summary>
    Bracket,

    /// <summary>A vernier of a calibration sheet.</summary>
    Vernier,

    /// <summary>A photo of a calibration sheet.</summary>
    Photo,
}
