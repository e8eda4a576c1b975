using System.Collections.Generic;
using CsCheck;
using Lampblack.Parts;
using Xunit;

namespace Lampblack.Tests.Parts;

public sealed class PartCheckTests
{
    private static readonly double[] Odd =
        [0, -0.0, double.NaN, double.PositiveInfinity, double.NegativeInfinity, double.MaxValue, double.Epsilon];

    private static readonly Part Good = new()
    {
        Id = "own-part",
        Name = "Own part",
        Class = PartClass.PushButton,
        Cutout = Disc(10),
        Bezel = Disc(14),
        ExtraHoles = [new(0, -10, Figure.FromUser(2), "pin")],
    };

    public static IEnumerable<TheoryDataRow<string, Part, string>> Wrong()
    {
        TheoryDataRow<string, Part, string> Row(string what, Part part, string message) => new(what, part, message);
        yield return Row("id", Good with { Id = "Own Part" }, "the id \"Own Part\" is not made of lower-case letters, digits and hyphens");
        yield return Row("empty id", Good with { Id = "" }, "the id \"\" is not made of lower-case letters, digits and hyphens");
        yield return Row("name", Good with { Name = " " }, "the name is empty");
        yield return Row("source", Good with { Cutout = new RoundCutout(new(10, "")) }, "the hole diameter of 10 mm has no source");
        yield return Row("negative", Good with { Cutout = Disc(-1) }, "the hole diameter is -1 mm; it must be above zero and at most 1000 mm");
        yield return Row("zero", Good with { Bezel = Disc(0) }, "the bezel diameter is 0 mm; it must be above zero and at most 1000 mm");
        yield return Row("not a number", Good with { KnobDiameter = Figure.FromUser(double.NaN) }, "the knob diameter is NaN mm; it must be above zero and at most 1000 mm");
        yield return Row("wrong unit", Good with { Body = new(Figure.FromUser(20), Figure.FromUser(20000), Figure.FromUser(20)) }, "the body height is 20000 mm; it must be above zero and at most 1000 mm");
        yield return Row("corner below zero", Good with { Cutout = Box(8, 6, -1) }, "the hole corner is -1 mm; it must be zero or more and at most 1000 mm");
        yield return Row("corner", Good with { Cutout = Box(8, 6, 3.5) }, "the hole's corner of 3.5 mm is more than half of its shorter side");
        yield return Row("slot", Good with { Cutout = new SlotCutout(Figure.FromUser(4), Figure.FromUser(6), 0) }, "the hole is 4 x 6 mm; a slot is at least as long as it is wide");
        yield return Row("flats", Good with { Cutout = new FlattedCutout(Figure.FromUser(10), Figure.FromUser(10)) }, "the hole is 10, 10 across flats; the flats must be nearer than the diameter");
        yield return Row("bezel", Good with { Bezel = Disc(9) }, "the bezel of 9 mm does not cover the hole of 10 mm");
        yield return Row("notch", Good with { Key = Key(1, 2.5) }, "the bezel of 14 mm does not cover the hole of 10 mm");
        yield return Row("wide key", Good with { Key = Key(10, 1) }, "the key is 10 mm wide; it must be narrower than the hole of 10 mm");
        yield return Row("key in a rectangle", Good with { Cutout = Box(8, 6, 0), Key = Key(1, 1) }, "a key 1 mm wide in a hole that is not round; only round holes take one");
        yield return Row("near hole", Good with { ExtraHoles = [new(0, -5.5, Figure.FromUser(2), "pin")] }, "extra hole 1 runs into the main hole; a notch in the edge is given as a key");
        yield return Row("two near holes", Good with { ExtraHoles = [new(0, -10, Figure.FromUser(2), "pin"), new(1, -10, Figure.FromUser(2), "pin")] }, "extra hole 2 runs into extra hole 1; a notch in the edge is given as a key");
        yield return Row("far hole", Good with { ExtraHoles = [new(double.PositiveInfinity, 0, Figure.FromUser(2), "pin")] }, "extra hole 1 is at Infinity, 0 mm; both must be within 1000 mm of the middle");
        yield return Row("direction", Good with { Key = new(Figure.FromUser(1), Figure.FromUser(1), double.NaN) }, "a direction is not a number");
        yield return Row("poles", Good with { Poles = -1 }, "-1 poles; a part has none or more");
        yield return Row("turn", Good with { SweepDegrees = 0 }, "a turn of 0 degrees; it must be above zero");
        yield return Row("one position", Good with { Positions = new(1, 30, 90) }, "1 positions; from 2 to 100 are possible");
        yield return Row("full turn", Good with { Positions = new(13, 30, 90) }, "13 positions 30 degrees apart; together they must stay below a full turn");
        yield return Row("step", Good with { Positions = new(3, -30, 90) }, "3 positions -30 degrees apart; together they must stay below a full turn");
    }

    [Fact]
    public void A_sound_part_has_no_problem() => Assert.Empty(PartCheck.Problems(Good));

    [Theory]
    [MemberData(nameof(Wrong))]
    public void A_wrong_part_is_told_what_is_wrong_and_what_is_allowed(string what, Part part, string message)
    {
        _ = what;
        Assert.Equal([message], PartCheck.Problems(part));
    }

    [Fact]
    public void Every_problem_is_told_at_once()
    {
        var part = Good with { Id = "X", Poles = -2, Bezel = Disc(5) };
        Assert.Equal(3, PartCheck.Problems(part).Length);
    }

    [Fact]
    public void Whatever_a_maker_writes_is_answered_and_never_thrown_at() =>
        Gen.Select(Number, Number, Number, Number, Number).Sample((first, second, third, fourth, fifth) =>
        {
            Cutout[] cutouts =
            [
                Disc(first), Box(first, second, third), new SlotCutout(Figure.FromUser(first), Figure.FromUser(second), third),
                new FlattedCutout(Figure.FromUser(first), Figure.FromUser(second)),
            ];
            foreach (var cutout in cutouts)
            {
                var part = Good with
                {
                    Cutout = cutout,
                    Key = new(Figure.FromUser(fourth), Figure.FromUser(fifth), third),
                    ExtraHoles = [new(first, fourth, Figure.FromUser(fifth), "pin")],
                    Positions = new(3, first, second),
                };
                _ = PartCheck.Problems(part);
                _ = part.PositionDegrees;
                _ = part.BodyBox;
            }
        });

    private static Gen<double> Number => Gen.OneOf(
        Gen.Double[-2000, 2000],
        Gen.Double[0, 30],
        Gen.Int[0, Odd.Length - 1].Select(index => Odd[index]));

    private static RoundCutout Disc(double mm) => new(Figure.FromUser(mm));

    private static RectangleCutout Box(double widthMm, double heightMm, double cornerMm) =>
        new(Figure.FromUser(widthMm), Figure.FromUser(heightMm), Figure.FromUser(cornerMm));

    private static KeyNotch Key(double widthMm, double depthMm) => new(Figure.FromUser(widthMm), Figure.FromUser(depthMm), 90);
}
