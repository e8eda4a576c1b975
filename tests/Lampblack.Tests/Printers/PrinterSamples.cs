using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Printers;

namespace Lampblack.Tests.Printers;

/// <summary>Printer files for tests; all data invented.</summary>
internal static class PrinterSamples
{
    internal static PrinterPath Colour { get; } = new(true, "tray 2", "A4", 120, FirstEdge.Short, Turning.ByHand, SideOrder.FrontFirst, "heavy 2", 5, 10);

    internal static PrinterFile New(PrinterPath? path = null) => PrinterFile.New("study", path ?? Colour);

    /// <summary>Exact readings of one displacement at four corners.</summary>
    internal static RegisterEntry Entry(Func<double, double, (double RightMm, double UpMm)> displacement, double sdMm = 0.1, Func<double>? noise = null) =>
        new("readings", [.. Corners.Select(corner =>
        {
            var (right, up) = displacement(corner.XMm, corner.YMm);
            return new RegisterReading(corner.XMm, corner.YMm, right + (noise?.Invoke() ?? 0), up + (noise?.Invoke() ?? 0), sdMm);
        })]);

    internal static ImmutableArray<(double XMm, double YMm)> Corners { get; } = [(80, 115), (-80, 115), (80, -115), (-80, -115)];

    /// <summary>A normal number from a seeded generator (Box and Muller's way).</summary>
    internal static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
