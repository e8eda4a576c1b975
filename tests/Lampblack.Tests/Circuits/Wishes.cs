using System.Collections.Immutable;
using Lampblack.Circuits;

namespace Lampblack.Tests.Circuits;

/// <summary>Circuits that the tests ask for.</summary>
internal static class Wishes
{
    /// <summary>Single diodes alone on a supply; 10 % of tolerance, E24, 5 %.</summary>
    public static CircuitWish Diodes(double supplyVolts, DiodeCurve curve, int count, double wantedAmperes = 0.015, double mostAmperes = 0.03) =>
        new(supplyVolts, [new LampChannel("legends", new SingleDiodes(curve, wantedAmperes, mostAmperes), count, IsDimmed: true)]);

    public static CircuitWish Of(double supplyVolts, params ImmutableArray<LampChannel> channels) => new(supplyVolts, channels);

    public static LampChannel Strip(double stripVolts, double unitAmperes, int unitCount, int count, bool isDimmed = true) =>
        new("strip", new CutStrip(stripVolts, unitAmperes, unitCount), count, isDimmed);

    public static LampChannel Pixels(int count, double amperes = 0.06) => new("pixels", new AddressablePixels(5, amperes), count, IsDimmed: true);
}
