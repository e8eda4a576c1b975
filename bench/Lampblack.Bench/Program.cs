using System;
using System.Globalization;
using BenchmarkDotNet.Columns;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Diagnosers;
using BenchmarkDotNet.Exporters;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Loggers;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;
using Lampblack.Bench;

// "desk a4" and "desk a3" write the desk of 400 controls; "page FILE" writes a page of artwork as PNG; "spread FILE RUNS" times the spread of dots for bench/spread.sh; "book RUNS" times the writing of the book; "light RUNS" times the light of 400 controls and 200 emitters, which "light-emitters" writes; "fit RUNS" times rules and fabrication; "edit RUNS" times an edit in the workshop; "photos" and "photo-times" serve bench/photo.sh; everything else goes to BenchmarkDotNet (for instance: --filter '*Peers*').
switch (args)
{
    case ["desk", "a4"]:
        Console.Out.Write(ManyControls.OnA4());
        return 0;
    case ["desk", "a3"]:
        Console.Out.Write(ManyControls.OnA3());
        return 0;
    case ["page", var file]:
        ArtPage.Write(file);
        return 0;
    case ["spread", var picture, var runs]:
        SpreadTimes.Measure(picture, int.Parse(runs, CultureInfo.InvariantCulture));
        return 0;
    case ["book", var runs]:
        BookStage.Measure(int.Parse(runs, CultureInfo.InvariantCulture));
        return 0;
    case ["light", var runs]:
        LightTimes.Measure(int.Parse(runs, CultureInfo.InvariantCulture));
        return 0;
    case ["light-emitters"]:
        Console.Out.Write(LightTimes.Emitters());
        return 0;
    case ["fit", var runs]:
        FitStage.Measure(int.Parse(runs, CultureInfo.InvariantCulture));
        return 0;
    case ["edit", var runs]:
        EditTimes.Measure(int.Parse(runs, CultureInfo.InvariantCulture));
        return 0;
    case ["photos", var folder, var count]:
        PhotoTimes.Draw(folder, int.Parse(count, CultureInfo.InvariantCulture));
        return 0;
    case ["photo-times", var folder, var runs]:
        PhotoTimes.Read(folder, int.Parse(runs, CultureInfo.InvariantCulture));
        return 0;
    default:
        // In this process: no second project is generated, so the repository's own build settings stay in force. Five short rounds tell a
        // factor of two for certain and a tenth about; that is all that these figures are used for.
        var config = ManualConfig.CreateEmpty()
            .AddJob(Job.ShortRun.WithToolchain(InProcessEmitToolchain.Instance).WithWarmupCount(2).WithIterationCount(5))
            .AddDiagnoser(MemoryDiagnoser.Default)
            .AddColumnProvider(DefaultColumnProviders.Instance)
            .AddExporter(MarkdownExporter.GitHub)
            .AddLogger(ConsoleLogger.Default)
            .WithOptions(ConfigOptions.DisableOptimizationsValidator);
        BenchmarkSwitcher.FromAssembly(typeof(ManyControls).Assembly).Run(args.Length == 0 ? ["--filter", "*"] : args, config);
        return 0;
}
