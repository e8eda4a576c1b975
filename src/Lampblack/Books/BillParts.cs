using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Parts;

namespace Lampblack.Books;

/// <summary>The controls, lamps and screws that go into the panels' holes.</summary>
internal static class BillParts
{
    private const int MostNamed = 6;
    private const double AlikeMm = 0.05;
    private const string OwnSupply = "what gives its 5 V is not in this bill";

    /// <summary>A line for each kind of part, in the order of their ids.</summary>
    public static IEnumerable<BillLine> Of(BookFacts facts) =>
        from placed in facts.Laid.Panels.SelectMany(panel => panel.Parts)
        group placed by placed.Part.Id into kind
        orderby kind.Key
        let part = kind.First().Part
        select new BillLine(kind.Key, part.Name, kind.Count(), string.Empty, Named([.. kind.Select(placed => placed.Origin.Name).Distinct()]), Others(part, facts)) { Kind = "part-" + Word(part.Class) };

    /// <summary>Knobs by their size; what turns without end points nowhere.</summary>
    public static IEnumerable<BillLine> Knobs(BookFacts facts) =>
        from placed in facts.Laid.Panels.SelectMany(panel => panel.Parts)
        where placed.Part.KnobDiameter is not null
        group placed by (placed.Part.KnobDiameter!.Value.Mm, IsEndless: placed.Part.Class == PartClass.Encoder) into size
        orderby size.Key.IsEndless, size.Key.Mm
        select new BillLine(string.Create(CultureInfo.InvariantCulture, $"knob-{(size.Key.IsEndless ? "plain-" : string.Empty)}{size.Key.Mm:0.#}"), $"knob {(size.Key.IsEndless ? "without" : "with")} a pointer, {facts.Exact(size.Key.Mm)} across", size.Count(), string.Empty, Named([.. size.Select(placed => placed.Origin.Name).Distinct()]), "for the shaft of its part") { Kind = "knob" };

    /// <summary>What a part must be like, so that others will do in its place.</summary>
    public static string Form(Part part, BookFacts facts)
    {
        var form = new List<string> { $"hole {Hole(part, facts)}" };
        if (part.Body is { } body)
        {
            form.Add(body.IsRound
                ? $"body {facts.Number(body.Width.Mm)} across, {facts.Exact(body.Depth.Mm)} deep"
                : $"body {facts.Number(body.Width.Mm)} x {facts.Number(body.Height.Mm)}, {facts.Exact(body.Depth.Mm)} deep");
        }

        if (part.BushingLength is { } bushing)
        {
            form.Add($"thread {facts.Exact(bushing.Mm)} long");
        }

        return string.Join(", ", form);
    }

    /// <summary>Its main opening in the maker's unit.</summary>
    public static string Hole(Part part, BookFacts facts) => part.Cutout switch
    {
        RoundCutout round => facts.Exact(round.Diameter.Mm),
        FlattedCutout flatted => $"{facts.Exact(flatted.Diameter.Mm)}, {facts.Exact(flatted.AcrossFlats.Mm)} across {(flatted.OneFlat ? "the flat" : "flats")}",
        var other => other.Shape().Bounds is var box ? $"{facts.Number(box.WidthMm)} x {facts.Exact(box.HeightMm)}" : string.Empty,
    };

    /// <summary>Parts of the catalogue that go into the same hole and do the same.</summary>
    private static string Others(Part part, BookFacts facts)
    {
        ImmutableArray<string> alike = [.. facts.Laid.Desk.Parts.All.Where(other => other.Id != part.Id && other.Class == part.Class && IsAlike(other, part)).Select(other => other.Id).Order(StringComparer.Ordinal)];
        if (facts.LampBoards.Any(board => !board.Blocks.IsEmpty) && facts.Laid.Panels.Any(panel => panel.Panel.Fixings?.Part.Id == part.Id))
        {
            var (insert, nut) = BoxBlocks.ScrewsMm(facts.Laid.Desk.Stack);
            return $"{facts.Exact(insert)} long with a threaded insert in the box’s blocks, {facts.Exact(nut)} with a nut below them: decide before you buy, inserts are easier; a washer each";
        }

        var must = facts.Wiring is { } wiring && Electric(part, wiring) is { } electric ? $"{Form(part, facts)}; {electric}" : Form(part, facts);
        return alike.IsEmpty ? must : $"{must}; or {Named(alike)}";
    }

    /// <summary>What the wiring takes for granted of a part. From memory: the converter of the chips wants 10 kilohms or less before it, a quarter of a pot at most.</summary>
    private static string? Electric(Part part, BookWiring wiring) => part.Class switch
    {
        PartClass.Potentiometer or PartClass.Slider => "5 to 20 kilohms, linear",
        PartClass.Encoder when wiring.Needs.Any(need => need.Part?.Part.Id == part.Id && need.Kind == Wiring.WiredKind.States) => "two phases, with a push switch",
        PartClass.Encoder => "two phases",
        PartClass.PushButton when part.Illuminated => "its lamp a bare LED of the colour that you like, without resistor, on terminals of its own",
        PartClass.Lamp when part.IsPixel => $"a pixel for 5 V, with wires for data in and data out; {OwnSupply}",
        PartClass.Display => $"for data of 5 V, with {string.Join(", ", PartTerminals.DisplayNames(part))}; {OwnSupply}",
        PartClass.Lamp => "a bare LED of the colour that you like, without resistor",
        _ => null,
    };

    private static bool IsAlike(Part one, Part other) =>
        one.Positions?.Count == other.Positions?.Count && one.Momentary == other.Momentary && one.Poles >= other.Poles && one.Illuminated == other.Illuminated && one.IsPixel == other.IsPixel && one.HasCover == other.HasCover && one.HasCharacters == other.HasCharacters
        && one.Key is null == other.Key is null && one.ExtraHoles.Length == other.ExtraHoles.Length
        && one.Cutout.GetType() == other.Cutout.GetType()
        && one.Cutout.Figures.Zip(other.Cutout.Figures).All(pair => Math.Abs(pair.First.Figure.Mm - pair.Second.Figure.Mm) < AlikeMm);

    private static string Named(ImmutableArray<string> names) => names.Length <= MostNamed
        ? string.Join(", ", names)
        : string.Create(CultureInfo.InvariantCulture, $"{string.Join(", ", names.Take(MostNamed - 1))} and {names.Length - MostNamed + 1} more");

    private static string Word(PartClass kind) => kind switch
    {
        PartClass.PushButton => "push-button",
        PartClass.KeySwitch => "key-switch",
        var one => one.ToString().ToLowerInvariant(),
    };
}
