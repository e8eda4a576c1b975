using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.IO;
using System.Linq;
using System.Text;
using Lampblack.Bitmaps;
using Lampblack.Formats;
using Lampblack.Tests.Bitmaps;
using Lampblack.Tests.Peers;
using Xunit;

namespace Lampblack.Tests.Formats;

/// <summary>Group 4 as three programs read it that share no code with ours or with each other.</summary>
public sealed class FaxFileTests
{
    private static readonly ImmutableArray<BitRaster> Pictures = [.. Samples()];

    [Fact]
    public void Poppler_reads_the_same_dots() => Check("pdfimages", ["all.pdf", "out"], number => $"out-{number:D3}.pbm");

    [Fact]
    public void Ghostscript_reads_the_same_dots() => Check(
        "gs", ["-q", "-dSAFER", "-dBATCH", "-dNOPAUSE", "-dPDFSTOPONERROR", "-sDEVICE=pbmraw", "-r72", "-o", "out%d.pbm", "all.pdf"], number => $"out{number + 1}.pbm");

    [Fact]
    public void Mupdf_reads_the_same_dots() => Check("mutool", ["draw", "-q", "-A", "0", "-r", "72", "-F", "pbm", "-o", "out%d.pbm", "all.pdf"], number => $"out{number + 1}.pbm");

    /// <summary>Clause 2.2.5.3 of T.6: the mark that ends it all is two end-of-line codes; a white row is one vertical mode code.</summary>
    [Fact]
    public void White_rows_take_a_bit_each_and_the_end_is_marked() =>
        Assert.Equal("FF001001", Convert.ToHexString(FaxFile.Write(BitRaster.Clear(1000, 8)).AsSpan()));

    /// <summary>Worked out by hand from the tables: horizontal mode, white run of 3 (1000), black run of 2 (11), then the row's end below the one above (1).</summary>
    [Fact]
    public void A_short_row_is_coded_as_by_hand() =>
        Assert.Equal("0011000" + "11" + "1" + "000000000001000000000001", Bits(FaxFile.Write(Grid.Pack(Grid.Of("...##..........."))))[..34]);

    private static string Bits(ImmutableArray<byte> bytes) => string.Concat(bytes.Select(value => Convert.ToString(value, 2).PadLeft(8, '0')));

    private static IEnumerable<BitRaster> Samples()
    {
        var random = new Random(6);
        yield return BitRaster.Clear(1, 1);
        yield return BitRaster.Clear(1, 1).Complement();
        yield return BitRaster.Clear(10_000, 3);
        yield return BitRaster.Clear(10_000, 3).Complement();
        yield return BitRaster.Clear(64, 64).Complement();
        foreach (var (x, y) in new[] { (0, 0), (99, 0), (0, 39), (99, 39), (63, 20), (64, 20) })
        {
            var builder = new BitRasterBuilder(100, 40);
            builder[x, y] = true;
            yield return builder.ToRaster();
        }

        foreach (var width in (int[])[1, 2, 3, 7, 8, 9, 31, 63, 64, 65, 127, 128, 129, 1000])
        {
            foreach (var share in (double[])[0.02, 0.5, 0.98])
            {
                yield return Grid.Pack(Grid.Random(random, width, 40, share));
            }
        }

        yield return LongRuns(random);
        yield return Shapes(random);
    }

    /// <summary>Every run from 0 to 3000 in both colours, and some beyond what the longest codes take at once.</summary>
    private static BitRaster LongRuns(Random random)
    {
        const int Width = 10_000;
        var builder = new BitRasterBuilder(Width, 3200);
        for (var row = 0; row < 3001; row++)
        {
            // Shuffled, so that rows don't look like the ones above them.
            var run = row * 1999 % 3001;
            builder.SetRun(row, run, Math.Min(Width, run + run));
            builder.SetRun(row, Math.Min(Width, (2 * run) + 37), Width);
        }

        for (var row = 3001; row < 3200; row++)
        {
            var start = random.Next(Width);
            builder.SetRun(row, start, random.Next(start, Width + 1));
        }

        return builder.ToRaster();
    }

    /// <summary>Discs and slants: changes that lie a few dots beside those above, and passes.</summary>
    private static BitRaster Shapes(Random random)
    {
        var dots = Grid.Random(random, 700, 500, 0.0005);
        return Grid.Pack(dots).Grow(17.3).Except(Grid.Pack(dots).Grow(6.1));
    }

    private static void Check(string program, string[] arguments, Func<int, string> output)
    {
        OutsideProgram.Need(program);
        using var folder = new ScratchFolder();
        folder.Write("all.pdf", Wrapped());
        OutsideProgram.RunWell(program, arguments, folder.FullPath, TimeSpan.FromSeconds(120));
        for (var index = 0; index < Pictures.Length; index++)
        {
            var read = ReadPbm(File.ReadAllBytes(folder.PathOf(output(index))));
            Assert.True(Pictures[index].Equals(read), $"picture {index}, {Pictures[index].WidthDots} dots wide");
        }
    }

    /// <summary>A PDF of the barest kind: one page for each picture, a point for each dot. Written here, so that ours is not needed to judge ours.</summary>
    private static byte[] Wrapped()
    {
        using var file = new MemoryStream();
        var offsets = new List<long>();
        Add("%PDF-1.4\n");
        Open($"<< /Type /Catalog /Pages 2 0 R >>\nendobj\n");
        Open($"<< /Type /Pages /Count {Pictures.Length} /Kids [{string.Concat(Pictures.Select((_, index) => $" {3 + (3 * index)} 0 R"))} ] >>\nendobj\n");
        foreach (var (index, picture) in Pictures.Index())
        {
            var (width, height, first) = (picture.WidthDots, picture.HeightDots, 3 + (3 * index));
            Open($"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 {width} {height}] /Resources << /XObject << /I {first + 2} 0 R >> >> /Contents {first + 1} 0 R >>\nendobj\n");
            var content = $"{width} 0 0 {height} 0 0 cm /I Do";
            Open($"<< /Length {content.Length} >>\nstream\n{content}\nendstream\nendobj\n");
            var packed = FaxFile.Write(picture);
            Open($"<< /Type /XObject /Subtype /Image /Width {width} /Height {height} /BitsPerComponent 1 /ColorSpace /DeviceGray /Filter /CCITTFaxDecode /DecodeParms << /K -1 /Columns {width} /Rows {height} >> /Length {packed.Length} >>\nstream\n");
            file.Write(packed.AsSpan());
            Add("\nendstream\nendobj\n");
        }

        var start = file.Length;
        Add($"xref\n0 {offsets.Count + 1}\n0000000000 65535 f \n{string.Concat(offsets.Select(offset => $"{offset:D10} 00000 n \n"))}trailer\n<< /Size {offsets.Count + 1} /Root 1 0 R >>\nstartxref\n{start}\n%%EOF\n");
        return file.ToArray();

        void Add(string text) => file.Write(Encoding.ASCII.GetBytes(text));
        void Open(string text)
        {
            offsets.Add(file.Length);
            Add(string.Create(CultureInfo.InvariantCulture, $"{offsets.Count} 0 obj\n{text}"));
        }
    }

    private static BitRaster ReadPbm(byte[] bytes)
    {
        var fields = new List<string>();
        var at = 0;
        while (fields.Count < 3)
        {
            var end = Array.FindIndex(bytes, at, value => value is (byte)'\n' or (byte)' ');
            var line = Encoding.ASCII.GetString(bytes, at, end - at);
            at = end + 1;
            if (line.StartsWith('#'))
            {
                at = Array.IndexOf(bytes, (byte)'\n', end) + 1;
            }
            else if (line.Length > 0)
            {
                fields.Add(line);
            }
        }

        Assert.Equal("P4", fields[0]);
        var builder = new BitRasterBuilder(int.Parse(fields[1], CultureInfo.InvariantCulture), int.Parse(fields[2], CultureInfo.InvariantCulture));
        var perRow = (builder.WidthDots + 7) / 8;
        for (var y = 0; y < builder.HeightDots; y++)
        {
            for (var x = 0; x < builder.WidthDots; x++)
            {
                builder[x, y] = (bytes[at + (y * perRow) + (x / 8)] & (0x80 >> (x % 8))) != 0;
            }
        }

        return builder.ToRaster();
    }
}
