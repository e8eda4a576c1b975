using System;
using System.IO;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Printers;
using Lampblack.Tests.Register;
using Xunit;

namespace Lampblack.Tests.Suites;

/// <summary>The examples built with the printer file that lies beside them: learned from drawn photos of a made-up printer.</summary>
public sealed class LearnedExampleTests
{
    public static TheoryData<string> Names { get; } = new(ExampleDesks.Names);

    private static PrinterFile Printer
    {
        get
        {
            var read = PrinterFileReader.Read("made-up-printer.toml", File.ReadAllBytes(Path.Combine(SeparatedDesk.Root, "examples", "made-up-printer.toml")));
            Assert.Empty(read.Findings);
            return read.Value;
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Every_example_builds_with_the_learned_printer_and_is_promised_its_share(string name)
    {
        var result = Build.Run(
            ExampleDesks.Source(name),
            new BuildRequest("A4", "printer", Parts: BuildParts.Print, Printer: Printer),
            new Progress<string>(),
            TestContext.Current.CancellationToken);
        Assert.DoesNotContain(result.Findings, finding => finding.Severity == Severity.Stop);
        Assert.NotEmpty(result.Files);
        Assert.Contains(result.Findings, finding => finding.Code == "spread-learned");
        Assert.DoesNotContain(result.Findings, finding => finding.Code == "spread-default");
        Assert.DoesNotContain(result.Findings, finding => finding.Code == "light-through" && finding.Message.Contains("densities assumed", StringComparison.Ordinal));
    }
}
