using System.Diagnostics;
using System.IO;
using Xunit;

namespace Lampblack.Shells.Tests;

/// <summary>The scripts in the shells themselves, where these are there.</summary>
public sealed class CompletionInShellsTests
{
    [Theory]
    [InlineData("lampblack bui", "build")]
    [InlineData("lampblack build x --pap", "--paper")]
    [InlineData("lampblack build x --paper Leg", "Legal")]
    public void Bash_completes_a_line_through_the_script(string line, string expected)
    {
        Assert.SkipUnless(File.Exists("/bin/bash"), "there is no bash here");
        using WorkFolder work = new();
        work.Put("script.bash", ProgramRun.Of(work.Full, "completion", "bash").Output);

        // What bash itself sets before it calls the function: the line, the place in it, and its words.
        work.Put("try.bash", $$"""
            lampblack() { dotnet "{{ProgramRun.Program}}" "$@"; }
            source script.bash
            COMP_LINE='{{line}}'
            COMP_POINT=${#COMP_LINE}
            COMP_WORDS=({{line}})
            COMP_CWORD=$((${#COMP_WORDS[@]} - 1))
            _lampblack
            printf '%s\n' "${COMPREPLY[@]}"
            """);
        ProcessStartInfo start = new("/bin/bash", ["--norc", "try.bash"]) { WorkingDirectory = work.Full, RedirectStandardOutput = true, RedirectStandardError = true };
        ProgramRun run = ProgramRun.Finish(Process.Start(start)!);
        Assert.Equal((expected, string.Empty), (run.Output.Trim(), run.Error));
    }
}
