using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Parts;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>Reads what a caliper said of parts, and puts it in the place of the listed figures for the whole desk.</summary>
internal static class CaliperReader
{
    /// <summary>Changes the reading's parts; gives the parts that were changed, with their places.</summary>
    public static ImmutableArray<(string PartId, SourceSpan Span)> Apply(TableReader root, DeskReading reading)
    {
        var changed = ImmutableArray.CreateBuilder<(string, SourceSpan)>();
        var parts = new List<Part>();
        var taken = new HashSet<string>(StringComparer.Ordinal);
        foreach (var table in reading.AtMost(DeskReading.MostDefined, "measured parts", root.Tables("caliper")))
        {
            var id = table.RequiredText("part", "\"toggle-mini-on-on\"");
            var part = id is null ? null : PartReader.Find(id, table, "part", reading);
            var measured = Measured(part ?? PartReader.PlainHole("measured", 1), table, reading, part is not null);
            table.Finish();
            if (part is null)
            {
                continue;
            }

            if (!taken.Add(part.Id))
            {
                reading.Findings.Add(Finding.Stop(
                    "caliper-twice", $"the part {Shown.Code(part.Id)} is measured twice", "put all its figures under one `[[caliper]]`", table.SpanOf("part"), part.Id));
                continue;
            }

            if (measured == part)
            {
                continue;
            }

            var problems = PartCheck.Problems(measured);
            foreach (var problem in problems)
            {
                reading.Findings.Add(Finding.Stop("part-wrong", problem, "measure the part again", table.Span, part.Id));
            }

            if (problems.IsEmpty)
            {
                parts.Add(measured);
                changed.Add((part.Id, table.Span));
            }
        }

        reading.Parts = reading.Parts.With(parts);
        return changed.ToImmutable();
    }

    /// <summary>Tells of measured parts that are nowhere on the desk: most likely another one was meant.</summary>
    public static void ReportUnused(ImmutableArray<(string PartId, SourceSpan Span)> changed, IEnumerable<Panel> panels, DeskReading reading)
    {
        var used = panels.SelectMany(panel => panel.Items.OfType<Control>().Select(control => control.Part.Id).Append(panel.Fixings?.Part.Id ?? string.Empty))
            .ToHashSet(StringComparer.Ordinal);
        foreach (var (id, span) in changed.Where(pair => !used.Contains(pair.PartId)))
        {
            reading.Findings.Add(Finding.Warn(
                "caliper-unused", $"`{id}` is measured, but no control has this part", "name the part as the control does; each part is measured by itself", span, id));
        }
    }

    private static Part Measured(Part part, TableReader table, DeskReading reading, bool isKnown)
    {
        var hole = Outline(part.Cutout, "hole", table, reading, isKnown);
        var bezel = Outline(part.Bezel, "bezel", table, reading, isKnown);
        var knob = table.LengthMm("knob", 1, 200);
        var body = table.LengthsMm("body", 3, 3, 0, 500);
        var bushing = table.LengthMm("bushing", 0, 100);
        var thickest = table.LengthMm("panel-max", 0, 100);
        return part with
        {
            Cutout = hole ?? part.Cutout,
            Bezel = bezel,
            KnobDiameter = knob is { } across ? Figure.FromUser(across) : part.KnobDiameter,
            Body = body is { } b ? new Body(Figure.FromUser(b[0]), Figure.FromUser(b[1]), Figure.FromUser(b[2])) : part.Body,
            BushingLength = bushing is { } length ? Figure.FromUser(length) : part.BushingLength,
            LargestPanelThickness = thickest is { } most ? Figure.FromUser(most) : part.LargestPanelThickness,
        };
    }

    /// <summary>An outline with measured sizes; it keeps its form, and what could not be read leaves it as it is.</summary>
    private static Cutout? Outline(Cutout? listed, string key, TableReader table, DeskReading reading, bool isKnown)
    {
        var size = table.LengthsMm(key, 1, 2, 0.5, 400);
        var corner = table.LengthMm(key + "-corner", 0, 100);
        var outline = listed;
        if (size is { } mm)
        {
            outline = (listed, mm.Length) switch
            {
                (RoundCutout round, 1) => round with { Diameter = Figure.FromUser(mm[0]) },
                (RectangleCutout box, 2) => box with { Width = Figure.FromUser(mm[0]), Height = Figure.FromUser(mm[1]) },
                (SlotCutout slot, 2) => slot with { Length = Figure.FromUser(mm[0]), Width = Figure.FromUser(mm[1]) },
                (FlattedCutout flatted, 2) => flatted with { Diameter = Figure.FromUser(mm[0]), AcrossFlats = Figure.FromUser(mm[1]) },
                (null, 1) => new RoundCutout(Figure.FromUser(mm[0])),
                (null, _) => new RectangleCutout(Figure.FromUser(mm[0]), Figure.FromUser(mm[1]), Figure.FromUser(0)),
                _ => null,
            };
        }

        if (outline is RectangleCutout cornered && corner is { } radius)
        {
            return cornered with { Corner = Figure.FromUser(radius) };
        }

        var wrong = size is not null && outline is null ? key : corner is not null ? key + "-corner" : null;
        if (wrong is not null && isKnown)
        {
            reading.Findings.Add(Finding.Stop(
                "caliper-form",
                $"{Shown.Code(wrong)} does not fit the part's {key}, which is {FormText(listed)}",
                "a caliper keeps the form; where the form differs, define a part of your own with `[[part]]` and `like`",
                table.SpanOf(wrong)));
        }

        return outline ?? listed;
    }

    private static string FormText(Cutout? listed) => listed switch
    {
        RoundCutout => "round: one length, its diameter",
        RectangleCutout => "a rectangle: two lengths, [width, height]",
        SlotCutout => "a slot: two lengths, [length, width]",
        FlattedCutout => "round with flats: two lengths, [diameter, across flats]",
        _ => "not there",
    };
}
