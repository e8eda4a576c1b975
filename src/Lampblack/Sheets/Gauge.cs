using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Quantities;

namespace Lampblack.Sheets;

/// <summary>What a gauge prints on either side, in front view.</summary>
/// <param name="Front">On the front.</param>
/// <param name="Back">On the back.</param>
internal sealed record GaugeDrawing(ImmutableArray<Painted<SheetSpace>> Front, ImmutableArray<Painted<SheetSpace>> Back);

/// <summary>The inks that gauges are printed in.</summary>
/// <param name="Mark">K alone (or the build's own single ink), so that colour planes can't blur an edge.</param>
/// <param name="Field">The field's full build.</param>
internal sealed record GaugeInks(Ink Mark, Ink Field);

/// <summary>Something in the waste of a sheet that shows how the print came out.</summary>
internal abstract record Gauge(string Name)
{
    /// <summary>The sizes it can take, the best first.</summary>
    public abstract ImmutableArray<(double WidthMm, double HeightMm)> Sizes { get; }

    /// <summary>Draws it into a box of one of its sizes.</summary>
    public abstract GaugeDrawing Draw(Box<SheetSpace> box, GaugeInks inks);

    protected static Painted<SheetSpace> Area(Ink ink, params IEnumerable<Region<SheetSpace>> regions) =>
        new(Region<SheetSpace>.Union(regions.ToList()), ink);
}

/// <summary>A round window in black on the front and a smaller disc on the back: against light an even ring is perfect register.</summary>
internal sealed record WindowGauge() : Gauge("window")
{
    private const double WindowRadiusMm = 3;
    private const double DiscRadiusMm = 2;

    public override ImmutableArray<(double WidthMm, double HeightMm)> Sizes => [(12, 12)];

    public override GaugeDrawing Draw(Box<SheetSpace> box, GaugeInks inks)
    {
        var front = Region<SheetSpace>.Rectangle(box.Grow(-0.5)).Except(Region<SheetSpace>.Disc(box.Centre, WindowRadiusMm));
        return new([new(front, inks.Mark)], [new(Region<SheetSpace>.Disc(box.Centre, DiscRadiusMm), inks.Mark)]);
    }
}

/// <summary>
/// Six windows in black on the front; on the back a blind covers each, by 0.1, 0.2 ... 0.6 mm on the side away from the row's letter and generously
/// elsewhere. If the back lies off towards the letter by more than that, a sliver of light shows: the count of bright dots is the shift in tenths of a millimetre.
/// </summary>
internal sealed record DotRow(char Letter, double TowardsX, double TowardsY) : Gauge($"dots-{char.ToLowerInvariant(Letter)}")
{
    private const int Dots = 6;
    private const double PitchMm = 5.4;
    private const double WindowRadiusMm = 1.2;
    private const double StepMm = 0.1;
    private const double GenerousMm = 1.1;

    /// <summary>The four rows of a sheet.</summary>
    public static ImmutableArray<DotRow> All { get; } = [new('N', 0, 1), new('E', 1, 0), new('S', 0, -1), new('W', -1, 0)];

    public override ImmutableArray<(double WidthMm, double HeightMm)> Sizes => [((Dots * PitchMm) + 5, 6.4), (6.4, (Dots * PitchMm) + 5)];

    public override GaugeDrawing Draw(Box<SheetSpace> box, GaugeInks inks)
    {
        var flat = box.WidthMm > box.HeightMm;
        var bar = flat
            ? new Box<SheetSpace>(box.LeftMm + 4.5, box.BottomMm + 0.5, Dots * PitchMm, box.HeightMm - 1)
            : new Box<SheetSpace>(box.LeftMm + 0.5, box.BottomMm + 0.5, box.WidthMm - 1, Dots * PitchMm);
        var windows = new List<Region<SheetSpace>>();
        var blinds = new List<Region<SheetSpace>>();
        for (var dot = 0; dot < Dots; dot++)
        {
            var along = (dot + 0.5) * PitchMm;
            var centre = flat
                ? new Point<SheetSpace>(bar.LeftMm + along, bar.Centre.YMm)
                : new Point<SheetSpace>(bar.Centre.XMm, bar.TopMm - along);
            windows.Add(Region<SheetSpace>.Disc(centre, WindowRadiusMm));

            var shortMm = GenerousMm - (StepMm * (dot + 1));
            var blind = new Box<SheetSpace>(centre.XMm, centre.YMm, 0, 0).Grow(WindowRadiusMm + GenerousMm);
            blinds.Add(Region<SheetSpace>.Rectangle(new(
                blind.LeftMm + (Math.Max(0, TowardsX) * shortMm),
                blind.BottomMm + (Math.Max(0, TowardsY) * shortMm),
                blind.WidthMm - (Math.Abs(TowardsX) * shortMm),
                blind.HeightMm - (Math.Abs(TowardsY) * shortMm))));
        }

        var letterAt = flat
            ? new Point<SheetSpace>(box.LeftMm + 2, box.Centre.YMm)
            : new Point<SheetSpace>(box.Centre.XMm, box.TopMm - 2);
        var front = Region<SheetSpace>.Rectangle(bar).Except(Region<SheetSpace>.Union(windows));
        var letter = SheetText.Centred(Letter.ToString(), 2.6, letterAt, Side.Front);
        return new([Area(inks.Mark, front, letter)], [Area(inks.Mark, blinds)]);
    }
}

/// <summary>K alone beside the full build: if both leak the same, the driver threw the other inks away.</summary>
internal sealed record BlackPatches() : Gauge("patches")
{
    public override ImmutableArray<(double WidthMm, double HeightMm)> Sizes => [(24, 14), (14, 25)];

    public override GaugeDrawing Draw(Box<SheetSpace> box, GaugeInks inks)
    {
        var flat = box.WidthMm > box.HeightMm;
        var first = flat
            ? new Box<SheetSpace>(box.LeftMm + 1, box.BottomMm + 3.5, 10.5, 10)
            : new Box<SheetSpace>(box.LeftMm + 2, box.BottomMm + 14.5, 10, 10);
        var second = flat
            ? first with { LeftMm = first.RightMm + 1 }
            : new Box<SheetSpace>(box.LeftMm + 2, box.BottomMm + 3, 10, 8.5);
        var letters = Region<SheetSpace>.Union(
        [
            SheetText.Centred("K", 1.7, new(first.Centre.XMm, first.BottomMm - 1.6), Side.Front),
            SheetText.Centred("FIELD", 1.7, new(second.Centre.XMm, second.BottomMm - 1.6), Side.Front),
        ]);
        return new(
            [Area(inks.Mark, Region<SheetSpace>.Rectangle(first), letters), Area(inks.Field, Region<SheetSpace>.Rectangle(second))],
            []);
    }
}
