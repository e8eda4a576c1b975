using System;
using System.Collections.Generic;
using System.Diagnostics;
using System.Globalization;
using System.IO;
using System.Linq;
using System.Text;
using Lampblack.Geometry;
using Lampblack.Lettering;
using Xunit;

namespace Lampblack.Tests.Lettering;

/// <summary>
/// Ghostscript draws the font file itself, embedded in a PDF; our outlines must cover the same dots. (Ghostscript thickens paths, but not
/// letters, by a fraction of a dot, so ours are not drawn by it but scanned here.)
/// </summary>
public sealed class PeerRenderingTests(ITestOutputHelper output)
{
    private const string Letters = "RS8B&g@Qj%";
    private const double CapHeightMm = 12;
    private const double StepMm = 24;
    private const double PageHeightMm = 26;
    private const double BaselineMm = 8;
    private const int DotsPerInch = 600;
    private const double DotMm = 25.4 / DotsPerInch;
    private const int Samples = 4;

    public static TheoryData<string> Faces => [.. FontBytes.All.Select(face => face.Name)];

    [Theory]
    [MemberData(nameof(Faces))]
    public void Letters_have_the_ink_that_Ghostscript_gives_the_same_font(string name)
    {
        var face = BundledFonts.Find(name)!;
        var shapes = Letters.Select((letter, index) => TextOutline.Line(face, letter.ToString(), CapHeightMm).Shape
            .Map(Affine<ItemSpace, PageSpace>.Shift((index * StepMm) + 2, BaselineMm))).ToArray();
        var (width, theirs) = Render(Document(face, FontBytes.Of(name)));
        var ours = Scan(shapes, width, theirs.Length / width);
        var dotMm2 = Math.Pow(DotMm, 2);
        var ink = theirs.Sum(Ink) * dotMm2;
        var apart = theirs.Zip(ours).Sum(pair => Math.Abs(Ink(pair.First) - pair.Second)) * dotMm2;
        var area = shapes.Sum(shape => shape.AreaMm2);
        output.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"{name}: Ghostscript {ink:F3} mm2, our area {area:F3}, scanned {ours.Sum() * dotMm2:F3}, differing {apart:F3}, {1000 * apart / shapes.Sum(shape => shape.PerimeterMm):F2} µm along all borders"));
        Assert.True(area > 100);
        Assert.Equal(1, area / ink, 0.005);

        // Not only as much ink, but in the same places: borders lie a quarter of a dot apart on average at most, because Ghostscript sets letters on its samples.
        var edgesApartMm = apart / shapes.Sum(shape => shape.PerimeterMm);
        Assert.InRange(edgesApartMm, 0, DotMm / Samples);
    }

    private static double Ink(byte grey) => 1 - (grey / 255.0);

    private static byte[] Document(Typeface face, byte[] font)
    {
        static string N(double value) => value.ToString("0.#####", CultureInfo.InvariantCulture);
        const double pointsPerMm = 72 / 25.4;
        var reader = new SfntReader(font);
        var text = new StringBuilder("0 g BT /F " + N(CapHeightMm / face.CapHeightShare * pointsPerMm) + " Tf\n");
        for (var index = 0; index < Letters.Length; index++)
        {
            text.Append(CultureInfo.InvariantCulture, $"1 0 0 1 {N(((index * StepMm) + 2) * pointsPerMm)} {N(BaselineMm * pointsPerMm)} Tm <{(int)Letters[index]:X2}> Tj\n");
        }

        text.Append("ET\n");
        var box = $"[0 0 {N(Letters.Length * StepMm * pointsPerMm)} {N(PageHeightMm * pointsPerMm)}]";
        var widths = string.Join(' ', Enumerable.Range(32, 95).Select(code => N(reader.Advance(reader.Glyph((char)code)) * 1000.0 / reader.UnitsPerEm)));
        var objects = new List<byte[]>();
        void Put(string body) => objects.Add(Encoding.Latin1.GetBytes(body));
        void PutStream(string keys, byte[] bytes) =>
            objects.Add([.. Encoding.Latin1.GetBytes($"<< {keys} /Length {bytes.Length} >>\nstream\n"), .. bytes, .. "\nendstream"u8]);
        Put("<< /Type /Catalog /Pages 2 0 R >>");
        Put("<< /Type /Pages /Kids [3 0 R] /Count 1 >>");
        Put($"<< /Type /Page /Parent 2 0 R /MediaBox {box} /Contents 4 0 R /Resources << /Font << /F 5 0 R >> >> >>");
        PutStream(string.Empty, Encoding.Latin1.GetBytes(text.ToString()));
        Put($"<< /Type /Font /Subtype /TrueType /BaseFont /ABCDEF+Peer /FirstChar 32 /LastChar 126 /Widths [{widths}] /Encoding /WinAnsiEncoding /FontDescriptor 6 0 R >>");
        Put("<< /Type /FontDescriptor /FontName /ABCDEF+Peer /Flags 32 /FontBBox [-500 -500 2000 1500] /ItalicAngle 0 /Ascent 1000 /Descent -300 /CapHeight 700 /StemV 80 /FontFile2 7 0 R >>");
        PutStream($"/Length1 {font.Length}", font);

        using var file = new MemoryStream();
        file.Write("%PDF-1.4\n"u8);
        var places = new List<long>();
        for (var index = 0; index < objects.Count; index++)
        {
            places.Add(file.Length);
            file.Write(Encoding.Latin1.GetBytes($"{index + 1} 0 obj\n"));
            file.Write(objects[index]);
            file.Write("\nendobj\n"u8);
        }

        var table = file.Length;
        file.Write(Encoding.Latin1.GetBytes($"xref\n0 {objects.Count + 1}\n0000000000 65535 f \n"));
        file.Write(Encoding.Latin1.GetBytes(string.Concat(places.Select(place => place.ToString("D10", CultureInfo.InvariantCulture) + " 00000 n \n"))));
        file.Write(Encoding.Latin1.GetBytes($"trailer << /Size {objects.Count + 1} /Root 1 0 R >>\nstartxref\n{table}\n%%EOF\n"));
        return file.ToArray();
    }

    private static (int Width, byte[] Dots) Render(byte[] document)
    {
        var folder = Directory.CreateTempSubdirectory("lampblack-lettering-");
        try
        {
            File.WriteAllBytes(Path.Combine(folder.FullName, "peer.pdf"), document);
            var start = new ProcessStartInfo("gs")
            {
                WorkingDirectory = folder.FullName,
                RedirectStandardOutput = true,
                RedirectStandardError = true,
                ArgumentList =
                {
                    "-q", "-dNOPAUSE", "-dBATCH", "-dSAFER", "-sDEVICE=pgmraw", $"-r{DotsPerInch}", "-dTextAlphaBits=4", "-dGraphicsAlphaBits=4",
                    "-dGridFitTT=0", "-sOutputFile=page.pgm", "peer.pdf",
                },
            };
            try
            {
                using var process = Process.Start(start)!;
                var said = process.StandardOutput.ReadToEndAsync();
                var complained = process.StandardError.ReadToEnd();
                process.WaitForExit();
                Assert.True(process.ExitCode == 0, said.Result + complained);
            }
            catch (System.ComponentModel.Win32Exception)
            {
                Assert.False(Environment.GetEnvironmentVariable("LAMPBLACK_ALL") == "1", "Ghostscript (gs) is needed for this check");
                Assert.Skip("Ghostscript (gs) is not installed: outlines are not compared with a second program");
            }

            return Dots(Path.Combine(folder.FullName, "page.pgm"));
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    /// <summary>The dots of a binary PGM: its header is four words, comments aside, and one white space.</summary>
    private static (int Width, byte[] Dots) Dots(string path)
    {
        var bytes = File.ReadAllBytes(path);
        var words = new List<string>();
        var place = 0;
        while (words.Count < 4)
        {
            var end = place;
            while (bytes[end] > ' ')
            {
                end++;
            }

            if (bytes[place] == '#')
            {
                place = Array.IndexOf(bytes, (byte)'\n', place) + 1;
                continue;
            }

            if (end > place)
            {
                words.Add(Encoding.ASCII.GetString(bytes, place, end - place));
            }

            place = end + 1;
        }

        Assert.Equal(("P5", "255"), (words[0], words[3]));
        var width = int.Parse(words[1], CultureInfo.InvariantCulture);
        Assert.Equal(bytes.Length - place, width * int.Parse(words[2], CultureInfo.InvariantCulture));
        return (width, bytes[place..]);
    }

    /// <summary>How much of each dot is covered, from 4 x 4 samples: along each line of samples, what lies between an odd and an even crossing is inside.</summary>
    private static double[] Scan(IEnumerable<Region<PageSpace>> shapes, int width, int height)
    {
        var covered = new double[width * height];
        var sides = shapes.SelectMany(shape => shape.Borders())
            .SelectMany(border => border.Points.Select((point, index) => (From: point, To: border.Points[(index + 1) % border.Points.Length])))
            .ToArray();
        var crossings = Enumerable.Range(0, height * Samples).Select(_ => new List<double>()).ToArray();
        double Line(double yMm) => ((height - (yMm / DotMm)) * Samples) - 0.5;
        foreach (var (from, to) in sides)
        {
            var (top, bottom) = from.YMm > to.YMm ? (from, to) : (to, from);
            for (var line = (int)Math.Ceiling(Line(top.YMm)); line < Line(bottom.YMm); line++)
            {
                var share = (line - Line(top.YMm)) / (Line(bottom.YMm) - Line(top.YMm));
                crossings[line].Add((top.XMm + (share * (bottom.XMm - top.XMm))) / DotMm * Samples);
            }
        }

        for (var line = 0; line < crossings.Length; line++)
        {
            crossings[line].Sort();
            for (var index = 0; index + 1 < crossings[line].Count; index += 2)
            {
                for (var sample = (int)Math.Ceiling(crossings[line][index] - 0.5); sample + 0.5 < crossings[line][index + 1]; sample++)
                {
                    covered[(line / Samples * width) + (sample / Samples)] += 1.0 / (Samples * Samples);
                }
            }
        }

        return covered;
    }
}
