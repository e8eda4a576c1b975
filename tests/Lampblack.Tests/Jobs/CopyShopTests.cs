using System;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using System.Threading;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Printers;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Tokens;
using Xunit;

namespace Lampblack.Tests.Jobs;

public sealed class CopyShopTests
{
    private const string Desk = """
        lampblack = 1
        title = "Two boards"
        [[panel]]
        id = "one"
        size = [180, 110]
        [[panel.area]]
        box = [20, 20, 20, 10]
        role = "lit"
        ink = "red"
        [[panel]]
        id = "two"
        size = [180, 170]
        """;

    [Fact]
    public void The_job_is_one_file_with_a_page_for_the_operator_and_nine_copies_of_each_sheet()
    {
        var result = Run(new("Letter", "option", BracketStepMm: 0.5, Parts: BuildParts.Print));
        using var job = PdfDocument.Open([.. result.Files.Single(file => file.Path == "job.pdf").Bytes]);
        Assert.Equal(2 + (2 * 9 * 2), job.NumberOfPages);
        Assert.All(job.GetPages(), page => Assert.Equal((612, 792), (page.MediaBox.Bounds.Width, page.MediaBox.Bounds.Height)));
        Assert.All(job.GetPages(), page => Assert.Equal(0, page.Rotation.Value));
        var preferences = (DictionaryToken)job.Structure.Catalog.CatalogDictionary.Data["ViewerPreferences"];
        Assert.Equal(("DuplexFlipLongEdge", "None"), (((NameToken)preferences.Data["Duplex"]).Data, ((NameToken)preferences.Data["PrintScaling"]).Data));
        Assert.NotEmpty(job.GetPage(1).Paths);
        Assert.Empty(job.GetPage(2).Paths);
        Assert.All(Enumerable.Range(3, 36), page => Assert.NotEmpty(job.GetPage(page).Paths));
        Assert.Contains("\"job.pdf\"", Encoding.UTF8.GetString(result.Files.Single(file => file.Path == "manifest.json").Bytes.AsSpan()), StringComparison.Ordinal);
    }

    [Fact]
    public void A_bracket_with_an_impossible_step_writes_nothing()
    {
        var result = Run(new("A4", "option", BracketStepMm: 7));
        Assert.Empty(result.Files);
        Assert.Single(result.Findings, finding => finding is { Severity: Severity.Stop, Code: "bracket-step" });
    }

    [Theory]
    [InlineData(SecondPass.None, false, "")]
    [InlineData(SecondPass.Front, false, "front-again")]
    [InlineData(SecondPass.Mask, true, "mask-again mask-film")]
    [InlineData(SecondPass.Front | SecondPass.Mask, true, "front-again mask-again mask-film")]
    public void Second_passes_and_films_are_files_of_their_own_beside_the_usual_ones(SecondPass passes, bool film, string more)
    {
        var result = Run(new("A4", "option", Black: "gray", Parts: BuildParts.Print, SecondPass: passes, Film: film));
        var names = result.Files.Where(file => file.Path.StartsWith("sheet-1/", StringComparison.Ordinal)).Select(file => file.Path["sheet-1/".Length..^".pdf".Length]);
        Assert.Equal([.. new[] { "duplex", "front", "mask" }.Concat(more.Split(' ', StringSplitOptions.RemoveEmptyEntries)).Order(StringComparer.Ordinal)], names.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void A_printer_file_without_colour_prints_in_gray_unless_another_black_is_asked_for()
    {
        var printer = new PrinterFile(
            "The old one", new(false, null, "A4", 160, FirstEdge.Short, Turning.ByHand, SideOrder.FrontFirst, null, 5, 10), [], [], [], []);
        Assert.Contains(Run(new("A4", "printer", Parts: BuildParts.Print, Printer: printer)).Summary, line => line.Contains("`gray`", StringComparison.Ordinal));
        Assert.Contains(Run(new("A4", "printer", Parts: BuildParts.Print, Printer: printer with { Path = printer.Path with { Colour = true } })).Summary, line => line.Contains("`safe`", StringComparison.Ordinal));
        Assert.Contains(Run(new("A4", "printer", Black: "K", Parts: BuildParts.Print, Printer: printer)).Summary, line => line.Contains("`K`", StringComparison.Ordinal));
    }

    private static BuildResult Run(BuildRequest request) => Build.Run(
        new DeskSource("desk.toml", [.. Encoding.UTF8.GetBytes(Desk)], new NoFiles()), request, new Progress<string>(), CancellationToken.None);

    private sealed class NoFiles : IDeskFiles
    {
        public FileReading Read(string relativePath, long limitBytes) => new(ImmutableArray<byte>.Empty, "is not there");
    }
}
