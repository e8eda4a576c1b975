using System;
using System.Diagnostics;
using System.IO;
using Xunit;

namespace Lampblack.Shells.Tests;

/// <summary>The closing line of test.sh, with a stand-in for dotnet that ends as it is told: a script that counts wrongly would hide everything else.</summary>
public sealed class TestScriptTests
{
    // Per project: what the report says (total, passed, failed; "-" for no report) and the exit code of its run.
    [Theory]
    [InlineData("5 5 0 0", "5 5 0 0", 0, "10 passed, 0 failed")]
    [InlineData("5 4 0 0", "5 5 0 0", 0, "9 passed, 0 failed, 1 skipped")]
    [InlineData("5 3 1 2", "5 5 0 0", 1, "8 passed, 1 failed, 1 skipped")]
    [InlineData("5 5 0 0", "- - - 134", 1, "5 passed, 1 failed")]
    [InlineData("5 5 0 0", "- - - 0", 1, "5 passed, 1 failed")]
    [InlineData("5 5 0 0", "0 0 0 8", 1, "5 passed, 1 failed")]
    [InlineData("5 5 0 7", "5 5 0 0", 1, "10 passed, 1 failed")]
    [InlineData("3 0 0 0", "2 0 0 0", 1, "0 passed, 0 failed, 5 skipped")]
    public void The_last_line_adds_up_all_projects_and_a_crash_is_a_failure(string first, string second, int exit, string last)
    {
        ProgramRun run = Run(first, second, buildExit: 0);
        Assert.Equal((exit, last), (run.Exit, run.Output.TrimEnd('\n').Split('\n')[^1]));
    }

    [Fact]
    public void A_solution_that_does_not_build_is_a_failure()
    {
        ProgramRun run = Run("5 5 0 0", "5 5 0 0", buildExit: 1);
        Assert.Equal((1, "0 passed, 1 failed"), (run.Exit, run.Output.TrimEnd('\n').Split('\n')[^1]));
    }

    private static ProgramRun Run(string first, string second, int buildExit)
    {
        Assert.SkipUnless(File.Exists("/bin/bash"), "there is no bash here");
        using WorkFolder work = new();
        File.Copy(Path.Combine(LauncherTests.Root(), "test.sh"), work.Below("test.sh"));
        work.Put("tests/One/One.csproj", first);
        work.Put("tests/Two/Two.csproj", second);
        foreach (string program in new[] { "gs", "pdftoppm", "pdfinfo", "mutool", "qpdf", "rsvg-convert" })
        {
            work.Put("bin/" + program, "#!/bin/sh\n");
        }

        work.Put("bin/dotnet", $$"""
            #!/bin/bash
            if [ "$1" = build ]; then exit {{buildExit}}; fi
            while [ $# -gt 0 ]; do
                case $1 in --project) project=$2 ;; --results-directory) results=$2 ;; --report-xunit-trx-filename) name=$2 ;; esac
                shift
            done
            read -r total passed failed code < <(cat "$project"; echo)
            if [ "$total" != - ]; then
                mkdir -p "$results"
                printf '<ResultSummary outcome="x">\n    <Counters total="%s" executed="%s" passed="%s" failed="%s" error="0" />\n' "$total" "$passed" "$passed" "$failed" > "$results/$name"
            fi
            exit "$code"
            """);
        Process.Start("chmod", ["-R", "+x", work.Below("bin")]).WaitForExit();
        ProcessStartInfo start = new("/bin/bash", ["test.sh"]) { WorkingDirectory = work.Full, RedirectStandardOutput = true, RedirectStandardError = true };
        start.Environment["PATH"] = work.Below("bin") + ":" + Environment.GetEnvironmentVariable("PATH");
        return ProgramRun.Finish(Process.Start(start)!);
    }
}
