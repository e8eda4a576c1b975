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
