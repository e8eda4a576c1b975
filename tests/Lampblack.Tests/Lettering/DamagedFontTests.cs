using System;
using System.Diagnostics;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Lettering;
using Xunit;

namespace Lampblack.Tests.Lettering;

/// <summary>Fonts with random damage, always the same ones: read or refused, but never a crash and never a wait.</summary>
public sealed class DamagedFontTests(ITestOutputHelper output)
{
    private const string Text = "AVg8ΩéfiÄ½ R5°";

    [Theory]
    [InlineData("saira-condensed-medium", 700)]
    [InlineData("barlow-condensed-medium", 700)]
    [InlineData("overpass-medium", 600)]
    public void Damage_anywhere_in_a_font_does_no_harm(string name, int rounds)
    {
        var font = FontBytes.Of(name);
        var random = new Random(20_251);
        var (read, slowestMs) = (0, 0.0);
        for (var round = 0; round < rounds; round++)
        {
            var clock = Stopwatch.StartNew();
            read += Try(Damaged(font, random, round)) ? 1 : 0;
            slowestMs = Math.Max(slowestMs, clock.Elapsed.TotalMilliseconds);
        }

        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name}: {read} of {rounds} still read, slowest {slowestMs:F0} ms"));

        // Otherwise the damage would only ever be caught by the directory check, and nothing behind it be tried.
        Assert.InRange(read, rounds / 4, rounds - 1);
    }

    [Fact]
    public void A_font_cut_off_anywhere_does_no_harm()
    {
        var font = FontBytes.Of("saira-condensed-medium");
        var woff = FontBytes.AsWoff(font);
        for (var length = 0; length < woff.Length; length += 701)
        {
            Assert.False(Try(woff[..length]));
            Assert.False(Try(font[..length]));
        }
    }

    [Fact]
    public void Damage_in_a_packed_font_does_no_harm()
    {
        var woff = FontBytes.AsWoff(FontBytes.Of("saira-condensed-medium"));
        var random = new Random(7);
        for (var round = 0; round < 200; round++)
        {
            Try(Damaged(woff, random, round));
        }
    }

    private static byte[] Damaged(byte[] font, Random random, int round)
    {
        var bytes = (byte[])font.Clone();
        switch (round % 4)
        {
            case 0: // a few bytes anywhere
                for (var count = random.Next(1, 30); count > 0; count--)
                {
                    bytes[random.Next(bytes.Length)] = (byte)random.Next(256);
                }

                break;
            case 1: // in the headers
                bytes[random.Next(Math.Min(400, bytes.Length))] ^= (byte)(1 << random.Next(8));
                break;
            case 2: // a stretch of noise
                random.NextBytes(bytes.AsSpan(random.Next(300, bytes.Length - 4000), random.Next(10, 4000)));
                break;
            default: // a table pointing at other bytes, or extreme values inside one
                var entry = 12 + (16 * random.Next(Math.Max(1, (int)bytes[5])));
                if (random.Next(2) == 0)
                {
                    bytes[entry + 10] = (byte)random.Next(256);
                }
                else
                {
                    var place = (bytes[entry + 9] << 16) | (bytes[entry + 10] << 8) | bytes[entry + 11];
                    for (var count = 20; count > 0 && place + 200 < bytes.Length; count--)
                    {
                        bytes[place + random.Next(200)] = (byte)(random.Next(2) * 255);
                    }
                }

                break;
        }

        return bytes;
    }

    private static bool Try(byte[] bytes)
    {
        var reading = Typeface.FromBytes("damaged", FontBytes.Frozen(bytes), span: null);
        if (reading.Value is not { } face)
        {
            Assert.Equal("font-unreadable", Assert.Single(reading.Findings).Code);
            return false;
        }

        Assert.DoesNotContain(reading.Findings, finding => finding.Severity == Severity.Stop);
        var run = TextOutline.Line(face, Text, 4, letterSpacingMm: 0.1);
        Assert.True(double.IsFinite(run.WidthMm));
        Assert.True(run.Shape.Borders().SelectMany(border => border.Points).All(point => double.IsFinite(point.XMm) && double.IsFinite(point.YMm)));
        return true;
    }
}
