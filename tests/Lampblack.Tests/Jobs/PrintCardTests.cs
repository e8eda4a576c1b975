using System;
using System.Collections.Immutable;
using System.Globalization;
using System.IO;
using System.Linq;
using System.Text;
using System.Text.RegularExpressions;
using System.Threading;
using System.Xml;
using System.Xml.Linq;
using Lampblack.Jobs;
using Lampblack.Printers;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Core;
using Xunit;

namespace Lampblack.Tests.Jobs;

/// <summary>The print card, read by an XML parser that is not ours.</summary>
public sealed class PrintCardTests
{
    private const string Desk = "lampblack = 1\ntitle = \"<b>Kiln & 'yard' \\\"one\\\"</b>\"\n[[panel]]\nid = \"p\"\ntitle = \"<script>alert(1)</script> & co\"\nsize = [100, 60]\n"
        + "[[panel.legend]]\ntext = \"A < B & \\\"C\\\"\"\nat = [50, 30]\n";

    [Fact]
    public void The_card_is_well_formed_and_every_word_of_the_maker_stays_a_word()
    {
        var printer = Printer(Turning.ByHand, SideOrder.FrontFirst, PrintedFace.Upper) with { Name = "<i>mine</i> & \"yours\"" };
        var (card, text) = Card(printer);
        Assert.Contains("<b>Kiln & 'yard' \"one\"</b>", text, StringComparison.Ordinal);
        Assert.Contains("<script>alert(1)</script> & co", text, StringComparison.Ordinal);
        Assert.Contains("<i>mine</i> & \"yours\"", text, StringComparison.Ordinal);
        Assert.Contains("slot <2>", text, StringComparison.Ordinal);
        Assert.DoesNotContain(card.Descendants(), element => element.Name.LocalName is "script" or "i" or "img" or "link" or "iframe");

        // Self-contained: nothing is fetched from anywhere.
        Assert.DoesNotContain(card.Descendants().Attributes(), attribute => attribute.Name.LocalName is "src" or "href");
        Assert.DoesNotContain("url(", card.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void It_names_the_printers_own_setting_slot_edge_and_face()
    {
        var text = Card(Printer(Turning.ByHand, SideOrder.FrontFirst, PrintedFace.Upper)).Text;
        Assert.Contains("Heavy 3", text, StringComparison.Ordinal);
        Assert.Contains("the short edge first", text, StringComparison.Ordinal);
        Assert.Contains("160 g/m²", text, StringComparison.Ordinal);
        Assert.Contains("the white side up", text, StringComparison.Ordinal);
        Assert.Contains("the white side down", Card(Printer(Turning.ByHand, SideOrder.FrontFirst, PrintedFace.Lower)).Text, StringComparison.Ordinal);
        Assert.DoesNotContain("common practice", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_printer_file_it_says_that_it_is_common_practice_and_gives_both_ways_of_turning()
    {
        var text = Card(null).Text;
        Assert.Contains("No printer was named", text, StringComparison.Ordinal);
        Assert.Contains("common practice", text, StringComparison.Ordinal);
        Assert.True(Place(text, "sheet-1/front.pdf first") < Place(text, "Print sheet-1/mask.pdf"));
        Assert.True(Place(text, "Print sheet-1/mask.pdf") < Place(text, "sheet-1/duplex.pdf in place of both"));
    }

    [Theory]
    [InlineData(Turning.ByHand, SideOrder.FrontFirst, "sheet-1/front.pdf first", "Print sheet-1/mask.pdf:")]
    [InlineData(Turning.ByHand, SideOrder.MaskFirst, "sheet-1/mask.pdf first", "Print sheet-1/front.pdf:")]
    public void By_hand_the_first_file_comes_first_and_the_same_edge_leads_twice(Turning turning, SideOrder order, string first, string second)
    {
        var text = Card(Printer(turning, order, PrintedFace.Unknown)).Text;
        Assert.True(Place(text, first) < Place(text, "same edge first"));
        Assert.True(Place(text, "same edge first") < Place(text, second));
        Assert.DoesNotContain("duplex.pdf", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_printer_that_turns_the_sheet_itself_is_given_one_file()
    {
        var text = Card(Printer(Turning.Automatic, SideOrder.FrontFirst, PrintedFace.Unknown)).Text;
        Assert.Contains("Print sheet-1/duplex.pdf: two-sided, long edge", text, StringComparison.Ordinal);
        Assert.DoesNotContain("same edge first", text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_gates_come_in_their_order_and_before_the_glue()
    {
        foreach (var order in new[] { "A", "B", "C" })
        {
            var text = Card(null, Desk.Replace("title = \"<b>", $"order = \"{order}\"\ntitle = \"<b>", StringComparison.Ordinal)).Text;
            var gates = new[] { "Dot rows, against a lamp", "A look in a dark room", "The print held on the", "Do not glue when" }.Select(gate => Place(text, gate)).ToList();
            Assert.Equal(gates.Order(), gates);
            Assert.Contains("fuser is hot", text, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData(0.1)]
    [InlineData(0.3)]
    [InlineData(0.5)]
    [InlineData(0.8)]
    public void As_many_dots_as_may_shine_still_leave_every_opening_behind_its_legend(double spreadMm)
    {
        // With n dots in one row and n in the next the back is off by less than (n + 1) tenths both ways at once.
        var text = Card(null, spreadMm: spreadMm).Text;
        var told = Regex.Match(text, "at most ([0-9]+) (?:dots shine|dot shines) in any row|no dot shines in any row");
        Assert.True(told.Success, text);
        var most = told.Groups[1].Success ? int.Parse(told.Groups[1].Value, CultureInfo.InvariantCulture) : 0;
        Assert.True(most == 0 || Math.Sqrt(2) * (most + 1) * 0.1 <= spreadMm + 1e-9);
        Assert.True(most == 5 || Math.Sqrt(2) * (most + 2) * 0.1 > spreadMm);
    }

    [Fact]
    public void It_shows_both_pages_of_this_job_as_they_come_out_and_the_mask_mirrored()
    {
        // A hole near the left edge of the panel: white windows in either thumbnail, left of the middle on the front, right of it on the mask.
        var desk = "lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [180, 100]\n[[panel.control]]\npart = \"hole-10\"\nat = [20, 50]\n";
        var pages = Card(null, desk).Card.Descendants().Where(element => element.Name.LocalName == "svg").Take(2).ToList();
        Assert.Equal(["sheet-1 front", "sheet-1 mask"], pages.Select(page => page.Elements().First().Value));
        Assert.True(FieldHoleX(pages[0]) < 105);
        Assert.True(FieldHoleX(pages[1]) > 105);
        Assert.Equal(210, FieldHoleX(pages[0]) + FieldHoleX(pages[1]), 1.0);
    }

    [Fact]
    public void Every_file_to_print_that_this_job_made_is_named_in_its_turn_and_no_other()
    {
        var printer = Printer(Turning.ByHand, SideOrder.MaskFirst, PrintedFace.Upper) with { Path = Printer(Turning.ByHand, SideOrder.MaskFirst, PrintedFace.Upper).Path with { Colour = false } };
        var files = Run(new("A4", "option", Parts: BuildParts.Print, Printer: printer, BracketStepMm: 0.7, SecondPass: SecondPass.Front | SecondPass.Mask, Film: true));
        var text = Read(files).Text;
        foreach (var path in files.Select(file => file.Path).Where(path => path.EndsWith(".pdf", StringComparison.Ordinal) && !path.EndsWith("duplex.pdf", StringComparison.Ordinal) && path != "parts.pdf"))
        {
            Assert.Contains(path, text, StringComparison.Ordinal);
        }

        var steps = new[] { "trial.pdf", "take job.pdf", "Print sheet-1/mask.pdf first", "Print sheet-1/front.pdf", "sheet-1/mask-again.pdf", "sheet-1/front-again.pdf", "sheet-1/mask-film.pdf", "three gates" }.Select(step => Place(text, step)).ToList();
        Assert.Equal(steps.Order(), steps);
        Assert.Contains("as for front.pdf, but the other edge first, the front's own side up", text, StringComparison.Ordinal);

        var plain = Card(printer).Text;
        foreach (var other in new[] { "job.pdf", "again.pdf", "film.pdf", "parts.pdf" })
        {
            Assert.DoesNotContain(other, plain, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void The_mask_is_turned_about_only_where_the_last_tick_in_a_or_b_says_so()
    {
        var printer = Printer(Turning.ByHand, SideOrder.FrontFirst, PrintedFace.Upper);
        Assert.Contains("turned just as on the which-way sheet", Card(printer with { Turns = [new(Tick.A, PrintedFace.Upper), new(Tick.B, PrintedFace.Upper)] }).Text, StringComparison.Ordinal);
        Assert.Contains("the same edge first, the white side", Card(printer with { Turns = [new(Tick.B, PrintedFace.Upper), new(Tick.A, PrintedFace.Upper)] }).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void What_it_says_to_type_names_this_printer_and_a_place_that_has_rows_and_can_be_learned()
    {
        var printer = Printer(Turning.ByHand, SideOrder.FrontFirst, PrintedFace.Upper);
        var files = Run(new BuildRequest("A4", "option", Parts: BuildParts.Print, Printer: printer) { PrinterWord = "my printers/office.toml" });
        var typed = Regex.Match(Read(files).Text, "such as lampblack printer learn \"my printers/office.toml\" --dots (?<dots>\\S+)\\)");
        Assert.True(typed.Success, Read(files).Text);

        Assert.Equal(PlaceOfRows(files), typed.Groups["dots"].Value.Split(':')[0]);
        Assert.DoesNotContain(Learn.Run(printer, LearnAnswers.Nothing with { Dots = [typed.Groups["dots"].Value] }).Findings, finding => finding.Severity == Lampblack.Findings.Severity.Stop);
        Assert.Contains("lampblack printer learn NAME --dots", Card(null).Text, StringComparison.Ordinal);
        Assert.Contains("lampblack printer learn office --dots", Card(printer).Text, StringComparison.Ordinal);
        Assert.Contains("--dots 5@", Read(Run(new("A4", "option", Parts: BuildParts.Print, BracketStepMm: 0.7))).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Many_sheets_stay_one_card()
    {
        var desk = new StringBuilder("lampblack = 1\n");
        for (var panel = 1; panel <= 14; panel++)
        {
            desk.Append(FormattableString.Invariant($"[[panel]]\nid = \"p{panel}\"\nsize = [190, 200]\n"));
        }

        var (card, text) = Card(null, desk.ToString());
        Assert.Contains("and 6 more", text, StringComparison.Ordinal);
        Assert.Equal(4, card.Descendants().Count(element => element.Name.LocalName == "svg" && element.Value.Contains("sheet-", StringComparison.Ordinal)));
    }

    private static PrinterFile Printer(Turning turning, SideOrder order, PrintedFace face) => new(
        "office",
        new(true, "slot <2>", "A4", 160, FirstEdge.Short, turning, order, "Heavy 3", 5, 10),
        [new(Tick.A, face)],
        [],
        [],
        []);

    private static (XDocument Card, string Text) Card(PrinterFile? printer, string desk = Desk, double? spreadMm = null) =>
        Read(Run(new("A4", "option", SpreadMm: spreadMm, Parts: BuildParts.Print, Printer: printer), desk));

    private static ImmutableArray<OutputFile> Run(BuildRequest request, string desk = Desk) => Build.Run(
        new("desk.toml", [.. Encoding.UTF8.GetBytes(desk)], new NoFiles()), request, new Progress<string>(), CancellationToken.None).Files;

    private static (XDocument Card, string Text) Read(ImmutableArray<OutputFile> files)
    {
        var bytes = files.Single(file => file.Path == "print.html").Bytes;
        using var reader = XmlReader.Create(new MemoryStream([.. bytes]), new() { DtdProcessing = DtdProcessing.Ignore });
        var card = XDocument.Load(reader);
        return (card, card.Root!.Value);
    }

    /// <summary>The middle of the 24 round windows of 2.4 mm on the front, in whole centimetres, as a library reads them that is not ours.</summary>
    private static string PlaceOfRows(ImmutableArray<OutputFile> files)
    {
        using var front = PdfDocument.Open([.. files.Single(file => file.Path == "sheet-1/front.pdf").Bytes]);
        var windows = front.GetPage(1).Paths.SelectMany(path => path).Select(border => (Border: border, Box: border.GetBoundingRectangle()!.Value))
            .Where(window => Math.Abs((window.Box.Width * 25.4 / 72) - 2.4) < 0.02 && Math.Abs((window.Box.Height * 25.4 / 72) - 2.4) < 0.02)

            // Arcs of register marks may be as large, but are not round.
            .Where(window => window.Border.Commands.OfType<PdfSubpath.Line>().All(line =>
                Math.Abs((double.Hypot(line.To.X - window.Box.Centroid.X, line.To.Y - window.Box.Centroid.Y) * 25.4 / 72) - 1.2) < 0.05))
            .Select(window => window.Box).ToList();
        Assert.Equal(24, windows.Count);
        return FormattableString.Invariant($"{windows.Average(box => box.Centroid.X) * 2.54 / 72:0}-{windows.Average(box => box.Centroid.Y) * 2.54 / 72:0}");
    }

    private static int Place(string text, string part)
    {
        var place = text.IndexOf(part, StringComparison.Ordinal);
        Assert.True(place >= 0, $"'{part}' is not in: {text}");
        return place;
    }

    /// <summary>The middle of the drawing's roundest sub-path of about 8 to 10 mm: the window in the field.</summary>
    private static double FieldHoleX(XElement svg)
    {
        foreach (var path in svg.Elements().Where(element => element.Name.LocalName == "path").SelectMany(element => element.Attribute("d")!.Value.Split('Z', StringSplitOptions.RemoveEmptyEntries)))
        {
            var numbers = path.TrimStart('M').Split(' ').Select(number => double.Parse(number, CultureInfo.InvariantCulture)).ToList();
            var (xs, ys) = (numbers.Where((_, index) => index % 2 == 0).ToList(), numbers.Where((_, index) => index % 2 == 1).ToList());
            var (width, height) = (xs.Max() - xs.Min(), ys.Max() - ys.Min());
            if (width is > 7 and < 10.5 && Math.Abs(width - height) < 0.7 && xs.Count > 12)
            {
                return (xs.Max() + xs.Min()) / 2;
            }
        }

        return double.NaN;
    }

    private sealed class NoFiles : IDeskFiles
    {
        public FileReading Read(string relativePath, long limitBytes) => new([], "is not there");
    }
}
