using System;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using System.Threading;
using Lampblack.Findings;
using Lampblack.Jobs;

namespace Lampblack.Tests.Jobs;

/// <summary>Builds a desk, and another one into the same folder.</summary>
internal static class SecondTime
{
    internal const string Desk = """
        lampblack = 1
        title = "Dome desk"
        [[panel]]
        id = "dome"
        size = [120, 60]
        fixings = { hole = 3.4, inset = 6 }
        [[panel.control]]
        id = "shutter"
        part = "toggle-mini-on-on"
        at = [30, 25]
        legend = "SHUTTER"
        [[panel.control]]
        part = "pot-9mm"
        at = [60, 25]
        legend = "DEW"
        [[panel.legend]]
        text = "RAIN"
        at = [95, 30]
        role = "hidden"
        cover = 0.95
        [[panel]]
        id = "yard"
        size = [60, 40]
        [[panel.legend]]
        text = "YARD"
        at = [30, 20]
        """;

    internal static BuildRequest A4 { get; } = new("A4", "option", Parts: BuildParts.Print);

    internal static BuildResult Build(string desk, BuildRequest? request = null, BuildResult? last = null) => Lampblack.Jobs.Build.Run(
        Source(desk), (request ?? A4) with { LastReport = last is null ? [] : Report(last) }, new Progress<string>(), CancellationToken.None);

    internal static ImmutableArray<byte> Report(BuildResult result) => result.Files.Single(file => file.Path == "report.json").Bytes;

    /// <summary>Builds one desk after the other and gives what the second says.</summary>
    internal static BuildResult Then(string first, string second, BuildRequest? request = null) => Build(second, request, Build(first));

    internal static DeskSource Source(string desk) => new("desk.toml", [.. Encoding.UTF8.GetBytes(desk)], new NoFiles());

    internal static string[] Stops(this BuildResult result) =>
        [.. result.Findings.Where(finding => finding.Severity == Severity.Stop).Select(finding => finding.Code)];

    internal static string Told(this BuildResult result, string item) => result.Changes.Single(change => change.Item == item).Sentence;

    private sealed class NoFiles : IDeskFiles
    {
        public FileReading Read(string relativePath, long limitBytes) => new([], "is not there");
    }
}
