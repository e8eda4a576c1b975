using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.PictureArt;
using Xunit;

namespace Lampblack.Tests.PictureArt;

public sealed class DoubtPictureTests
{
    [Fact]
    public void Doubtful_places_are_striped_in_two_signal_colours_and_the_rest_is_grey()
    {
        // A slow run from black to white: its middle could be either.
        var png = new PngBytes(400, 300, 0, 8, (x, y) => [Math.Clamp((x - 150) * 255 / 100, 0, 255)]);
        var (found, _) = Drawn.Find(png.Write());
        using var picture = DoubtPicture.Of(found, 200);
        Assert.Equal((400, 300, 0.5), (picture.WidthPx, picture.HeightPx, picture.MmPerDot));
        var seen = new HashSet<(byte, byte, byte)>();
        for (var x = 180; x < 210; x++)
        {
            if (found.Doubtful[x, 120])
            {
                seen.Add(picture[x, 120]);
            }
        }

        Assert.Equal(2, seen.Count);
        Assert.All(seen, dot => Assert.False(dot.Item1 == dot.Item2 && dot.Item2 == dot.Item3));

        var (black, white) = (picture[20, 20], picture[350, 20]);
        Assert.True(black.Red == black.Green && black.Green == black.Blue && black.Red < 10);
        Assert.True(white.Red == white.Green && white.Red > 240);
    }

    [Fact]
    public void A_single_doubtful_dot_of_a_large_picture_can_be_seen()
    {
        var png = new PngBytes(3300, 40, 0, 8, (x, y) => [x == 1000 && y == 20 ? 128 + 20 : x > 2000 ? 255 : 0]);
        var (found, _) = Drawn.Find(png.Write());
        Assert.Equal(1, found.Doubtful.Count());
        using var picture = DoubtPicture.Of(found, 100);
        Assert.InRange(picture.WidthPx, 1000, 1600);
        var coloured = Enumerable.Range(0, picture.WidthPx * picture.HeightPx)
            .Count(index => picture[index % picture.WidthPx, index / picture.WidthPx] is var dot && dot.Red != dot.Blue);
        Assert.InRange(coloured, 5, 9);
    }
}
