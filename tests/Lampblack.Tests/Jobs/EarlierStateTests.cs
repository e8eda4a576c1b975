using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using Lampblack.Desks;
using Lampblack.Edits;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Tests.Suites;
using Xunit;

namespace Lampblack.Tests.Jobs;

/// <summary>A desk that is shown with the help of an earlier state of it is the same to the last dot as one that is read and laid out from nothing.</summary>
public sealed class EarlierStateTests
{
    private const int Changes = 12;
    private const int ChangesBeforeTheyAreTakenBack = 6;

    private static readonly BuildRequest Request = new("A4", "asked", Parts: BuildParts.None);

    // What an item takes over from above it, and what leads to it; a word each that stands in one of the examples or in the desk below.
    private const string Odd = """
        lampblack = 1
        title = "Odd one"
        [inks]
        moss = [60, 20, 80, 30]
        [text]
        height = 3
        [[part]]
        id = "own-pot"
        name = "Own pot"
        class = "potentiometer"
        hole = 9
        nut = 13
        [[panel]]
        id = "upper"
        title = "UPPER"
        size = [150, 90]
        text = { height = 2.5 }
        fixings = { part = "screw-m3", inset = 6 }
        [[panel.control]]
        part = "own-pot"
        at = [30, 40]
        legend = "DAMPER"
        ink = "moss"
        dial = { from = 0, to = 10, major = 2, minor = 1 }
        [[panel.control]]
        id = "row"
        part = "toggle-on-on"
        at = [70, 30]
        row = { count = 3, step = 20 }
        legend = ["A", "B", "C"]
        [[panel.rule]]
        line = [[20, 70], [120, 70]]
        title = "KILN"
        [[panel.area]]
        box = [60, 10, 80, 50]
        ink = "moss"
        [[panel.legend]]
        at = [75, 80]
        text = "FLUE"
        [[panel]]
        id = "lower"
        size = [100, 60]
        [[panel.legend]]
        at = [50, 30]
        text = "NOTHING ELSE"
        """;

    public static TheoryData<string, int> Desks()
    {
        var cases = new TheoryData<string, int>();
        foreach (var name in ExampleDesks.Names)
        {
            cases.Add(name, 1);
        }

        for (var seed = 1; seed <= 6; seed++)
        {
            cases.Add("odd", seed);
        }

        return cases;
    }

    [Theory]
    [MemberData(nameof(Desks))]
    public void Any_change_of_a_line_shows_the_same_as_a_desk_opened_anew(string name, int seed)
    {
        var source = name == "odd" ? ExampleDesks.Alone(Encoding.UTF8.GetBytes(Odd)) : ExampleDesks.Source(name);
        List<string> written = [.. Encoding.UTF8.GetString(source.Bytes.AsSpan()).Split('\n')];
        var (lines, random) = (written.ToList(), new Random(seed));
        var earlier = DeskView.Of(source, Request);
        var kinds = new HashSet<string>();
        for (var change = 0; change < Changes; change++)
        {
            if (change % ChangesBeforeTheyAreTakenBack == 0)
            {
                lines = [.. written];
            }

            kinds.Add(Change(lines, random));
            source = source with { Bytes = [.. Encoding.UTF8.GetBytes(string.Join('\n', lines))] };
            var now = DeskView.Of(source, Request, null, earlier);

            // Other bytes, though the same ones: nothing is known of them.
            var anew = DeskView.Of(source with { Bytes = [.. source.Bytes.AsSpan()] }, Request);
            AssertSame(anew, now, earlier);
            earlier = now;
        }

        Assert.True(kinds.Count >= 3, string.Join(' ', kinds));
        foreach (var panel in earlier.Panels)
        {
            var anew = DeskView.Of(source with { Bytes = [.. source.Bytes.AsSpan()] }, Request);
            AssertSame(anew.Draw(panel.Id)!, earlier.Draw(panel.Id)!);
        }
    }

    [Fact]
    public void Edits_of_the_workshop_show_the_same_as_a_desk_opened_anew()
    {
        var source = ExampleDesks.Alone(Encoding.UTF8.GetBytes(Odd));
        var earlier = DeskView.Of(source, Request);
        foreach (var edit in new DeskEdit[]
        {
            new MoveItems([new("upper/row", 1.5, 2)]),
            new MoveItems([new("upper/legend-1", -3, 0)]),
            new SetKey("upper", "text.height", new KeyNumber(3)),
            new TurnItems(["upper/row"], 15),
            new SetKey(string.Empty, "inks.moss", new KeyList([new KeyNumber(0), new KeyNumber(0), new KeyNumber(90), new KeyNumber(0)])),
            new CopyItems(["upper/control-1"], 40, 0),
            new RemoveItems(["upper/area-1"]),
            new SetKey("upper", "size", new KeyList([new KeyNumber(160), new KeyNumber(95)])),
        })
        {
            var result = Edit.Apply(source, edit);
            Assert.DoesNotContain(result.Findings, finding => finding.Severity == Severity.Stop);
            Assert.False(result.Changes.IsEmpty, edit.ToString());
            source = source with { Bytes = result.Bytes };
            var now = DeskView.Of(source, Request, null, earlier);
            AssertSame(DeskView.Of(source with { Bytes = [.. result.Bytes.AsSpan()] }, Request), now, earlier);
            earlier = now;
        }

        AssertSame(DeskView.Of(source with { Bytes = [.. source.Bytes.AsSpan()] }, Request).Draw("upper")!, earlier.Draw("upper")!);
    }

    [Fact]
    public void The_same_bytes_are_read_once_and_others_anew()
    {
        ImmutableArray<byte> bytes = [.. Encoding.UTF8.GetBytes(Odd)];
        var read = ReadDesk.Of("desk.toml", bytes);
        Assert.Same(read, ReadDesk.Of("desk.toml", bytes));
        Assert.NotSame(read, ReadDesk.Of("desk.toml", [.. bytes.AsSpan()]));
        Assert.Equal("other.toml", ReadDesk.Of("other.toml", bytes).Desk.Value.Panels[0].Items[0].Span.File);
        Assert.Equal("desk.toml", ReadDesk.Of("desk.toml", bytes).Desk.Value.Panels[0].Items[0].Span.File);
        Assert.Empty(ReadDesk.Of("desk.toml", []).Desk.Value.Panels);
    }

    /// <summary>Changes a line as hands do, well or badly.</summary>
    private static string Change(List<string> lines, Random random)
    {
        var at = random.Next(lines.Count);
        switch (random.Next(6))
        {
            case 0:
                lines.Insert(at, "# a remark");
                return "remark";
            case 1 when lines[at].Length > 0:
                lines.RemoveAt(at);
                return "taken out";
            case 2:
                lines.Insert(at, lines[random.Next(lines.Count)]);
                return "twice";
            default:
                for (var tries = 0; tries < 50; tries++, at = random.Next(lines.Count))
                {
                    var digits = Enumerable.Range(0, lines[at].Length).Where(index => char.IsAsciiDigit(lines[at][index])).ToList();
                    if (digits.Count > 0 && !lines[at].StartsWith("lampblack", StringComparison.Ordinal))
                    {
                        var where = digits[random.Next(digits.Count)];
                        lines[at] = $"{lines[at][..where]}{random.Next(1, 10)}{lines[at][(where + 1)..]}";
                        return "number";
                    }
                }

                return "nothing";
        }
    }

    private static void AssertSame(DeskView anew, DeskView now, DeskView earlier)
    {
        Assert.Equal(anew.Findings.Select(Told), now.Findings.Select(Told));
        Assert.Equal(anew.Panels.Select(panel => (panel.Id, panel.WidthMm, panel.HeightMm)), now.Panels.Select(panel => (panel.Id, panel.WidthMm, panel.HeightMm)));
        foreach (var (one, other) in anew.Panels.Zip(now.Panels))
        {
            Assert.Equal(one.Items.AsEnumerable(), other.Items.AsEnumerable());
            var (windows, again) = (anew.DrawChanges(one.Id, earlier), now.DrawChanges(one.Id, earlier));
            Assert.Equal(windows is null, again is null);
            foreach (var (window, drawn) in (windows ?? []).Zip(again ?? []))
            {
                AssertSame(window, drawn);
            }

            Assert.Equal(windows?.Length, again?.Length);
        }
    }

    private static void AssertSame(FacePictures one, FacePictures other)
    {
        Assert.Equal((one.LeftPx, one.TopPx, one.WidthPx, one.HeightPx), (other.LeftPx, other.TopPx, other.WidthPx, other.HeightPx));
        Assert.True(one.DayPng.AsSpan().SequenceEqual(other.DayPng.AsSpan()));
        Assert.True(one.LitPng.AsSpan().SequenceEqual(other.LitPng.AsSpan()));
    }

    private static (string, string, SourceSpan?, string?) Told(Finding finding) => (finding.Code, finding.Message, finding.Span, finding.Item);
}
