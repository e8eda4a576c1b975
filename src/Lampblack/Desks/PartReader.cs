using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Parts;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>Finds parts in the catalogue and reads those that a desk defines itself.</summary>
internal static class PartReader
{
    private static readonly ImmutableArray<(string Word, PartClass Value)> Classes =
        [.. Enum.GetValues<PartClass>().Select(value => (Word(value), value))];

    /// <summary>The part of that id, or a finding.</summary>
    public static Part? Find(string id, TableReader table, string key, DeskReading reading)
    {
        if (reading.Parts.Find(id) is { } part)
        {
            return part;
        }

        var near = reading.Parts.Near(id);
        reading.Findings.Add(Finding.Stop(
            "part-unknown",
            $"there is no part {Shown.Code(id)}",
            near.IsEmpty ? "docs/parts.md lists all parts; a desk can define its own with `[[part]]`" : "did you mean " + string.Join(" or ", near.Select(name => $"`{name}`")) + "?",
            table.SpanOf(key)));
        return null;
    }

    /// <summary>A plain round hole.</summary>
    public static Part PlainHole(string id, double diameterMm) => new()
    {
        Id = id,
        Name = "hole",
        Class = PartClass.Screw,
        Cutout = new RoundCutout(Figure.FromUser(diameterMm)),
    };

    /// <summary>The parts that the desk defines.</summary>
    public static ImmutableArray<Part> Read(TableReader root, DeskReading reading)
    {
        var parts = ImmutableArray.CreateBuilder<Part>();
        var taken = new SortedSet<string>(StringComparer.Ordinal);
        foreach (var table in reading.AtMost(DeskReading.MostDefined, "parts of its own", root.Tables("part")))
        {
            var id = reading.Id(table, "part", parts.Count + 1, taken);
            if (ReadPart(table, id, reading) is { } part)
            {
                var problems = PartCheck.Problems(part);
                if (problems.IsEmpty)
                {
                    parts.Add(part);
                }

                foreach (var problem in problems)
                {
                    reading.Findings.Add(Finding.Stop("part-wrong", problem, "measure the part again", table.Span, id));
                }
            }

            table.Finish();
        }

        return parts.ToImmutable();
    }

    private static Part? ReadPart(TableReader table, string id, DeskReading reading)
    {
        var like = table.Text("like") is { } word ? Find(word, table, "like", reading) : null;
        _ = like is not null && reading.Pointers.Contains(like.Id) ? reading.Pointers.Add(id) : reading.Pointers.Remove(id);
        var cutout = Cutout(table, reading, "hole");
        var bezel = Cutout(table, reading, "bezel");
        if (!table.Has("hole") && !table.Has("like"))
        {
            reading.Findings.Add(Finding.Stop(
                "key-missing", $"the part `{id}` has no `hole`", "such as `hole = 6.5` for a round one or `hole = [45, 26]`, or `like = \"toggle-mini-on-on\"`", table.Span, id));
        }

        var body = table.LengthsMm("body", 2, 3, 0, 500);
        var bushing = table.LengthMm("bushing", 0, 100);
        var thickest = table.LengthMm("panel-max", 0, 100);
        var knob = table.LengthMm("knob", 1, 200);
        var positions = table.Whole("positions", 2, 48);
        var step = table.Number("step", 1, 180);
        KeyUnused.Report(table, reading, step is null || table.Has("positions") ? [] : ["step"], "it goes with `positions`");
        var sweep = table.Number("sweep", 10, 3600);
        var kind = table.Choice("class", Classes);
        var name = table.Text("name");
        var extra = ExtraHoles(table, reading);
        var basis = like ?? (cutout is null ? null : PlainHole(id, 1) with { Cutout = cutout, Class = PartClass.Plain });
        return basis is null ? null : basis with
        {
            Id = id,
            Name = name ?? (like is null ? id : like.Name),
            Class = kind ?? basis.Class,
            Cutout = cutout ?? basis.Cutout,
            Key = cutout is null ? basis.Key : null,
            Bezel = bezel ?? basis.Bezel,
            KnobDiameter = knob is { } k ? Figure.FromUser(k) : basis.KnobDiameter,
            Body = body is { } b ? new Body(Figure.FromUser(b[0]), Figure.FromUser(b[^2]), Figure.FromUser(b[^1]), IsRound: b.Length == 2) : basis.Body,
            BushingLength = bushing is { } length ? Figure.FromUser(length) : basis.BushingLength,
            LargestPanelThickness = thickest is { } most ? Figure.FromUser(most) : basis.LargestPanelThickness,
            Positions = positions is { } count ? new Positions(count, step ?? 30, 90) : basis.Positions,
            SweepDegrees = sweep ?? basis.SweepDegrees,
            ExtraHoles = extra ?? basis.ExtraHoles,
        };
    }

    private static Cutout? Cutout(TableReader table, DeskReading reading, string key)
    {
        var corner = table.LengthMm(key + "-corner", 0, 100);
        var size = table.LengthsMm(key, 1, 2, 0.5, 400);
        var idle = corner is not null && (size is { Length: 1 } || !table.Has(key));
        KeyUnused.Report(table, reading, idle ? [key + "-corner"] : [], $"it goes with a rectangular `{key}`");
        return size is not { } mm ? null
            : mm.Length == 1 ? new RoundCutout(Figure.FromUser(mm[0]))
            : new RectangleCutout(Figure.FromUser(mm[0]), Figure.FromUser(mm[1]), Figure.FromUser(corner ?? 0));
    }

    private static ImmutableArray<ExtraHole>? ExtraHoles(TableReader table, DeskReading reading)
    {
        var holes = table.Tables("extra-hole");
        var read = ImmutableArray.CreateBuilder<ExtraHole>();
        foreach (var hole in holes)
        {
            var place = hole.PlaceMm("at", -300, 300);
            ControlReader.RequireAt(hole, reading);
            var diameter = hole.RequiredLengthMm("hole", 0.5, 50);
            if (place is { } at && diameter is { } mm)
            {
                read.Add(new(at.XMm, at.YMm, Figure.FromUser(mm), hole.Text("for") ?? "screw"));
            }

            hole.Finish();
        }

        return holes.IsEmpty ? null : read.ToImmutable();
    }

    private static string Word(PartClass value) => value switch
    {
        PartClass.PushButton => "push-button",
        PartClass.KeySwitch => "key-switch",
        _ => value.ToString().ToLowerInvariant(),
    };
}
