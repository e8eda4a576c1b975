using System;
using System.Collections.Generic;
using System.Diagnostics;
using System.IO;
using System.Threading.Tasks;

namespace Lampblack.Shells.Tests;

/// <summary>The program as a process, in a folder, with its output.</summary>
internal sealed record ProgramRun(int Exit, string Output, string Error)
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(120);

    /// <summary>The built program beside these tests; or another build of it, such as one compiled ahead, that is named to be measured.</summary>
    internal static string Program { get; } = Environment.GetEnvironmentVariable("LAMPBLACK_PROGRAM") is { Length: > 0 } named ? Path.GetFullPath(named) : Path.Combine(AppContext.BaseDirectory, "lampblack-cli.dll");

    internal static ProgramRun Of(string folder, params string[] arguments) => Finish(Start(folder, new Dictionary<string, string>(), arguments));

    internal static ProgramRun With(string folder, IReadOnlyDictionary<string, string> variables, params string[] arguments) =>
        Finish(Start(folder, variables, arguments));

    internal static Process Start(string folder, IReadOnlyDictionary<string, string> variables, params string[] arguments)
    {
        ProcessStartInfo start = new("dotnet") { WorkingDirectory = folder, RedirectStandardOutput = true, RedirectStandardError = true };
        start.ArgumentList.Add(Program);
        foreach (string argument in arguments)
        {
            start.ArgumentList.Add(argument);
        }

        // Nothing of the machine's own settings decides a test.
        start.Environment["LAMPBLACK_HOME"] = Path.Combine(folder, "own folder");
        start.Environment["LC_ALL"] = "de_DE.UTF-8";
        foreach ((string name, string value) in variables)
        {
            start.Environment[name] = value;
        }

        return Process.Start(start)!;
    }

    internal static ProgramRun Finish(Process process)
    {
        using (process)
        {
            Task<string> output = process.StandardOutput.ReadToEndAsync();
            Task<string> error = process.StandardError.ReadToEndAsync();
            if (!process.WaitForExit(Patience))
            {
                process.Kill(entireProcessTree: true);
                throw new TimeoutException($"The program did not end within {Patience.TotalSeconds} s.");
            }

            return new(process.ExitCode, output.GetAwaiter().GetResult(), error.GetAwaiter().GetResult());
        }
    }
}
