using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;

namespace Lampblack.Parts;

/// <summary>A tag of a part that a wire is soldered to.</summary>
/// <param name="Name">As it is marked on most parts of the kind: "1", "A", "+".</param>
/// <param name="XMm">Its place right of the part's anchor, seen from the front.</param>
/// <param name="YMm">Its place above the part's anchor.</param>
public sealed record Terminal(string Name, double XMm, double YMm);

/// <summary>One pole of a switch: what its lever, key, knob or cap joins.</summary>
/// <param name="Common">The terminal that takes part in every position.</param>
/// <param name="Throws">For each contact the terminal it joins to the common one.</param>
/// <param name="Joined">For each position, in the order of the hand, the contact that is closed; -1 where none is.</param>
public sealed record SwitchPole(string Common, ImmutableArray<string> Throws, ImmutableArray<int> Joined);

/// <summary>
/// Where the terminals of a part sit and which of them belong together, by its class. Names and places are those of usual parts, from memory:
/// look at yours, and let the continuity test decide.
/// </summary>
/// <param name="Terminals">All of them.</param>
/// <param name="Poles">Its switches, the first pole first; a knob's push is one.</param>
public sealed record PartTerminals(ImmutableArray<Terminal> Terminals, ImmutableArray<SwitchPole> Poles)
{
    /// <summary>What is said of them wherever they are shown.</summary>
    public const string Source = "from memory";

    // Tags of miniature switches stand 4.7 mm apart; larger ones have more room. From memory.
    private const double TagMm = 4.7;

    /// <summary>The ends of a resistive track and its slider, in this order: what the wiper meets first (anti-clockwise, low), the wiper, the other end.</summary>
    public static ImmutableArray<string> TrackNames { get; } = ["1", "2", "3"];

    /// <summary>An encoder's phase A, its common terminal, its phase B.</summary>
    public static ImmutableArray<string> EncoderNames { get; } = ["A", "C", "B"];

    /// <summary>The side of a lamp that + goes to (its longer leg), and the other.</summary>
    public static ImmutableArray<string> LampNames { get; } = ["+", "-"];

    /// <summary>The data terminal of a part with two wires.</summary>
    public const string TwoWireData = "SDA";

    /// <summary>The clock terminal of a part with two wires.</summary>
    public const string TwoWireClock = "SCL";

    /// <summary>Where a pixel's data comes in, and where it goes on to the next one.</summary>
    public static ImmutableArray<string> PixelNames { get; } = ["DI", "DO"];

    /// <summary>The data terminals of a display: two for graphic modules, six for character displays, from memory.</summary>
    /// <param name="part">The display.</param>
    public static ImmutableArray<string> DisplayNames(Part part)
    {
        ArgumentNullException.ThrowIfNull(part);
        return part.HasCharacters ? ["RS", "E", "D4", "D5", "D6", "D7"] : [TwoWireData, TwoWireClock];
    }

    /// <summary>The terminals of a part; none for what has no wires, or such of its own that only its sheet tells.</summary>
    /// <param name="part">The part.</param>
    public static PartTerminals Of(Part part)
    {
        ArgumentNullException.ThrowIfNull(part);
        var (width, height) = (part.Body?.Width.Mm ?? 10, part.Body?.Height.Mm ?? 10);
        return part.Class switch
        {
            PartClass.Toggle => Toggle(part, width, height),
            PartClass.PushButton => Button(part, width, height, "1", "2", Closes(1, 2)),
            PartClass.KeySwitch => Button(part, width, height, "1", "2", Closes(1, part.Positions?.Count ?? 2)),
            PartClass.Rotary => Rotary(part, Math.Min(width, height)),
            PartClass.Potentiometer => new(Row(TrackNames, width, -(height / 2) + 1), []),
            PartClass.Slider => new([new("1", 0, 1.2 - (height / 2)), new("2", width / 4, 1.2 - (height / 2)), new("3", 0, (height / 2) - 1.2)], []),
            PartClass.Encoder => Encoder(part, width, height),
            PartClass.Lamp when part.IsPixel => new(Row(PixelNames, width, 0), []),
            PartClass.Display => new(Row(DisplayNames(part), width, (height / 2) - 1), []),
            PartClass.Lamp or PartClass.Meter => new(Row(LampNames, width, 0), []),
            _ => new([], []),
        };
    }

    /// <summary>Open in all positions but that of a number.</summary>
    private static ImmutableArray<int> Closes(int closed, int count) => [.. Enumerable.Range(0, count).Select(position => position == closed ? 0 : -1)];

    /// <summary>Three tags in a column for each pole. A lever that points up closes the lower tag, as it tilts the other way inside.</summary>
    private static PartTerminals Toggle(Part part, double width, double height)
    {
        var (poles, isThree) = (Math.Max(1, part.Poles), part.Positions?.Count == 3);
        var (pitch, step) = (Math.Min(TagMm, (height - 1.6) / 2), Math.Min(TagMm, width / poles));
        ImmutableArray<int> joined = isThree ? [0, -1, 1] : [0, 1];
        return new(
            [.. Enumerable.Range(0, poles).SelectMany(pole => Enumerable.Range(0, 3).Select(tag => new Terminal(Number((3 * pole) + tag + 1), (pole - ((poles - 1) / 2.0)) * step, (1 - tag) * pitch)))],
            [.. Enumerable.Range(0, poles).Select(pole => new SwitchPole(Number((3 * pole) + 2), [Number((3 * pole) + 3), Number((3 * pole) + 1)], joined))]);
    }

    private static PartTerminals Button(Part part, double width, double height, string first, string second, ImmutableArray<int> joined)
    {
        var half = Math.Min(TagMm, (width / 2) - 1.2);
        ImmutableArray<Terminal> tags = [new(first, -half, 0), new(second, half, 0)];
        var lamp = Math.Min(TagMm, (height / 2) - 1.2);
        return new(
            part.Illuminated ? [.. tags, new(LampNames[0], 0, lamp), new(LampNames[1], 0, -lamp)] : tags,
            [new(first, [second], joined)]);
    }

    /// <summary>Commons A, B and so on on an inner ring, contacts numbered through all poles around the outer one; seen from behind they run as the hand does from the front.</summary>
    private static PartTerminals Rotary(Part part, double sizeMm)
    {
        var (poles, positions) = (Math.Max(1, part.Poles), part.Positions?.Count ?? 1);
        var (outer, inner, all) = ((sizeMm / 2) - 1.2, sizeMm / 5, poles * positions);
        Terminal At(string name, double radius, double turns) => new(name, radius * Math.Sin(turns * 2 * Math.PI), radius * Math.Cos(turns * 2 * Math.PI));
        return new(
            [
                .. Enumerable.Range(0, poles).Select(pole => At(Letter(pole), poles == 1 ? 0 : inner, (pole + 0.5) / poles)),
                .. Enumerable.Range(0, all).Select(contact => At(Number(contact + 1), outer, (contact + 0.5) / all)),
            ],
            [
                .. Enumerable.Range(0, poles).Select(pole => new SwitchPole(
                    Letter(pole), [.. Enumerable.Range(0, positions).Select(position => Number((pole * positions) + position + 1))], [.. Enumerable.Range(0, positions)])),
            ]);
    }

    private static PartTerminals Encoder(Part part, double width, double height)
    {
        var phases = Row(EncoderNames, width, 1 - (height / 2));
        return part.Poles == 0 ? new(phases, []) : new([.. phases, new("D", -width / 4, (height / 2) - 1), new("E", width / 4, (height / 2) - 1)], [new("D", ["E"], Closes(1, 2))]);
    }

    private static ImmutableArray<Terminal> Row(ImmutableArray<string> names, double widthMm, double yMm)
    {
        var step = Math.Min(TagMm, (widthMm - 1.6) / (names.Length - 1));
        return [.. names.Select((name, index) => new Terminal(name, (index - ((names.Length - 1) / 2.0)) * step, yMm))];
    }

    private static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);

    private static string Letter(int index) => ((char)('A' + index)).ToString();
}
