using System;
using System.IO;
using Lampblack.Host;
using Xunit;

namespace Lampblack.Tests.Host;

public sealed class CrashReportTests
{
    [Fact]
    public void A_report_tells_where_the_fault_is_but_nothing_of_the_desk()
    {
        using WorkFolder work = new();
        string path = CrashReport.Write(work.Below("own"), "9.9.9", "build", Fault(), new DateTimeOffset(2026, 1, 2, 3, 4, 5, TimeSpan.Zero))!;
        string text = File.ReadAllText(path);
        Assert.StartsWith(work.Below("own"), path, StringComparison.Ordinal);
        Assert.Contains("crash-20260102-030405", path, StringComparison.Ordinal);
        Assert.Contains("9.9.9", text, StringComparison.Ordinal);
        Assert.Contains("InvalidOperationException", text, StringComparison.Ordinal);
        Assert.Contains(nameof(Fault), text, StringComparison.Ordinal);
        Assert.DoesNotContain("SHUTTER", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_users_folder_that_cannot_be_made_does_not_hide_the_fault()
    {
        using WorkFolder work = new();
        work.Put("own", "a file, not a folder");
        string path = CrashReport.Write(work.Below("own"), "1", "build", Fault(), DateTimeOffset.UnixEpoch)!;
        Assert.Equal(Path.GetFullPath(Path.GetTempPath()).TrimEnd('/'), Path.GetDirectoryName(path));
        File.Delete(path);
    }

    [Fact]
    public void The_users_folder_is_where_LAMPBLACK_HOME_says_else_in_the_platforms_place()
    {
        Assert.Equal(Path.GetFullPath("here"), UserFolder.Locate(_ => "here"));
        string usual = UserFolder.Locate(_ => null);
        Assert.Equal("lampblack", Path.GetFileName(usual));
        Assert.True(Path.IsPathFullyQualified(usual));
    }

    private static Exception Fault()
    {
        try
        {
            try
            {
                throw new FormatException("legend 'SHUTTER'");
            }
            catch (FormatException inner)
            {
                throw new InvalidOperationException("in panel 'SHUTTER'", inner);
            }
        }
        catch (InvalidOperationException fault)
        {
            return fault;
        }
    }
}
