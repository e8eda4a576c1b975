using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Parts;
using Lampblack.Quantities;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>Reads how the panels are to be lit: <c>[lighting]</c>, a panel's <c>[[panel.emitter]]</c>, and which light is behind an item.</summary>
internal static class LightingReader
{
    private const int MostEmitters = 1000;
    private const int MostOutputs = 64;

    private static readonly ImmutableArray<(string Word, EmitterColour Value)> Colours =
    [
        ("warm-white", EmitterColour.WarmWhite), ("cool-white", EmitterColour.CoolWhite), ("red", EmitterColour.Red),
        ("amber", EmitterColour.Amber), ("green", EmitterColour.Green), ("blue", EmitterColour.Blue),
    ];

    private static readonly ImmutableArray<(string Word, LampSource Value)> Sources = [("general", LampSource.General), ("own", LampSource.Own)];

    /// <summary>The desk's light.</summary>
    public static (EmitterColour Colour, double? DepthMm, LightingWish Wish) Read(TableReader? table, DeskReading reading)
    {
        if (table is null)
        {
            return (EmitterColour.WarmWhite, null, LightingWish.Unsaid);
        }

        var colour = table.Choice("colour", Colours) ?? EmitterColour.WarmWhite;
        var depth = table.LengthMm("depth", 1, 2000);
        var usual = LightingWish.Unsaid;
        var wish = new LightingWish
        {
            Emitter = Emitter(table, reading),
            SupplyVolts = Supply(table, reading),
            SupplyAmperes = Electric(table, reading, "supply-current", ElectricText.Amperes, 0.001, 100, "2 A"),
            WantedCandelaPerM2 = table.Number("luminance", 0.01, 10_000),
            EvennessFactor = table.Number("evenness", 1.05, 100) ?? usual.EvennessFactor,
            MostOneShare = table.Number("one-emitter", 0.05, 1),
            LeakFactor = table.Number("leak", 1, 100_000) ?? usual.LeakFactor,
            WallReflectance = table.Number("walls", 0, 0.98) ?? usual.WallReflectance,
            FloorReflectance = table.Number("floor", 0, 0.98) ?? usual.FloorReflectance,
            InsetMm = table.LengthMm("inset", 0, 200) ?? usual.InsetMm,
            Diffuser = table.Table("diffuser") is { } sheet ? Diffuser(sheet, reading.Findings, depth) : null,
            PwmHertz = table.Number("pwm", 10, 1_000_000),
            WireMm = table.LengthMm("wire", 10, 100_000),
            Span = table.Span,
            EmitterSpan = table.SpanOf("emitter"),
        };
        table.Finish();
        return (colour, depth, wish);
    }

    /// <summary>A panel's emitters.</summary>
    public static ImmutableArray<DeskEmitter> Emitters(TableReader panel, DeskReading reading)
    {
        var emitters = ImmutableArray.CreateBuilder<DeskEmitter>();
        foreach (var table in reading.AtMost(MostEmitters, "emitters on a panel", panel.Tables("emitter")))
        {
            if (!table.Has("at"))
            {
                reading.Findings.Add(Finding.Stop("key-missing", "an emitter needs its place", "such as `at = [40, 30]`: from the panel's lower left corner, seen from the front", table.Span));
            }

            var place = table.PlaceMm("at", -DeskReading.FarthestMm, DeskReading.FarthestMm);
            var (lumens, halfAngle) = (table.Number("lumen", 0.001, 100_000), table.Number("half-angle", 1, 89));
            if (place is { } at)
            {
                emitters.Add(new(at.XMm, at.YMm, lumens, halfAngle, table.Span));
            }

            table.Finish();
        }

        return emitters.ToImmutable();
    }

    /// <summary>Which light is behind an item.</summary>
    public static LampOf Lamp(TableReader item)
    {
        if (!item.Has("light"))
        {
            return LampOf.Unsaid;
        }

        var span = item.SpanOf("light");
        return item.Raw("light") is NumberNode
            ? item.Whole("light", 1, MostOutputs) is { } output ? new(LampSource.Own, output, span) : LampOf.Unsaid
            : item.Choice("light", Sources) is { } source ? new(source, 0, span) : LampOf.Unsaid;
    }

    private static EmitterType? Emitter(TableReader table, DeskReading reading)
    {
        if (table.Text("emitter") is not { } id)
        {
            return null;
        }

        if (EmitterTypes.Find(id) is { } found)
        {
            return found;
        }

        var known = EmitterTypes.All.Select(type => type.Id);
        reading.Findings.Add(Finding.Stop(
            "emitter-unknown",
            $"there is no emitter {Shown.Code(id)}",
            Nearest.To(id, known) is { } near ? $"did you mean {Shown.Code(near)}?" : "known are " + Shown.List(known.Select(Shown.Short)),
            table.SpanOf("emitter")));
        return null;
    }

    public static DiffuserSheet Diffuser(TableReader table, ICollection<Finding> findings, double? depthMm)
    {
        var usual = DiffuserSheet.Usual;
        var gap = table.LengthMm("gap", 0, 500) ?? usual.GapMm;
        var passes = table.Number("passes", 0.01, 1) ?? usual.Transmittance;
        var reflects = table.Number("throws-back", 0, 0.98) ?? Math.Min(usual.Reflectance, 1 - passes);
        if (passes + reflects > 1 + 1e-9)
        {
            findings.Add(Finding.Stop("diffuser-impossible", FormattableString.Invariant($"the diffuser passes {passes:0.##} and throws back {reflects:0.##} of the light: more than there is"), "the two together are at most 1; white opal sheet passes 0.6 and throws back 0.3", table.Span));
            (passes, reflects) = (usual.Transmittance, usual.Reflectance);
        }

        if (depthMm is { } depth && gap >= depth - 1)
        {
            findings.Add(Finding.Stop("diffuser-impossible", FormattableString.Invariant($"the diffuser is {gap:0.##} mm behind the panel, and the box is {depth:0.##} mm deep"), "it must lie before the emitters: give a smaller `gap`", table.SpanOf("gap")));
            gap = 0;
        }

        table.Finish();
        return new(gap, passes, reflects);
    }

    /// <summary>Volts that nothing touchable may have are refused here, so that nothing behind the reader plans with them.</summary>
    private static double? Supply(TableReader table, DeskReading reading)
    {
        var said = table.Raw("supply") is TextNode text ? ElectricText.Volts(text.Value) : (table.Raw("supply") as NumberNode)?.Value;
        if (said is not > LightingWish.HighestSupplyVolts)
        {
            return Electric(table, reading, "supply", ElectricText.Volts, 1, LightingWish.HighestSupplyVolts, "12 V");
        }

        reading.Findings.Add(Finding.Stop(
            "supply-not-selv",
            FormattableString.Invariant($"`supply` says {said} V; up to {LightingWish.HighestSupplyVolts} V of direct current are allowed, and nothing of the mains"),
            "take a certified supply of 5, 12 or 24 V whose current is limited; anything higher is work for licensed people under your local code",
            table.SpanOf("supply")));
        return null;
    }

    private static double? Electric(TableReader table, DeskReading reading, string key, Func<string, double?> read, double least, double most, string example)
    {
        var value = table.Raw(key) switch
        {
            null => null,
            NumberNode number => number.Value,
            TextNode text => read(text.Value),
            _ => null,
        };
        if (table.Raw(key) is null || (value >= least && value <= most))
        {
            return value;
        }

        reading.Findings.Add(Finding.Stop(
            "value-range",
            FormattableString.Invariant($"`{key}` can't be read, or is not from {least} to {most}"),
            $"write it with its unit: `{key} = \"{example}\"`",
            table.SpanOf(key)));
        return null;
    }
}
