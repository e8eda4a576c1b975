using System;
using System.IO;
using Xunit;

namespace Lampblack.Shells.Tests;

/// <summary>A desk that names a font it cannot have, seen from outside: a finding at its place, exit code 1, and not a file more than before.</summary>
public sealed class BadFontTests
{
    /// <summary>The most bytes of a font, as docs/desk-file.md says.</summary>
    private const int MostBytes = 20_000_000;

    // Behind every name that leads out of the folder lies a font that could be read, so that nothing but the name is refused.
    [Theory]
    [InlineData("{work}/outside.ttf", "absolute")]
    [InlineData("C:/x.ttf", "drive")]
    [InlineData("C:x.ttf", "drive")]
    [InlineData(@"C:\x.ttf", @"'\'")]
    [InlineData(@"\\server\x.ttf", "network")]
    [InlineData("//server/x.ttf", "network")]
    [InlineData(@"\\?\C:\x.ttf", "network")]
    [InlineData("file:///x.ttf", "drive")]
    [InlineData("../outside.ttf", "outside")]
    [InlineData("fonts/../../outside.ttf", "outside")]
    [InlineData(@"..\outside.ttf", @"'\'")]
    [InlineData("con", "device")]
    [InlineData("nul.ttf", "device")]
    [InlineData("fonts/AUX.ttf", "device")]
    [InlineData("lpt1 .ttf", "device")]
    [InlineData("fonts", "is a folder")]
    [InlineData("fonts/", "'/'")]
    [InlineData(".", "folder itself")]
    [InlineData("missing.ttf", "is not there")]
    [InlineData("fonts/schön 😀.ttf", "is not there")]
    [InlineData("huge.ttf", "larger than the 20 MB")]
    public void A_font_that_the_desk_cannot_have_is_a_finding_where_it_is_named(string file, string reason) => Check("font-file", file, reason);

    [Theory]
    [InlineData("letter.ttf", "begin like")]
    [InlineData("empty.ttf", "too short")]
    [InlineData("zeros.ttf", "begin like")]
    public void What_is_no_font_at_all_is_a_finding_where_it_is_named(string file, string reason) => Check("font-unreadable", file, reason);

    [Theory]
    [InlineData("out.ttf", "link")]
    [InlineData("far/outside.ttf", "link")]
    [InlineData("ring.ttf", "ring")]
    [InlineData("dangling.ttf", "is not there")]
    public void A_link_out_of_the_folder_is_not_followed(string file, string reason) => Check("font-file", file, reason, Link);

    [Fact]
    public void A_link_to_a_font_inside_the_folder_is_followed()
    {
        using WorkFolder work = Folder("inside.ttf", Link);
        ProgramRun run = ProgramRun.Of(work.Full, "build", "desk", "--paper", "A4", "--only", "print");
        Assert.Equal((0, string.Empty), (run.Exit, run.Error));
        Assert.Contains("desk/out/sheet-1/front.pdf", work.Files());
    }

    private static void Check(string code, string file, string reason, Action<WorkFolder>? more = null)
    {
        using WorkFolder work = Folder(file, more);
        string[] before = work.Everything();
        ProgramRun run = ProgramRun.Of(work.Full, "build", "desk", "--paper", "A4", "-o", "sheets/new");
        Assert.Equal((1, string.Empty), (run.Exit, run.Error));
        string[] lines = run.Output.Split(Environment.NewLine);
        string start = $"{Path.Combine("desk", "desk.toml")}(5,8): stop {code}: ";
        int at = Array.FindIndex(lines, line => line.StartsWith(start, StringComparison.Ordinal));
        Assert.True(at >= 0, $"'{start}' is not in: {run.Output}");

        // A file that was read is called what the desk calls the font; any other by its name as it was written, of which a very long one is shortened.
        string written = Written(work, file);
        Assert.Contains(code != "font-file" ? "mine" : written.Length > 40 ? $"`{written[..30]}" : $"`{written}`", lines[at], StringComparison.Ordinal);
        Assert.Contains(written.Contains(":/", StringComparison.Ordinal) ? "drive" : reason, lines[at], StringComparison.Ordinal);
        Assert.Matches(@"^    \S.*\S$", lines[at + 1]);
        Assert.Equal(file == "huge.ttf", code == "font-file" && lines[at + 1].Contains("bundled font", StringComparison.Ordinal));
        Assert.DoesNotContain("   at ", run.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", run.Output, StringComparison.Ordinal);
        Assert.Equal(before, work.Everything());
    }

    private static WorkFolder Folder(string file, Action<WorkFolder>? more)
    {
        WorkFolder work = new();
        work.Put("desk/fonts/there.txt", "a folder");
        work.Put("desk/desk.toml", OwnFont.Desk(Written(work, file)));
        work.Put("desk/letter.ttf", "This is a letter, not a font. It goes on for a while.");
        work.Put("desk/empty.ttf", string.Empty);
        Size("desk/zeros.ttf", MostBytes);
        Size("desk/huge.ttf", MostBytes + 1);
        File.Copy(OwnFont.Path, work.Below("outside.ttf"));
        more?.Invoke(work);
        return work;

        void Size(string name, long bytes)
        {
            using FileStream stream = File.Create(work.Below(name));
            stream.SetLength(bytes);
        }
    }

    // On Windows an absolute path begins with a drive, and that is what is said of it.
    private static string Written(WorkFolder work, string file) => file.Replace("{work}", work.Full.Replace('\\', '/'), StringComparison.Ordinal);

    private static void Link(WorkFolder work)
    {
        try
        {
            File.CreateSymbolicLink(work.Below("desk/out.ttf"), "../outside.ttf");
        }
        catch (Exception exception) when (OperatingSystem.IsWindows() && exception is IOException or UnauthorizedAccessException)
        {
            work.Dispose();
            Assert.Skip($"this account may not make links: {exception.Message}");
        }

        Directory.CreateSymbolicLink(work.Below("desk/far"), work.Full);
        File.CreateSymbolicLink(work.Below("desk/ring.ttf"), "ring.ttf");
        File.CreateSymbolicLink(work.Below("desk/dangling.ttf"), "nowhere.ttf");
        File.Copy(OwnFont.Path, work.Below("desk/fonts/there.ttf"));
        File.CreateSymbolicLink(work.Below("desk/inside.ttf"), "fonts/there.ttf");
    }
}
