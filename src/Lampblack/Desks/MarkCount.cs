using System;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Desks;

/// <summary>How much there is to draw of an item: letters, strokes of dials, corners, holes. A short file can ask for more than any machine can draw.</summary>
internal static class MarkCount
{
    // A hole has a window, a crosshair and its sizes in letters, on either side; a range is an area with two arcs.
    private const long OfHole = 10;
    private const long OfRange = 5;

    // A numeral has about three characters, its mark is one more.
    private const long OfMajor = 4;

    /// <summary>Counts an item with all its copies.</summary>
    public static long Of(PanelItem item) => item switch
    {
        Control control => ForAll(control.Legends, control.Copies) + (control.Copies.Count * (OfHole + control.States.Sum(Letters) + OfDial(control.Dial))),
        Legend legend => ForAll(legend.Texts, legend.Copies),
        FreeDial dial => dial.Copies.Count * OfDial(dial.Dial),
        Rule rule => rule.Copies.Count * (Letters(rule.Title) + Corners(rule.Form)),
        FilledArea { Form: PolygonForm form } area => area.Copies.Count * (long)form.CornersMm.Length,
        _ => item.Copies.Count,
    };

    private static long Letters(string text) => text.Length;

    private static long ForAll(ImmutableArray<ImmutableArray<string>> texts, Repetition copies)
    {
        var written = texts.Sum(lines => lines.Sum(Letters));
        return texts.Length == 1 ? written * copies.Count : written;
    }

    private static long Corners(RuleForm form) => form switch
    {
        LineForm line => line.PointsMm.Length,
        ArrowForm arrow => arrow.PointsMm.Length,
        _ => 4,
    };

    private static long OfDial(Dial? dial)
    {
        if (dial is null)
        {
            return 0;
        }

        var majors = dial.Law switch
        {
            ScaleLaw.Table => dial.TableDegrees.Length,
            ScaleLaw.Logarithmic => Decades(dial),
            _ => Math.Abs(dial.To - dial.From) / dial.Major,
        };
        var minors = dial switch
        {
            { Minor: <= 0 } or { Law: ScaleLaw.Table } => 0,
            { Law: ScaleLaw.Logarithmic } => Decades(dial) * 8,
            _ => Math.Abs(dial.To - dial.From) / dial.Minor,
        };
        return (long)((majors * OfMajor) + minors) + (dial.Ranges.Length * OfRange) + dial.Labels.Sum(label => Letters(label.Word));
    }

    /// <summary>How many powers of ten a logarithmic dial spans.</summary>
    public static double Decades(Dial dial) => Math.Abs(Math.Log10(dial.To) - Math.Log10(dial.From));
}
