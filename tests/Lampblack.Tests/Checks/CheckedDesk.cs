using System;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using Lampblack.Checks;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Layout;
using Xunit;

namespace Lampblack.Tests.Checks;

/// <summary>Small desks, read, laid out and checked.</summary>
internal static class CheckedDesk
{
    /// <summary>A desk of one panel, 200 x 120 mm unless said otherwise, seen from 700 mm unless it says how it is used.</summary>
    /// <param name="items">What is on it.</param>
    /// <param name="top">What stands before it.</param>
    /// <param name="panel">Further keys of the panel.</param>
    /// <param name="size">Its size.</param>
    public static string Toml(string items, string top = "", string panel = "", string size = "[200, 120]") =>
        $"lampblack = 1\n{top}\n[[panel]]\nid = \"p\"\nsize = {size}\n{panel}\n{items}\n{(top.Contains("[use]", StringComparison.Ordinal) ? string.Empty : "[use]\ndistance = 700\n")}";

    /// <summary>A control at a place.</summary>
    public static string Control(string part, double x, double y, string more = "") =>
        FormattableString.Invariant($"[[panel.control]]\npart = \"{part}\"\nat = [{x}, {y}]\n{more}\n");

    /// <summary>A desk in its places; it must be read without a stop.</summary>
    public static LaidDesk Laid(string toml)
    {
        var read = DeskReader.Read("desk.toml", Encoding.UTF8.GetBytes(toml));
        Assert.Empty(read.Findings.Where(finding => finding.Severity == Severity.Stop).Select(finding => $"{finding.Span?.Line}: {finding.Message}"));
        return DeskLayout.Place(read.Value, FontShelf.Bundled).Value;
    }

    /// <summary>What the rules find.</summary>
    public static ImmutableArray<Finding> Check(string toml) => PanelChecks.Check(Laid(toml));

    /// <summary>The findings of one code, as severity and message.</summary>
    public static ImmutableArray<Finding> Of(string code, string toml) => [.. Check(toml).Where(finding => finding.Code == code)];

    /// <summary>The one severity with which a code is found; null where it is not.</summary>
    public static Severity? SeverityOf(string code, string toml) => Of(code, toml).Select(finding => (Severity?)finding.Severity).Distinct().SingleOrDefault();

    /// <summary>Holds a rule to its figure: found just outside, not found just inside.</summary>
    public static void Turns(string code, Severity outside, Func<double, string> toml, double insideAt, double outsideAt)
    {
        Assert.Null(SeverityOf(code, toml(insideAt)));
        Assert.Equal(outside, SeverityOf(code, toml(outsideAt)));
    }

    /// <summary>A number as a desk file has it.</summary>
    public static string N(double value) => value.ToString("0.######", System.Globalization.CultureInfo.InvariantCulture);
}
