using System;
using System.IO;
using Lampblack.Host;
using Lampblack.Jobs;
using Xunit;

namespace Lampblack.Tests.Host;

public sealed class OpenedDeskTests
{
    [Fact]
    public void A_folder_stands_for_the_desk_file_in_it()
    {
        using WorkFolder work = new();
        work.Put("yard/desk.toml", "lampblack = 1\n");
        OpenedDesk opened = OpenedDesk.Open(work.Below("yard"));
        Assert.Equal("desk.toml", opened.Source.Name);
        Assert.Equal(14, opened.Source.Bytes.Length);
        Assert.Equal(work.Below("yard/out"), opened.UsualOutput);
    }

    [Fact]
    public void A_file_may_have_any_name_and_its_neighbours_can_be_read()
    {
        using WorkFolder work = new();
        work.Put("kiln.TOML", "x = 1");
        work.Put("logo.svg", "hello");
        OpenedDesk opened = OpenedDesk.Open(work.Below("kiln.TOML"));
        Assert.Equal("kiln.TOML", opened.Source.Name);
        Assert.Null(opened.Source.Files.Read("logo.svg", 100).Problem);
    }

    [Fact]
    public void A_picture_in_a_desks_folder_does_not_share_the_desks_output()
    {
        using WorkFolder work = new();
        work.Put("yard/desk.toml", "lampblack = 1\n");
        work.Put("yard/face.svg", "<svg/>");
        work.Put("alone/face.svg", "<svg/>");
        Assert.Equal(work.Below("yard/out-face"), OpenedArt.Open(work.Below("yard/face.svg"), 100).AsDesk([]).UsualOutput);
        work.Put("kiln/kiln.toml", "lampblack = 1\n");
        work.Put("kiln/face.png", "x");
        Assert.Equal(work.Below("kiln/out-face"), OpenedArt.Open(work.Below("kiln/face.png"), 100).AsDesk([]).UsualOutput);
        Assert.Equal(work.Below("alone/out"), OpenedArt.Open(work.Below("alone/face.svg"), 100).AsDesk([]).UsualOutput);
    }

    [Theory]
    [InlineData("", "empty")]
    [InlineData("nowhere", "no file or folder")]
    [InlineData("bare", "holds no desk.toml")]
    [InlineData("notes.txt", "not a .toml file")]
    [InlineData("huge.toml", "larger than the 2 MB")]
    public void What_cannot_be_a_desk_is_told_in_a_sentence(string name, string words)
    {
        using WorkFolder work = new();
        work.Put("bare/readme.txt", "x");
        work.Put("notes.txt", "x");
        File.WriteAllBytes(work.Below("huge.toml"), new byte[DeskSource.LimitBytes + 1]);
        FileProblemException problem = Assert.Throws<FileProblemException>(() => OpenedDesk.Open(name.Length == 0 ? name : work.Below(name)));
        Assert.Contains(words, problem.Message, StringComparison.Ordinal);
    }
}
