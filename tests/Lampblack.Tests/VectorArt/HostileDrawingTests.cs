using System;
using System.Collections.Generic;
using System.Diagnostics;
using System.IO;
using System.IO.Compression;
using System.Linq;
using System.Text;
using Lampblack.Findings;
using Lampblack.VectorArt;
using Xunit;

namespace Lampblack.Tests.VectorArt;

/// <summary>Files made to hurt, or broken on their way: each gives one finding that says what to do, soon and in little room.</summary>
public sealed class HostileDrawingTests
{
    private const string Start = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"10mm\" height=\"10mm\"";

    private static readonly Dictionary<string, (string Code, Func<byte[]> File)> Files = new()
    {
        ["nothing at all"] = ("svg-not-svg", () => []),
        ["plain words"] = ("svg-not-svg", () => Bytes("a drawing of a kiln")),
        ["a PNG"] = ("svg-not-svg", () => [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A, 0]),
        ["a web page"] = ("svg-not-svg", () => Bytes("<html><body><svg/></body></html>")),
        ["another XML"] = ("svg-not-svg", () => Bytes("<svg xmlns=\"urn:other\"/>")),
        ["packed"] = ("svg-packed", Packed),
        ["too large"] = ("svg-too-much", () => Bytes(Start + ">" + new string(' ', 20_000_001) + "</svg>")),
        ["cut off"] = ("svg-broken", () => Bytes(Start + "><path d=\"M0 0h10v10z\"/><rect wid")),
        ["a tag not closed"] = ("svg-broken", () => Bytes(Start + "><g><rect width=\"1\" height=\"1\"/></svg>")),
        ["no UTF-8"] = ("svg-broken", () => [.. Bytes(Start + "><text>"), 0xC3, 0x28, .. Bytes("</text></svg>")]),
        ["a code page"] = ("svg-broken", () => Bytes("<?xml version=\"1.0\" encoding=\"EBCDIC-CP-BE\"?>" + Start + "/>")),
        ["an entity nobody knows"] = ("svg-broken", () => Bytes(Start + "><text>&boom;</text></svg>")),
        ["a billion laughs"] = ("svg-declarations", () => Bytes("<!DOCTYPE svg [<!ENTITY a \"ha\"><!ENTITY b \"&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;\"><!ENTITY c \"&b;&b;&b;&b;&b;&b;&b;&b;\">]>" + Start + "><text>&c;&c;&c;</text></svg>")),
        ["an entity from a file"] = ("svg-declarations", () => Bytes("<?xml version=\"1.0\"?><!-- x --><!DOCTYPE svg [<!ENTITY x SYSTEM \"file:///etc/hostname\">]>" + Start + "><text>&x;</text></svg>")),
        ["a type from the network"] = ("svg-doctype", () => Bytes("<!DOCTYPE svg PUBLIC \"-//W3C//DTD SVG 1.1//EN\" \"http://192.0.2.1/svg11.dtd\">" + Start + Square)),
        ["a picture from the disk"] = ("svg-external", () => Bytes(Start + "><image href=\"file:///etc/hostname\" width=\"5\" height=\"5\"/></svg>")),
        ["parts from the network"] = ("svg-external", () => Bytes(Start + "><use href=\"http://192.0.2.1/a.svg#b\"/><rect width=\"9\" height=\"9\" fill=\"url(http://192.0.2.1/c.svg#d)\"/></svg>")),
        ["a style sheet from the network"] = ("svg-external", () => Bytes("<?xml-stylesheet href=\"http://192.0.2.1/a.css\"?>" + Start + Square)),
        ["an imported style sheet"] = ("svg-external", () => Bytes(Start + "><style>@import url(http://192.0.2.1/a.css);</style>" + Square[1..])),
        ["size that is no number"] = ("svg-size", () => Bytes("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"NaN\" height=\"10\"" + Square)),
        ["size below nothing"] = ("svg-size", () => Bytes("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"-10mm\" height=\"10mm\"" + Square)),
        ["size of a planet"] = ("svg-size", () => Bytes("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"1e12mm\" height=\"10mm\"" + Square)),
        ["size of an atom"] = ("svg-size", () => Bytes("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"1e-9mm\" height=\"10mm\"" + Square)),
        ["a window without size"] = ("svg-size", () => Bytes(Start + " viewBox=\"0 0 0 10\"" + Square)),
        ["a window of infinity"] = ("svg-size", () => Bytes(Start + " viewBox=\"0 0 1e999 10\"" + Square)),
        ["coordinates beyond all"] = ("svg-far", () => Bytes(Start + "><path d=\"M0 0L1e200 1e200V3z\"/></svg>")),
        ["numbers that overflow"] = ("svg-value", () => Bytes(Start + "><rect width=\"1e999\" height=\"5\"/><path d=\"M0 0h4v4z\"/></svg>")),
        ["a thousand groups deep"] = ("svg-too-much", () => Bytes(Start + ">" + Repeat("<g>", 100_000) + Repeat("</g>", 100_000) + "</svg>")),
        ["deep in another language"] = ("svg-too-much", () => Bytes(Start + "><x:a xmlns:x=\"urn:x\">" + Repeat("<x:a>", 100_000) + Repeat("</x:a>", 100_000) + "</x:a></svg>")),
        ["many elements"] = ("svg-too-much", () => Bytes(Start + ">" + Repeat("<g/>", 200_001) + "</svg>")),
        ["a use of itself"] = ("svg-circle", () => Bytes(Start + "><g id=\"a\"><use href=\"#a\"/><path d=\"M0 0h4v4z\"/></g></svg>")),
        ["uses in a ring"] = ("svg-circle", () => Bytes(Start + "><g id=\"a\"><use href=\"#b\"/></g><g id=\"b\"><use href=\"#a\"/></g></svg>")),
        ["a clip path by itself"] = ("svg-circle", () => Bytes(Start + "><clipPath id=\"c\"><rect width=\"4\" height=\"4\" clip-path=\"url(#c)\"/></clipPath><rect width=\"5\" height=\"5\" clip-path=\"url(#c)\"/><path d=\"M0 0h4v4z\"/></svg>")),
        ["a pattern of itself"] = ("svg-circle", () => Bytes(Start + "><pattern id=\"p\" width=\"1\" height=\"1\"><rect width=\"9\" height=\"9\" fill=\"url(#p)\"/></pattern><rect width=\"9\" height=\"9\" fill=\"url(#p)\"/><path d=\"M0 0h4v4z\"/></svg>")),
        ["a bomb of uses"] = ("svg-too-much", () => Bytes(Start + "><defs><path id=\"a0\" d=\"M0 0h1v1z\"/>" + string.Concat(Enumerable.Range(1, 30).Select(index => $"<g id=\"a{index}\">" + Repeat($"<use href=\"#a{index - 1}\"/>", 10) + "</g>")) + "</defs><use href=\"#a30\"/></svg>")),
        ["a bomb of clip paths"] = ("svg-too-much", () => Bytes(Start + "><defs>" + string.Concat(Enumerable.Range(1, 30).Select(index => $"<clipPath id=\"c{index}\">" + Repeat($"<rect width=\"5\" height=\"5\" clip-path=\"url(#c{index - 1})\"/>", 10) + "</clipPath>")) + "<clipPath id=\"c0\"><rect width=\"5\" height=\"5\"/></clipPath></defs><rect width=\"5\" height=\"5\" clip-path=\"url(#c30)\"/></svg>")),
        ["a bomb of patterns"] = ("svg-too-much", () => Bytes(Start + "><defs>" + string.Concat(Enumerable.Range(1, 30).Select(index => $"<pattern id=\"c{index}\" width=\"1\" height=\"1\">" + Repeat($"<rect width=\"5\" height=\"5\" fill=\"url(#c{index - 1})\"/>", 10) + "</pattern>")) + "<pattern id=\"c0\" width=\"1\" height=\"1\"><rect width=\"5\" height=\"5\"/></pattern></defs><rect width=\"5\" height=\"5\" fill=\"url(#c30)\"/></svg>")),
        ["millions of corners"] = ("svg-too-much", () => Bytes(Start + "><path d=\"M0 0" + Repeat("h1v1", 1_000_000) + "\"/></svg>")),
        ["dashes like dust"] = ("svg-too-much", () => Bytes(Start + "><path d=\"M0 0h30\" stroke=\"#000\" stroke-dasharray=\"1e-7\"/></svg>")),
        ["a scribble"] = ("svg-too-much", () => Bytes(Start + "><path d=\"M0 0L" + string.Join(' ', Enumerable.Range(0, 100_000).Select(index => FormattableString.Invariant($"{index * 7919L % 10007 / 300.0:0.###},{index * 104729L % 10009 / 300.0:0.###}"))) + "\"/></svg>")),
        ["a small scribble of long lines"] = ("svg-too-much", () => Bytes(Start + "><path d=\"M0 0L" + string.Join(' ', Enumerable.Range(0, 3_000).Select(index => FormattableString.Invariant($"{index * 7919L % 10007 / 300.0:0.###},{index * 104729L % 10009 / 300.0:0.###}"))) + "\"/></svg>")),
        ["a fat pen over a zigzag"] = ("svg-too-much", () => Bytes(Start + "><path fill=\"none\" stroke=\"#000\" stroke-width=\"5\" d=\"M0 0" + Repeat("h1v.001h-1v.001", 5_000) + "\"/></svg>")),
        ["a page of morphology"] = ("svg-dots", () => Bytes("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"1000mm\" height=\"1000mm\"><filter id=\"f\"><feMorphology operator=\"dilate\" radius=\"500\"/></filter><rect width=\"3000\" height=\"3000\" filter=\"url(#f)\"/></svg>")),
        ["four hundred blurs of a page"] = ("svg-too-much", () => Bytes("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"210mm\" height=\"297mm\"><filter id=\"f\"><feGaussianBlur stdDeviation=\"4\"/></filter>" + Repeat("<rect width=\"100%\" height=\"100%\" fill-opacity=\".3\" filter=\"url(#f)\"/>", 400) + "</svg>")),
        ["rules without end"] = ("svg-too-much", () => Bytes(Start + "><style>" + Repeat("g *{fill:red}", 2_000) + "</style>" + Repeat("<rect/>", 100_000) + "</svg>")),
        ["a picture bomb"] = ("svg-picture", () => Bytes(Start + "><path d=\"M0 0h4v4z\"/><image width=\"5\" height=\"5\" href=\"data:image/png;base64," + Convert.ToBase64String(PngHeader(60_000, 60_000)) + "\"/></svg>")),
        ["a picture that is none"] = ("svg-picture", () => Bytes(Start + "><path d=\"M0 0h4v4z\"/><image width=\"5\" height=\"5\" href=\"data:image/png;base64,AAAA\"/></svg>")),
        ["all invisible"] = ("svg-empty", () => Bytes(Start + "><rect x=\"900\" width=\"5\" height=\"5\"/></svg>")),
    };

    private const string Square = "><path d=\"M0 0h4v4z\"/></svg>";

    public static TheoryData<string> Names => [.. Files.Keys];

    [Theory]
    [MemberData(nameof(Names))]
    public void A_hostile_file_gives_one_finding_with_its_place_and_a_hint(string name)
    {
        var (code, make) = Files[name];
        var bytes = make();
        GC.Collect();
        var before = GC.GetTotalAllocatedBytes(precise: false);
        var clock = Stopwatch.StartNew();
        var read = SvgReader.Read(bytes, "art.svg", new());
        TestContext.Current.SendDiagnosticMessage($"{name}: {clock.ElapsedMilliseconds} ms, {(GC.GetTotalAllocatedBytes(precise: false) - before) / 1_000_000} MB allocated in all");
        var finding = Assert.Single(read.Findings);
        Assert.Equal(code, finding.Code);
        Assert.NotEmpty(finding.Hint);
        Assert.Equal("art.svg", finding.Span!.File);
        if (finding.Severity == Severity.Stop && code is not ("svg-external" or "svg-circle" or "svg-picture"))
        {
            Assert.Null(read.Value);
        }
    }

    [Fact]
    public void What_is_only_a_link_for_readers_is_no_reference() =>
        Svg.Clean("""<a href="http://192.0.2.1/"><rect width="5" height="5"/></a>""");

    [Fact]
    public void Hundreds_of_references_outside_are_one_finding_that_counts_them()
    {
        var file = Svg.Page(Repeat("<image href=\"a.png\"/>", 500));
        var finding = Svg.OneFinding(file);
        Assert.Contains("499 more", finding.Message, StringComparison.Ordinal);
        Assert.Equal((1, file.IndexOf("<image", StringComparison.Ordinal) + 1), (finding.Span!.Line, finding.Span.Column));
    }

    private static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text);

    private static string Repeat(string text, int count) => new StringBuilder(text.Length * count).Insert(0, text, count).ToString();

    private static byte[] Packed()
    {
        var packed = new MemoryStream();
        using (var gzip = new GZipStream(packed, CompressionMode.Compress, leaveOpen: true))
        {
            gzip.Write(Bytes(Start + Square));
        }

        return packed.ToArray();
    }

    private static byte[] PngHeader(int width, int height)
    {
        byte[] chunk = [.. "IHDR"u8, .. BigEndian(width), .. BigEndian(height), 8, 2, 0, 0, 0];
        var crc = 0xFFFFFFFFu;
        foreach (var value in chunk)
        {
            crc ^= value;
            for (var bit = 0; bit < 8; bit++)
            {
                crc = (crc & 1) == 0 ? crc >> 1 : (crc >> 1) ^ 0xEDB88320;
            }
        }

        return [0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A, .. BigEndian(13), .. chunk, .. BigEndian((int)~crc), .. BigEndian(0), .. "IDAT"u8, 0x35, 0xAF, 0x06, 0x1E];
    }

    private static byte[] BigEndian(int number) => [(byte)(number >> 24), (byte)(number >> 16), (byte)(number >> 8), (byte)number];
}
