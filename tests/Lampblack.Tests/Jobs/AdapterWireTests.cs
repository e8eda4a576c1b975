using System;
using System.Linq;
using System.Threading;
using Lampblack.Jobs;
using Lampblack.Tests.Books;
using Lampblack.Tests.Suites;
using Lampblack.Tests.Wiring;
using Lampblack.Wiring;
using UglyToad.PdfPig;
using Xunit;

namespace Lampblack.Tests.Jobs;

/// <summary>One list of the adapter's wires feeds drawing, checklist and table: each wire once in each, crosswise (what one end sends the other hears), and none where no adapter is needed.</summary>
public sealed class AdapterWireTests
{
    private const double PointMm = 25.4 / 72;

    [Theory]
    [InlineData("kiln", 3)]
    [InlineData("dome-desk", 0)]
    public void Each_wire_stands_once_in_table_and_checklist(string name, int count)
    {
        var result = Build.Run(ExampleDesks.Source(name), new("A4", "option", Parts: BuildParts.Bench | BuildParts.Book), new Progress<string>(), CancellationToken.None);
        var rows = EverythingOnceTests.Csv(result, "wiring/wires.csv");
        Assert.Equal(
            new[] { "X1 GND GND black", "X2 TX D0 yellow", "X3 RX D1 green" }.Take(count),
            rows.Where(row => row["from"] == "USB-to-serial adapter").Select(row => $"{row["no"]} {row["from terminal"]} {row["to terminal"]} {row["colour"]}"));
        Assert.Equal(rows.Count, rows.Select(row => row["no"]).Distinct().Count());

        // The checklist's letters are shapes: below each of its rows is a thin rule, below heads a thicker one.
        var wiring = result.MadeBook!.Facts.Wiring!;
        var tests = ContinuityTests.Of(wiring.Pins, wiring.Needs, wiring.Wires.Nets).Count();
        using var pdf = PdfDocument.Open([.. result.Files.Single(file => file.Path == "wiring/checklist.pdf").Bytes]);
        var rules = pdf.GetPages().SelectMany(page => page.Paths).SelectMany(path => path).Select(part => part.GetBoundingRectangle())
            .Count(box => box is { } one && one.Width * PointMm > 150 && Math.Abs((one.Height * PointMm) - 0.1) < 0.02);
        Assert.Equal(rows.Count + wiring.Wires.Nets.Resistors.Length + EverythingOnceTests.Csv(result, "wiring/plugs.csv").Count + tests, rules);
    }

    [Fact]
    public void The_drawing_has_a_line_for_each()
    {
        var laid = WiredDesk.Example("kiln");
        var needs = WiringNeeds.Of(laid).Value;
        var plan = PinPlanning.Of(needs, [], laid.Desk.Controller!, null).Value;
        var nets = WireNets.Of(plan, needs, 0.005);
        Assert.Equal(["X1", "X2", "X3"], nets.Adapters.Select(wire => wire.Name));
        var (with, without) = (Schematic.Of(plan, needs, nets, laid.Desk), Schematic.Of(plan, needs, nets with { Adapters = [] }, laid.Desk));
        Assert.Equal(without.Wires.Length + 3, with.Wires.Length);

        // What it begins at, its name, its pin; and all of that below what stood there, on a sheet that is higher for it.
        Assert.Equal(without.Words.Length + 9, with.Words.Length);
        Assert.True(with.HeightMm > without.HeightMm + 10);
        Assert.Equal(Pairs(without), Pairs(with));

        // Words that touch each other, or a line.
        static int Pairs(Lampblack.Circuits.CircuitDrawing drawing)
        {
            var words = drawing.Words.Where(word => !word.IsEmpty).ToList();
            return words.Index().Sum(one => words.Skip(one.Index + 1).Concat(drawing.Wires).Count(one.Item.Touches));
        }
    }
}
