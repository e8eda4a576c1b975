using System;
using System.Collections.Generic;
using System.Diagnostics;
using System.IO;
using System.Linq;
using System.Text;
using System.Threading.Tasks;
using Xunit;

namespace Lampblack.Tests.Peers;

/// <summary>What a program that is not ours said.</summary>
/// <param name="ExitCode">Its exit code.</param>
/// <param name="Output">Its standard output, read as UTF-8.</param>
/// <param name="Errors">Its standard error, read as UTF-8.</param>
public sealed record ProgramRun(int ExitCode, string Output, string Errors)
{
    /// <summary>Both, for a message.</summary>
    public string Everything => $"exit {ExitCode}\n{Output}{Errors}";
}

/// <summary>
/// Runs programs that are not ours, which the tests compare our files with. Where one is missing the test is skipped and says so;
/// with <c>LAMPBLACK_ALL=1</c> in the environment it fails instead, so that a full run can't pass by leaving checks out.
/// </summary>
public static class OutsideProgram
{
    private static readonly TimeSpan UsualLimit = TimeSpan.FromSeconds(60);

    /// <summary>Skips (or, with LAMPBLACK_ALL=1, fails) the test where a program is not on the search path; else gives its full path.</summary>
    public static string Need(string program)
    {
        if (Find(program) is { } path)
        {
            return path;
        }

        var message = $"{program} is not installed, so this check against it was not made";
        if (Environment.GetEnvironmentVariable("LAMPBLACK_ALL") == "1")
        {
            Assert.Fail(message);
        }

        Assert.Skip(message);
        return program;
    }

    /// <summary>Runs a program and waits for its end; fails the test where it takes longer than the limit.</summary>
    /// <param name="program">Its name, without path.</param>
    /// <param name="arguments">Its arguments, passed on as they are.</param>
    /// <param name="folder">The folder it runs in; where null, that of the tests.</param>
    /// <param name="limit">The longest time; where null, a minute.</param>
    public static ProgramRun Run(string program, IEnumerable<string> arguments, string? folder = null, TimeSpan? limit = null)
    {
        var start = new ProcessStartInfo(Need(program), arguments)
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            StandardOutputEncoding = Encoding.UTF8,
            StandardErrorEncoding = Encoding.UTF8,
            UseShellExecute = false,
            WorkingDirectory = folder ?? string.Empty,
        };
        start.Environment["LC_ALL"] = "C.UTF-8";
        using var process = Process.Start(start) ?? throw new InvalidOperationException($"{program} did not start");
        process.StandardInput.Close();
        var output = process.StandardOutput.ReadToEndAsync();
        var errors = process.StandardError.ReadToEndAsync();
        var longest = limit ?? UsualLimit;
        if (!process.WaitForExit(longest))
        {
            process.Kill(entireProcessTree: true);
            Assert.Fail(FormattableString.Invariant($"{program} took longer than {longest.TotalSeconds} s"));
        }

        Task.WaitAll(output, errors);
        return new(process.ExitCode, output.Result, errors.Result);
    }

    /// <summary>As <see cref="Run"/>, and fails the test with all that the program said where its exit code is not 0.</summary>
    public static ProgramRun RunWell(string program, IEnumerable<string> arguments, string? folder = null, TimeSpan? limit = null)
    {
        var run = Run(program, arguments, folder, limit);
        Assert.True(run.ExitCode == 0, $"{program}: {run.Everything}");
        return run;
    }

    private static string? Find(string program)
    {
        string[] endings = OperatingSystem.IsWindows() ? [".exe", ".cmd"] : [string.Empty];
        return (Environment.GetEnvironmentVariable("PATH") ?? string.Empty)
            .Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries)
            .SelectMany(folder => endings.Select(ending => Path.Combine(folder, program + ending)))
            .FirstOrDefault(File.Exists);
    }
}

/// <summary>A folder for one test's files, gone with all in it when disposed.</summary>
public sealed class ScratchFolder : IDisposable
{
    /// <summary>Where it is.</summary>
    public string FullPath { get; } = Directory.CreateTempSubdirectory("lampblack-test-").FullName;

    /// <summary>Writes a file into it and gives its full path.</summary>
    public string Write(string name, ReadOnlySpan<byte> bytes)
    {
        var path = PathOf(name);
        File.WriteAllBytes(path, bytes);
        return path;
    }

    /// <summary>The full path of a name in it.</summary>
    public string PathOf(string name) => Path.Combine(FullPath, name);

    public void Dispose() => Directory.Delete(FullPath, recursive: true);
}
