using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Calibration;

/// <summary>The black wedge: which patches a calibration sheet has, and where.</summary>
public static class CalibrationPatches
{
    /// <summary>Side of a patch.</summary>
    internal const double PatchMm = 6.2;

    /// <summary>From one patch to the next.</summary>
    internal const double PitchMm = 7.2;

    /// <summary>From the left of a group to its first patch: room for the names of its rows.</summary>
    internal const double RowNamesMm = 9.4;

    // The group's title and the names of its columns.
    private const double HeadMm = 7.6;

    /// <summary>Height of a group with two rows.</summary>
    internal const double HeightMm = HeadMm + PitchMm + PatchMm + 0.6;

    /// <summary>Total coverages of the steps, as shares of one layer. K is full in all of them, the other inks share the rest alike.</summary>
    public static ImmutableArray<double> Coverages { get; } = [1, 1.5, 2, 2.5, 3, 3.5, 4];

    /// <summary>
    /// The blacks that printers and drivers are known to treat differently, by the name that stands above them: the three that mean plain black in their own
    /// colour space, and builds of four, of three, and of 240 %.
    /// </summary>
    /// <param name="isBlackOnly">Whether the printer has black only: then those that need no other ink.</param>
    public static ImmutableArray<(string Name, Ink Ink)> Blacks(bool isBlackOnly) => isBlackOnly
        ? [("gray", Ink.Gray(0)), ("K", Ink.FullK)]
        :
        [
            ("K", Ink.FullK), ("gray", Ink.Gray(0)), ("rgb", Ink.Rgb(0, 0, 0)), ("240", PrinterProperties.Unmeasured.Builds[0].Ink),
            ("300", Ink.Cmyk(1, 1, 1, 0)), ("400", Ink.Cmyk(1, 1, 1, 1)),
        ];

    /// <summary>All patches.</summary>
    /// <param name="plan">The sheet's plan.</param>
    /// <param name="isBlackOnly">Whether the printer has black only.</param>
    public static ImmutableArray<CalibrationPatch> Of(CalibrationPlan plan, bool isBlackOnly = false)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var layout = new CalibrationLayout(plan, isBlackOnly);
        IEnumerable<CalibrationPatch> patches =
        [
            .. Wedge("front", layout.WedgeFront, isBlackOnly, onFront: true, onBack: false),
            .. Wedge("back", layout.WedgeBack, isBlackOnly, onFront: false, onBack: true),
            .. Wedge("both", layout.WedgeBoth, isBlackOnly, onFront: true, onBack: true),
            .. Opaque(layout.Opaque, isBlackOnly),
        ];
        return isBlackOnly ? [.. patches] : [.. patches, .. Steps(layout.WedgeSteps), .. Beside(layout.Beside)];
    }

    /// <summary>The build whose field is beside K, and which the sheet's plain field is made of.</summary>
    internal static BlackBuild Field(bool isBlackOnly) => isBlackOnly ? PrinterProperties.Unmeasured.Build("gray")! : PrinterProperties.Unmeasured.Builds[0];

    /// <summary>Width of a group.</summary>
    internal static double WidthMm(int columns) => RowNamesMm + (columns * PitchMm);

    /// <summary>A place in a group's table of patches.</summary>
    internal static Box<SheetSpace> Cell(Box<SheetSpace> group, int column, int row) => new(
        group.LeftMm + RowNamesMm + (column * PitchMm), group.TopMm - HeadMm - PatchMm - (row * PitchMm), PatchMm, PatchMm);

    private static IEnumerable<CalibrationPatch> Wedge(string group, Box<SheetSpace> box, bool isBlackOnly, bool onFront, bool onBack)
    {
        var blacks = Blacks(isBlackOnly);
        foreach (var (row, form) in new[] { "vector", "image" }.Index())
        {
            foreach (var (column, (name, ink)) in blacks.Index())
            {
                yield return new($"{group}-{name}-{form}", Cell(box, column, row), onFront ? ink : null, onBack ? ink : null, IsImage: row == 1);
            }

            yield return new($"{group}-paper-{row + 1}", Cell(box, blacks.Length, row), null, null, IsImage: false);
        }
    }

    private static IEnumerable<CalibrationPatch> Steps(Box<SheetSpace> box)
    {
        foreach (var (row, side) in new[] { "front", "both" }.Index())
        {
            foreach (var (column, coverage) in Coverages.Index())
            {
                var ink = Ink.Cmyk((coverage - 1) / 3, (coverage - 1) / 3, (coverage - 1) / 3, 1);
                yield return new(FormattableString.Invariant($"{side}-C{coverage * 100:0}"), Cell(box, column, row), ink, row == 1 ? ink : null, IsImage: false);
            }

            yield return new($"coverage-paper-{row + 1}", Cell(box, Coverages.Length, row), null, null, IsImage: false);
        }
    }

    /// <summary>The darkest there is, for the light that a lens scatters into black: all inks in front, behind them the same and the usual build.</summary>
    private static IEnumerable<CalibrationPatch> Opaque(Box<SheetSpace> box, bool isBlackOnly)
    {
        var darkest = isBlackOnly ? Ink.Gray(0) : Ink.Cmyk(1, 1, 1, 1);
        var half = new Box<SheetSpace>(box.LeftMm + 1, box.BottomMm + 4, (box.WidthMm / 2) - 1, box.HeightMm - 4.4);
        yield return new("opaque-1", half, darkest, darkest, IsImage: false);
        yield return new("opaque-2", half with { LeftMm = half.RightMm }, darkest, isBlackOnly ? Ink.FullK : Field(false).Ink, IsImage: false);
    }

    private static IEnumerable<CalibrationPatch> Beside(Box<SheetSpace> box)
    {
        var half = new Box<SheetSpace>(box.LeftMm + 1, box.BottomMm + 4, (box.WidthMm / 2) - 1, box.HeightMm - 4.4);
        yield return new("beside-K", half, Ink.FullK, null, IsImage: false);
        yield return new("beside-field", half with { LeftMm = half.RightMm }, Field(false).Ink, null, IsImage: false);
    }
}
