using System;
using Lampblack.Geometry;

namespace Lampblack.VectorArt;

/// <summary>Where and how an element is drawn.</summary>
/// <param name="Map">From its parent's coordinates to mm of the drawing.</param>
/// <param name="Style">Its parent's look.</param>
/// <param name="Viewport">What percentages refer to.</param>
/// <param name="Clip">What is seen; null for all.</param>
/// <param name="Depth">How many elements it lies in, uses included.</param>
internal sealed record Frame(Matrix Map, Style Style, Viewport Viewport, Region<ItemSpace>? Clip, int Depth)
{
    /// <summary>The frame with less seen.</summary>
    public Frame Within(Region<ItemSpace> window) => this with { Clip = Clip is null ? window : Clip.Intersect(window) };

    public Frame Deeper() => Depth < Limits.Depth ? this with { Depth = Depth + 1 } : throw new TooMuchException(TooMuch.Depth);
}

/// <summary>A reference such as url(#dots).</summary>
internal static class UrlText
{
    /// <summary>What stands between the brackets, and what follows them; null where the text is no reference.</summary>
    public static (string Target, string Fallback)? Read(string? text)
    {
        if (text is null || !text.StartsWith("url(", StringComparison.OrdinalIgnoreCase) || text.IndexOf(')', StringComparison.Ordinal) is not (> 0 and var close))
        {
            return null;
        }

        return (text[4..close].Trim().Trim('"', '\'').Trim(), text[(close + 1)..].Trim());
    }
}
