using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Geometry;

namespace Lampblack.Layout;

/// <summary>Puts a dial's marks, numerals and ranges in their places.</summary>
internal static class DialLayout
{
    private const double NumeralGapMm = 0.9;

    // Twice the usual spread and a little: so the openings of a range and of the marks beside it stay apart.
    private const double BandGapMm = 1.2;

    /// <summary>Places a dial.</summary>
    /// <returns>The dial and its numerals.</returns>
    public static (PlacedDial Dial, ImmutableArray<PlacedText> Numerals) Place(
        Dial dial, Point<PanelSpace> centre, double usualRadiusMm, Origin origin, MarkStyle style, FontShelf fonts, ICollection<Finding> findings)
    {
        var radius = dial.RadiusMm > 0 ? dial.RadiusMm : usualRadiusMm;
        var majorLength = dial.MajorLengthMm > 0 ? dial.MajorLengthMm : UsualLengthMm(radius);
        var bandWidth = dial.Ranges.IsEmpty ? 0 : Math.Max(1, majorLength * 0.45);
        var bandGap = dial.Ranges.IsEmpty ? 0 : BandGapMm;

        // Ranges lie inside, the marks stand on them, so that a colour never hides a mark.
        var inner = radius + bandWidth + bandGap;
        var majors = Majors(dial).ToList();
        var majorWidth = Math.Clamp(majorLength * 0.2, 0.35, 0.7);
        var marks = ImmutableArray.CreateBuilder<DialMark>();
        foreach (var value in Minors(dial, majors))
        {
            marks.Add(new(AngleOf(dial, value), inner, inner + (majorLength * 0.6), majorWidth * 0.7));
        }

        foreach (var value in majors)
        {
            marks.Add(new(AngleOf(dial, value), inner, inner + majorLength, majorWidth));
        }

        var outer = inner + majorLength;
        var numerals = new List<PlacedText>();
        if (dial.Numerals != NumeralStand.None)
        {
            foreach (var value in majors)
            {
                numerals.AddRange(Numeral(dial, value, majors, centre, outer + NumeralGapMm, origin, style, fonts, findings));
            }
        }

        var bands = dial.Ranges.Select(range => new DialBand(
            AngleOf(dial, range.From), AngleOf(dial, range.To), radius, radius + bandWidth, range.Style)).ToImmutableArray();
        var arc = dial.Arc ? new DialBand(dial.StartDegrees, dial.EndDegrees, inner - (majorWidth / 2), inner + (majorWidth / 2), style) : null;
        return (new(origin, style, centre, marks.ToImmutable(), bands, arc), [.. numerals]);
    }

    /// <summary>The angle of a value, in degrees clockwise from straight up; values off the scale stop at its ends.</summary>
    public static double AngleOf(Dial dial, double value)
    {
        if (dial.Law == ScaleLaw.Table)
        {
            return InTable(dial.TableDegrees, value);
        }

        var share = dial.Law == ScaleLaw.Logarithmic
            ? Math.Log(Math.Max(value, double.Epsilon) / dial.From) / Math.Log(dial.To / dial.From)
            : (value - dial.From) / (dial.To - dial.From);
        return dial.StartDegrees + (Math.Clamp(share, 0, 1) * (dial.EndDegrees - dial.StartDegrees));
    }

    /// <summary>The numbered values in order from the first.</summary>
    public static IEnumerable<double> Majors(Dial dial) => dial.Law switch
    {
        ScaleLaw.Table => dial.TableDegrees.Select(row => row.Value),
        ScaleLaw.Logarithmic => Decades(dial, [1]),
        _ => Steps(dial, dial.Major),
    };

    /// <summary>The text of a value.</summary>
    public static string WordOf(Dial dial, double value)
    {
        foreach (var label in dial.Labels)
        {
            if (Math.Abs(label.Value - value) <= 1e-9 * Math.Max(1, Math.Abs(value)))
            {
                return label.Word;
            }
        }

        // Adding zero turns a negative zero, which steps and rounding may leave, into a plain one.
        var rounded = Math.Round(value, 6, MidpointRounding.AwayFromZero) + 0.0;
        return rounded.ToString("0.######", CultureInfo.InvariantCulture).Replace('-', '−');
    }

    private static IEnumerable<double> Minors(Dial dial, List<double> majors)
    {
        var all = dial.Law switch
        {
            ScaleLaw.Table => [],
            ScaleLaw.Logarithmic => dial.Minor > 0 ? Decades(dial, [2, 3, 4, 5, 6, 7, 8, 9]) : [],
            _ => dial.Minor > 0 ? Steps(dial, dial.Minor) : [],
        };
        var tolerance = Math.Abs(dial.To - dial.From) * 1e-6;
        return all.Where(value => majors.All(major => Math.Abs(major - value) > tolerance));
    }

    private static IEnumerable<double> Steps(Dial dial, double step)
    {
        var low = Math.Min(dial.From, dial.To);
        var high = Math.Max(dial.From, dial.To);
        var first = Math.Ceiling((low / step) - 1e-9);
        for (var index = first; index * step <= high + (step * 1e-9); index++)
        {
            yield return index * step;
        }
    }

    private static IEnumerable<double> Decades(Dial dial, double[] leads)
    {
        var low = Math.Min(dial.From, dial.To);
        var high = Math.Max(dial.From, dial.To);
        for (var power = Math.Floor(Math.Log10(low)); power <= Math.Ceiling(Math.Log10(high)); power++)
        {
            foreach (var lead in leads)
            {
                var value = lead * Math.Pow(10, power);
                if (value >= low * (1 - 1e-9) && value <= high * (1 + 1e-9))
                {
                    yield return value;
                }
            }
        }
    }

    private static double InTable(ImmutableArray<(double Value, double Degrees)> rows, double value)
    {
        for (var index = 1; index < rows.Length; index++)
        {
            var (a, b) = (rows[index - 1], rows[index]);
            if ((value - a.Value) * (value - b.Value) <= 0)
            {
                return a.Degrees + ((b.Degrees - a.Degrees) * (value - a.Value) / (b.Value - a.Value));
            }
        }

        return Math.Abs(value - rows[0].Value) < Math.Abs(value - rows[^1].Value) ? rows[0].Degrees : rows[^1].Degrees;
    }

    private static IEnumerable<PlacedText> Numeral(
        Dial dial,
        double value,
        List<double> majors,
        Point<PanelSpace> centre,
        double radiusMm,
        Origin origin,
        MarkStyle style,
        FontShelf fonts,
        ICollection<Finding> findings)
    {
        var angle = AngleOf(dial, value);
        if (value == majors[^1] && Math.Abs(angle - AngleOf(dial, majors[0])) >= 360 - 1e-9)
        {
            // On a full circle the last mark falls on the first; only one of them can be numbered.
            yield break;
        }

        var word = WordOf(dial, value);
        if (word.Length == 0)
        {
            yield break;
        }

        var block = TextBlock.Set([word], dial.Text, HorizontalAlign.Centre, VerticalAnchor.Middle, fonts, origin, findings);
        if (dial.Numerals == NumeralStand.Radial)
        {
            var place = centre.Polar(radiusMm + (block.Box.HeightMm / 2), 90 - angle);
            yield return block.At(place, angle, origin, style, word);
            yield break;
        }

        yield return block.At(Around(centre, radiusMm, angle, block.Box), 0, origin, style, word);
    }

    /// <summary>Where the middle of a box stands so that it just clears a circle in the given direction.</summary>
    public static Point<PanelSpace> Around(Point<PanelSpace> centre, double radiusMm, double clockDegrees, Box<ItemSpace> box)
    {
        var way = new Point<PanelSpace>(0, 0).Polar(1, 90 - clockDegrees);

        // The box slides outwards along the direction until its nearest point lies on the circle; its distance only grows on the way.
        var (near, far) = (0.0, radiusMm + box.WidthMm + box.HeightMm);
        for (var round = 0; round < 40; round++)
        {
            var middle = (near + far) / 2;
            var dx = Math.Max(0, (Math.Abs(way.XMm) * middle) - (box.WidthMm / 2));
            var dy = Math.Max(0, (Math.Abs(way.YMm) * middle) - (box.HeightMm / 2));
            (near, far) = (dx * dx) + (dy * dy) < radiusMm * radiusMm ? (middle, far) : (near, middle);
        }

        return centre.Polar(far, 90 - clockDegrees);
    }

    /// <summary>Length of numbered marks by radius, between the values that instrument standards give for small dials; ours.</summary>
    private static double UsualLengthMm(double radiusMm) => radiusMm switch
    {
        <= 10 => 1.8,
        <= 15 => 2.2,
        <= 30 => 3,
        _ => 4,
    };
}
