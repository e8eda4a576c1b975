using System;
using System.Globalization;
using System.Text;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>Small line drawings of what hands do: places are mm from the upper left corner, y points down. Nothing is told by colour alone: every fill has its line, every verdict its sign and its word.</summary>
internal sealed class ActPen
{
    public const string Ink = "#111";
    public const string Acrylic = "#dfe8ea";
    public const string Black = "#2a2722";
    public const string Paper = "#fff";
    public const string Lamp = "#f6dd9a";
    public const string Wood = "#eadfc9";
    public const string Metal = "#c9c9c6";

    /// <summary>Letters that can be read on paper and, as wide as a phone, there.</summary>
    public const double LetterMm = 3.6;

    // A letter of the usual sans-serif is about so wide, against its size. From memory.
    private const double LetterShare = 0.62;
    private const double VerdictMm = 3.2;

    // Letters reach so far below their line. From memory.
    private const double BelowShare = 0.25;
    private const double BelowMm = 0.8;
    private const double LineMm = 0.4;

    private readonly StringBuilder _drawing = new();
    private readonly double _widthMm;
    private double _heightMm;

    public ActPen(double widthMm, double heightMm) => (_widthMm, _heightMm) = (widthMm, heightMm + 2);

    /// <summary>The whole drawing.</summary>
    /// <param name="seen">What it shows, for those who don't see it.</param>
    /// <param name="caption">What stands below it, as markup.</param>
    public BookPicture Picture(string seen, string caption) => new(
        string.Create(CultureInfo.InvariantCulture, $"<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" viewBox=\"0 0 {_widthMm:0.##} {_heightMm:0.##}\"><title>{Text(seen)}</title><g fill=\"none\" stroke=\"{Ink}\" stroke-width=\"{LineMm}\" font-family=\"sans-serif\">{_drawing}</g></svg>"),
        caption,
        _widthMm);

    public ActPen Line(double x1Mm, double y1Mm, double x2Mm, double y2Mm, double lineMm = LineMm, bool isDashed = false, string ink = Ink)
    {
        _drawing.Append(CultureInfo.InvariantCulture, $"<path d=\"M{x1Mm:0.##} {y1Mm:0.##}L{x2Mm:0.##} {y2Mm:0.##}\"{Stroke(lineMm, isDashed)}{(ink == Ink ? string.Empty : $" stroke=\"{ink}\"")}/>");
        return this;
    }

    /// <summary>A path in the words of SVG.</summary>
    public ActPen Path(string path, string fill = "none", double lineMm = LineMm, bool isDashed = false, string ink = Ink)
    {
        _drawing.Append(CultureInfo.InvariantCulture, $"<path d=\"{path}\"{Fill(fill)}{Stroke(lineMm, isDashed)}{(ink == Ink ? string.Empty : $" stroke=\"{ink}\"")}/>");
        return this;
    }

    /// <summary>A path whose numbers are written as SVG reads them.</summary>
    public ActPen Trace(FormattableString path, string fill = "none", double lineMm = LineMm, bool isDashed = false) =>
        Path(FormattableString.Invariant(path), fill, lineMm, isDashed);

    public ActPen Box(double leftMm, double topMm, double widthMm, double heightMm, string fill = "none", double lineMm = LineMm, double cornerMm = 0, bool isDashed = false)
    {
        _drawing.Append(CultureInfo.InvariantCulture, $"<rect x=\"{leftMm:0.##}\" y=\"{topMm:0.##}\" width=\"{widthMm:0.##}\" height=\"{heightMm:0.##}\"{(cornerMm > 0 ? string.Create(CultureInfo.InvariantCulture, $" rx=\"{cornerMm:0.##}\"") : string.Empty)}{Fill(fill)}{Stroke(lineMm, isDashed)}/>");
        return this;
    }

    public ActPen Circle(double xMm, double yMm, double radiusMm, string fill = "none", double lineMm = LineMm, bool isDashed = false)
    {
        _drawing.Append(CultureInfo.InvariantCulture, $"<circle cx=\"{xMm:0.##}\" cy=\"{yMm:0.##}\" r=\"{radiusMm:0.##}\"{Fill(fill)}{Stroke(lineMm, isDashed)}/>");
        return this;
    }

    /// <summary>Where a hole's middle is to be.</summary>
    public ActPen Cross(double xMm, double yMm, double armMm) => Line(xMm - armMm, yMm, xMm + armMm, yMm, 0.25).Line(xMm, yMm - armMm, xMm, yMm + armMm, 0.25);

    /// <summary>Words on one line.</summary>
    public ActPen Words(double xMm, double yMm, string words, bool isBold = false, string anchor = "start", double sizeMm = LetterMm, string ink = Ink)
    {
        // No letter touches the drawing's lower edge, nor what stands below it.
        _heightMm = Math.Max(_heightMm, yMm + (sizeMm * BelowShare) + BelowMm);
        _drawing.Append(CultureInfo.InvariantCulture, $"<text x=\"{xMm:0.##}\" y=\"{yMm:0.##}\" font-size=\"{sizeMm:0.##}\" fill=\"{ink}\" stroke=\"none\"{(anchor == "start" ? string.Empty : $" text-anchor=\"{anchor}\"")}{(isBold ? " font-weight=\"bold\"" : string.Empty)}>{Text(words)}</text>");
        return this;
    }

    /// <summary>Words of the maker's within a width: what is too long ends in an ellipsis.</summary>
    public static string Fitting(string words, double widthMm, double sizeMm = LetterMm)
    {
        var most = MostLetters(widthMm, sizeMm);
        var clean = new StringInfo(words);
        return clean.LengthInTextElements <= most ? words : clean.SubstringByTextElements(0, Math.Max(1, most - 1)) + "…";
    }

    private static int MostLetters(double widthMm, double sizeMm) => (int)(widthMm / (sizeMm * LetterShare));

    /// <summary>A name on one line round its middle; on two, broken behind a hyphen, where one is too narrow.</summary>
    public ActPen Folded(double xMm, double yMm, string name, double widthMm, double sizeMm)
    {
        var most = MostLetters(widthMm, sizeMm);
        var cut = name.Length <= most ? -1 : name.LastIndexOf('-', Math.Min(most, name.Length) - 1);
        return cut <= 0
            ? Words(xMm, yMm, Fitting(name, widthMm, sizeMm), anchor: "middle", sizeMm: sizeMm)
            : Words(xMm, yMm, name[..(cut + 1)], anchor: "middle", sizeMm: sizeMm).Words(xMm, yMm + (1.2 * sizeMm), Fitting(name[(cut + 1)..], widthMm, sizeMm), anchor: "middle", sizeMm: sizeMm);
    }

    /// <summary>An arrow to its second end.</summary>
    public ActPen Arrow(double x1Mm, double y1Mm, double x2Mm, double y2Mm, double lineMm = 0.6)
    {
        var far = Math.Max(1e-9, Math.Sqrt(((x2Mm - x1Mm) * (x2Mm - x1Mm)) + ((y2Mm - y1Mm) * (y2Mm - y1Mm))));
        var (dx, dy) = ((x2Mm - x1Mm) / far, (y2Mm - y1Mm) / far);
        const double HeadMm = 2.2;
        var (backX, backY) = (x2Mm - (HeadMm * dx), y2Mm - (HeadMm * dy));
        return Line(x1Mm, y1Mm, backX, backY, lineMm)
            .Trace($"M{x2Mm:0.##} {y2Mm:0.##}L{backX - (0.4 * HeadMm * dy):0.##} {backY + (0.4 * HeadMm * dx):0.##}L{backX + (0.4 * HeadMm * dy):0.##} {backY - (0.4 * HeadMm * dx):0.##}z", Ink, 0.2);
    }

    /// <summary>A length between two places, with arrows at both.</summary>
    public ActPen Measure(double x1Mm, double y1Mm, double x2Mm, double y2Mm)
    {
        var (x, y) = ((x1Mm + x2Mm) / 2, (y1Mm + y2Mm) / 2);
        return Arrow(x, y, x1Mm, y1Mm, 0.25).Arrow(x, y, x2Mm, y2Mm, 0.25);
    }

    /// <summary>What is right: a sign and a word.</summary>
    public ActPen Right(double xMm, double yMm, string words) =>
        Circle(xMm + 2.2, yMm - 1.3, 2.2, Paper, 0.5).Trace($"M{xMm + 1:0.##} {yMm - 1.3:0.##}l1 1.1l1.6 -2.3", "none", 0.7).Words(xMm + 5.6, yMm - 0.4, "Right", isBold: true).Words(xMm, yMm + 4.2, words, sizeMm: VerdictMm);

    /// <summary>What is wrong: another sign and another word.</summary>
    public ActPen Wrong(double xMm, double yMm, string words) =>
        Circle(xMm + 2.2, yMm - 1.3, 2.2, Ink, 0.5).Path(string.Create(CultureInfo.InvariantCulture, $"M{xMm + 1.2:0.##} {yMm - 2.3:0.##}l2 2m0 -2l-2 2"), "none", 0.6, ink: Paper).Words(xMm + 5.6, yMm - 0.4, "Wrong", isBold: true).Words(xMm, yMm + 4.2, words, sizeMm: VerdictMm);

    private static string Fill(string fill) => fill == "none" ? string.Empty : $" fill=\"{fill}\"";

    private static string Stroke(double lineMm, bool isDashed) =>
        (lineMm == LineMm ? string.Empty : string.Create(CultureInfo.InvariantCulture, $" stroke-width=\"{lineMm:0.##}\"")) + (isDashed ? " stroke-dasharray=\"1.6 1.2\"" : string.Empty);
}
