using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Text;
using System.Text.RegularExpressions;
using Lampblack.Parts;
using Lampblack.Tests.Peers;
using Lampblack.Wiring;
using Xunit;

namespace Lampblack.Tests.Wiring;

/// <summary>What a matrix reads, against the rule of three corners and against ngspice.</summary>
public sealed partial class MatrixReadingTests
{
    /// <summary>Row 73 of the published figures.</summary>
    [Fact]
    public void Three_corners_make_the_fourth_read_closed_unless_there_are_diodes()
    {
        var closed = ImmutableArray.Create(true, true, true, false);
        Assert.Equal([true, true, true, true], MatrixReading.Of(Plan(2, 2, diodes: false), closed));
        Assert.Equal(closed, MatrixReading.Of(Plan(2, 2, diodes: true), closed));
    }

    /// <summary>All 512 states of 3 x 3: 384 read wrong somewhere, and those are the ones with a rectangle of exactly three closed corners.</summary>
    [Fact]
    public void Of_all_states_those_read_wrong_that_have_three_corners()
    {
        var wrong = 0;
        for (var state = 0; state < 512; state++)
        {
            var closed = Enumerable.Range(0, 9).Select(bit => (state >> bit & 1) == 1).ToImmutableArray();
            var corners = from r1 in Enumerable.Range(0, 3)
                          from r2 in Enumerable.Range(r1 + 1, 2 - r1)
                          from c1 in Enumerable.Range(0, 3)
                          from c2 in Enumerable.Range(c1 + 1, 2 - c1)
                          select new[] { closed[(3 * r1) + c1], closed[(3 * r1) + c2], closed[(3 * r2) + c1], closed[(3 * r2) + c2] }.Count(one => one);
            var isWrong = !MatrixReading.Of(Plan(3, 3, diodes: false), closed).SequenceEqual(closed);
            Assert.Equal(corners.Contains(3), isWrong);
            wrong += isWrong ? 1 : 0;
            Assert.Equal(closed, MatrixReading.Of(Plan(3, 3, diodes: true), closed));
        }

        Assert.Equal(384, wrong);
    }

    /// <summary>Rows pulled up by 35 kilohms, the column low through 25 ohms; below 1.5 V (0.3 of 5 V) reads low. The diodes' figures are those usual for 1N4148, from memory.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Random_states_read_as_ngspice_computes_them(bool diodes)
    {
        var random = new Random(diodes ? 73 : 74);
        var differs = 0;
        for (var trial = 0; trial < 12; trial++)
        {
            var (columns, rows) = (random.Next(2, 6), random.Next(2, 6));
            var plan = Plan(columns, rows, diodes);
            var states = Enumerable.Range(0, 6).Select(_ => Enumerable.Range(0, columns * rows).Select(_ => random.Next(5) < 2).ToImmutableArray()).ToList();
            foreach (var (closed, low) in states.Zip(Ngspice(plan, [.. states])))
            {
                var ours = MatrixReading.Of(plan, closed);
                Assert.Equal(low, ours);
                differs += ours.SequenceEqual(closed) ? 0 : 1;
            }
        }

        // The states hold what the test is about.
        Assert.Equal(!diodes, differs > 10);
    }

    private static ControllerPlan Plan(int columns, int rows, bool diodes)
    {
        var pins = Controllers.ATmega2560.Pins;
        return new()
        {
            Index = 0,
            Chip = ControllerChip.ATmega2560,
            Diodes = diodes,
            Columns = [.. pins.Take(columns).Select(pin => pin.Pin)],
            Rows = [.. pins.Skip(20).Take(rows).Select(pin => pin.Pin)],
            Contacts = [.. Enumerable.Range(0, columns * rows).Select(index => new PlannedContact(index.ToString(CultureInfo.InvariantCulture), new MatrixInput(index % columns, index / columns)))],
        };
    }

    /// <summary>For each state each contact's reading: one circuit for each column that is low.</summary>
    private static ImmutableArray<ImmutableArray<bool>> Ngspice(ControllerPlan plan, ImmutableArray<ImmutableArray<bool>> states)
    {
        OutsideProgram.Need("ngspice");
        var text = new StringBuilder("matrix\n.model d D(IS=2.52n RS=0.568 N=1.752)\nVS s 0 5\n");
        foreach (var (state, closed) in states.Index())
        {
            for (var low = 0; low < plan.Columns.Length; low++)
            {
                var tag = FormattableString.Invariant($"{state}x{low}");
                text.Append(CultureInfo.InvariantCulture, $"RL{tag} c{tag}x{low} 0 25\n");
                for (var row = 0; row < plan.Rows.Length; row++)
                {
                    text.Append(CultureInfo.InvariantCulture, $"RU{tag}x{row} s r{tag}x{row} 35k\n");
                }

                for (var column = 0; column < plan.Columns.Length; column++)
                {
                    text.Append(CultureInfo.InvariantCulture, $"RF{tag}x{column} c{tag}x{column} 0 1g\n");
                }

                foreach (var (index, contact) in plan.Contacts.Index())
                {
                    var place = (MatrixInput)contact.Place;
                    text.Append(CultureInfo.InvariantCulture, $"RC{tag}x{index} r{tag}x{place.Row} {(plan.Diodes ? "m" : "c")}{tag}x{(plan.Diodes ? index : place.Column)} {(closed[index] ? "0.05" : "1g")}\n");
                    if (plan.Diodes)
                    {
                        text.Append(CultureInfo.InvariantCulture, $"D{tag}x{index} m{tag}x{index} c{tag}x{place.Column} d\n");
                    }
                }
            }
        }

        text.Append(".control\nop\n");
        foreach (var (state, _) in states.Index())
        {
            for (var low = 0; low < plan.Columns.Length; low++)
            {
                for (var row = 0; row < plan.Rows.Length; row++)
                {
                    text.Append(CultureInfo.InvariantCulture, $"print v(r{state}x{low}x{row})\n");
                }
            }
        }

        using var folder = new ScratchFolder();
        var output = OutsideProgram.RunWell("ngspice", ["-b", folder.Write("matrix.cir", Encoding.ASCII.GetBytes(text.Append("quit\n.endc\n.end\n").ToString()))], folder.FullPath).Output;
        var volts = Printed().Matches(output).ToDictionary(match => match.Groups[1].Value, match => double.Parse(match.Groups[2].Value, CultureInfo.InvariantCulture));
        return
        [
            .. states.Select((_, state) => plan.Contacts.Select(contact => (MatrixInput)contact.Place)
                .Select(place => volts[FormattableString.Invariant($"{state}x{place.Column}x{place.Row}")] < 1.5).ToImmutableArray()),
        ];
    }

    [GeneratedRegex(@"v\(r(\d+x\d+x\d+)\)\s*=\s*([-+0-9.eE]+)")]
    private static partial Regex Printed();
}
