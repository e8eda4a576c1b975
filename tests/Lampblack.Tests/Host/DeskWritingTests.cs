using System;
using System.IO;
using System.Text;
using Lampblack.Host;
using Xunit;

namespace Lampblack.Tests.Host;

public sealed class DeskWritingTests
{
    [Fact]
    public void An_edited_desk_takes_the_place_of_the_one_that_was_read()
    {
        using WorkFolder work = new();
        File.WriteAllText(work.Below("desk.toml"), "old");
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(work.Below("desk.toml"), UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead);
        }

        DeskWriting.Write(OpenedDesk.Open(work.Full), [.. Encoding.UTF8.GetBytes("new")]);
        Assert.Equal("new", File.ReadAllText(work.Below("desk.toml")));
        Assert.Equal(["desk.toml"], work.Files());
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead, File.GetUnixFileMode(work.Below("desk.toml")));
        }
    }

    [Fact]
    public void A_desk_that_somebody_changed_meanwhile_is_left_alone()
    {
        using WorkFolder work = new();
        File.WriteAllText(work.Below("desk.toml"), "old");
        OpenedDesk opened = OpenedDesk.Open(work.Full);
        File.WriteAllText(work.Below("desk.toml"), "theirs");
        Assert.Throws<FileProblemException>(() => DeskWriting.Write(opened, [1]));
        Assert.Equal("theirs", File.ReadAllText(work.Below("desk.toml")));
        Assert.Equal(["desk.toml"], work.Files());
    }

    [Fact]
    public void A_write_protected_desk_is_left_alone()
    {
        using WorkFolder work = new();
        File.WriteAllText(work.Below("desk.toml"), "old");
        OpenedDesk opened = OpenedDesk.Open(work.Full);
        File.SetAttributes(work.Below("desk.toml"), FileAttributes.ReadOnly);
        Assert.Throws<FileProblemException>(() => DeskWriting.Write(opened, [1]));
        File.SetAttributes(work.Below("desk.toml"), FileAttributes.Normal);
        Assert.Equal("old", File.ReadAllText(work.Below("desk.toml")));
    }

    [Fact]
    public void The_last_report_is_read_where_there_is_one_and_missed_without_a_word()
    {
        using WorkFolder work = new();
        Assert.Empty(OutputFolder.LastReport(work.Below("nowhere")));
        Assert.Empty(OutputFolder.LastReport(work.Full));
        File.WriteAllText(work.Below("report.json"), "{}");
        Assert.Equal("{}"u8.ToArray(), OutputFolder.LastReport(work.Full));
        File.Delete(work.Below("report.json"));
        Directory.CreateDirectory(work.Below("report.json"));
        Assert.Empty(OutputFolder.LastReport(work.Full));
    }
}
