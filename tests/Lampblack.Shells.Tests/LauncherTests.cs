using System;
using System.Collections.Generic;
using System.Diagnostics;
using System.IO;
using System.Linq;
using System.Threading.Tasks;
using Xunit;

namespace Lampblack.Shells.Tests;

/// <summary>The script <c>lampblack</c> in a copy of the sources. It builds for a minute, so it is only run with everything.</summary>
public sealed class LauncherTests
{
    [Fact]
    public async Task It_builds_once_starts_at_once_afterwards_and_works_from_anywhere()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "the script for Windows is another one");
        Assert.SkipUnless(
            Environment.GetEnvironmentVariable("LAMPBLACK_ALL") == "1" || Environment.GetEnvironmentVariable("LAMPBLACK_LONG") == "1",
            "takes minutes; set LAMPBLACK_LONG=1");
        using WorkFolder work = new();
        CopySources(work.Full);
        File.CreateSymbolicLink(work.Below("short"), "lampblack");
        Directory.CreateDirectory(work.Below("elsewhere"));

        // Two first starts at once, one of them through a link: one builds, the other waits for it.
        ProgramRun[] both = await Task.WhenAll(
            Task.Run(() => Run(work.Full, work.Below("lampblack"), "--version"), TestContext.Current.CancellationToken),
            Task.Run(() => Run(work.Below("elsewhere"), work.Below("short"), "--version"), TestContext.Current.CancellationToken));
        Assert.All(both, run => Assert.Equal((0, ProgramRun.Of(work.Full, "--version").Output), (run.Exit, run.Output)));
        Assert.Single(both, run => run.Error.Contains("Building Lampblack once", StringComparison.Ordinal));
        string[] built = Directory.GetDirectories(work.Below(".build"), "app-*");
        Assert.Single(built);
        Assert.Equal(["app-", "build.log", "current"], Directory.GetFileSystemEntries(work.Below(".build")).Select(Short).Order(StringComparer.Ordinal));

        // The next start asks no build tool: a stand-in for dotnet writes down what it is asked for, and that is the built program alone.
        work.Put("bin/dotnet", $"#!/bin/sh\nprintf '%s\\n' \"$1\" >> '{work.Below("asked")}'\nPATH='{Environment.GetEnvironmentVariable("PATH")}' exec dotnet \"$@\"\n");
        Process.Start("chmod", ["+x", work.Below("bin/dotnet")]).WaitForExit();
        ProgramRun again = Run(work.Below("elsewhere"), work.Below("lampblack"), "check", "nowhere");
        Assert.Equal(3, again.Exit);
        Assert.Equal([Path.Combine(built[0], "lampblack-cli.dll")], File.ReadAllLines(work.Below("asked")));

        // A change of the sources is noticed, and one that cannot be built is told with the build's own words; the sources stay untouched.
        string broken = work.Below("src/Lampblack.Cli/ExitCodes.cs");
        File.AppendAllText(broken, "this is no C#");
        ProgramRun failed = Run(work.Full, work.Below("lampblack"), "--version");
        Assert.Equal(3, failed.Exit);
        Assert.Contains("ExitCodes.cs", failed.Error, StringComparison.Ordinal);
        Assert.Empty(Directory.GetDirectories(work.Below(".build"), "work.*"));
        Assert.False(Directory.Exists(work.Below(".build/lock")));
        Assert.False(Directory.Exists(work.Below("src/Lampblack.Cli/obj")));
        Assert.Equal(
            File.ReadAllBytes(Path.Combine(Root(), "src/Lampblack.Cli/packages.lock.json")),
            File.ReadAllBytes(work.Below("src/Lampblack.Cli/packages.lock.json")));
    }

    private static string Short(string path) =>
        Path.GetFileName(path).StartsWith("app-", StringComparison.Ordinal) ? "app-" : Path.GetFileName(path);

    private static ProgramRun Run(string folder, string program, params string[] arguments)
    {
        ProcessStartInfo start = new(program, arguments) { WorkingDirectory = folder, RedirectStandardOutput = true, RedirectStandardError = true };
        start.Environment["LC_ALL"] = "de_DE.UTF-8";
        start.Environment["PATH"] = $"{Path.Combine(Path.GetDirectoryName(Path.GetFullPath(program, folder))!, "bin")}:{Environment.GetEnvironmentVariable("PATH")}";
        using Process process = Process.Start(start)!;
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        Task<string> error = process.StandardError.ReadToEndAsync();
        if (!process.WaitForExit(TimeSpan.FromMinutes(12)))
        {
            process.Kill(entireProcessTree: true);
            throw new TimeoutException("The script did not end.");
        }

        return new(process.ExitCode, output.GetAwaiter().GetResult(), error.GetAwaiter().GetResult());
    }

    internal static string Root()
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Lampblack.slnx")))
        {
            folder = folder.Parent;
        }

        return folder?.FullName ?? throw new DirectoryNotFoundException("Lampblack.slnx");
    }

    private static void CopySources(string target)
    {
        string root = Root();
        HashSet<string> skipped = new(StringComparer.Ordinal) { "bin", "obj", ".git", ".build", "tests", "bench", "docs" };
        Copy(root, target);

        void Copy(string from, string to)
        {
            Directory.CreateDirectory(to);
            foreach (string file in Directory.GetFiles(from))
            {
                File.Copy(file, Path.Combine(to, Path.GetFileName(file)));
            }

            foreach (string folder in Directory.GetDirectories(from).Where(folder => !skipped.Contains(Path.GetFileName(folder))))
            {
                Copy(folder, Path.Combine(to, Path.GetFileName(folder)));
            }
        }
    }
}
