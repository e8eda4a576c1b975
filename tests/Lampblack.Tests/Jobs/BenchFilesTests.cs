using System;
using System.Linq;
using System.Text;
using Lampblack.Desks;
using Lampblack.Jobs;
using Lampblack.Layout;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Tests.Suites;
using Xunit;

namespace Lampblack.Tests.Jobs;

/// <summary>What is needed at the bench, made of a desk that is laid out.</summary>
public sealed class BenchFilesTests
{
    private const string Desk = """
        lampblack = 1
        title = "Yard"
        order = "A"
        [bench]
        drills = [6, 6.71]
        [[panel]]
        id = "yard"
        title = "YARD"
        size = [120, 80]
        [[panel.control]]
        id = "points"
        part = "toggle-mini-on-on"
        at = [40, 40]
        [[panel.control]]
        id = "lamp"
        part = "pot-9mm"
        at = [80, 40]
        """;

    [Fact]
    public void Charts_and_files_are_those_of_a_build()
    {
        var toml = Encoding.UTF8.GetBytes(Desk);
        var laid = DeskLayout.Place(DeskReader.Read("desk.toml", toml).Value, FontShelf.Bundled).Value;
        var printer = PrinterProperties.Unmeasured;
        var made = BenchFiles.Of(laid, PaperSize.Find("A4")!, printer.Builds[0].Edge, printer, TestContext.Current.CancellationToken);
        var built = Build.Run(ExampleDesks.Alone(toml), new("A4", "option", Parts: BuildParts.Bench), new Progress<string>(), TestContext.Current.CancellationToken);
        Assert.Equal(["back/yard.svg", "cutter/yard.drl", "cutter/yard.dxf", "cutter/yard.svg", "hole-chart.csv", "hole-chart.pdf", "templates.pdf"], made.Value.Select(file => file.Path).Order(StringComparer.Ordinal));
        Assert.All(made.Value, file => Assert.Equal(built.Files.Single(other => other.Path == file.Path).Bytes, file.Bytes));
        Assert.Contains(made.Findings, finding => finding.Code == "drill-apart");
        Assert.Equal(built.Findings.Where(finding => finding.Code == "drill-apart"), made.Findings);
    }
}
