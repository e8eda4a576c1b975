using System;
using System.Collections.Concurrent;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Lettering;

namespace Lampblack.Layout;

/// <summary>The fonts a desk can use: those that come with the tool and those it brings along.</summary>
public sealed class FontShelf
{
    private const double GaugeHeightMm = 10;

    private readonly ImmutableSortedDictionary<string, Typeface> _own;
    private readonly ConcurrentDictionary<Typeface, (double StrokeShare, double GapShare)> _gauges = [];

    /// <summary>A shelf with the desk's own fonts in front.</summary>
    /// <param name="own">The desk's own fonts by the names it gives them.</param>
    public FontShelf(IEnumerable<KeyValuePair<string, Typeface>> own) =>
        _own = ImmutableSortedDictionary.CreateRange(StringComparer.Ordinal, own);

    /// <summary>A shelf with nothing but the bundled fonts.</summary>
    public static FontShelf Bundled { get; } = new([]);

    /// <summary>What the eye has to tell apart in a text of this font.</summary>
    internal LetterMeasures Measure(Typeface face, TextStyle style, int lines)
    {
        var (stroke, gap) = _gauges.GetOrAdd(face, Gauge);
        return new(
            style.HeightMm,
            stroke * style.HeightMm,
            (gap * style.HeightMm) + style.SpacingMm,
            lines > 1 ? style.HeightMm * (style.LeadingFactor - 1) : null);
    }

    private static (double StrokeShare, double GapShare) Gauge(Typeface face)
    {
        // A rectangle of the letter's area and outline: serifs make it hardly wider.
        var run = TextOutline.Line(face, "I", GaugeHeightMm);
        var half = run.Shape.PerimeterMm / 2;
        var stroke = (half - Math.Sqrt(Math.Max(0, (half * half) - (4 * run.Shape.AreaMm2)))) / 2;
        return run.Missing.IsEmpty ? (stroke / GaugeHeightMm, (run.WidthMm - stroke) / GaugeHeightMm) : (0, 0);
    }

    /// <summary>The font of that name.</summary>
    /// <param name="name">As the desk calls it.</param>
    /// <param name="span">Where it is asked for.</param>
    /// <param name="findings">Told where there is none of that name; a bundled font stands in.</param>
    public Typeface Find(string name, SourceSpan span, ICollection<Finding> findings)
    {
        ArgumentNullException.ThrowIfNull(findings);
        if (_own.TryGetValue(name, out var own))
        {
            return own;
        }

        if (BundledFonts.Find(name) is { } bundled)
        {
            return bundled;
        }

        if (findings.All(finding => finding.Code != "font-unknown" || !finding.Message.Contains(Shown.Code(name), StringComparison.Ordinal)))
        {
            findings.Add(Finding.Stop(
                "font-unknown",
                $"there is no font {Shown.Code(name)}",
                BundledFonts.Meant(name) is { } meant ? $"did you mean `{meant}`?" : ByKind(name),
                span));
        }

        return BundledFonts.Find(BundledFonts.Names[0])!;
    }

    private static string ByKind(string name)
    {
        var (font, lacks) = FontKinds.Nearest(name);
        return $"bundled are {FontKinds.Families}; nearest by its name is `{font}`{(lacks.Length > 0 ? $" ({lacks})" : string.Empty)}; or put the font's file beside the desk and name it under `[[font]]`";
    }
}
