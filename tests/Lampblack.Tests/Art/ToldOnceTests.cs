using System;
using System.IO;
using System.Linq;
using System.Text;
using System.Threading;
using Lampblack.Findings;
using Lampblack.Host;
using Lampblack.Jobs;
using Lampblack.Tests.Peers;
using Lampblack.Tests.PictureArt;
using Xunit;

namespace Lampblack.Tests.Art;

/// <summary>What goes wrong with artwork is told once, by the whole build.</summary>
public sealed class ToldOnceTests
{
    private const string Head = "<svg xmlns=\"http://www.w3.org/2000/svg\"";
    private const string Drawn = "viewBox=\"0 0 40 30\"><rect width=\"40\" height=\"30\" fill=\"#101010\"/><rect x=\"8\" y=\"8\" width=\"20\" height=\"9\" fill=\"#ffffff\"/></svg>";

    [Theory]
    [InlineData("away.svg", "art-file")]
    [InlineData("../away.svg", "art-file")]
    [InlineData("/etc/hostname", "art-file")]
    [InlineData("folder", "art-file")]
    public void A_file_that_cannot_be_read_is_told_once(string file, string code)
    {
        using var folder = new ScratchFolder();
        Directory.CreateDirectory(folder.PathOf("folder"));
        var found = Findings($"file = \"{file}\"\nwidth = 40", new DeskFolder(folder.FullPath));
        Assert.Equal(code, Assert.Single(found, finding => finding.Severity == Severity.Stop).Code);
        Assert.All(found.Where(finding => finding.Severity == Severity.Stop), finding => Assert.NotNull(finding.Span));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_size_that_nobody_says_is_asked_for_once(bool isPicture)
    {
        var (name, bytes) = Art(isPicture, string.Empty, null);
        Assert.Equal("art-size-unknown", Assert.Single(Findings($"file = \"{name}\"", new GivenFiles((name, bytes))), finding => finding.Severity == Severity.Stop).Code);
        Assert.DoesNotContain(Findings($"file = \"{name}\"\nheight = 30", new GivenFiles((name, bytes))), finding => finding.Severity == Severity.Stop);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_width_that_is_not_the_files_own_is_asked_about_once(bool isPicture)
    {
        // 400 x 300 dots at 10,000 to the metre are 40 x 30 mm.
        var (name, bytes) = Art(isPicture, "width=\"40mm\" height=\"30mm\"", 10_000);
        Assert.Single(Findings($"file = \"{name}\"\nwidth = 50", new GivenFiles((name, bytes))), finding => finding.Code == "art-size-differs");
        Assert.Single(Findings($"file = \"{name}\"\nheight = 50", new GivenFiles((name, bytes))), finding => finding.Code == "art-size-differs");
        Assert.DoesNotContain(Findings($"file = \"{name}\"\nwidth = 40.2", new GivenFiles((name, bytes))), finding => finding.Code == "art-size-differs");
        Assert.DoesNotContain(Findings($"file = \"{name}\"", new GivenFiles((name, bytes))), finding => finding.Code is "art-size-differs" or "art-size-unknown");
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Artwork_of_which_nothing_is_seen_is_told_once(bool isPicture)
    {
        var (name, bytes) = Art(isPicture, "width=\"40mm\" height=\"30mm\"", 10_000);
        var off = Findings($"file = \"{name}\"\nat = [500, 500]", new GivenFiles((name, bytes)));
        Assert.Equal("art-not-seen", Assert.Single(off, finding => finding.Code is "art-not-seen" or "mark-not-seen").Code);
        var under = Findings($"file = \"{name}\"\n[[panel.area]]\nbox = [-5, -5, 90, 90]", new GivenFiles((name, bytes)));
        Assert.Equal("art-not-seen", Assert.Single(under, finding => finding.Code is "art-not-seen" or "mark-not-seen").Code);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Artwork_without_fault_is_told_with_notes_only(bool isPicture)
    {
        var (name, bytes) = Art(isPicture, "width=\"40mm\" height=\"30mm\"", 10_000);
        var found = Findings($"file = \"{name}\"\nat = [10, 10]", new GivenFiles((name, bytes)));
        Assert.DoesNotContain(found, finding => finding.Severity == Severity.Stop);
        Assert.DoesNotContain(found, finding => finding.Severity == Severity.Warn && finding.Code != "art-coarse");
        Assert.Single(found, finding => finding.Code == "art-threshold");
    }

    private static (string Name, byte[] Bytes) Art(bool isPicture, string size, int? perMetre) => isPicture
        ? ("art.png", new PngBytes(400, 300, 0, 8, (x, y) => [x is >= 80 and < 280 && y is >= 80 and < 170 ? 255 : 16]) { Parts = perMetre is { } dots ? [PngBytes.Resolution(dots, dots)] : [] }.Write())
        : ("art.svg", Encoding.UTF8.GetBytes($"{Head} {size} {Drawn}"));

    private static Finding[] Findings(string art, IDeskFiles files)
    {
        var toml = $"lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [80, 80]\n[[panel.art]]\nid = \"a\"\n{art}\n";
        var result = Build.Run(new("desk.toml", [.. Encoding.UTF8.GetBytes(toml)], files), new("A4", "option", Parts: BuildParts.None), new Progress<string>(), CancellationToken.None);
        return [.. result.Findings];
    }
}
