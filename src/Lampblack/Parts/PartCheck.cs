using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Parts;

/// <summary>Looks for what can't be right in a part, above all in one that a maker described.</summary>
public static class PartCheck
{
    /// <summary>Largest length that is taken for a part's, in mm; beyond it a unit was mistaken.</summary>
    private const double LargestMm = 1000;

    private static readonly ImmutableHashSet<string> MayBeZero = ["hole corner", "bezel corner", "hole tolerance", "bezel tolerance"];

    /// <summary>What is wrong, a sentence each (what was found, what is allowed); empty where nothing is.</summary>
    public static ImmutableArray<string> Problems(Part part)
    {
        ArgumentNullException.ThrowIfNull(part);
        var problems = ImmutableArray.CreateBuilder<string>();
        problems.AddRange(Names(part));
        problems.AddRange(Counts(part));
        var sizes = Sizes(part).ToImmutableArray();
        problems.AddRange(sizes);

        // Shapes are only compared once every size makes sense.
        if (sizes.IsEmpty)
        {
            var shapes = Shapes(part).ToImmutableArray();
            problems.AddRange(shapes.IsEmpty ? Places(part) : shapes);
        }

        return problems.ToImmutable();
    }

    private static IEnumerable<string> Names(Part part)
    {
        if (part.Id.Length == 0 || !part.Id.All(sign => sign is (>= 'a' and <= 'z') or (>= '0' and <= '9') or '-'))
        {
            yield return $"the id \"{part.Id}\" is not made of lower-case letters, digits and hyphens";
        }

        if (string.IsNullOrWhiteSpace(part.Name))
        {
            yield return "the name is empty";
        }

        foreach (var (what, figure) in part.Figures().Where(pair => string.IsNullOrWhiteSpace(pair.Figure.Source)))
        {
            yield return $"the {what} of {Cutout.Text(figure.Mm)} mm has no source";
        }
    }

    private static IEnumerable<string> Counts(Part part)
    {
        if (part.Poles < 0)
        {
            yield return $"{part.Poles} poles; a part has none or more";
        }

        if (part.SweepDegrees is { } sweep && !(double.IsFinite(sweep) && sweep > 0))
        {
            yield return $"a turn of {Cutout.Text(sweep)} degrees; it must be above zero";
        }

        if (part.Positions is not { } set)
        {
            yield break;
        }

        if (set.Count is < 2 or > 100)
        {
            yield return $"{set.Count} positions; from 2 to 100 are possible";
        }
        else if (!double.IsFinite(set.CentreDegrees) || !(set.StepDegrees > 0 && (set.Count - 1) * set.StepDegrees < 360))
        {
            yield return $"{set.Count} positions {Cutout.Text(set.StepDegrees)} degrees apart; together they must stay below a full turn";
        }
    }

    private static IEnumerable<string> Sizes(Part part)
    {
        foreach (var (what, figure) in part.Figures())
        {
            var zeroIsFine = MayBeZero.Contains(what);
            if (!double.IsFinite(figure.Mm) || figure.Mm > LargestMm || figure.Mm < 0 || (figure.Mm == 0 && !zeroIsFine))
            {
                yield return $"the {what} is {Cutout.Text(figure.Mm)} mm; it must be {(zeroIsFine ? "zero or more" : "above zero")} and at most {Cutout.Text(LargestMm)} mm";
            }
        }

        foreach (var (hole, index) in part.ExtraHoles.Select((hole, index) => (hole, index)))
        {
            if (!(Math.Abs(hole.XMm) <= LargestMm && Math.Abs(hole.YMm) <= LargestMm))
            {
                yield return $"extra hole {index + 1} is at {Cutout.Text(hole.XMm)}, {Cutout.Text(hole.YMm)} mm; both must be within {Cutout.Text(LargestMm)} mm of the middle";
            }
        }

        var directions = new[] { part.Key?.DirectionDegrees, (part.Cutout as SlotCutout)?.DirectionDegrees, (part.Bezel as SlotCutout)?.DirectionDegrees };
        if (directions.Any(direction => direction is { } degrees && !double.IsFinite(degrees)))
        {
            yield return "a direction is not a number";
        }
    }

    private static IEnumerable<string> Shapes(Part part)
    {
        var outlines = new[] { ("hole", part.Cutout), ("bezel", part.Bezel) };
        foreach (var (what, outline) in outlines)
        {
            switch (outline)
            {
                case RectangleCutout box when box.Corner.Mm > Math.Min(box.Width.Mm, box.Height.Mm) / 2:
                    yield return $"the {what}'s corner of {Cutout.Text(box.Corner.Mm)} mm is more than half of its shorter side";
                    break;
                case SlotCutout slot when slot.Length.Mm < slot.Width.Mm:
                    yield return $"the {what} is {slot.SizeText} mm; a slot is at least as long as it is wide";
                    break;
                case FlattedCutout flatted when flatted.AcrossFlats.Mm >= flatted.Diameter.Mm:
                    yield return $"the {what} is {flatted.SizeText}; the flats must be nearer than the diameter";
                    break;
                default:
                    break;
            }
        }

        if (part.Key is { } key && part.Cutout is not RoundCutout)
        {
            yield return $"a key {Cutout.Text(key.Width.Mm)} mm wide in a hole that is not round; only round holes take one";
        }
        else if (part.Key is { } notch && part.Cutout is RoundCutout round && notch.Width.Mm >= round.Diameter.Mm)
        {
            yield return $"the key is {Cutout.Text(notch.Width.Mm)} mm wide; it must be narrower than the hole of {round.SizeText} mm";
        }
    }

    private static IEnumerable<string> Places(Part part)
    {
        var holes = part.Holes();
        if (part.Bezel is { } bezel && !part.Covered().Contains(holes[0]))
        {
            yield return $"the bezel of {bezel.SizeText} mm does not cover the hole of {part.DrillText}";
        }

        for (var index = 1; index < holes.Length; index++)
        {
            for (var other = 0; other < index; other++)
            {
                if (holes[index].Touches(holes[other]))
                {
                    var name = other == 0 ? "the main hole" : $"extra hole {other}";
                    yield return $"extra hole {index} runs into {name}; a notch in the edge is given as a key";
                }
            }
        }
    }
}
