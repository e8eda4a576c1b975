using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Quantities;

namespace Lampblack.Sheets;

/// <summary>K alone beside the full build: if both leak the same, the driver threw the other inks away.</summary>
internal sealed record BlackPatches() : Gauge("patches")
{
    public override ImmutableArray<(double WidthMm, double HeightMm)> Sizes => [(26, 16.5), (14, 27)];

    public override GaugeDrawing Draw(Box<SheetSpace> box, GaugeInks inks)
    {
        var flat = box.WidthMm > box.HeightMm;
        var first = flat
            ? new Box<SheetSpace>(box.Centre.XMm - 11, box.BottomMm + 6, 10.5, 10)
            : new Box<SheetSpace>(box.LeftMm + 2, box.BottomMm + 17, 10, 9.5);
        var second = flat
            ? first with { LeftMm = first.RightMm + 1 }
            : new Box<SheetSpace>(box.LeftMm + 2, box.BottomMm + 5, 10, 8.5);
        var letters = new List<Region<SheetSpace>>
        {
            SheetText.Centred("K", 1.7, new(first.Centre.XMm, first.BottomMm - 1.6), Side.Front),
            SheetText.Centred("FIELD", 1.7, new(second.Centre.XMm, second.BottomMm - 1.6), Side.Front),
        };
        if (flat)
        {
            letters.Add(SheetText.Centred("Leak alike? Colours were dropped.", 1.25, new(box.Centre.XMm, box.BottomMm + 1.2), Side.Front));
        }
        else
        {
            letters.Add(SheetText.Centred("Alike? Colours", 1.2, new(box.Centre.XMm, second.BottomMm - 3.6), Side.Front));
            letters.Add(SheetText.Centred("were dropped", 1.2, new(box.Centre.XMm, box.BottomMm - 0.4), Side.Front));
        }

        return new(
            [Area(inks.Mark, Region<SheetSpace>.Rectangle(first), Region<SheetSpace>.Union(letters)), Area(inks.Field, Region<SheetSpace>.Rectangle(second))],
            []);
    }
}

/// <summary>
/// A row of patches from 160 to 400 % toner, K full in all of them. Rubbed with a finger, folded and pulled at with tape they tell how much the fuser holds.
/// </summary>
internal sealed record CoverageRow() : Gauge("coverage")
{
    private const double PatchMm = 6;
    private const double PitchMm = 6.6;

    /// <summary>The coverages as shares of one layer.</summary>
    public static ImmutableArray<double> Coverages { get; } = [1.6, 2, 2.4, 2.6, 2.8, 3, 3.2, 3.6, 4];

    public override ImmutableArray<(double WidthMm, double HeightMm)> Sizes =>
        [((Coverages.Length * PitchMm) + 1, PatchMm + 5.5), (PatchMm + 7, (Coverages.Length * PitchMm) + 1)];

    public override GaugeDrawing Draw(Box<SheetSpace> box, GaugeInks inks)
    {
        var flat = box.WidthMm > box.HeightMm;
        var areas = ImmutableArray.CreateBuilder<Painted<SheetSpace>>();
        var words = new List<Region<SheetSpace>>();
        foreach (var (index, coverage) in Coverages.Index())
        {
            var patch = flat
                ? new Box<SheetSpace>(box.LeftMm + 0.8 + (index * PitchMm), box.TopMm - PatchMm, PatchMm, PatchMm)
                : new Box<SheetSpace>(box.RightMm - PatchMm, box.TopMm - 0.8 - PatchMm - (index * PitchMm), PatchMm, PatchMm);
            var others = (coverage - 1) / 3;
            areas.Add(new(Region<SheetSpace>.Rectangle(patch), Ink.Cmyk(others, others, others, 1)));
            words.Add(SheetText.Centred(
                string.Create(CultureInfo.InvariantCulture, $"C{coverage * 100:0}"),
                1.5,
                flat ? new(patch.Centre.XMm, patch.BottomMm - 1.5) : new(patch.LeftMm - 2.6, patch.Centre.YMm),
                Side.Front));
        }

        var line = "Rub with a finger, fold, pull tape off: which flake, which hold?";
        words.Add(flat
            ? SheetText.Centred(line, 1.4, new(box.Centre.XMm, box.BottomMm + 1.1), Side.Front)
            : SheetText.Centred(line, 1.2, new(box.LeftMm + 0.9, box.Centre.YMm), Side.Front, 1));
        return new([.. areas, Area(inks.Mark, words)], []);
    }
}
