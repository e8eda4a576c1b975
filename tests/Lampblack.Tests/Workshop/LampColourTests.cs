using System;
using System.Collections.Generic;
using System.Linq;
using System.Text;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Tests.Suites;
using Xunit;

namespace Lampblack.Tests.Workshop;

/// <summary>Under red light white, red and yellow legends look alike, and green and blue die: common practice, no source. The desk is invented.</summary>
public sealed class LampColourTests
{
    private static string Desk(string lamps) => $$"""
        lampblack = 1
        [lighting]
        colour = "{{lamps}}"
        [[panel]]
        id = "p"
        size = [120, 60]
          [[panel.legend]]
          id = "plain"
          text = "PLAIN"
          at = [20, 20]
          [[panel.legend]]
          id = "cold"
          text = "COLD"
          at = [60, 20]
          ink = "blue"
          [[panel.legend]]
          id = "hot"
          text = "HOT"
          at = [100, 20]
          ink = "red"
        """;

    [Fact]
    public void Red_lamps_kill_blue_and_merge_red_with_white()
    {
        var told = Told("red");
        Assert.Contains(told, finding => finding is { Severity: Severity.Warn, Item: "p/cold" });
        Assert.Contains(told, finding => finding is { Severity: Severity.Note, Item: "p/hot" } && finding.Message.Contains("looks like white", StringComparison.Ordinal));
        Assert.DoesNotContain(told, finding => finding.Item == "p/plain");
        Assert.All(told, finding => Assert.NotNull(finding.Span));
    }

    [Fact]
    public void Blue_lamps_kill_red_and_not_blue()
    {
        var told = Told("blue");
        Assert.Contains(told, finding => finding is { Severity: Severity.Warn, Item: "p/hot" });
        Assert.DoesNotContain(told, finding => finding is { Severity: Severity.Warn, Item: "p/cold" });
    }

    [Theory]
    [InlineData("warm-white")]
    [InlineData("cool-white")]
    public void White_lamps_are_no_matter(string lamps) => Assert.Empty(Told(lamps));

    private static List<Finding> Told(string lamps) =>
        [.. Build.Run(ExampleDesks.Alone(Encoding.UTF8.GetBytes(Desk(lamps))), new("A4", "option", Parts: BuildParts.None), new Progress<string>(), TestContext.Current.CancellationToken).Findings.Where(finding => finding.Code == "lamp-colour")];
}
