using System;
using System.Globalization;
using System.Linq;
using System.Text;
using System.Threading;
using Lampblack.Checks;
using Lampblack.Jobs;
using Xunit;

namespace Lampblack.Tests.Suites;

/// <summary>A desk with something impossible in it, and what is told of it.</summary>
internal static class ImpossibleDesk
{
    /// <summary>A desk whose panel starts at line 3; what is put into the panel starts at line 6.</summary>
    public const string Panel = "lampblack = 1\ntitle = \"T\"\n[[panel]]\nid = \"p\"\nsize = [100, 60]\n";

    /// <summary>The same, with something before the panel: it starts at line 2.</summary>
    public static string Before(string text) => $"lampblack = 1\n{text}\n[[panel]]\nid = \"p\"\nsize = [100, 60]\n";

    /// <summary>All that is found in a desk up to its sheets, heaviest first: <c>stop key-unknown 6:1</c>; what every unmeasured printer has, what the rules of hand and eye say, and that such a panel is empty, is left out.</summary>
    public static string Told(string toml, IDeskFiles? files = null)
    {
        var result = Build.Run(
            ExampleDesks.Alone(Encoding.UTF8.GetBytes(toml), files), new("A4", "option", Parts: BuildParts.None), new Progress<string>(), CancellationToken.None);
        Assert.All(result.Findings, finding => Assert.False(string.IsNullOrWhiteSpace(finding.Hint), finding.Message));
        return string.Join('\n', result.Findings
            .Where(finding => finding.Code is not ("black-default" or "spread-default" or "light-through" or "gauge-no-room" or "panel-empty") && !PanelChecks.Rules.Contains(finding.Code))
            .Select(finding => string.Create(
                CultureInfo.InvariantCulture,
                $"{finding.Severity.ToString().ToLowerInvariant()} {finding.Code} {finding.Span?.Line}:{finding.Span?.Column}")));
    }

    /// <summary>The place of a text in a desk, as <see cref="Told"/> gives it.</summary>
    public static string PlaceOf(string text, string toml)
    {
        var offset = toml.IndexOf(text, StringComparison.Ordinal);
        Assert.True(offset >= 0, text);
        var before = toml[..offset];
        return string.Create(CultureInfo.InvariantCulture, $"{before.Count(unit => unit == '\n') + 1}:{offset - before.LastIndexOf('\n')}");
    }
}
