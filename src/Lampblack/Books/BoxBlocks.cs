using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Layout;

namespace Lampblack.Books;

/// <summary>How long the screws are that go into the blocks behind a panel. Common practice, no source; sizes from memory.</summary>
internal static class BoxBlocks
{
    private const double WasherMm = 0.5;

    /// <summary>Heavy paper with its toner.</summary>
    public const double PaperMm = 0.2;

    private const double InInsertMm = 6;
    private const double NutMm = 3;

    // As machine screws are sold.
    private static readonly ImmutableArray<double> UsualMm = [6, 8, 10, 12, 16, 20, 25, 30, 35, 40];

    /// <summary>How long a panel's screws must be: with a threaded insert, and with a nut below the block.</summary>
    public static (double InsertMm, double NutMm) ScrewsMm(Stack stack)
    {
        var through = stack.PlateMm + stack.GlueMm + stack.CoverMm + PaperMm + WasherMm;
        return (Sold(through + InInsertMm), Sold(through + ScrewBlock.HighMm + NutMm));
    }

    private static double Sold(double mm) => UsualMm.FirstOrDefault(one => one >= mm - 1e-9) is > 0 and var sold ? sold : Math.Ceiling(mm);
}
