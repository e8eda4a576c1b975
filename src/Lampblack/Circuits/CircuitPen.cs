using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Lettering;

namespace Lampblack.Circuits;

/// <summary>Lines, symbols and words of a circuit drawing. Places are told in mm from its upper left corner, y down, as one draws downwards without knowing how far.</summary>
internal sealed class CircuitPen
{
    /// <summary>Half the length of a lying resistor or fuse, and half its height.</summary>
    public const double ResistorHalfMm = 5;

    /// <summary>Half a diode's length.</summary>
    public const double DiodeHalfMm = 2.4;

    private const double LineMm = 0.35;
    private const double SpacingShare = 0.04;

    // A tenth of a dot on a screen of 96 dots for an inch: the file is for screens, and letters are most of it.
    private const double LetterErrorMm = 0.026;

    private const double ResistorSideMm = 1.8;

    private static readonly Typeface Face = BundledFonts.Find("barlow-condensed-medium") ?? BundledFonts.Find(BundledFonts.Names[0])!;

    private readonly List<Region<DrawingSpace>> _wires = [];
    private readonly List<Region<DrawingSpace>> _parts = [];
    private readonly List<Region<DrawingSpace>> _words = [];

    /// <summary>Wires, dots where they are joined, and terminals.</summary>
    public IEnumerable<Region<DrawingSpace>> Wires => _wires;

    /// <summary>Symbols.</summary>
    public IEnumerable<Region<DrawingSpace>> Parts => _parts;

    /// <summary>Words, each line by itself.</summary>
    public IEnumerable<Region<DrawingSpace>> Words => _words;

    /// <summary>A wire along corners.</summary>
    public void Wire(params ReadOnlySpan<(double XMm, double YMm)> corners) => _wires.Add(Line(corners));

    /// <summary>A dot where wires are joined.</summary>
    public void Dot(double xMm, double yMm) => _wires.Add(Region<DrawingSpace>.Disc(At(xMm, yMm), 0.75));

    /// <summary>A ring where something outside is joined.</summary>
    public void Terminal(double xMm, double yMm) => _wires.Add(Ring(xMm, yMm, 1));

    /// <summary>A resistor (IEC 60617: a plain rectangle), lying or upright.</summary>
    public void Resistor(double xMm, double yMm, bool isUpright = false)
    {
        var (across, up) = isUpright ? (ResistorSideMm, ResistorHalfMm) : (ResistorHalfMm, ResistorSideMm);
        _parts.Add(Frame(xMm - across, yMm - up, xMm + across, yMm + up));
    }

    /// <summary>An upright fuse: a rectangle with the wire through it.</summary>
    public void Fuse(double xMm, double yMm)
    {
        Resistor(xMm, yMm, isUpright: true);
        _parts.Add(Line((xMm, yMm - ResistorHalfMm), (xMm, yMm + ResistorHalfMm)));
    }

    /// <summary>A lamp diode that lets current through to the right.</summary>
    public void Diode(double xMm, double yMm)
    {
        var half = DiodeHalfMm;
        _parts.Add(Closed((xMm - half, yMm - half), (xMm + half, yMm), (xMm - half, yMm + half)));
        _parts.Add(Line((xMm + half, yMm - half), (xMm + half, yMm + half)));
        foreach (var off in new[] { 0.0, 1.7 })
        {
            var (fromX, fromY) = (xMm - 0.4 + off, yMm - 2.5);
            _parts.Add(Line((fromX, fromY), (fromX + 1.4, fromY - 1.9)));
            _parts.Add(Filled((fromX + 1.9, fromY - 2.6), (fromX + 0.75, fromY - 1.75), (fromX + 1.65, fromY - 1.1)));
        }
    }

    /// <summary>A diode that is no lamp and lets current through to the right.</summary>
    public void PlainDiode(double xMm, double yMm)
    {
        const double Half = 2;
        _parts.Add(Filled((xMm - Half, yMm - 1.6), (xMm + Half, yMm), (xMm - Half, yMm + 1.6)));
        _parts.Add(Line((xMm + Half, yMm - 1.7), (xMm + Half, yMm + 1.7)));
    }

    /// <summary>An open contact, 5 mm long.</summary>
    public void Contact(double xMm, double yMm)
    {
        _parts.Add(Ring(xMm + 0.5, yMm, 0.5));
        _parts.Add(Ring(xMm + 4.5, yMm, 0.5));
        _parts.Add(Line((xMm + 0.8, yMm - 0.4), (xMm + 4.4, yMm - 2)));
    }

    /// <summary>An N-channel MOSFET: drain above, source below, its gate at the right.</summary>
    /// <returns>Where the gate's wire starts.</returns>
    public double Transistor(double xMm, double yMm)
    {
        foreach (var off in new[] { -3.0, 0, 3.0 })
        {
            _parts.Add(Line((xMm + 2.2, yMm + off - 1.1), (xMm + 2.2, yMm + off + 1.1)));
        }

        _parts.Add(Line((xMm + 3.6, yMm - 3.6), (xMm + 3.6, yMm + 3.6)));
        _parts.Add(Line((xMm, yMm - 5), (xMm, yMm - 3), (xMm + 2.2, yMm - 3)));
        _parts.Add(Line((xMm, yMm + 5), (xMm, yMm), (xMm + 2.2, yMm)));
        _parts.Add(Line((xMm, yMm + 3), (xMm + 2.2, yMm + 3)));
        _parts.Add(Filled((xMm + 2.1, yMm), (xMm + 0.7, yMm - 0.8), (xMm + 0.7, yMm + 0.8)));
        return xMm + 3.6;
    }

    /// <summary>An electrolytic capacitor with its plus above.</summary>
    /// <returns>How far its plates lie off its middle.</returns>
    public double Capacitor(double xMm, double yMm)
    {
        _parts.Add(Frame(xMm - 3, yMm - 1.5, xMm + 3, yMm - 0.6));
        _parts.Add(Region<DrawingSpace>.Rectangle(Area(xMm - 3.2, yMm + 0.6, xMm + 3.2, yMm + 1.5)));
        _parts.Add(Line((xMm - 3, yMm - 3.2), (xMm - 1.4, yMm - 3.2)));
        _parts.Add(Line((xMm - 2.2, yMm - 4), (xMm - 2.2, yMm - 2.4)));
        return 1.5;
    }

    /// <summary>A gate that passes its input on, to the right.</summary>
    public void Buffer(double xMm, double yMm) => _parts.Add(Closed((xMm - 4, yMm - 4), (xMm + 4, yMm), (xMm - 4, yMm + 4)));

    /// <summary>A box.</summary>
    public void Box(double leftMm, double upperMm, double rightMm, double lowerMm) => _parts.Add(Frame(leftMm, upperMm, rightMm, lowerMm));

    /// <summary>A line from one edge to another that parts what stands above and below.</summary>
    public void Divider(double fromMm, double toMm, double yMm) => _parts.Add(Region<DrawingSpace>.Rectangle(Area(fromMm, yMm - 0.05, toMm, yMm + 0.05)));

    /// <summary>Three dots in a row: more of the same.</summary>
    public void More(double xMm, double yMm, bool isUpright = false)
    {
        foreach (var off in new[] { -1.8, 0, 1.8 })
        {
            _parts.Add(Region<DrawingSpace>.Disc(At(xMm + (isUpright ? 0 : off), yMm + (isUpright ? off : 0)), 0.4));
        }
    }

    /// <summary>Words that start, end or have their middle at a place, on a line of their own.</summary>
    /// <param name="text">The words.</param>
    /// <param name="xMm">The place.</param>
    /// <param name="middleMm">The middle of the capitals.</param>
    /// <param name="heightMm">Height of capitals.</param>
    /// <param name="alignShare">0 to start there, 0.5 for the middle, 1 to end there.</param>
    /// <param name="widthMm">The room; what is longer is cut.</param>
    public void Word(string text, double xMm, double middleMm, double heightMm, double alignShare, double widthMm)
    {
        var run = TextOutline.Line(Face, Fitting(text, heightMm, widthMm), heightMm, heightMm * SpacingShare, LetterErrorMm);
        _words.Add(run.Shape.Map(Affine<ItemSpace, DrawingSpace>.Shift(xMm - (alignShare * run.WidthMm), -middleMm - (heightMm / 2))));
    }

    /// <summary>A paragraph; its first line's middle is told.</summary>
    /// <returns>Where the next line could stand.</returns>
    public double Paragraph(string text, double xMm, double middleMm, double heightMm, double widthMm)
    {
        var line = string.Empty;
        foreach (var word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries).Append(string.Empty))
        {
            var longer = line.Length == 0 ? word : $"{line} {word}";
            if (word.Length > 0 && (line.Length == 0 || WidthMm(longer, heightMm) <= widthMm))
            {
                line = longer;
                continue;
            }

            Word(line, xMm, middleMm, heightMm, 0, widthMm);
            middleMm += heightMm * 1.8;
            line = word;
        }

        return middleMm;
    }

    private static string Fitting(string text, double heightMm, double widthMm)
    {
        var runes = text.EnumerateRunes().Take(300).ToList();
        for (var count = runes.Count; count > 0; count--)
        {
            var cut = string.Concat(runes.Take(count)) + (count == text.EnumerateRunes().Count() ? string.Empty : "…");
            if (WidthMm(cut, heightMm) <= widthMm)
            {
                return cut;
            }
        }

        return string.Empty;
    }

    private static double WidthMm(string text, double heightMm) => TextOutline.WidthMm(Face, text, heightMm, heightMm * SpacingShare);

    private static Point<DrawingSpace> At(double xMm, double yMm) => new(xMm, -yMm);

    private static Box<DrawingSpace> Area(double leftMm, double upperMm, double rightMm, double lowerMm) => new(leftMm, -lowerMm, rightMm - leftMm, lowerMm - upperMm);

    private static Region<DrawingSpace> Line(params ReadOnlySpan<(double XMm, double YMm)> corners) =>
        Region<DrawingSpace>.Stroke(new([.. corners.ToArray().Select(corner => At(corner.XMm, corner.YMm))], Closed: false), LineMm, LineEnd.Square);

    private static Region<DrawingSpace> Closed(params ReadOnlySpan<(double XMm, double YMm)> corners) =>
        Region<DrawingSpace>.Stroke(new([.. corners.ToArray().Select(corner => At(corner.XMm, corner.YMm))], Closed: true), LineMm, LineEnd.Flat);

    private static Region<DrawingSpace> Filled(params ReadOnlySpan<(double XMm, double YMm)> corners) =>
        Region<DrawingSpace>.FromCorners([.. corners.ToArray().Select(corner => At(corner.XMm, corner.YMm))]);

    private static Region<DrawingSpace> Ring(double xMm, double yMm, double radiusMm) =>
        Region<DrawingSpace>.Disc(At(xMm, yMm), radiusMm).Except(Region<DrawingSpace>.Disc(At(xMm, yMm), radiusMm - LineMm));

    private static Region<DrawingSpace> Frame(double leftMm, double upperMm, double rightMm, double lowerMm) =>
        Closed((leftMm, upperMm), (rightMm, upperMm), (rightMm, lowerMm), (leftMm, lowerMm));
}
