using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using Lampblack.Geometry;

namespace Lampblack.Sheets;

/// <summary>
/// Six windows in black on the front; on the back a blind covers each, by 0.1, 0.2 ... 0.6 mm on the side away from the row's letter and generously
/// elsewhere. If the back lies off towards the letter by more than that, a sliver of light shows: the count of bright dots is the shift in tenths of a millimetre.
/// </summary>
internal sealed record DotRow(char Letter, double TowardsX, double TowardsY) : Gauge($"dots-{char.ToLowerInvariant(Letter)}")
{
    private const int Dots = 6;
    private const double PitchMm = 5.4;
    private const double WindowRadiusMm = 1.2;
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

            var shortMm = GenerousMm - (PassLimits.DotStepMm * (dot + 1));
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
