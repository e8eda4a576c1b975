using System;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Lettering;

namespace Lampblack.VectorArt;

/// <summary>Letters that were set together.</summary>
/// <param name="Shape">Their shapes, in px of the text times the scale, y up, from the left end of their baseline.</param>
/// <param name="Width">Where the next letter stands, in px of the text.</param>
/// <param name="Drop">How far their baseline lies below the given place, in px of the text.</param>
internal sealed record SetText(Region<ItemSpace> Shape, double Width, double Drop)
{
    /// <summary>Sets letters; null where there is no font for them, or they have no size.</summary>
    /// <param name="text">The letters.</param>
    /// <param name="first">The first of them, whose look all have.</param>
    /// <param name="scale">How many mm a px of the text becomes: curves are followed for that size.</param>
    /// <param name="largestCapitalMm">Larger letters are too much.</param>
    /// <param name="fontOf">Finds the font.</param>
    /// <param name="log">Where findings go.</param>
    public static SetText? Of(string text, Letter first, double scale, double largestCapitalMm, Func<Letter, Typeface?> fontOf, FindingLog log)
    {
        var style = first.Style;
        if (style.FontSize <= 0 || string.IsNullOrWhiteSpace(text) && fontOf(first) is null || fontOf(first) is not { } face)
        {
            return null;
        }

        var capital = style.FontSize * face.CapHeightShare;
        if (capital * scale > largestCapitalMm)
        {
            throw new FarAwayException();
        }

        var spacing = style.Length("letter-spacing", 0, style.FontSize);
        var run = TextOutline.Line(face, text, capital * scale, spacing * scale);
        if (run.Missing.Length > 0)
        {
            log.Add(
                Finding.Warn("svg-letter", $"The font {Shown.Quoted(face.FamilyName)} lacks {Shown.List(run.Missing)} of the text {Shown.Quoted(text)}; left out.", "Convert the text to paths in the drawing program, or use a font that has them.", first.Element.Place),
                string.Concat(run.Missing));
        }

        Tell(first, log);

        // The space after the last letter counts too, as the next run follows it.
        return new(run.Shape, (run.WidthMm / scale) + spacing, DropOf(style, face));
    }

    /// <summary>Where the baseline lies, by names that CSS has for it; heights of the font itself where it has no other.</summary>
    private static double DropOf(Style style, Typeface face)
    {
        var shift = style.Get("baseline-shift") switch
        {
            null or "baseline" => 0,
            "sub" => 0.2 * style.FontSize,
            "super" => -0.4 * style.FontSize,
            { } text => -(Lengths.Read(text, style.FontSize, style.FontSize) ?? 0),
        };
        return shift + (style.FontSize * ((style.Get("dominant-baseline") ?? style.Get("alignment-baseline")) switch
        {
            "middle" => face.XHeightShare / 2,
            "central" => face.CapHeightShare / 2,
            "hanging" or "text-before-edge" or "text-top" => face.CapHeightShare,
            "mathematical" => 0.5,
            _ => 0,
        }));
    }

    private static void Tell(Letter first, FindingLog log)
    {
        var strange = first.Element["textLength"] is not null ? "a textLength"
            : first.Style.Get("text-decoration") is { } line && line != "none" ? $"the decoration {Shown.Quoted(line)}"
            : first.Style.Get("word-spacing") is { } words && words is not ("normal" or "0" or "0px") ? "a spacing of words"
            : first.Style.Get("writing-mode") is { } mode && !mode.StartsWith("lr", StringComparison.Ordinal) && mode is not ("horizontal-tb" or "rl" or "rl-tb") ? $"the direction {Shown.Quoted(mode)}"
            : null;
        if (strange is not null)
        {
            log.Add(
                Finding.Warn("svg-text", $"{first.Element.Shown} has {strange}, which is not done here; the text is set without.", "Convert the text to paths in the drawing program where that matters.", first.Element.Place),
                strange);
        }
    }
}
