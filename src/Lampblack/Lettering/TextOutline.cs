using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using HarfBuzzSharp;
using Lampblack.Geometry;

namespace Lampblack.Lettering;

/// <summary>Sets text as shapes.</summary>
public static class TextOutline
{
    // Spaced letters stand alone: the usual ligatures are switched off (CSS Text Module Level 3, section 8.2 "letter-spacing", asks the same).
    private static readonly ImmutableArray<Feature> NoLigatures = [new(Tag.Parse("liga"), 0), new(Tag.Parse("clig"), 0)];

    /// <summary>
    /// Sets one line with the font's kerning and ligatures. It runs from right to left where its first letter belongs to such a script;
    /// directions are not mixed within a line. Characters that can't be drawn leave no gap and are named in <see cref="TextRun.Missing"/>.
    /// </summary>
    /// <param name="face">The font.</param>
    /// <param name="text">The text; any string.</param>
    /// <param name="capHeightMm">Height of the capitals in mm, above zero.</param>
    /// <param name="letterSpacingMm">Added between letters, in mm; negative to draw them together. Anything but zero switches ligatures off.</param>
    /// <param name="chordErrorMm">How closely curves are followed, in mm, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">A length is not a number, or the cap height is not above zero.</exception>
    public static TextRun Line(Typeface face, string text, double capHeightMm, double letterSpacingMm = 0, double chordErrorMm = Resolution.LetterErrorMm)
    {
        ArgumentNullException.ThrowIfNull(face);
        ArgumentNullException.ThrowIfNull(text);
        return face.Runs.Of(text, capHeightMm, letterSpacingMm, chordErrorMm, () => SetAnew(face, text, capHeightMm, letterSpacingMm, chordErrorMm));
    }

    private static TextRun SetAnew(Typeface face, string text, double capHeightMm, double letterSpacingMm, double chordErrorMm)
    {
        var missing = new List<(int Offset, string Name)>();
        var glyphs = Shape(face, text, capHeightMm, letterSpacingMm, missing);
        ImmutableArray<string> names = [.. missing.OrderBy(lack => lack.Offset).Select(lack => lack.Name).Distinct(StringComparer.Ordinal)];
        return new(Set(face, glyphs, capHeightMm, letterSpacingMm, chordErrorMm), WidthMm(face, glyphs, capHeightMm, letterSpacingMm), capHeightMm, names);
    }

    /// <summary>How wide a line comes out, in mm: what <see cref="Line"/> would say, without drawing anything.</summary>
    /// <inheritdoc cref="Line"/>
    public static double WidthMm(Typeface face, string text, double capHeightMm, double letterSpacingMm = 0)
    {
        ArgumentNullException.ThrowIfNull(face);
        ArgumentNullException.ThrowIfNull(text);
        Check(capHeightMm, letterSpacingMm);
        var (advanceUnits, gaps) = face.Runs.WidthOf(text, letterSpacingMm != 0, () => Measure(Shape(face, text, capHeightMm, letterSpacingMm, [])));
        return (advanceUnits * face.MmPerUnit(capHeightMm)) + (gaps * letterSpacingMm);
    }

    /// <summary>The glyphs of a line in their places; what the font lacks is left out and told of.</summary>
    private static ImmutableArray<PlacedGlyph> Shape(Typeface face, string text, double capHeightMm, double letterSpacingMm, List<(int Offset, string Name)> missing)
    {
        Check(capHeightMm, letterSpacingMm);
        var elements = TextElement.Split(text, missing);
        IReadOnlyList<Feature> features = letterSpacingMm == 0 ? [] : NoLigatures;
        while (true)
        {
            // What the font lacks is taken out and the rest set anew, so that neighbours are kerned as they will stand.
            var owners = elements.SelectMany((element, index) => Enumerable.Repeat(index, element.Characters.Length)).ToImmutableArray();
            ImmutableArray<PlacedGlyph> glyphs = owners.IsEmpty ? [] : face.Shape([.. elements.SelectMany(element => element.Characters)], features);
            var lacking = Lacking(face, elements, owners, glyphs);
            if (lacking.Count == 0)
            {
                return glyphs;
            }

            missing.AddRange(lacking.Select(index => (elements[index].Offset, elements[index].Text)));
            elements = [.. elements.Where((_, index) => !lacking.Contains(index))];
        }
    }

    private static double WidthMm(Typeface face, ImmutableArray<PlacedGlyph> glyphs, double capHeightMm, double letterSpacingMm)
    {
        var (advanceUnits, gaps) = Measure(glyphs);
        return (advanceUnits * face.MmPerUnit(capHeightMm)) + (gaps * letterSpacingMm);
    }

    private static (long AdvanceUnits, int Gaps) Measure(ImmutableArray<PlacedGlyph> glyphs) =>
        (glyphs.Sum(glyph => (long)glyph.Advance), glyphs.Skip(1).Zip(glyphs).Count(pair => pair.First.Cluster != pair.Second.Cluster));

    private static void Check(double capHeightMm, double letterSpacingMm)
    {
        if (!(capHeightMm > 0) || !double.IsFinite(capHeightMm))
        {
            throw new ArgumentOutOfRangeException(nameof(capHeightMm), capHeightMm, "a cap height is above zero");
        }

        if (!double.IsFinite(letterSpacingMm))
        {
            throw new ArgumentOutOfRangeException(nameof(letterSpacingMm), letterSpacingMm, "a letter spacing is a number");
        }
    }

    private static Region<ItemSpace> Set(
        Typeface face, ImmutableArray<PlacedGlyph> glyphs, double capHeightMm, double letterSpacingMm, double chordErrorMm)
    {
        var mmPerUnit = face.MmPerUnit(capHeightMm);
        var letters = new List<Region<ItemSpace>>(glyphs.Length);
        long penUnits = 0;
        double spacingMm = 0;
        for (var index = 0; index < glyphs.Length; index++)
        {
            var glyph = glyphs[index];
            if (index > 0 && glyph.Cluster != glyphs[index - 1].Cluster)
            {
                spacingMm += letterSpacingMm;
            }

            var shape = face.Glyph(glyph.Glyph, capHeightMm, chordErrorMm);
            if (!shape.IsEmpty)
            {
                // Whole steps of the grid: every copy of a letter is the same shape to the last digit.
                letters.Add(shape.Map(Affine<ItemSpace, ItemSpace>.Shift(
                    Resolution.Snap(((penUnits + glyph.OffsetX) * mmPerUnit) + spacingMm), Resolution.Snap(glyph.OffsetY * mmPerUnit))));
            }

            penUnits += glyph.Advance;
        }

        return Region<ItemSpace>.Union(letters);
    }

    /// <summary>Which elements come out wrong: a character that the font lacks, a damaged glyph, or no ink where there should be some.</summary>
    private static SortedSet<int> Lacking(
        Typeface face, ImmutableArray<TextElement> elements, ImmutableArray<int> owners, ImmutableArray<PlacedGlyph> glyphs)
    {
        var lacking = new SortedSet<int>();
        var drawn = new Dictionary<int, bool>();
        foreach (var glyph in glyphs)
        {
            var state = glyph.Glyph == 0 ? GlyphState.Damaged : face.StateOf(glyph.Glyph);
            if (state == GlyphState.Damaged)
            {
                lacking.Add(owners[glyph.Cluster]);
            }

            drawn[glyph.Cluster] = drawn.GetValueOrDefault(glyph.Cluster) || state == GlyphState.Drawn;
        }

        foreach (var (cluster, inked) in drawn)
        {
            if (!inked && elements[owners[cluster]].Visible)
            {
                lacking.Add(owners[cluster]);
            }
        }

        return lacking;
    }
}
