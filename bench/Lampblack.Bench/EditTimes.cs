using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using System.Linq;
using Lampblack.Edits;
using Lampblack.Jobs;

namespace Lampblack.Bench;

/// <summary>Times what the program does between a control that is let go of and its exact picture: the edit in the text, the desk laid out anew, the windows drawn that changed.</summary>
internal static class EditTimes
{
    /// <summary>Writes rows of a table: the first edit, then the median of the later ones.</summary>
    /// <param name="runs">How many later ones; 1 or more.</param>
    public static void Measure(int runs)
    {
        var source = Desks.Source(System.Text.Encoding.UTF8.GetBytes(ManyControls.OnA3()));
        var request = new BuildRequest("A3", "asked", Parts: BuildParts.None);
        var view = DeskView.Of(source, request);
        var times = new List<double[]>();
        var allocated = GC.GetTotalAllocatedBytes();
        Console.Out.WriteLine("| when | edit | view | windows | all | number of windows | dots |\n|---|---|---|---|---|---|---|");
        for (var run = 0; run <= runs; run++)
        {
            var item = view.Panels[0].Items[(run * 37) % view.Panels[0].Items.Length].TableAddress;
            var start = Stopwatch.GetTimestamp();
            var result = Edit.Apply(source, new MoveItems([new(item, run % 2 == 0 ? 0.5 : -0.5, 0)]));
            var edited = Stopwatch.GetTimestamp();
            source = source with { Bytes = result.Bytes };
            var now = DeskView.Of(source, request, null, view);
            var viewed = Stopwatch.GetTimestamp();
            var windows = now.DrawChanges(now.Panels[0].Id, view)!.Value;
            var drawn = Stopwatch.GetTimestamp();
            view = now;
            double[] row = [Ms(start, edited), Ms(edited, viewed), Ms(viewed, drawn), Ms(start, drawn), windows.Length, windows.Sum(window => window.WidthPx * window.HeightPx)];
            if (run == 0)
            {
                Write("first", row);
            }
            else
            {
                times.Add(row);
            }
        }

        Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"\n{(GC.GetTotalAllocatedBytes() - allocated) / 1e6 / (runs + 1):0.0} MB for each edit; collections {GC.CollectionCount(0)}, {GC.CollectionCount(1)}, {GC.CollectionCount(2)}; paused {GC.GetTotalPauseDuration().TotalMilliseconds / (runs + 1):0} ms for each edit\n"));
        Write(string.Create(CultureInfo.InvariantCulture, $"median of {runs}"), [.. Enumerable.Range(0, 6).Select(column => SpreadTimes.Median(times.ConvertAll(row => row[column])))]);
    }

    private static void Write(string when, double[] row) => Console.Out.WriteLine(string.Create(
        CultureInfo.InvariantCulture, $"| {when} | {row[0]:0} ms | {row[1]:0} ms | {row[2]:0} ms | {row[3]:0} ms | {row[4]:0} | {row[5]:0} |"));

    private static double Ms(long start, long end) => Stopwatch.GetElapsedTime(start, end).TotalMilliseconds;
}
