using System;
using System.Collections.Generic;
using System.Diagnostics;
using System.Globalization;
using System.Linq;
using System.Threading;
using Lampblack.Jobs;

namespace Lampblack.Bench;

/// <summary>Times the stage of a build that writes the book, from what the stages before it have made: the first time in a process, then again and again.</summary>
internal static class BookStage
{
    private const double BytesOfMegabyte = 1e6;

    /// <summary>Writes rows of a table: the first build, then the median of the later ones.</summary>
    /// <param name="runs">How many later ones; 1 or more.</param>
    public static void Measure(int runs)
    {
        Console.Out.WriteLine("| desk | book alone, first | processor | book alone, later | processor | the whole build, later | book.html |\n|---|---|---|---|---|---|---|");
        foreach (var (name, toml) in new[] { ("400 controls", Desks.Many), ("dome desk", Desks.Dome) })
        {
            var first = Once(toml);
            var later = Enumerable.Range(0, runs).Select(_ => Once(toml)).ToList();
            Console.Out.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"| {name} | {first.BookSeconds:0.00} s | {first.BookProcessorSeconds:0.00} s | {SpreadTimes.Median(later.ConvertAll(one => one.BookSeconds)):0.00} s | {SpreadTimes.Median(later.ConvertAll(one => one.BookProcessorSeconds)):0.00} s | {SpreadTimes.Median(later.ConvertAll(one => one.AllSeconds)):0.00} s | {first.Bytes / BytesOfMegabyte:0.00} MB |"));
        }
    }

    private static (double BookSeconds, double BookProcessorSeconds, double AllSeconds, int Bytes) Once(byte[] toml)
    {
        GC.Collect();
        var stages = new StageTimes();
        var watch = Stopwatch.StartNew();
        var result = Build.Run(Desks.Source(toml), new("A4", "option", Parts: BuildParts.Book), stages, CancellationToken.None);
        var all = watch.Elapsed.TotalSeconds;
        var (wall, processor) = stages.After("writing the build book");
        return (wall, processor, all, result.Files.Single(file => file.Path == "book.html").Bytes.Length);
    }

    /// <summary>When a build says that it begins the next stage.</summary>
    private sealed class StageTimes : IProgress<string>
    {
        private readonly List<(string Stage, long Ticks, TimeSpan Used)> _begun = [];

        public void Report(string value) => _begun.Add((value, Stopwatch.GetTimestamp(), Environment.CpuUsage.TotalTime));

        /// <summary>From the beginning of a stage to that of the next.</summary>
        public (double WallSeconds, double ProcessorSeconds) After(string stage)
        {
            var index = _begun.FindIndex(one => one.Stage == stage);
            return (Stopwatch.GetElapsedTime(_begun[index].Ticks, _begun[index + 1].Ticks).TotalSeconds, (_begun[index + 1].Used - _begun[index].Used).TotalSeconds);
        }
    }
}
