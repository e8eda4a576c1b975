using System;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using CsCheck;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Tests.Architecture;
using Lampblack.Tests.SourceText;
using Xunit;

namespace Lampblack.Tests.Printers;

public sealed class PrinterFileTextTests
{
    private const string Whole = """
        lampblack-printer = 1
        name = "study"
        [path]
        colour = true
        slot = "tray 2"
        paper = "letter"
        weight = "32 lb"
        edge = "long"
        turning = "automatic"
        order = "mask-first"
        heavy = "heavy 2"
        margin = "1/4 in"
        leading-edge = 12
        [[turn]]
        tick = "B"
        face = "lower"
        [[register]]
        from = "readings"
        readings = [ { at = [80, -115], right = 0.3, up = -0.1, sd = 0.1 }, { at = [0, 0], up = "0.2 mm", sd = 0.1 } ]
        [[bars]]
        front = 100.2
        [[coverage]]
        flaked = [300, 360]
        held = [240]
        [[wedge]]
        patches = [ { id = "front-K-vector", density = 1.41, sd = 0.02 }, { id = "both-K-vector", at-least = 2.3 } ]
        [[gain]]
        across = 0.06
        along = "0.055 mm"
        sd = 0.004
        [[planes]]
        readings = [ { ink = "C", at = [-9.2, 65], right = 0.04, up = -0.02, sd = 0.012 }, { ink = "Y", at = [9.2, -45], right = -0.1, up = 0, sd = 0.02 } ]

        """;

    private static readonly Gen<string> Words = Gen.OneOf(Gen.Const("tray 2"), Gen.Const("Stapel \"groß\" \\ 1"), Gen.Const("a\tb\nc"), Gen.String[Gen.Char['!', '~'], 1, 20], Gen.Const("😀 #1"));

    private static readonly Gen<double> Shift = Gen.OneOf(Gen.Double[-0.4, 0.4], Gen.Const(20.0), Gen.Const(0.1 + 0.2), Gen.Const(1e-7));

    private static readonly Gen<RegisterReading> Reading = Gen.Select(Gen.Double[-300, 300], Gen.Double[-300, 300], Shift, Shift, Gen.OneOf(Gen.Double[0.05, 10], Gen.Const(0.001)), Gen.Int[0, 2]).Select(
        (x, y, right, up, sd, what) => new RegisterReading(x, y, what == 1 ? null : right, what == 2 ? null : up, sd));

    private static readonly Gen<ImmutableArray<double>> Percents = Gen.Int[100, 400].Array[1, 4].Select(list => list.Select(value => value / 100.0).ToImmutableArray());

    private static readonly Gen<PrinterPath> Path = Gen.Select(
        Gen.Bool,
        Words,
        Gen.OneOf(Gen.Const("A4"), Gen.Const("Letter"), Gen.Const("A3")),
        Gen.Double[40, 400],
        Gen.Select(Gen.Enum<FirstEdge>(), Gen.Enum<Turning>(), Gen.Enum<SideOrder>(), Gen.Bool),
        Words,
        Gen.Double[0, 40],
        Gen.Double[0, 40]).Select((colour, slot, paper, weight, words, heavy, margin, edge) => new PrinterPath(
            colour, words.Item4 ? slot : null, paper, words.Item4 ? weight : null, words.Item1, words.Item2, words.Item3, words.Item4 ? heavy : null, margin, edge));

    private static readonly Gen<PrinterFile> Files = Gen.Select(
        Words,
        Path,
        Gen.Select(Gen.Enum<Tick>(), Gen.Enum<PrintedFace>()).Select((tick, face) => new TurnEntry(tick, face) { Date = face == PrintedFace.Upper ? new DateOnly(2028, 2, 29) : null }).Array[0, 3],
        Gen.Select(Gen.Int[0, 3].Select(at => PrinterWords.Sources[at]), Reading.Array[1, 4]).Select((from, readings) => new RegisterEntry(from, [.. readings]) { Copy = readings.Length > 2 ? readings.Length : null, Sheet = readings.Length - 1, RmsMm = readings.Length == 2 ? null : 0.1 * readings.Length, Date = readings.Length == 4 ? null : new DateOnly(2026, readings.Length, 28) }).Where(entry => Math.Abs(RegisterEstimate.WidestStretchPercent(entry)) <= 0.6).Array[0, 4],
        Gen.Select(Gen.Double[99.4, 100.6], Gen.Double[99.4, 100.6], Gen.Int[0, 2], Gen.Int[1, 9]).Select(
            (front, back, what, number) => new BarEntry(what == 1 ? null : front, what == 2 ? null : back, number) { AlongMm = number % 3 == 1 ? front * 2.5 : null, AcrossMm = number % 3 == 2 ? back * 1.8 : null, Date = number == 4 ? new DateOnly(1999, 12, 31) : null }).Array[0, 3],
        Gen.Select(Percents, Percents, Gen.Int[0, 2]).Select((flaked, held, what) => new CoverageEntry(what == 1 ? [] : flaked, what == 2 ? [] : held) { Date = what == 0 ? new DateOnly(2026, 11, 28) : null }).Array[0, 3])
        .Select((name, path, turns, register, bars, coverage) => new PrinterFile(name, path, [.. turns], [.. register], [.. bars], [.. coverage]) 
        {
            Forgotten = bars.Length == 2 ? 3 : 0,
            Wedges = bars.Length == 1 ? [new([new("front-K-vector", 0.1 + 0.2 + coverage.Length, 0.02, false), new("both-\"x\"", 2.3, 0, true)]) { Sheet = coverage.Length, Date = coverage.Length == 2 ? new DateOnly(2026, 3, 9) : null }] : [],
            Gains = turns.Length == 2 ? [new(0.1 + 0.2 - 0.25, -0.01, 0.004), new(0.5, -0.5, 0.0001) { Sheet = 7, Date = new DateOnly(2026, 1, 2) }] : [],
            Planes = coverage.Length == 1 ? [new([new('C', -9.2, 1e-7, 0.1 + 0.2, -2, 0.01), new('Y', 0, 65, 0, 0, 1)]) { Date = new DateOnly(2026, 3, 9) }] : [],
            Cost = turns.Length switch { 0 => PrintCost.Unknown, 1 => new(SheetPrice: 0.035), 2 => new("shells", 0, 79.9, 2500), _ => new("\"", 0.1, 60, 1000, 92.25, 1800) },
        });

    [Theory]
    [InlineData("2026-03-9")]
    [InlineData("09.03.2026")]
    [InlineData("2026-02-30")]
    [InlineData("today")]
    public void A_date_that_is_none_is_told_with_its_place(string date)
    {
        var read = Read(Whole.Replace("front = 100.2", $"front = 100.2\ndate = \"{date}\"", StringComparison.Ordinal));
        var finding = Assert.Single(read.Findings);
        Assert.Equal(("date-form", Severity.Stop), (finding.Code, finding.Severity));
        Assert.Equal(22, finding.Span!.Line);
        Assert.Contains("date-form", Learn.Run(read.Value, LearnAnswers.Nothing with { Bars = ["front=99.9"], Date = date }).Findings.Select(one => one.Code));
    }

    [Fact]
    public void A_lesson_keeps_its_day_and_how_far_its_readings_lie_off_their_fit()
    {
        var first = Learn.Run(Read(Whole).Value with { Register = [], Bars = [] }, LearnAnswers.Nothing with { Readings = ["NE:x=+0.3,y=-0.1", "SW:x=+0.3,y=-0.1"], Tick = "A", Date = "2026-03-09" }).Value.File;
        Assert.Equal(new DateOnly(2026, 3, 9), Assert.Single(first.Register).Date);
        Assert.Equal(new DateOnly(2026, 3, 9), first.Turns[^1].Date);
        Assert.Null(first.Turns[0].Date);
        Assert.InRange(first.Register[0].RmsMm!.Value, 0, 0.01);

        // 0.2 mm apart at two far corners: what turn and stretch do not take up is left, and it is more than before.
        var apart = Learn.Run(first, LearnAnswers.Nothing with { Readings = ["NE:x=+0.5,y=-0.1", "SW:x=+0.1,y=-0.1", "NW:x=+0.1,y=0.1", "SE:x=+0.4,y=-0.3"], Date = "2026-03-10" }).Value.File;
        Assert.InRange(apart.Register[1].RmsMm!.Value, 0.01, 0.2);
        Assert.Contains(PrinterFiles.Lessons(apart), lesson => lesson.StartsWith("2026-03-10, register, from readings: 4 readings", StringComparison.Ordinal) && lesson.EndsWith("mm off their fit", StringComparison.Ordinal));
    }

    [Fact]
    public void A_whole_file_is_read_word_by_word()
    {
        var read = Read(Whole);
        Assert.Empty(read.Findings);
        Assert.Equal("study", read.Value.Name);
        Assert.Equal("Letter", read.Value.Path.Paper);
        Assert.Equal(120.31, read.Value.Path.WeightGramsPerM2!.Value, 2);
        Assert.Equal(6.35, read.Value.Path.MarginMm, 9);
        Assert.Equal((FirstEdge.Long, Turning.Automatic, SideOrder.MaskFirst), (read.Value.Path.Edge, read.Value.Path.Turning, read.Value.Path.Order));
        Assert.Equal([new(Tick.B, PrintedFace.Lower)], read.Value.Turns);
        Assert.Equal([new(80, -115, 0.3, -0.1, 0.1), new(0, 0, null, 0.2, 0.1)], Assert.Single(read.Value.Register).Readings);
        
        // A bar that says no number was written down just now: no sheet was made with it yet.
        Assert.Equal([new(100.2, null, Number: 2)], read.Value.Bars);
        Assert.Equal([3.0, 3.6], read.Value.Coverage[0].Flaked);
        Assert.Equal([2.4], read.Value.Coverage[0].Held);
        Assert.Equal([new(0.06, 0.055, 0.004)], read.Value.Gains);
        Assert.Equal([new('C', -9.2, 65, 0.04, -0.02, 0.012), new('Y', 9.2, -45, -0.1, 0, 0.02)], Assert.Single(read.Value.Planes).Readings);
    }

    [Theory]
    [InlineData("sheet = -1", "value-range")]
    [InlineData("pages = 10", "value-range")]
    [InlineData("pages = \"many\"", "value-kind")]
    [InlineData("ink = 3", "key-unknown")]
    public void A_cost_that_can_t_be_is_found(string line, string code) =>
        Assert.Contains(Read(Whole + "\n[cost]\n" + line + "\n").Findings, finding => finding.Code == code);

    [Fact]
    public void The_manual_s_example_is_a_printer_file_without_a_fault()
    {
        var text = Repository.Read("docs/printer-file.md").ReplaceLineEndings("\n").Split("```toml\n")[1].Split("```")[0];
        var read = Read(text);
        Assert.Empty(read.Findings);
        Assert.Equal(2.4, CoverageLimit.Of(read.Value).HeldCoverage);
        Assert.Equal(2, read.Value.Revision);
    }

    [Fact]
    public void What_is_written_reads_back_as_the_same_record_and_writes_as_the_same_bytes() => Files.Sample(
        file =>
        {
            var bytes = PrinterFileWriter.Write(file);
            var read = PrinterFileReader.Read("p.toml", bytes.AsSpan());
            Assert.Empty(read.Findings);
            AssertSame(file, read.Value);
            Assert.Equal(bytes, PrinterFileWriter.Write(read.Value));
        },
        iter: 500);

    [Fact]
    public void A_written_file_says_at_its_head_that_comments_are_not_kept()
    {
        var text = Encoding.UTF8.GetString(PrinterFileWriter.Write(PrinterSamples.New()).AsSpan());
        Assert.StartsWith("# A printer file of Lampblack", text, StringComparison.Ordinal);
        Assert.Contains("comments and blank lines of yours are not kept", text, StringComparison.Ordinal);
        Assert.DoesNotContain('\r', text);
        Assert.Equal("lampblack-printer = 1", text.Split('\n').First(line => !line.StartsWith('#')));
    }

    [Theory]
    [InlineData("lampblack-printer = 1", "", "format-missing", 1)]
    [InlineData("lampblack-printer = 1", "lampblack-printer = \"1\"", "format-missing", 1)]
    [InlineData("lampblack-printer = 1", "lampblack-printer = 2", "format-newer", 1)]
    [InlineData("name = \"study\"", "", "key-missing", 1)]
    [InlineData("colour = true", "", "key-missing", 3)]
    [InlineData("colour = true", "color = true", "key-unknown", 4)]
    [InlineData("paper = \"letter\"", "paper = \"B5\"", "paper-unknown", 6)]
    [InlineData("\"32 lb\"", "\"32 lb vellum\"", "weight-unreadable", 7)]
    [InlineData("\"32 lb\"", "\"4 lb\"", "value-range", 7)]
    [InlineData("\"32 lb\"", "1200", "value-range", 7)]
    [InlineData("\"32 lb\"", "true", "value-kind", 7)]
    [InlineData("\"long\"", "\"wide\"", "choice-unknown", 8)]
    [InlineData("\"1/4 in\"", "\"1/4\"", "length-unreadable", 12)]
    [InlineData("= 12", "= 120", "value-range", 13)]
    [InlineData("tick = \"B\"", "tick = \"C\"", "choice-unknown", 15)]
    [InlineData("tick = \"B\"", "", "key-missing", 14)]
    [InlineData("right = 0.3, up = -0.1, ", "", "printer-entry-empty", 19)]
    [InlineData("right = 0.3", "right = 30", "value-range", 19)]
    [InlineData(" sd = 0.1 }, ", " sd = 0 }, ", "value-range", 19)]
    [InlineData("at = [80, -115], ", "", "key-missing", 19)]
    [InlineData("front = 100.2", "front = 94", "bar-scaled", 21)]
    [InlineData("front = 100.2", "front = 940", "value-range", 21)]
    [InlineData("front = 100.2", "front = 99.3", "bar-scaled", 21)]
    [InlineData("front = 100.2", "back = 100.7", "bar-scaled", 21)]
    [InlineData("front = 100.2", "front = 100.2\nnumber = 0", "value-range", 22)]
    [InlineData("right = 0.3, up = -0.1, sd = 0.1 }, { at = [0, 0]", "right = -5, sd = 0.01 }, { at = [-80, -115], right = 5", "readings-scaled", 17)]
    [InlineData("front = 100.2", "", "printer-entry-empty", 20)]
    [InlineData("[240]", "[2.4]", "value-range", 24)]
    [InlineData("[240]", "[nan]", "number-not-finite", 24)]
    [InlineData("density = 1.41, ", "", "printer-entry-empty", 26)]
    [InlineData(", sd = 0.02 }", " }", "printer-entry-empty", 26)]
    [InlineData("at-least = 2.3", "at-least = 2.3, density = 2, sd = 0.1", "printer-entry-empty", 26)]
    [InlineData("at-least = 2.3", "at-most = 2.3", "key-unknown", 26)]
    [InlineData("density = 1.41", "density = 14.1", "value-range", 26)]
    [InlineData("id = \"front-K-vector\", ", "", "key-missing", 26)]
    [InlineData("across = 0.06", "across = 0.6", "value-range", 28)]
    [InlineData("across = 0.06", "", "key-missing", 27)]
    [InlineData("sd = 0.004", "sd = 0", "value-range", 30)]
    [InlineData("sd = 0.004", "sd = 0.004\nlines = 20", "key-unknown", 31)]
    [InlineData("ink = \"C\"", "ink = \"K\"", "choice-unknown", 32)]
    [InlineData("ink = \"C\", ", "", "key-missing", 32)]
    [InlineData("right = 0.04", "right = 4", "value-range", 32)]
    [InlineData("right = 0.04, ", "", "key-missing", 32)]
    [InlineData("at = [-9.2, 65], ", "", "key-missing", 32)]
    [InlineData("readings = [ { ink", "readings = [] # { ink", "printer-entry-empty", 31)]
    [InlineData("name = \"study\"", "name = \"study", "toml-syntax", 2)]
    public void Every_fault_is_a_finding_with_its_place(string good, string bad, string code, int line)
    {
        Assert.Contains(good, Whole, StringComparison.Ordinal);
        var found = Read(Whole.Replace(good, bad, StringComparison.Ordinal)).Findings;
        Assert.Contains(found, finding => finding.Code == code && finding.Severity == Severity.Stop && finding.Span?.Line == line && finding.Message.Length > 0);
    }

    [Theory]
    [InlineData(99.4)]
    [InlineData(100.6)]
    public void The_last_bar_that_learning_takes_a_file_takes_too(double mm)
    {
        var typed = FormattableString.Invariant($"{mm}");
        Assert.Empty(Read(Whole.Replace("front = 100.2", $"front = {typed}", StringComparison.Ordinal)).Findings);
        Assert.False(Learn.Run(PrinterSamples.New(), LearnAnswers.Nothing with { Bars = [$"front={typed}"] }).HasStop);
    }

    [Fact]
    public void Files_from_before_lessons_had_numbers_mean_what_they_meant()
    {
        var two = Whole.Replace("[[bars]]\nfront = 100.2", "[[register]]\nfrom = \"dots\"\nreadings = [ { at = [0, 0], up = 0.1, sd = 0.1 } ]\n[[bars]]\nfront = 100.2\nback = 100.2\nrevision = 1", StringComparison.Ordinal);
        var read = Read(two).Value;
        Assert.Equal([1, 2], read.RegisterNumbers);
        Assert.Equal(2, Assert.Single(read.Bars).Number);
        Assert.Equal(2, read.Revision);
    }

    [Fact]
    public void An_entry_of_nothing_is_named()
    {
        var found = Read(Whole.Replace("flaked = [300, 360]\n", "", StringComparison.Ordinal).Replace("held = [240]\n", "", StringComparison.Ordinal)).Findings;
        Assert.Equal("printer-entry-empty", Assert.Single(found).Code);
        var empty = Read(Whole.Replace("readings = [ {", "readings = [] # {", StringComparison.Ordinal)).Findings;
        Assert.Contains(empty, finding => finding.Code == "printer-entry-empty" && finding.Span?.Line == 17);
    }

    [Fact]
    public void A_file_of_format_0_is_read_and_written_as_the_current_one()
    {
        var old = Read("lampblack-printer = 0\nname = \"study\"\ncolour = false\npaper = \"A3\"\nleading-edge = 11\n[[turn]]\ntick = \"A\"\n");
        Assert.Equal("format-migrated", Assert.Single(old.Findings).Code);
        Assert.Equal(("A3", false, 11.0), (old.Value.Path.Paper, old.Value.Path.Colour, old.Value.Path.LeadingEdgeMm));
        Assert.Single(old.Value.Turns);
        Assert.Empty(PrinterFileReader.Read("p.toml", PrinterFileWriter.Write(old.Value).AsSpan()).Findings);
    }

    [Fact]
    public void Slips_of_the_pen_end_in_findings_and_never_in_an_exception()
    {
        var stops = 0;
        foreach (var text in Mutants.Of(Whole, 3000, 7))
        {
            var read = Read(text);
            Assert.All(read.Findings, finding => Assert.NotNull(finding.Span));
            stops += read.HasStop ? 1 : 0;
            if (!read.HasStop)
            {
                // Whatever was accepted can be worked with.
                Assert.True(RegisterEstimate.Of(read.Value).ShiftRightSdMm > 0);
                _ = PrinterProperties.Of(read.Value, PaperSize.Find(read.Value.Path.Paper)!);
            }
        }

        Assert.InRange(stops, 1000, 2999);
    }

    private static Checked<PrinterFile> Read(string text) => PrinterFileReader.Read("p.toml", Encoding.UTF8.GetBytes(text));

    private static void AssertSame(PrinterFile expected, PrinterFile read)
    {
        Assert.Equal(expected.Name, read.Name);
        Assert.Equal(expected.Path, read.Path);
        Assert.Equal(expected.Turns, read.Turns);
        Assert.Equal(expected.Register.Select(entry => entry.From), read.Register.Select(entry => entry.From));
        Assert.Equal(expected.Register.SelectMany(entry => entry.Readings), read.Register.SelectMany(entry => entry.Readings));
        Assert.Equal(expected.RegisterNumbers, read.RegisterNumbers);
        Assert.Equal((expected.Forgotten, expected.Revision), (read.Forgotten, read.Revision));
        Assert.Equal(expected.Bars, read.Bars);
        Assert.Equal(expected.Coverage.SelectMany(entry => entry.Flaked), read.Coverage.SelectMany(entry => entry.Flaked));
        Assert.Equal(expected.Coverage.SelectMany(entry => entry.Held), read.Coverage.SelectMany(entry => entry.Held));
        Assert.Equal(expected.Wedges.SelectMany(entry => entry.Patches), read.Wedges.SelectMany(entry => entry.Patches));
        Assert.Equal(expected.Wedges.Length, read.Wedges.Length);
        Assert.Equal(expected.Gains, read.Gains);
        Assert.Equal(expected.Planes.Select(entry => entry.Readings.Length), read.Planes.Select(entry => entry.Readings.Length));
        Assert.Equal(expected.Planes.SelectMany(entry => entry.Readings), read.Planes.SelectMany(entry => entry.Readings));
        Assert.Equal(expected.Coverage.Length, read.Coverage.Length);
    }
}
