using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Quantities;
using Lampblack.Tests.Peers;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Core;
using Xunit;

namespace Lampblack.Tests.Formats;

/// <summary>Pages on which alike pieces are drawn once show what plain pages show.</summary>
public sealed class StampedPageTests
{
    private static readonly PdfOptions Options = new("Hole chart", PdfSides.OneSided);

    [Fact]
    public void Stamped_pieces_lie_where_they_lie_on_a_plain_page_in_the_same_inks()
    {
        var page = PdfSamples.A4([.. Rings(40, Ink.FullK), new(PdfSamples.Rectangle(31.2345, 200.1, 40, 7), Ink.Gray(0.4)), .. Rings(3, Ink.Gray(0.7))]);
        var plain = Paths(PdfFile.Bind([PackedPage.Of(page)], Options));
        var stamped = Paths(PdfFile.Bind([PackedPage.WithStamps(page)], Options));
        Assert.Equal(44, plain.Count);
        Assert.Equal(plain.Count, stamped.Count);
        foreach (var (one, other) in plain.Zip(stamped))
        {
            Assert.Equal(one.Ink, other.Ink);
            Assert.InRange(Math.Abs(one.Box.Left - other.Box.Left) * PdfSamples.MmPerPoint, 0, 0.0004);
            Assert.InRange(Math.Abs(one.Box.Bottom - other.Box.Bottom) * PdfSamples.MmPerPoint, 0, 0.0004);
            Assert.InRange(Math.Abs(one.Box.Right - other.Box.Right) * PdfSamples.MmPerPoint, 0, 0.0004);
            Assert.InRange(Math.Abs(one.Box.Top - other.Box.Top) * PdfSamples.MmPerPoint, 0, 0.0004);
        }
    }

    [Fact]
    public void Holes_stay_open_in_stamps_and_beside_them()
    {
        var lone = Region<PageSpace>.Disc(new(150, 100), 9).Except(Region<PageSpace>.Disc(new(150, 100), 4));
        using var document = Open(PdfFile.Bind([PackedPage.WithStamps(PdfSamples.A4([.. Rings(5, Ink.FullK), new(lone, Ink.FullK)]))], Options));
        Assert.Equal(6, document.GetPage(1).Paths.Count);
        Assert.All(document.GetPage(1).Paths, path =>
        {
            Assert.Equal(FillingRule.EvenOdd, path.FillingRule);
            Assert.Equal(2, path.Count);
        });
    }

    [Fact]
    public void A_file_holds_each_stamp_once_however_many_pages_show_it_and_only_of_what_comes_again()
    {
        var page = PackedPage.WithStamps(PdfSamples.A4([.. Rings(30, Ink.FullK)]));
        var other = PackedPage.WithStamps(PdfSamples.A4([.. Rings(12, Ink.Gray(0.5))]));
        var lone = PackedPage.WithStamps(PdfSamples.A4([.. Rings(1, Ink.FullK)]));
        Assert.Equal(1, Forms(PdfFile.Bind([page, other, page], Options)));
        Assert.Equal(0, Forms(PdfFile.Bind([lone], Options)));
        var plain = PdfFile.Bind([PackedPage.Of(PdfSamples.A4([.. Rings(30, Ink.FullK)]))], Options);
        Assert.InRange(PdfFile.Bind([page], Options).Length, 1, plain.Length / 3);
    }

    [Fact]
    public void Qpdf_finds_nothing_to_complain_of()
    {
        using var folder = new ScratchFolder();
        var run = OutsideProgram.RunWell("qpdf", ["--check", folder.Write("a.pdf", PdfFile.Bind([PackedPage.WithStamps(PdfSamples.A4([.. Rings(30, Ink.FullK)]))], Options).AsSpan())]);
        Assert.Contains("No syntax or stream encoding errors found", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void What_lies_beyond_a_hundred_metres_is_refused() =>
        Assert.Throws<ArgumentException>(() => PackedPage.WithStamps(PdfSamples.A4(new Painted<PageSpace>(PdfSamples.Rectangle(99_999, 0, 5, 5), Ink.FullK))));

    /// <summary>The same ring again and again, at places between thousandths of a point.</summary>
    private static IEnumerable<Painted<PageSpace>> Rings(int count, Ink ink)
    {
        var ring = Region<PageSpace>.Disc(new(0, 0), 2).Except(Region<PageSpace>.Disc(new(0.3, 0), 1));
        return Enumerable.Range(0, count).Select(index => new Painted<PageSpace>(
            ring.Map(Affine<PageSpace, PageSpace>.Shift(10.0001 + (4.3217 * index), 20.7003 + (6.1139 * index))), ink));
    }

    private static int Forms(ImmutableArray<byte> file) => Encoding.Latin1.GetString(file.AsSpan()).Split("/Subtype /Form").Length - 1;

    private static List<(PdfRectangle Box, string? Ink)> Paths(ImmutableArray<byte> file)
    {
        using var document = Open(file);
        return [.. document.GetPage(1).Paths.Select(path => (path.GetBoundingRectangle()!.Value, path.FillColor?.ToString()))];
    }

    private static PdfDocument Open(ImmutableArray<byte> file) => PdfDocument.Open([.. file], new ParsingOptions { UseLenientParsing = false });
}
