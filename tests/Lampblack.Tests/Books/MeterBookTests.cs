using System;
using System.Linq;
using System.Text;
using System.Threading;
using Lampblack.Jobs;
using Lampblack.Tests.Suites;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>A meter with a pointer in the printed book: it is driven by a pin that dims, and is no light.</summary>
public sealed class MeterBookTests
{
    [Fact]
    public void A_meter_gets_no_gate()
    {
        var rows = SmallDesk.Rows(SmallDesk.Xml(SmallDesk.Html(SmallDesk.Build(Text()))), "joint");
        Assert.NotEmpty(rows);
        Assert.DoesNotContain(rows, row => row.Row.Value.Contains("gate", StringComparison.Ordinal) || row.Row.Value.Contains("lamps' 0 V", StringComparison.Ordinal));
    }

    [Fact]
    public void A_meter_stands_in_the_roll_once()
    {
        var keys = SmallDesk.Rows(SmallDesk.Xml(SmallDesk.Html(SmallDesk.Build(Text()))), "call").Select(row => row.Key).ToList();
        Assert.Equal(["main/points", "main/speed", "main/turn", "main/steam"], keys);
    }

    [Fact]
    public void The_station_counts_a_meter_as_a_meter()
    {
        var sentence = DeskView.Of(ExampleDesks.Alone(Encoding.UTF8.GetBytes(Text())), new("A4", "option", Parts: BuildParts.None)).Wiring([], new Progress<string>(), CancellationToken.None, CancellationToken.None).Sentence;
        Assert.Contains("1 meter.", sentence, StringComparison.Ordinal);
        Assert.DoesNotContain("dimmed light", sentence, StringComparison.Ordinal);
    }

    /// <summary>The light behind the panel has its gate and its row still.</summary>
    [Fact]
    public void Light_beside_a_meter_keeps_its_gate_and_its_place_in_the_roll()
    {
        var page = SmallDesk.Xml(SmallDesk.Html(SmallDesk.Build(WithMeter(SmallDesk.Text()))));
        var joints = SmallDesk.Rows(page, "joint");
        Assert.Single(joints, row => row.Row.Value.Contains("gate resistor", StringComparison.Ordinal));
        Assert.Single(joints, row => row.Row.Value.Contains("lamps' 0 V", StringComparison.Ordinal));
        var keys = SmallDesk.Rows(page, "call").Select(row => row.Key).ToList();
        Assert.Equal(keys.Distinct(), keys);
        Assert.Equal(5, keys.Count);
    }

    /// <summary>The signal box with a steam gauge and no light.</summary>
    private static string Text()
    {
        var lit = SmallDesk.Text();
        var start = lit.IndexOf("[lighting]", StringComparison.Ordinal);
        var dark = lit.Remove(start, lit.IndexOf("[[panel]]", StringComparison.Ordinal) - start);
        return WithMeter(dark[..dark.IndexOf("[[panel.emitter]]", StringComparison.Ordinal)]);
    }

    private static string WithMeter(string text) =>
        text.Replace("size = [120, 70]", "size = [220, 90]", StringComparison.Ordinal) + "\n\n[[panel.control]]\nid = \"steam\"\npart = \"meter-round-45\"\nat = [170, 45]\nlegend = \"STEAM\"\n";
}
