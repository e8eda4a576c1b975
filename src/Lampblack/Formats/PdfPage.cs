using System;
using System.Collections.Immutable;
using Lampblack.Geometry;

namespace Lampblack.Formats;

/// <summary>One page, upright, as the printer gets it.</summary>
/// <param name="WidthMm">Width of the paper, in mm; more than 0, at most the height.</param>
/// <param name="HeightMm">Height of the paper, in mm; at most 5080 (ISO 32000-1 annex C).</param>
/// <param name="Trim">The finished size; what lies off the page is cut off.</param>
/// <param name="Bleed">How far the print reaches beyond the trim; what lies off the page is cut off.</param>
/// <param name="Areas">What is printed, the lowest first.</param>
public sealed record PdfPage(
    double WidthMm,
    double HeightMm,
    Box<PageSpace> Trim,
    Box<PageSpace> Bleed,
    ImmutableArray<Painted<PageSpace>> Areas)
{
    /// <summary>14,400 units of 1/72 inch.</summary>
    private const double LargestMm = 5080;

    /// <summary>Says what is wrong with the page, if anything is.</summary>
    internal string? Problem() =>
        !(WidthMm > 0 && HeightMm > 0 && HeightMm <= LargestMm) ? $"a page is larger than 0 and at most {LargestMm} mm high"
        : WidthMm > HeightMm ? "a page stands upright: its width is at most its height, so that every printer turns it the same way"
        : Areas.IsDefault ? "a page has a list of areas, if an empty one"
        : !HasArea(OnPage(Trim)) ? "the trim box lies on the page"
        : !HasArea(OnPage(Bleed)) ? "the bleed box lies on the page"
        : null;

    /// <summary>What of a box lies on the page: all that counts of it (ISO 32000-1 clause 14.11.2.1).</summary>
    internal Box<PageSpace> OnPage(Box<PageSpace> box)
    {
        var left = Math.Max(0, box.LeftMm);
        var bottom = Math.Max(0, box.BottomMm);
        return new(left, bottom, Math.Min(WidthMm, box.RightMm) - left, Math.Min(HeightMm, box.TopMm) - bottom);
    }

    private static bool HasArea(Box<PageSpace> box) => box.WidthMm > 0 && box.HeightMm > 0;
}

/// <summary>How the print dialog is preset. Only a hint: many dialogs keep their own setting.</summary>
public enum PdfSides
{
    /// <summary>Every page on a sheet of its own.</summary>
    OneSided,

    /// <summary>Two pages on a sheet, turned about the long edge.</summary>
    TwoSidedLongEdge,
}

/// <summary>What a PDF says about itself.</summary>
/// <param name="Title">Its title, any text; control characters are dropped.</param>
/// <param name="Sides">How the print dialog is preset.</param>
public sealed record PdfOptions(string Title, PdfSides Sides);
