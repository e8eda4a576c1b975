using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Sheets;

/// <summary>What sheets to be looked at are drawn with: thin outlines, dashes, paragraphs, a bar to measure. Little toner, no field.</summary>
internal static class TrialDrawing
{
    /// <summary>Width of an outline; the true edge runs along its middle.</summary>
    public const double LineMm = 0.2;

    // Borders miss their curves by some micrometres already; with this, lines miss them by what small print may.
    private const double LeftOutMm = Resolution.SmallPrintErrorMm - Resolution.ChordErrorMm;

    /// <summary>More than a blank of the small print takes with the gaps and the kerning on both its sides, in heights of capitals: 0.37 at most between any two of its letters.</summary>
    private const double MostOfBlank = 0.5;

    private const double DashMm = 1.4;
    private const double GapMm = 0.9;
    private const double BarMm = 100;

    /// <summary>The outlines of a shape.</summary>
    public static Region<TSpace> Lines<TSpace>(Region<TSpace> shape, double widthMm = LineMm)
        where TSpace : struct, ISpace =>
        Region<TSpace>.Union(shape.WithFewerCorners(LeftOutMm).Borders().Select(border => Region<TSpace>.Stroke(border, widthMm, LineEnd.Flat)));

    /// <summary>The outlines of a shape in dashes: what lies behind something else.</summary>
    public static Region<TSpace> Dashes<TSpace>(Region<TSpace> shape)
        where TSpace : struct, ISpace =>
        Region<TSpace>.Union(shape.WithFewerCorners(LeftOutMm).Borders().SelectMany(Dashes).Select(dash => Region<TSpace>.Stroke(dash, LineMm, LineEnd.Flat)));

    /// <summary>A cross whose lines meet at a place.</summary>
    public static Region<TSpace> Cross<TSpace>(Point<TSpace> middle, double reachMm)
        where TSpace : struct, ISpace => Region<TSpace>.Union(
    [
        Region<TSpace>.Rectangle(new(middle.XMm - reachMm, middle.YMm - (LineMm / 2), 2 * reachMm, LineMm)),
        Region<TSpace>.Rectangle(new(middle.XMm - (LineMm / 2), middle.YMm - reachMm, LineMm, 2 * reachMm)),
    ]);

    /// <summary>A bar of exactly 100 mm with a mark every 10, its foot in the middle of the sheet's width; the outer edges of the end marks are 100 mm apart.</summary>
    public static Region<SheetSpace> Bar(double middleMm, double footMm, Side side)
    {
        var left = middleMm - (BarMm / 2);
        var marks = Enumerable.Range(0, 11).Select(step =>
        {
            var from = step == 0 ? left : step == 10 ? left + BarMm - LineMm : left + (10 * step) - (LineMm / 2);
            return Region<SheetSpace>.Rectangle(new(from, footMm, LineMm, step % 5 == 0 ? 2.4 : 1.4));
        });
        var label = new Point<SheetSpace>(middleMm + ((side == Side.Front ? 1 : -1) * ((BarMm / 2) + 7)), footMm + 1);
        return Region<SheetSpace>.Union(
            [Region<SheetSpace>.Rectangle(new(left, footMm, BarMm, LineMm)), .. marks, SheetText.Centred("100 mm", 2, label, side)]);
    }

    /// <summary>A text in lines that are not wider than allowed; a word that is wider alone is parted.</summary>
    public static List<string> Wrapped(string text, double heightMm, double widthMm)
    {
        var lines = new List<string>();
        var atMostMm = 0.0;
        foreach (var word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            // A line that is measured anew with every word is shaped again and again: as long as its words one by one leave room for certain, they are enough.
            var wordMm = SheetText.WidthMm(word, heightMm);
            var withWordMm = atMostMm + wordMm + (heightMm * MostOfBlank);
            if (lines.Count > 0 && (withWordMm <= widthMm || SheetText.WidthMm($"{lines[^1]} {word}", heightMm) <= widthMm))
            {
                lines[^1] += " " + word;
                atMostMm = withWordMm;
            }
            else if (wordMm <= widthMm)
            {
                lines.Add(word);
                atMostMm = wordMm;
            }
            else
            {
                lines.AddRange(Parts(word));
                atMostMm = widthMm;
            }
        }

        return lines;

        // A word wider than a line, such as a long id, is parted after its last dot, stroke or hyphen that has room, else anywhere.
        IEnumerable<string> Parts(string word)
        {
            while (word.Length > 1 && SheetText.WidthMm(word, heightMm) > widthMm)
            {
                var fits = Enumerable.Range(1, word.Length - 1).LastOrDefault(length => SheetText.WidthMm(word[..length], heightMm) <= widthMm, 1);
                var parted = word.LastIndexOfAny(['-', '.', '/'], fits - 1) + 1;
                var length = parted > 0 ? parted : char.IsHighSurrogate(word[fits - 1]) ? fits + 1 : fits;
                yield return word[..length];
                word = word[length..];
            }

            if (word.Length > 0)
            {
                yield return word;
            }
        }
    }

    /// <summary>A paragraph that hangs from a height; its lines start at the left, 1.9 heights of capitals apart.</summary>
    /// <returns>The letters, and where the next paragraph can hang.</returns>
    public static (Region<SheetSpace> Shape, double BelowMm) Paragraph(string text, double heightMm, double leftMm, double topMm, double widthMm)
    {
        var shapes = new List<Region<SheetSpace>>();
        foreach (var line in Wrapped(text, heightMm, widthMm))
        {
            shapes.Add(SheetText.Starting(line, heightMm, new(leftMm, topMm - heightMm, widthMm, heightMm), Side.Front));
            topMm -= heightMm * 1.9;
        }

        return (Region<SheetSpace>.Union(shapes), topMm);
    }

    /// <summary>The dashes along a closed line, each with the corners that it goes around.</summary>
    private static IEnumerable<Outline<TSpace>> Dashes<TSpace>(Outline<TSpace> border)
        where TSpace : struct, ISpace
    {
        var (drawing, leftMm) = (true, DashMm);
        var dash = new List<Point<TSpace>> { border.Points[0] };
        for (var index = 0; index < border.Points.Length; index++)
        {
            var (from, to) = (border.Points[index], border.Points[(index + 1) % border.Points.Length]);
            var lengthMm = from.DistanceMm(to);
            var doneMm = 0.0;
            while (lengthMm - doneMm > leftMm)
            {
                doneMm += leftMm;
                var share = doneMm / lengthMm;
                var at = new Point<TSpace>(from.XMm + (share * (to.XMm - from.XMm)), from.YMm + (share * (to.YMm - from.YMm)));
                if (drawing)
                {
                    dash.Add(at);
                    yield return new([.. dash], Closed: false);
                }

                dash = [at];
                (drawing, leftMm) = (!drawing, drawing ? GapMm : DashMm);
            }

            leftMm -= lengthMm - doneMm;
            if (drawing)
            {
                dash.Add(to);
            }
        }

        if (drawing && dash.Count > 1)
        {
            yield return new([.. dash], Closed: false);
        }
    }
}
