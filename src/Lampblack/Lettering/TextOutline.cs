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
    /// <exception cref="ArgumentOutOfRangeException">A length is not a number, or the cap height is not above zero.</exception>
    public static TextRun Line(Typeface face, string text, double capHeightMm, double letterSpacingMm = 0)
    {
        ArgumentNullException.ThrowIfNull(face);
        ArgumentNullException.ThrowIfNull(text);
        if (!(capHeightMm > 0) || !double.IsFinite(capHeightMm))
        {
            throw new ArgumentOutOfRangeException(nameof(capHeightMm), capHeightMm, "a cap height is above zero");
        }

        if (!double.IsFinite(letterSpacingMm))
        {
            throw new ArgumentOutOfRangeException(nameof(letterSpacingMm), letterSpacingMm, "a letter spacing is a number");
        }

        var missing = new List<(int Offset, string Name)>();
        var elements = TextElement.Split(text, missing);
        IReadOnlyList<Feature> features = letterSpacingMm == 0 ? [] : NoLigatures;
        ImmutableArray<PlacedGlyph> glyphs;
        while (true)
        {
            // What the font lacks is taken out and the rest set anew, so that neighbours are kerned as they will stand.
            var owners = elements.SelectMany((element, index) => Enumerable.Repeat(index, element.Characters.Length)).ToImmutableArray();
            glyphs = owners.IsEmpty ? [] : face.Shape([.. elements.SelectMany(element => element.Characters)], features);
            var lacking = Lacking(face, elements, owners, glyphs);
            if (lacking.Count == 0)
            {
                break;
            }

            missing.AddRange(lacking.Select(index => (elements[index].Offset, elements[index].Text)));
            elements = [.. elements.Where((_, index) => !lacking.Contains(index))];
        }

        return Set(face, glyphs, capHeightMm, letterSpacingMm, [.. missing.OrderBy(lack => lack.Offset).Select(lack => lack.Name).Distinct(StringComparer.Ordinal)]);
    }

    private static TextRun Set(
        Typeface face, ImmutableArray<PlacedGlyph> glyphs, double capHeightMm, double letterSpacingMm, ImmutableArray<string> missing)
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

            var shape = face.Glyph(glyph.Glyph, capHeightMm);
            if (!shape.IsEmpty)
            {
                // Whole steps of the grid: every copy of a letter is the same shape to the last digit.
                letters.Add(shape.Map(Affine<ItemSpace, ItemSpace>.Shift(
                    Resolution.Snap(((penUnits + glyph.OffsetX) * mmPerUnit) + spacingMm), Resolution.Snap(glyph.OffsetY * mmPerUnit))));
            }

            penUnits += glyph.Advance;
        }

        return new(Region<ItemSpace>.Union(letters), (penUnits * mmPerUnit) + spacingMm, capHeightMm, missing);
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
