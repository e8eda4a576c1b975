using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using System.IO;
using System.Linq;
using System.Threading;
using Lampblack.Calibration;
using Lampblack.Geometry;
using Lampblack.Photos;
using Lampblack.Quantities;
using Lampblack.Tests.Calibration;
using Lampblack.Tests.Photos;

namespace Lampblack.Bench;

/// <summary>
/// Draws photos of 12 million dots with the tests' camera, and reads them, for bench/photo.sh. The camera is compiled in from the tests: it knows nothing of how photos are read.
/// </summary>
internal static class PhotoTimes
{
    private const string TruthFile = "truth";

    /// <summary>Writes photos of calibration sheets on A4, and beside them what side 2 does on each: a, b, tx, c, d, ty.</summary>
    public static void Draw(string folder, int count)
    {
        var plan = CalibrationPlan.Of(PaperSize.Find("A4")!)!;
        var lines = new List<string>();
        for (var number = 1; number <= count; number++)
        {
            var chance = new Chance((ulong)number * 4099);
            double Few() => chance.Between(-0.002, 0.002);
            var truth = new Affine<SheetSpace, SheetSpace>(1 + Few(), Few(), chance.Between(-1, 1), Few(), 1 + Few(), chance.Between(-1, 1));
            var camera = new DrawnCamera
            {
                WidthPx = 4000,
                HeightPx = 3000,
                Seed = number,
                TiltDegrees = chance.Between(0, 25),
                TiltTowardsDegrees = chance.Between(0, 360),
                TurnDegrees = 90 + chance.Between(-10, 10),
                K1 = chance.Between(-0.1, 0.1),
                BlurPx = chance.Between(0.7, 2),
                Noise = chance.Between(0.003, 0.02),
                ToneMapping = chance.Between(0, 0.4),
                Fill = chance.Between(0.75, 0.9),
            };
            var name = string.Create(CultureInfo.InvariantCulture, $"photo-{number}.jpg");
            File.WriteAllBytes(Path.Combine(folder, name), camera.Jpeg(new DrawnSheet(plan, number) { Back = truth, GainMm = chance.Between(0, 0.08) }));
            lines.Add(string.Create(CultureInfo.InvariantCulture, $"{name} {truth.Xx:R} {truth.Xy:R} {truth.XMm:R} {truth.Yx:R} {truth.Yy:R} {truth.YMm:R}"));
        }

        File.WriteAllLines(Path.Combine(folder, TruthFile), lines);
    }

    /// <summary>A line for each photo: name, median seconds (wall and processor), error at the worst corner in mm; then the most memory that the process had, in bytes.</summary>
    public static void Read(string folder, int runs)
    {
        ImmutableArray<CalibrationPlan> plans = [.. PaperSize.All.Select(CalibrationPlan.Of).OfType<CalibrationPlan>()];
        foreach (var words in File.ReadLines(Path.Combine(folder, TruthFile)).Select(line => line.Split(' ')))
        {
            var bytes = File.ReadAllBytes(Path.Combine(folder, words[0]));
            var (walls, processors) = (new double[runs], new double[runs]);
            SheetPhoto? read = null;
            for (var run = 0; run < runs; run++)
            {
                var (watch, used) = (Stopwatch.StartNew(), Environment.CpuUsage.TotalTime);
                read = PhotoReading.Read(words[0], bytes, plans, CancellationToken.None).Value;
                (walls[run], processors[run]) = (watch.Elapsed.TotalSeconds, (Environment.CpuUsage.TotalTime - used).TotalSeconds);
            }

            var a = words[1..].Select(word => double.Parse(word, CultureInfo.InvariantCulture)).ToArray();
            var truth = new Affine<SheetSpace, SheetSpace>(a[0], a[1], a[2], a[3], a[4], a[5]);
            var worst = read?.Fit is not { } fit ? double.NaN : new Point<SheetSpace>[] { new(0, 0), new(210, 0), new(0, 297), new(210, 297) }
                .Max(corner => fit.Map.Apply(corner).DistanceMm(truth.Apply(corner)));
            Console.Out.WriteLine(FormattableString.Invariant($"ours {words[0]} {walls.Order().ElementAt(runs / 2):F4} {processors.Order().ElementAt(runs / 2):F4} {worst:F4}"));
        }

        using var process = Process.GetCurrentProcess();
        Console.Out.WriteLine(FormattableString.Invariant($"ours memory {process.PeakWorkingSet64}"));
    }
}
