using System;
using System.IO;
using System.Text;
using Lampblack.Host;
using Lampblack.Jobs;
using Xunit;

namespace Lampblack.Tests.Host;

public sealed class DeskFolderTests
{
    [Theory]
    [InlineData("logo.svg")]
    [InlineData("art/logo.svg")]
    [InlineData("./art/../art/logo.svg")]
    [InlineData("art/schön gemacht.svg")]
    public void A_file_in_the_desks_folder_is_read(string name)
    {
        using WorkFolder work = new();
        work.Put("desk/" + name.Replace("./art/../", "", StringComparison.Ordinal), "hello");
        FileReading reading = new DeskFolder(work.Below("desk")).Read(name, 100);
        Assert.Null(reading.Problem);
        Assert.Equal("hello", Encoding.UTF8.GetString(reading.Bytes.AsSpan()));
    }

    [Theory]
    [InlineData("", "empty")]
    [InlineData(".", "folder itself")]
    [InlineData("../secret.txt", "outside")]
    [InlineData("art/../../secret.txt", "outside")]
    [InlineData("/etc/hostname", "absolute")]
    [InlineData("C:/secret.txt", "drive")]
    [InlineData("C:secret.txt", "drive")]
    [InlineData("logo.svg:stream", "drive")]
    [InlineData("//server/share/secret.txt", "network")]
    [InlineData("\\\\server\\share\\secret.txt", "network")]
    [InlineData("..\\secret.txt", "'\\'")]
    [InlineData("NUL", "device")]
    [InlineData("art/com1.svg", "device")]
    [InlineData("lpt\u00B9", "device")]
    [InlineData("con .svg", "device")]
    [InlineData("logo.svg.", "dot or a space")]
    [InlineData("logo.svg ", "dot or a space")]
    [InlineData("art//logo.svg", "empty part")]
    [InlineData("logo\u0000.svg", "character")]
    [InlineData("lo*o.svg", "character")]
    [InlineData("missing.svg", "not there")]
    [InlineData("missing/logo.svg", "not there")]
    [InlineData("art", "folder")]
    public void What_is_not_a_plain_file_in_the_folder_is_refused_with_the_reason(string name, string reason)
    {
        using WorkFolder work = new();
        work.Put("secret.txt", "secret");
        work.Put("desk/art/logo.svg", "hello");
        FileReading reading = new DeskFolder(work.Below("desk")).Read(name, 100);
        Assert.Contains(reason, reading.Problem, StringComparison.Ordinal);
        Assert.Empty(reading.Bytes);
    }

    [Fact]
    public void A_part_of_a_name_longer_than_any_file_system_allows_is_refused()
    {
        using WorkFolder work = new();
        DeskFolder folder = new(work.Full);
        Assert.Contains("not there", folder.Read(new string('ü', 127), 100).Problem, StringComparison.Ordinal);
        Assert.Contains("255 bytes", folder.Read(new string('ü', 128), 100).Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void A_path_longer_than_260_characters_is_read()
    {
        using WorkFolder work = new();
        string name = $"{new string('a', 120)}/{new string('b', 120)}/{new string('c', 120)}.svg";
        work.Put(name, "far down");
        Assert.Null(new DeskFolder(work.Full).Read(name, 100).Problem);
    }

    [Fact]
    public void Links_are_followed_inside_the_folder_but_not_out_of_it()
    {
        using WorkFolder work = new();
        work.Put("secret.txt", "secret");
        work.Put("desk-2/secret.txt", "secret");
        work.Put("desk/art/logo.svg", "hello");
        File.CreateSymbolicLink(work.Below("desk/inside.svg"), "art/logo.svg");
        File.CreateSymbolicLink(work.Below("desk/outside.svg"), work.Below("secret.txt"));
        File.CreateSymbolicLink(work.Below("desk/relative.svg"), "../secret.txt");
        Directory.CreateSymbolicLink(work.Below("desk/beside"), work.Below("desk-2"));
        File.CreateSymbolicLink(work.Below("desk/twice.svg"), "outside.svg");
        File.CreateSymbolicLink(work.Below("desk/ring.svg"), "ring.svg");
        DeskFolder folder = new(work.Below("desk"));
        Assert.Null(folder.Read("inside.svg", 100).Problem);
        foreach (string name in new[] { "outside.svg", "relative.svg", "beside/secret.txt", "twice.svg" })
        {
            Assert.Contains("out of the desk's folder", folder.Read(name, 100).Problem, StringComparison.Ordinal);
        }

        Assert.Contains("ring", folder.Read("ring.svg", 100).Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void A_desks_folder_that_is_reached_through_a_link_works()
    {
        using WorkFolder work = new();
        work.Put("desk/logo.svg", "hello");
        Directory.CreateSymbolicLink(work.Below("shortcut"), work.Below("desk"));
        Assert.Null(new DeskFolder(work.Below("shortcut")).Read("logo.svg", 100).Problem);
    }

    [Fact]
    public void A_file_over_the_limit_is_refused_and_one_at_the_limit_is_read()
    {
        using WorkFolder work = new();
        work.Put("logo.svg", "12345");
        DeskFolder folder = new(work.Full);
        Assert.Equal(5, folder.Read("logo.svg", 5).Bytes.Length);
        Assert.Contains("larger", folder.Read("logo.svg", 4).Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_gives_more_than_it_said_is_given_up_at_the_limit()
    {
        const string SaysNothing = "/proc/self/status";
        Assert.SkipUnless(File.Exists(SaysNothing) && new FileInfo(SaysNothing).Length == 0, $"this system has no {SaysNothing} that says it is empty");
        Assert.Contains("larger", BoundedReading.Read(SaysNothing, 10).Problem, StringComparison.Ordinal);
        Assert.NotEmpty(BoundedReading.Read(SaysNothing, 1_000_000).Bytes);
    }

    [Fact]
    public void A_device_is_not_opened_even_where_it_might_be_read()
    {
        Assert.SkipUnless(File.Exists("/dev/zero"), "this system has no /dev/zero");
        using WorkFolder work = new();
        Directory.CreateDirectory(work.Full);
        File.CreateSymbolicLink(work.Below("zero"), "/dev/zero");
        foreach (string path in new[] { "/dev/zero", work.Below("zero") })
        {
            Assert.Contains("a pipe or a device", BoundedReading.Read(path, 1_000_000).Problem, StringComparison.Ordinal);
        }
    }
}
