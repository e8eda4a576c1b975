using System;
using System.Linq;
using Lampblack.Findings;
using Xunit;

namespace Lampblack.Tests.Calibration;

/// <summary>A sheet that lies elsewhere than its forerunners is told of, one that lies as they scatter is not.</summary>
public sealed class PrinterChangedTests
{
    [Theory]
    [InlineData(0.1, false)]
    [InlineData(0.2, false)]
    [InlineData(0.9, true)]
    [InlineData(-0.9, true)]
    public void A_sheet_far_from_six_that_agree_is_told_as_a_changed_printer_and_stored(double jumpMm, bool isTold)
    {
        var printer = new Evening(0.6, -0.5, 0.001);
        var file = Evening.NewFile;
        foreach (var off in new[] { 0.05, -0.05, 0, 0.04, -0.03, 0.02 })
        {
            file = Evening.Fine(file, Evening.Scale((printer with { Right = printer.Right + off }).Readings(file, () => 0))).File;
        }

        var learned = Evening.Learn(file, Evening.Scale((printer with { Right = printer.Right + jumpMm }).Readings(file, () => 0)));
        Assert.Equal(7, learned.Value.File.Register.Length);
        Assert.Equal(isTold, learned.Findings.Any(finding => finding.Code == "printer-changed"));
        if (isTold)
        {
            var told = learned.Findings.Single(finding => finding.Code == "printer-changed");
            Assert.Equal(Severity.Warn, told.Severity);
            Assert.Contains("chi-square", told.Message, StringComparison.Ordinal);
            Assert.Contains("forget", told.Hint, StringComparison.Ordinal);
        }
    }
}
