using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;

namespace Lampblack.Jobs;

/// <summary>A panel's corners as the maker read them off a photo.</summary>
internal static class PhotoCorners
{
    private const string Hint = "four places, each as x,y in the photo's pixels from its upper left: the panel's upper left corner, upper right, lower right, lower left, such as \"210,180 3760,240 3700,2500 260,2440\"";

    /// <summary>Reads <c>x,y x,y x,y x,y</c>; nothing where nothing was told.</summary>
    public static Checked<ImmutableArray<(double X, double Y)>> Read(string? text)
    {
        if (text is null)
        {
            return new([], []);
        }

        var words = text.Split([' ', ';', '\t'], StringSplitOptions.RemoveEmptyEntries);
        ImmutableArray<(double X, double Y)> corners = [.. words.Select(Corner).OfType<(double X, double Y)>()];
        if (words.Length != 4 || corners.Length != 4)
        {
            return new([], [Finding.Stop("photo-corners", $"{Shown.Quoted(text)} is not the four corners of a panel", Hint)]);
        }

        // Turning the same way at all four: no corner lies within the others, and no two are changed about.
        var turns = Enumerable.Range(0, 4).Select(index => Turn(corners[index], corners[(index + 1) % 4], corners[(index + 2) % 4])).ToList();
        return turns.TrueForAll(turn => turn > 0)
            ? new(corners, [])
            : new([], [Finding.Stop("photo-corners", $"the corners {Shown.Quoted(text)} do not go round a panel clockwise", Hint)]);
    }

    private static (double X, double Y)? Corner(string word) => word.Split(',') is [var left, var right]
        && double.TryParse(left, NumberStyles.Float, CultureInfo.InvariantCulture, out var x) && double.TryParse(right, NumberStyles.Float, CultureInfo.InvariantCulture, out var y)
        && Math.Abs(x) < 1e6 && Math.Abs(y) < 1e6
        ? (x, y)
        : null;

    private static double Turn((double X, double Y) a, (double X, double Y) b, (double X, double Y) c) => ((b.X - a.X) * (c.Y - b.Y)) - ((b.Y - a.Y) * (c.X - b.X));
}
