using System;
using System.Linq;
using System.Text;
using Lampblack.Findings;
using Xunit;

namespace Lampblack.Tests.Art;

/// <summary>
/// How artwork is read, drawing and picture alike. Lightness of the grays by hand from CIE 15 and IEC 61966-2-1: code 94 is L* 39.9, 145 is 60.2, 189 is 76.6,
/// 16 is 4.7.
/// </summary>
public sealed class ArtReadingTests
{
    private const string Head = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"40mm\" height=\"10mm\" viewBox=\"0 0 40 10\">";

    private const double Dark = 4.5;
    private const double Middle = 10.5;
    private const double Light = 16.5;
    private const double White = 22.5;
    private const double Red = 28.5;
    private const double Blue = 34.5;

    private static readonly string Patches = Drawing("#101010", "#5e5e5e", "#919191", "#bdbdbd", "#ffffff", "#e0452c", "#3a8dde");

    public static TheoryData<bool> Kinds => [false, true];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Without_a_word_grays_and_colours_shine_and_light_gray_paper_is_bare(bool isPicture)
    {
        var art = ReadArt.Of(Patches, isPicture, 40, string.Empty);
        Assert.Equal((ReadArt.Field, ReadArt.Paper), (art.At(1, 5), art.At(White, 5)));
        Assert.True(ReadArt.IsNear("#919191", art.At(Middle, 5)), art.At(Middle, 5));
        Assert.True(ReadArt.IsNear("#e0452c", art.At(Red, 5)), art.At(Red, 5));
        Assert.True(ReadArt.IsNear("#3a8dde", art.At(Blue, 5)), art.At(Blue, 5));
        Assert.InRange(art.Content.WidthMm, 39.999, 40.001);
        Assert.InRange(art.Content.HeightMm, 9.97, 10.03);

        // Six patches of 5 x 6 mm stand on 400 mm2: 55 % is field. Of a picture the darkest gray may be field too, and edges are half a dot off.
        Assert.InRange(art.Content.Account.FieldShare, isPicture ? 0.545 : 0.549, isPicture ? 0.63 : 0.551);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void A_level_says_below_which_lightness_is_field(bool isPicture)
    {
        var fifty = ReadArt.Of(Patches, isPicture, 40, "levels = 50");
        Assert.Equal(ReadArt.Field, fifty.At(Dark, 5));
        Assert.NotEqual(ReadArt.Field, fifty.At(Middle, 5));
        var seventy = ReadArt.Of(Patches, isPicture, 40, "levels = 70");
        Assert.Equal(ReadArt.Field, seventy.At(Middle, 5));
        Assert.NotEqual(ReadArt.Field, seventy.At(Light, 5));
        var twenty = ReadArt.Of(Patches, isPicture, 40, "levels = 20");
        Assert.NotEqual(ReadArt.Field, twenty.At(Dark, 5));
        Assert.Equal(ReadArt.Field, twenty.At(1, 5));
        Assert.Equal("as told", twenty.Content.Account.Sureness);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void A_second_level_says_above_which_lightness_is_bare_paper(bool isPicture)
    {
        var art = ReadArt.Of(Patches, isPicture, 40, "levels = [50, 70]");
        Assert.Equal((ReadArt.Field, ReadArt.Paper), (art.At(Dark, 5), art.At(Light, 5)));
        Assert.True(ReadArt.IsNear("#919191", art.At(Middle, 5)), art.At(Middle, 5));
        Assert.True(ReadArt.IsNear("#e0452c", art.At(Red, 5)), art.At(Red, 5));
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void A_tolerance_says_how_much_lighter_a_gray_may_be_and_still_be_field(bool isPicture)
    {
        // The darkest gray is 35 lighter than the field.
        Assert.Equal(ReadArt.Field, ReadArt.Of(Patches, isPicture, 40, "tolerance = 45").At(Dark, 5));
        Assert.NotEqual(ReadArt.Field, ReadArt.Of(Patches, isPicture, 40, "tolerance = 5").At(Dark, 5));
        Assert.NotEqual(ReadArt.Field, ReadArt.Of(Patches, isPicture, 40, "tolerance = 45").At(Blue, 5));
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Colours_stay_all_or_none_or_those_that_are_named(bool isPicture)
    {
        var none = ReadArt.Of(Patches, isPicture, 40, "colours = false");
        Assert.All([Middle, Light, White, Red, Blue], x => Assert.Equal(ReadArt.Paper, none.At(x, 5)));
        var one = ReadArt.Of(Patches, isPicture, 40, "keep = [\"#e0452c\"]");
        Assert.True(ReadArt.IsNear("#e0452c", one.At(Red, 5)), one.At(Red, 5));
        Assert.Equal((ReadArt.Paper, ReadArt.Paper), (one.At(Blue, 5), one.At(Middle, 5)));
        var both = ReadArt.Of(Patches, isPicture, 40, "keep = [\"#e0452c\", \"#3a8dde\"]");
        Assert.True(ReadArt.IsNear("#3a8dde", both.At(Blue, 5)), both.At(Blue, 5));
        Assert.Equal(ReadArt.Field, both.At(1, 5));
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void On_a_transparent_ground_the_drawing_decides_or_the_maker_does(bool isPicture)
    {
        var light = Head + "<rect x=\"5\" y=\"2\" width=\"9\" height=\"6\" fill=\"#f4f4f4\"/><rect x=\"20\" y=\"2\" width=\"9\" height=\"6\" fill=\"#ffffff\"/></svg>";
        var dark = Head + "<rect x=\"5\" y=\"2\" width=\"9\" height=\"6\" fill=\"#0b0b0b\"/><rect x=\"20\" y=\"2\" width=\"9\" height=\"6\" fill=\"#000000\"/></svg>";
        var (auto, asDark) = (ReadArt.Of(light, isPicture, 40, string.Empty), ReadArt.Of(dark, isPicture, 40, string.Empty));
        Assert.Contains("art-transparent", auto.Codes);
        Assert.Contains("art-transparent", asDark.Codes);
        Assert.Equal((ReadArt.Field, ReadArt.Paper), (auto.At(1, 5), auto.At(8, 5)));
        Assert.Equal((ReadArt.Paper, ReadArt.Field), (asDark.At(1, 5), asDark.At(8, 5)));

        var onField = ReadArt.Of(light, isPicture, 40, "background = \"field\"");
        Assert.DoesNotContain("art-transparent", onField.Codes);
        Assert.Equal((ReadArt.Field, ReadArt.Paper), (onField.At(1, 5), onField.At(8, 5)));
        var onPaper = ReadArt.Of(dark, isPicture, 40, "background = \"paper\"");
        Assert.Equal((ReadArt.Paper, ReadArt.Field), (onPaper.At(1, 5), onPaper.At(8, 5)));
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Inverted_what_is_dark_shines(bool isPicture)
    {
        var drawn = ReadArt.Of(Drawing("#ffffff", "#000000", "#141414", "#e0452c"), isPicture, 40, "invert = true");
        Assert.Equal((ReadArt.Field, ReadArt.Paper, ReadArt.Paper), (drawn.At(1, 5), drawn.At(Dark, 5), drawn.At(Middle, 5)));
        Assert.True(ReadArt.IsNear("#e0452c", drawn.At(Light, 5)), drawn.At(Light, 5));
        var bare = ReadArt.Of(Head + "<rect x=\"5\" y=\"2\" width=\"9\" height=\"6\"/></svg>", isPicture, 40, "invert = true\nbackground = \"field\"");
        Assert.Equal((ReadArt.Field, ReadArt.Paper), (bare.At(1, 5), bare.At(8, 5)));
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Dark_drawn_on_paper_is_asked_about(bool isPicture) =>
        Assert.Contains("art-mostly-light", ReadArt.Of(Drawing("#ffffff", "#000000"), isPicture, 40, string.Empty).Codes);

    [Theory]
    [InlineData("#ffffff", "", "", "`--levels`", "`levels`")]
    [InlineData("#ffffff", "#000000", "art-mostly-light", "`--invert`", "`invert = true`")]
    public void Hints_name_options_where_there_is_no_desk_file_and_keys_where_there_is(string ground, string drawn, string code, string option, string key)
    {
        foreach (var isPicture in new[] { false, true })
        {
            var svg = drawn.Length == 0 ? Drawing(ground) : Drawing(ground, drawn);
            var (name, bytes) = isPicture ? ("art.png", ArtSamples.Rendered(svg, 945, 236)) : ("art.svg", Encoding.UTF8.GetBytes(svg));
            var keyed = ReadArt.Any(name, bytes, "width = 40").Findings.First(finding => finding.Code == (code.Length == 0 ? "art-one-tone" : code));
            Assert.Contains(key, keyed.Hint, StringComparison.Ordinal);
            Assert.DoesNotContain("lighter than the field", keyed.Message, StringComparison.Ordinal);
            var source = new Lampblack.Jobs.DeskSource(Lampblack.Jobs.Separate.DeskName, Lampblack.Jobs.Separate.Desk(new(name) { WidthMm = 80 }, [.. bytes]), new GivenFiles((name, bytes))) { IsMade = true };
            var found = Lampblack.Jobs.Build.Run(source, new("A4", "option", Parts: Lampblack.Jobs.BuildParts.None), new Progress<string>(), System.Threading.CancellationToken.None).Findings;
            Assert.True(found.Any(finding => finding.Code == keyed.Code), string.Join('\n', found.Select(finding => $"{finding.Code}: {finding.Message}")));
            var said = found.First(finding => finding.Code == keyed.Code);
            Assert.Contains(option, said.Hint, StringComparison.Ordinal);
            Assert.DoesNotContain(key, said.Hint, StringComparison.Ordinal);
        }
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void One_tone_is_refused_once(bool isPicture)
    {
        var svg = Drawing("#101010");
        var read = ReadArt.Any(isPicture ? "art.png" : "art.svg", isPicture ? ArtSamples.Rendered(svg, 945, 236) : Encoding.UTF8.GetBytes(svg), "width = 40");
        Assert.Null(read.Value);
        Assert.Equal("art-one-tone", Assert.Single(read.Findings, finding => finding.Severity != Severity.Note).Code);
    }

    [Theory]
    [InlineData("<defs><linearGradient id=\"g\"><stop stop-color=\"#fff\" stop-opacity=\"0\"/><stop offset=\"1\" stop-color=\"#fff\" stop-opacity=\"0\"/></linearGradient></defs>", "fill=\"url(#g)\"")]
    [InlineData("<defs><filter id=\"f\" x=\"-1\" y=\"-1\" width=\"3\" height=\"3\"><feGaussianBlur stdDeviation=\"0.2\"/></filter></defs>", "fill=\"#ffffff\" fill-opacity=\"0.004\" filter=\"url(#f)\"")]
    public void What_lies_under_dots_that_let_it_through_is_still_seen(string definitions, string paint)
    {
        var svg = $"{Head}{definitions}<rect width=\"40\" height=\"10\" fill=\"#0b1a3a\"/><rect x=\"10\" y=\"4\" width=\"4\" height=\"2\" fill=\"#ffffff\"/><rect x=\"4\" y=\"2\" width=\"30\" height=\"6\" {paint}/></svg>";
        var art = ReadArt.Of(svg, isPicture: false, 40, string.Empty);
        Assert.Equal(ReadArt.Field, art.At(6, 5));
        Assert.Equal(ReadArt.Field, art.At(30, 3));
        Assert.Equal(ReadArt.Paper, art.At(12, 5));

        // Field is all but the white block of 4 x 2 mm.
        Assert.InRange(art.Content.Account.FieldShare, 0.975, 0.985);
    }

    [Fact]
    public void A_drawing_that_is_one_picture_is_told_by_what_is_field_in_it()
    {
        var art = ReadArt.Of("art.svg", Encoding.UTF8.GetBytes(ArtSamples.OnePicture(Patches)), "width = 40");
        Assert.DoesNotContain("art-mostly-light", art.Codes);
        Assert.InRange(art.Content.Account.FieldShare, 0.4, 0.65);
        Assert.Equal(ReadArt.Field, art.At(1, 5));
        Assert.Equal(ReadArt.Paper, art.At(White, 5));
    }

    private static string Drawing(string field, params string[] patches) =>
        $"{Head}<rect width=\"40\" height=\"10\" fill=\"{field}\"/>{string.Concat(patches.Select((colour, index) => FormattableString.Invariant($"<rect x=\"{2 + (6 * index)}\" y=\"2\" width=\"5\" height=\"6\" fill=\"{colour}\"/>")))}</svg>";
}
