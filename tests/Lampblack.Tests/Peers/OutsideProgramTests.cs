using System;
using System.IO;
using Xunit;

namespace Lampblack.Tests.Peers;

public sealed class OutsideProgramTests
{
    [Fact]
    public void A_missing_program_skips_loudly_or_fails_where_all_is_asked_for()
    {
        // Caught here, as the recorder of exceptions lets a skip pass and this test would be skipped itself.
        Exception? found = null;
        try
        {
            OutsideProgram.Need("no-such-program-at-all");
        }
        catch (Exception exception)
        {
            found = exception;
        }

        var all = Environment.GetEnvironmentVariable("LAMPBLACK_ALL") == "1";
        Assert.Equal(all ? "FailException" : "SkipException", found?.GetType().Name);
        Assert.Contains("no-such-program-at-all is not installed", found?.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Output_errors_and_exit_code_are_told_apart()
    {
        var run = OutsideProgram.Run("sh", ["-c", "echo out Ω; echo err >&2; exit 3"]);
        Assert.Equal(new ProgramRun(3, "out Ω\n", "err\n"), run);
    }

    [Fact]
    public void A_program_that_does_not_end_is_stopped()
    {
        var found = Record.Exception(() => OutsideProgram.Run("sh", ["-c", "sleep 30"], limit: TimeSpan.FromMilliseconds(200)));
        Assert.Contains("took longer than 0.2 s", found?.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_scratch_folder_is_gone_with_its_files()
    {
        string path;
        using (var folder = new ScratchFolder())
        {
            path = folder.Write("a.txt", "a"u8);
            Assert.Equal("a", File.ReadAllText(path));
        }

        Assert.False(Directory.Exists(Path.GetDirectoryName(path)));
    }
}
