using System;
using System.Collections.Generic;
using System.Diagnostics;
using System.IO;
using System.Linq;
using Lampblack.Firmware;
using Lampblack.Tests.Architecture;
using Lampblack.Wiring;
using Xunit;

namespace Lampblack.Tests.Peers.Avr;

/// <summary>
/// A panel without a chip: plan and script in, frames with their times out. The chip is simulated by libsimavr in a program of our own
/// that is compiled here, or by avr8js. Both are wired from the plan alone, and run the image that would be flashed.
/// </summary>
internal static class PanelBench
{
    private static readonly Lazy<string> Harness = new(Compile);

    /// <summary>The program on libsimavr that reads scripts.</summary>
    public static string Simulator => Harness.Value;

    /// <summary>Runs a script on libsimavr.</summary>
    public static BenchLog Run(ControllerPlan plan, string script, string? engine = null) => BenchLog.Read(Output(Harness.Value, [], plan, script, engine));

    /// <summary>Runs a script on avr8js.</summary>
    public static BenchLog RunSecond(ControllerPlan plan, string script) =>
        BenchLog.Read(Output(OutsideProgram.Need("node"), [Path.Combine(Repository.Root, "firmware/simulator/panel.mjs")], plan, script, null));

    /// <summary>Runs an image as it is, without a plan.</summary>
    public static BenchLog RunImage(string chip, string hex, string script)
    {
        using var folder = new ScratchFolder();
        return BenchLog.Read(Run(Harness.Value, [], $"chip {chip} {folder.Write("image.hex", System.Text.Encoding.ASCII.GetBytes(hex))}\n{script}"));
    }

    /// <summary>The image for a plan, with the engine in the program or another.</summary>
    public static string ImageOf(ControllerPlan plan, string? engine = null)
    {
        var table = PanelTable.Of(plan);
        Assert.False(table.HasStop, string.Join("\n", table.Findings.Select(finding => finding.Message)));
        var read = engine is null ? EngineImage.BuiltIn(plan.Chip) : EngineImage.Read(engine).Value!;
        var image = PanelImage.Join(read, table.Value);
        Assert.Empty(image.Findings);
        return image.Value.File.Write();
    }

    /// <summary>Builds the engine otherwise, for checks of the checks.</summary>
    public static string Variant(string chip, params string[] options)
    {
        OutsideProgram.Need("avr-gcc");
        using var folder = new ScratchFolder();
        OutsideProgram.RunWell("bash", [Path.Combine(Repository.Root, "firmware/build.sh"), folder.FullPath, chip, .. options]);
        return File.ReadAllText(folder.PathOf($"{chip}.hex"));
    }

    /// <summary>The lines that give a simulator a plan's chip and wires; the image lies in the folder.</summary>
    public static string Wired(ScratchFolder folder, ControllerPlan plan, string? engine)
    {
        var image = folder.Write("image.hex", System.Text.Encoding.ASCII.GetBytes(ImageOf(plan, engine)));
        return $"chip {plan.Chip} {image}\n{SimulatorWires.Of(plan)}";
    }

    private static string Output(string program, string[] arguments, ControllerPlan plan, string script, string? engine)
    {
        using var folder = new ScratchFolder();
        return Run(program, arguments, Wired(folder, plan, engine) + script);
    }

    private static string Run(string program, IEnumerable<string> arguments, string input)
    {
        var start = new ProcessStartInfo(program, arguments) { RedirectStandardInput = true, RedirectStandardOutput = true, UseShellExecute = false };
        using var process = Process.Start(start) ?? throw new InvalidOperationException($"{program} did not start");
        var output = process.StandardOutput.ReadToEndAsync();
        process.StandardInput.Write(input);
        process.StandardInput.Close();
        if (!process.WaitForExit(TimeSpan.FromSeconds(240)))
        {
            process.Kill(entireProcessTree: true);
            Assert.Fail($"{program} took longer than 240 s");
        }

        return output.Result;
    }

    private static string Compile()
    {
        OutsideProgram.Need("gcc");
        var source = Path.Combine(Repository.Root, "tests/Lampblack.Tests/Peers/Avr");
        var program = Path.Combine(Directory.CreateTempSubdirectory("lampblack-bench-").FullName, "panel");
        AppDomain.CurrentDomain.ProcessExit += (_, _) => Directory.Delete(Path.GetDirectoryName(program)!, recursive: true);
        if (!File.Exists("/usr/include/simavr/sim_avr.h"))
        {
            OutsideProgram.Need("libsimavr-dev (its headers)");
        }

        OutsideProgram.RunWell(
            "gcc",
            ["-std=gnu11", "-O2", "-Wall", "-Wextra", "-Werror", "-I/usr/include/simavr", "-o", program, .. new[] { "panel.c", "wires.c", "words.c", "usb.c" }.Select(file => Path.Combine(source, file)), "-lsimavr"]);
        return program;
    }
}
