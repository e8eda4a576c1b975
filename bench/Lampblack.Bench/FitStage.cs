using System;
using System.Collections.Generic;
using System.Diagnostics;
using System.Globalization;
using System.Linq;
using System.Security.Cryptography;
using Lampblack.Checks;
using Lampblack.Desks;
using Lampblack.Jobs;
using Lampblack.Layout;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Bench;

/// <summary>Times what comes between a desk that is laid out and its fit: all findings of the rules, all files of fabrication in memory. The first time in a process, then again and again, each time laid out anew.</summary>
internal static class FitStage
{
    private const double BytesOfMegabyte = 1e6;

    /// <summary>Writes rows of a table: the first time, then the median of the later ones.</summary>
    /// <param name="runs">How many later ones; 1 or more.</param>
    public static void Measure(int runs)
    {
        Console.Out.WriteLine("| desk | when | rules, wall | processor | fabrication, wall | processor | both, wall | processor | findings | files | bytes | their sum |\n|---|---|---|---|---|---|---|---|---|---|---|---|");
        foreach (var (name, toml) in new[] { ("400 controls", Desks.Many), ("dome desk", Desks.Dome) })
        {
            Write(name, "first", [Once(toml)]);
            Write(name, string.Create(CultureInfo.InvariantCulture, $"median of {runs}"), [.. Enumerable.Range(0, runs).Select(_ => Once(toml))]);
        }
    }

    private static void Write(string name, string when, List<Fit> fits)
    {
        double Median(Func<Fit, double> figure) => SpreadTimes.Median(fits.ConvertAll(fit => figure(fit)));
        Console.Out.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"| {name} | {when} | {Median(fit => fit.Rules.Wall):0.000} s | {Median(fit => fit.Rules.Processor):0.000} s | {Median(fit => fit.Files.Wall):0.000} s | {Median(fit => fit.Files.Processor):0.000} s | {Median(fit => fit.Rules.Wall + fit.Files.Wall):0.000} s | {Median(fit => fit.Rules.Processor + fit.Files.Processor):0.000} s | {fits[0].FindingCount} | {fits[0].FileCount} | {fits[0].Bytes / BytesOfMegabyte:0.000} MB | {fits[0].Sum} |"));
    }

    private static Fit Once(byte[] toml)
    {
        var laid = DeskLayout.Place(DeskReader.Read("desk.toml", toml).Value, FontShelf.Bundled).Value;
        var printer = PrinterProperties.Unmeasured;
        GC.Collect();
        var start = Now();
        var findings = PanelChecks.Check(laid);
        var ruled = Now();
        var files = BenchFiles.Of(laid, PaperSize.Find("A4")!, printer.Builds[0].Edge, printer);
        var made = Now();

        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var file in files.Value)
        {
            hash.AppendData(file.Bytes.AsSpan());
        }

        var sum = Convert.ToHexString(hash.GetHashAndReset().AsSpan(0, 4));
        return new(Between(start, ruled), Between(ruled, made), findings.Length + files.Findings.Length, files.Value.Length, files.Value.Sum(file => file.Bytes.Length), sum);
    }

    private static (long Ticks, TimeSpan Used) Now() => (Stopwatch.GetTimestamp(), Environment.CpuUsage.TotalTime);

    private static (double Wall, double Processor) Between((long Ticks, TimeSpan Used) start, (long Ticks, TimeSpan Used) end) =>
        (Stopwatch.GetElapsedTime(start.Ticks, end.Ticks).TotalSeconds, (end.Used - start.Used).TotalSeconds);

    /// <summary>One fit, in seconds; the sum is the beginning of the SHA-256 of all files.</summary>
    private sealed record Fit((double Wall, double Processor) Rules, (double Wall, double Processor) Files, int FindingCount, int FileCount, int Bytes, string Sum);
}
