using System;

namespace Lampblack.VectorArt;

/// <summary>The attribute viewBox.</summary>
internal readonly record struct ViewBox(double X, double Y, double Width, double Height)
{
    /// <summary>The box; null where the text is none, or it has no size.</summary>
    public static ViewBox? Read(string? text) =>
        text is not null && NumberReader.List(text) is [var x, var y, > 0 and var width, > 0 and var height] ? new(x, y, width, height) : null;

    /// <summary>How the box is put into a viewport (SVG 1.1, 7.8).</summary>
    /// <param name="into">Size of the viewport.</param>
    /// <param name="aspect">The attribute preserveAspectRatio.</param>
    public Matrix Fit(Viewport into, string? aspect)
    {
        var words = (aspect ?? string.Empty).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        var at = words.Length > 0 && words[0] == "defer" ? 1 : 0;
        var align = words.Length > at ? words[at] : "xMidYMid";
        var (scaleX, scaleY) = (into.Width / Width, into.Height / Height);
        if (align != "none")
        {
            scaleX = scaleY = words.Length > at + 1 && words[at + 1] == "slice" ? Math.Max(scaleX, scaleY) : Math.Min(scaleX, scaleY);
        }

        return new(scaleX, 0, 0, scaleY, Place(align, "x", into.Width - (Width * scaleX)) - (X * scaleX), Place(align, "Y", into.Height - (Height * scaleY)) - (Y * scaleY));
    }

    private static double Place(string align, string axis, double rest) =>
        align.Contains(axis + "Min", StringComparison.Ordinal) ? 0 : align.Contains(axis + "Max", StringComparison.Ordinal) ? rest : align == "none" ? 0 : rest / 2;
}
