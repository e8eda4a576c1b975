using System;
using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using System.IO;
using System.Linq;
using System.Text;
using System.Text.Json;
using System.Threading;
using Lampblack.Jobs;

namespace Lampblack.Bench;

/// <summary>Times the light of one panel with 400 controls and 200 given emitters: shadows of all bodies, and all that walls, floor and mask throw back. The first time in a process, then again and again. What only <c>--json</c> tells (what each legend owes to one emitter, and the light of a grid) is worked out when it is written, and timed by itself.</summary>
internal static class LightTimes
{
    private const int Columns = 10;
    private const int Rows = 20;
    private const int Threads = 16;
    private const string Lit = "lighting it";

    /// <summary>Ten columns and twenty rows of emitters, evenly behind the panel, as a file for <c>light --emitters</c>.</summary>
    public static string Emitters()
    {
        var text = new StringBuilder();
        for (var index = 0; index < Columns * Rows; index++)
        {
            text.Append(CultureInfo.InvariantCulture, $"[[emitter]]\nat = [{(index % Columns * 28) + 14}, {(index / Columns * 20) + 10}]\n");
        }

        return text.ToString();
    }

    /// <summary>Writes rows of a table: the first time, then each later one and the fastest of them.</summary>
    /// <param name="runs">How many later ones; 1 or more.</param>
    public static void Measure(int runs)
    {
        // As the program has it: parallel steps start parallel steps.
        ThreadPool.SetMinThreads(Threads, Threads);
        var desk = Encoding.UTF8.GetBytes(ManyControls.OnA3());
        ImmutableArray<byte> emitters = [.. Encoding.UTF8.GetBytes(Emitters())];
        Console.Out.WriteLine("| run | from desk file to answer, wall | processor | light alone, wall | processor | written as --json, wall | processor | legends | evenness |\n|---|---|---|---|---|---|---|---|---|");
        Row("first", Once(desk, emitters));
        var later = Enumerable.Range(0, runs).Select(_ => Once(desk, emitters)).ToList();
        later.ForEach(one => Row("later", one));
        Row("least of each", new(
            later.Min(one => one.All),
            later.Min(one => one.AllProcessor),
            later.Min(one => one.Light),
            later.Min(one => one.LightProcessor),
            later.Min(one => one.Json),
            later.Min(one => one.JsonProcessor),
            later[0].Legends,
            later[0].Evenness));
    }

    private static void Row(string run, Times times) => Console.Out.WriteLine(string.Create(
        CultureInfo.InvariantCulture,
        $"| {run} | {times.All:0.00} s | {times.AllProcessor:0.00} s | {times.Light:0.00} s | {times.LightProcessor:0.00} s | {times.Json:0.00} s | {times.JsonProcessor:0.00} s | {times.Legends} | {times.Evenness:0.0000} |"));

    private static Times Once(byte[] desk, ImmutableArray<byte> emitters)
    {
        GC.Collect();
        var began = new Beginning();
        var (start, used) = (Stopwatch.GetTimestamp(), Environment.CpuUsage.TotalTime);
        var result = Light.Run(Desks.Source(desk), new("A4", "option") { Emitters = emitters }, began, CancellationToken.None);
        var (end, allUsed) = (Stopwatch.GetTimestamp(), Environment.CpuUsage.TotalTime);
        using var stream = new MemoryStream();
        using (var writer = new Utf8JsonWriter(stream))
        {
            writer.WriteStartObject();
            result.WriteTo(writer);
            writer.WriteEndObject();
        }

        var (written, writtenUsed) = (Stopwatch.GetElapsedTime(end).TotalSeconds, (Environment.CpuUsage.TotalTime - allUsed).TotalSeconds);
        using var json = JsonDocument.Parse(stream.ToArray());
        return new(
            Stopwatch.GetElapsedTime(start, end).TotalSeconds,
            (allUsed - used).TotalSeconds,
            Stopwatch.GetElapsedTime(began.Ticks, end).TotalSeconds,
            (allUsed - began.Used).TotalSeconds,
            written,
            writtenUsed,
            json.RootElement.GetProperty("legends").GetArrayLength(),
            json.RootElement.GetProperty("panels")[0].GetProperty("evenness").GetDouble());
    }

    private readonly record struct Times(double All, double AllProcessor, double Light, double LightProcessor, double Json, double JsonProcessor, int Legends, double Evenness);

    /// <summary>When the panel's light begins; desk, artwork and findings lie before and after it.</summary>
    private sealed class Beginning : IProgress<string>
    {
        public long Ticks { get; private set; }

        public TimeSpan Used { get; private set; }

        public void Report(string value)
        {
            if (value.EndsWith(Lit, StringComparison.Ordinal))
            {
                (Ticks, Used) = (Stopwatch.GetTimestamp(), Environment.CpuUsage.TotalTime);
            }
        }
    }
}
