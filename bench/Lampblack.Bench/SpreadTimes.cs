using System;
using System.Collections.Generic;
using System.Diagnostics;
using System.IO;
using System.Linq;
using System.Text;
using Lampblack.Bitmaps;

namespace Lampblack.Bench;

/// <summary>
/// Times the spread of dots for bench/spread.sh: writes the page as PBM (P4), for the peers to work on, and a line for each measurement:
/// name, radius, the medians of the runs in seconds (wall and processor), set dots afterwards, bytes allocated.
/// </summary>
internal static class SpreadTimes
{
    public static void Measure(string picturePath, int runs)
    {
        var page = DotPage.Draw();
        Write(page, picturePath);
        foreach (var radius in (int[])[12, 24])
        {
            Line("ours-one-core", radius, runs, () => page.Grow(radius, cores: 1), grown => grown.Count());
            Line("ours-all-cores", radius, runs, () => page.Grow(radius), grown => grown.Count());
        }

        // The page's words, copied to fresh memory as a spread's result is.
        var words = Enumerable.Range(0, page.HeightDots).SelectMany(row => page.Row(row).ToArray()).ToArray();
        Line("copy", 0, runs, () => words.ToArray(), _ => 0);
    }

    private static void Line<T>(string name, int radius, int runs, Func<T> work, Func<T, long> dots)
    {
        var walls = new double[runs];
        var processors = new double[runs];
        var (set, allocated) = (dots(work()), 0L);
        for (var run = 0; run < runs; run++)
        {
            var before = GC.GetTotalAllocatedBytes(precise: true);
            var (watch, used) = (Stopwatch.StartNew(), Environment.CpuUsage.TotalTime);
            work();
            (walls[run], processors[run]) = (watch.Elapsed.TotalSeconds, (Environment.CpuUsage.TotalTime - used).TotalSeconds);
            allocated = GC.GetTotalAllocatedBytes(precise: true) - before;
        }

        Console.Out.WriteLine(FormattableString.Invariant($"{name} {radius} {Median(walls):F5} {Median(processors):F5} {set} {allocated}"));
    }

    /// <summary>The middle one of some times.</summary>
    public static double Median(IReadOnlyCollection<double> times) => times.Order().ElementAt(times.Count / 2);

    private static void Write(BitRaster page, string path)
    {
        using var file = File.Create(path);
        file.Write(Encoding.ASCII.GetBytes(FormattableString.Invariant($"P4\n{page.WidthDots} {page.HeightDots}\n")));
        var line = new byte[(page.WidthDots + 7) / 8];
        for (var row = 0; row < page.HeightDots; row++)
        {
            Array.Clear(line);
            for (var column = 0; column < page.WidthDots; column++)
            {
                line[column / 8] |= (byte)(page[column, row] ? 0x80 >> (column % 8) : 0);
            }

            file.Write(line);
        }
    }
}
