using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Lettering;

namespace Lampblack.VectorArt;

/// <content>Text, in the fonts at hand.</content>
internal sealed partial class Drawer
{
    private const double LargestCapitalMm = 2000;

    private void DrawText(SvgElement element, Frame frame, List<Node> into)
    {
        var box = new Lazy<(Spot From, Spot To)>(() => UserBox(element, frame) ?? default);
        foreach (var run in RunsOf(element, frame).Where(run => run.Style.Get("visibility") is not ("hidden" or "collapse")))
        {
            var own = frame with { Style = run.Style };
            var isPlain = UrlText.Read(run.Style.Get("fill")) is null && UrlText.Read(run.Style.Get("stroke")) is null;
            var painted = new Painted(run.Element, own, [], isPlain ? default : box.Value);
            if (PaintOf(painted, run.Style.Get("fill") ?? "black", run.Style.Share("fill-opacity")) is { } fill)
            {
                Put(painted, run.Shape, fill, into);
            }

            var stroke = run.Style.Get("stroke") ?? "none";
            if (stroke != "none" && StrokeOf(run.Element, own) is { } pen && PaintOf(painted, stroke, run.Style.Share("stroke-opacity")) is { } paint)
            {
                // The letters are chords already: back in the text's coordinates they are stroked as polygons.
                var back = frame.Map.Inverse();
                var trails = run.Shape.Borders().Select(border => TrailOf([.. border.Points.Select(point => back.Apply(new(point.XMm, point.YMm)))]));
                Put(painted, Outlines.Stroke(trails, pen with { Join = pen.Join == StrokeJoin.Miter ? StrokeJoin.Miter : pen.Join }, frame.Map, budget), paint, into);
            }
        }
    }

    private Region<ItemSpace> TextRegion(SvgElement element, Frame frame) => Region<ItemSpace>.Union(RunsOf(element, frame).Select(run => run.Shape));

    private static Trail TrailOf(List<Spot> corners)
    {
        var path = new PathBuilder();
        path.MoveTo(corners[0]);
        corners.Skip(1).ToList().ForEach(path.LineTo);
        path.Close();
        return path.Trails()[0];
    }

    /// <summary>Letters that follow each other in one look, set and put in their place, in mm.</summary>
    private List<(SvgElement Element, Style Style, Region<ItemSpace> Shape)> RunsOf(SvgElement element, Frame frame)
    {
        var letters = TextLetters.Of(element, frame.Style, frame.Viewport, budget, (child, style) => new(style, sheet.Declared(child)), TellUndrawnText);
        var set = new List<(Letter First, SetText? Text, double X, double Y, double TurnDegrees, bool StartsChunk)>();
        var (x, y) = (0.0, 0.0);
        var scale = frame.Map.Largest;
        for (var at = 0; at < letters.Count;)
        {
            var first = letters[at];
            var count = 1;
            while (at + count < letters.Count && letters[at + count].IsPlain && first.TurnDegrees == 0 && letters[at + count].Element == first.Element)
            {
                count++;
            }

            (x, y) = ((first.X ?? x) + first.Dx, (first.Y ?? y) + first.Dy);
            var text = SetText.Of(string.Concat(letters.Skip(at).Take(count).Select(letter => letter.Text)), first, scale, LargestCapitalMm, FontOf, log);
            set.Add((first, text, x, y, first.TurnDegrees, at == 0 || first.X is not null || first.Y is not null));
            x += text?.Width ?? 0;
            at += count;
        }

        var runs = new List<(SvgElement, Style, Region<ItemSpace>)>();
        for (var start = 0; start < set.Count;)
        {
            var end = start + 1;
            while (end < set.Count && !set[end].StartsChunk)
            {
                end++;
            }

            var width = set[end - 1].X + (set[end - 1].Text?.Width ?? 0) - set[start].X;
            var shift = set[start].First.Style.Get("text-anchor") switch { "middle" => -width / 2, "end" => -width, _ => 0 };
            for (; start < end; start++)
            {
                var (first, text, left, baseline, turn, _) = set[start];
                if (text is not null)
                {
                    var map = frame.Map * Matrix.Shift(left + shift, baseline + text.Drop) * Matrix.Turn(turn) * Matrix.Scale(1 / scale, -1 / scale);
                    Outlines.PointOf(map.Apply(default));
                    budget.Spend(text.Shape.CornerCount);
                    runs.Add((first.Element, first.Style, text.Shape.Map(new Affine<ItemSpace, ItemSpace>(map.A, map.C, map.E, map.B, map.D, map.F))));
                }
            }
        }

        return runs;
    }

    /// <summary>The first of the wished families that is at hand.</summary>
    private Typeface? FontOf(Letter letter)
    {
        var families = (letter.Style.Get("font-family") ?? string.Empty).Split(',').Select(name => name.Trim().Trim('"', '\'')).Where(name => name.Length > 0).ToList();
        var weight = letter.Style.Get("font-weight") switch
        {
            "bold" or "bolder" => 700,
            { } text => (int)(NumberReader.Single(text) ?? 400),
            _ => 400,
        };
        var suffix = weight switch { < 450 => "-regular", < 550 => "-medium", < 650 => "-semibold", _ => "-bold" };
        foreach (var family in families)
        {
            if ((options.Fonts.GetValueOrDefault(family) ?? BundledFonts.Find(family + suffix) ?? BundledFonts.Find(family)) is { } face)
            {
                if (letter.Style.Get("font-style") is "italic" or "oblique" && !options.Fonts.ContainsKey(family))
                {
                    log.Add(
                        Finding.Warn("svg-text", $"{letter.Element.Shown} is in italics, which {Shown.Quoted(family)} has not here; it stands upright.", "Convert the text to paths in the drawing program.", letter.Element.Place),
                        "italic " + family);
                }

                return face;
            }
        }

        var wished = families.Count == 0 ? "no font family" : $"the font {Shown.Quoted(families[0])}";
        log.Add(
            Finding.Stop(
                "svg-font",
                $"{letter.Element.Shown} is set in {wished}, which is not at hand; its text {Shown.Quoted(letter.Element.AllText().Trim())} is left out.",
                $"Convert text to paths (outlines) in the drawing program and export again, or set it in one of {Shown.List(BundledFonts.Names.Where(name => !name.Contains("-regular", StringComparison.Ordinal) && BundledFonts.Names.Contains(name + "-regular")))}.",
                letter.Element.Place),
            families.FirstOrDefault() ?? string.Empty);
        return null;
    }

    private void TellUndrawnText(SvgElement element)
    {
        if (element.Name is not ("title" or "desc" or "metadata"))
        {
            log.Add(
                Finding.Warn("svg-left-out", $"{element.Shown} within a text can't be drawn and is left out.", "Convert the text to paths in the drawing program.", element.Place),
                element.Name);
        }
    }
}
