using System;
using System.Collections.Immutable;
using System.IO;
using System.Linq;
using System.Text;
using Lampblack.Findings;
using Lampblack.Lettering;
using Xunit;

namespace Lampblack.Tests.Lettering;

public sealed class TypefaceTests
{
    private static readonly SourceSpan Place = new("desk.toml", 120, 14, 7, 9);
    private static readonly byte[] Font = FontBytes.Of("saira-condensed-medium");

    [Fact]
    public void A_font_of_the_users_own_tells_its_family_and_has_no_licence_of_ours()
    {
        var face = Read("own.ttf", Font);
        Assert.Equal("Saira Condensed", face.FamilyName);
        Assert.Null(face.EmbeddedLicence);
        Assert.Equal(TextOutline.Line(BundledFonts.Find("saira-condensed")!, "KILN", 4).WidthMm, TextOutline.Line(face, "KILN", 4).WidthMm);
    }

    [Fact]
    public void A_font_packed_for_the_web_gives_the_same_letters() => CheckSame(FontBytes.AsWoff(Font));

    [Fact]
    public void The_first_face_of_a_collection_is_taken() => CheckSame(FontBytes.AsCollection(Font));

    [Fact]
    public void A_font_outlives_the_bytes_it_was_read_from()
    {
        var face = Read("own.ttf", (byte[])Font.Clone());
        for (var round = 0; round < 5; round++)
        {
            GC.Collect();
            GC.WaitForPendingFinalizers();
            _ = new byte[5_000_000];
            Assert.Equal(TextOutline.Line(BundledFonts.Find("saira-condensed")!, "AVATAR", 4 + round).WidthMm, TextOutline.Line(face, "AVATAR", 4 + round).WidthMm);
        }
    }

    [Fact]
    public void Fonts_that_nobody_uses_any_more_give_their_memory_back()
    {
        // 300 fonts of 5 MB would be 1.5 GB; other tests beside this one need some memory too.
        var padded = FontBytes.Frozen([.. Font, .. new byte[5_000_000]]);
        var before = Environment.WorkingSet;
        for (var round = 0; round < 300; round++)
        {
            Assert.NotNull(Typeface.FromBytes("own.ttf", padded, span: null).Value);
            if (round % 20 == 0)
            {
                GC.Collect();
                GC.WaitForPendingFinalizers();
            }
        }

        Assert.InRange(Environment.WorkingSet - before, long.MinValue, 750_000_000);
    }

    [Fact]
    public void A_name_is_taken_where_the_font_has_none() => Assert.Equal("own.ttf", Read("own.ttf", Without("name")).FamilyName);

    // Postscript-flavoured fonts come with Ghostscript on most systems; none is bundled, so this looks for one there.
    [Fact]
    public void A_font_with_CFF_outlines_is_read_too()
    {
        const string path = "/usr/share/fonts/opentype/urw-base35/NimbusSans-Regular.otf";
        if (!File.Exists(path))
        {
            Assert.False(Environment.GetEnvironmentVariable("LAMPBLACK_ALL") == "1", $"{path} is needed for this check");
            Assert.Skip($"{path} is not here");
        }

        var face = Read("own.otf", File.ReadAllBytes(path));
        Assert.Contains("Nimbus Sans", face.FamilyName, StringComparison.Ordinal);

        // Nimbus Sans is metrically Helvetica: its AFM file says capitals of 729 and an advance of 722 for H, per 1000 (from memory).
        Assert.Equal(0.729, face.CapHeightShare, 0.001);
        var run = TextOutline.Line(face, "H", 7.29);
        Assert.Equal(7.22, run.WidthMm, 0.01);
        Assert.Equal(7.29, run.Shape.Bounds.TopMm, 0.001);
        Assert.Equal(2, TextOutline.Line(face, "8", 5).Shape.Borders().Count(border => border.SignedAreaMm2 < 0));
    }

    public static TheoryData<string, string> Unreadable => new()
    {
        { "empty", "too short" },
        { "text", "does not begin like" },
        { "woff2", "WOFF2" },
        { "cut", "beyond the end" },
        { "no directory", "table directory" },
        { "no glyf", "no outlines" },
        { "no cmap", "'cmap'" },
        { "no head", "'head'" },
        { "bad em", "'head'" },
        { "no glyphs", "no glyphs" },
        { "empty collection", "collection" },
        { "cut woff", "damaged table" },
        { "garbled woff", "damaged table" },
        { "woff bomb", "more than 20 MB" },
        { "too large", "at most 20000000" },
    };

    [Theory]
    [MemberData(nameof(Unreadable))]
    public void What_is_no_usable_font_is_a_finding_at_its_place(string what, string reason)
    {
        var reading = Typeface.FromBytes("own.ttf", FontBytes.Frozen(Broken(what)), Place);
        Assert.Null(reading.Value);
        var finding = Assert.Single(reading.Findings);
        Assert.Equal(("font-unreadable", Severity.Stop, Place), (finding.Code, finding.Severity, finding.Span));
        Assert.Contains("own.ttf", finding.Message, StringComparison.Ordinal);
        Assert.Contains(reason, finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void No_bytes_at_all_are_a_finding() => Assert.True(Typeface.FromBytes("own.ttf", default, span: null).HasStop);

    private static byte[] Broken(string what)
    {
        var bytes = (byte[])Font.Clone();
        switch (what)
        {
            case "empty": return [];
            case "text": return Encoding.ASCII.GetBytes("This is a letter, not a font. It goes on for a while.");
            case "woff2": return [.. "wOF2"u8, .. new byte[60]];
            case "cut": return bytes[..(bytes.Length / 2)];
            case "no directory": return bytes[..40];
            case "no glyf": return Without("glyf");
            case "no cmap": return Without("cmap");
            case "no head": return Without("head");
            case "bad em":
                bytes[Table(bytes, "head") + 18] = 0xFF;
                return bytes;
            case "no glyphs":
                bytes.AsSpan(Table(bytes, "maxp") + 4, 2).Clear();
                return bytes;
            case "empty collection": return [.. "ttcf"u8, 0, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 16];
            case "cut woff": return FontBytes.AsWoff(bytes)[..20_000];
            case "garbled woff":
                var woff = FontBytes.AsWoff(bytes);
                woff.AsSpan(3000, 2000).Fill(0x5A);
                return woff;
            case "woff bomb":
                var bomb = FontBytes.AsWoff(bytes);
                bomb.AsSpan(44 + 12, 4).Fill(0x7F);
                return bomb;
            case "too large": return [.. bytes, .. new byte[20_000_000]];
            default: throw new ArgumentOutOfRangeException(nameof(what), what, "unknown case");
        }
    }

    private static byte[] Without(string tag)
    {
        var bytes = (byte[])Font.Clone();
        for (var index = 0; index < bytes[5]; index++)
        {
            var entry = bytes.AsSpan(12 + (16 * index), 4);
            if (Encoding.ASCII.GetString(entry) == tag)
            {
                "zzzz"u8.CopyTo(entry);
            }
        }

        return bytes;
    }

    private static int Table(byte[] bytes, string tag) => Enumerable.Range(0, bytes[5]).Select(index => 12 + (16 * index))
        .Where(entry => Encoding.ASCII.GetString(bytes, entry, 4) == tag)
        .Select(entry => (bytes[entry + 8] << 24) | (bytes[entry + 9] << 16) | (bytes[entry + 10] << 8) | bytes[entry + 11]).Single();

    private static Typeface Read(string name, byte[] bytes)
    {
        var reading = Typeface.FromBytes(name, FontBytes.Frozen(bytes), Place);
        Assert.Empty(reading.Findings);
        return reading.Value!;
    }

    private static void CheckSame(byte[] bytes)
    {
        const string text = "DEW HEATER 8 °½";
        var (expected, run) = (TextOutline.Line(Read("plain.ttf", Font), text, 4), TextOutline.Line(Read("wrapped", bytes), text, 4));
        Assert.Equal(expected.WidthMm, run.WidthMm);
        Assert.Equal(Points(expected), Points(run));
    }

    private static ImmutableArray<string> Points(TextRun run) =>
        [.. run.Shape.Borders().SelectMany(border => border.Points).Select(point => point.ToString())];
}
