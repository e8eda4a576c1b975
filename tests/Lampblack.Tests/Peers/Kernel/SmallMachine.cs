using System;
using System.Collections.Generic;
using System.Diagnostics;
using System.Globalization;
using System.IO;
using System.Linq;
using System.Runtime.InteropServices;
using System.Threading;
using Lampblack.Tests.Architecture;
using Xunit;

namespace Lampblack.Tests.Peers.Kernel;

/// <summary>A PC in QEMU that runs a distribution's kernel and one program of ours, and what that program says.</summary>
internal sealed class SmallMachine : IDisposable
{
    private readonly ScratchFolder folder = new();
    private readonly Process process;
    private readonly List<string> lines = [];

    /// <summary>Starts it. Skips, or fails where everything is asked for, if the emulator, the compiler or the kernel is missing.</summary>
    /// <param name="port">The usb/IP server's port on this machine.</param>
    public SmallMachine(int port)
    {
        Assert.SkipUnless(RuntimeInformation.ProcessArchitecture == System.Runtime.InteropServices.Architecture.X64, "the program inside is compiled for this machine's processor, the emulated one is x86-64");
        var qemu = OutsideProgram.Need("qemu-system-x86_64");
        OutsideProgram.Need("gcc");
        var (kernel, modules) = Kernel();
        var program = folder.PathOf("init");
        OutsideProgram.RunWell("gcc", ["-std=gnu11", "-O2", "-Wall", "-Wextra", "-Werror", "-static", "-o", program, Path.Combine(Repository.Root, "tests/Lampblack.Tests/Peers/Kernel/guest.c")]);
        var disk = folder.Write("disk.cpio", MemoryDisk.Of(File.ReadAllBytes(program), modules));
        string[] arguments =
        [
            "-accel", "tcg", "-m", "256", "-display", "none", "-monitor", "none", "-serial", "stdio", "-no-reboot",
            "-netdev", "user,id=n", "-device", "e1000,netdev=n,romfile=", "-kernel", kernel, "-initrd", disk,
            "-append", string.Create(CultureInfo.InvariantCulture, $"console=ttyS0 loglevel=4 net.ifnames=0 PANEL_PORT={port}"),
        ];
        var start = new ProcessStartInfo(qemu, arguments) { RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true, UseShellExecute = false };
        process = Process.Start(start) ?? throw new InvalidOperationException("the emulator did not start");
        process.OutputDataReceived += (_, line) => Keep(line.Data);
        process.ErrorDataReceived += (_, line) => Keep(line.Data);
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
    }

    /// <summary>Lines of our program from the one at which to begin, without their first word.</summary>
    public List<string> Said(int from = 0)
    {
        lock (lines)
        {
            return [.. lines.Where(line => line.StartsWith("panel ", StringComparison.Ordinal)).Select(line => line[6..]).Skip(from)];
        }
    }

    /// <summary>Waits for a line of our program; fails with all that was said where it does not come.</summary>
    /// <param name="line">The line.</param>
    /// <param name="from">Lines before this one do not count.</param>
    /// <param name="seconds">How long at most.</param>
    public void Wait(string line, int from, int seconds) => Wait(said => said == line, line, from, seconds);

    /// <summary>The same for any line of a kind.</summary>
    /// <param name="isIt">Whether it is one.</param>
    /// <param name="what">What to call it where none comes.</param>
    /// <param name="from">Lines before this one do not count.</param>
    /// <param name="seconds">How long at most.</param>
    public void Wait(Func<string, bool> isIt, string what, int from, int seconds)
    {
        for (var clock = Stopwatch.StartNew(); !Said(from).Any(isIt);)
        {
            if (clock.Elapsed.TotalSeconds > seconds || process.HasExited || Said(from).Any(said => said.StartsWith("fault", StringComparison.Ordinal)))
            {
                lock (lines)
                {
                    Assert.Fail($"'{what}' was not said. Said was:\n{string.Join('\n', lines.TakeLast(60))}");
                }
            }

            Thread.Sleep(20);
        }
    }

    /// <summary>Whether it ends by itself in that time.</summary>
    public bool Ends(int seconds) => process.WaitForExit(TimeSpan.FromSeconds(seconds));

    public void Dispose()
    {
        if (!process.HasExited)
        {
            process.Kill(entireProcessTree: true);
            process.WaitForExit();
        }

        process.Dispose();
        folder.Dispose();
    }

    /// <summary>The newest kernel in the folder that LAMPBLACK_KERNEL names, unpacked from a package ("boot" and "lib" are in it), else this machine's own.</summary>
    private static (string Kernel, string Modules) Kernel()
    {
        var root = Environment.GetEnvironmentVariable("LAMPBLACK_KERNEL") is { Length: > 0 } named ? named : "/";
        var boot = Path.Combine(root, "boot");
        var image = Directory.Exists(boot) ? Directory.EnumerateFiles(boot, "vmlinuz-*").Order(StringComparer.Ordinal).LastOrDefault() : null;
        var modules = image is null ? null : Path.Combine(root, "lib/modules", Path.GetFileName(image)["vmlinuz-".Length..]);
        return image is not null && Directory.Exists(modules) ? (image, modules) : (OutsideProgram.Need("a kernel in LAMPBLACK_KERNEL (./test.sh --long unpacks one)"), string.Empty);
    }

    private void Keep(string? line)
    {
        if (line is not null)
        {
            lock (lines)
            {
                lines.Add(line.Trim());
            }
        }
    }
}
