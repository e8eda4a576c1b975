using System;
using System.Linq;
using System.Text;
using System.Threading;
using Lampblack.Findings;
using Lampblack.Jobs;
using Xunit;

namespace Lampblack.Tests.Suites;

/// <summary>A desk file of the first format is printed exactly as its twin in today's.</summary>
public sealed class MigrationTests
{
    private const string Items = """
        corner = 4
        fixings = { part = "screw-m3", inset = 6 }
          [[panel.control]]
          id = "points"
          part = "toggle-mini-on-on"
          at = [30, 20]
          legend = "POINTS"
          states = ["MAIN", "LOOP"]
          [[panel.legend]]
          text = "YARD"
          at = [60, 40]
          role = "hidden"
          ink = "amber"
        """;

    private const string Old = "lampblack = 0\nname = \"Yard\"\n[[panel]]\nid = \"yard\"\nwidth = 100\nheight = \"60 mm\"\n" + Items + "\n[[panel]]\nheight = 30\nid = \"key\"\nwidth = 50\n";

    private const string New = "lampblack = 1\ntitle = \"Yard\"\n[[panel]]\nid = \"yard\"\nsize = [100, 60]\n" + Items + "\n[[panel]]\nid = \"key\"\nsize = [50, 30]\n";

    [Fact]
    public void An_old_file_gives_the_same_print_files_and_pictures_as_its_twin()
    {
        var (old, today) = (Run(Old), Run(New));
        Assert.Equal("format-migrated", Assert.Single(old.Findings, finding => !today.Findings.Any(other => other.Code == finding.Code)).Code);
        Assert.NotEmpty(today.Files);
        Assert.Equal(Made(today), Made(old));

        // Only the report differs, and the manifest with its hash: it has the finding.
        Assert.NotEqual(today.Files.Single(file => file.Path == "report.json").Bytes.ToArray(), old.Files.Single(file => file.Path == "report.json").Bytes.ToArray());
    }

    [Theory]
    [InlineData("lampblack = 0\ntitle = \"Yard\"\n[[panel]]\nsize = [100, 60]\n", "")]
    [InlineData("lampblack = 0\n[[panel]]\nwidth = 100\n", "stop key-missing, stop key-unknown")]
    [InlineData("lampblack = 0\n[[panel]]\nwidth = -100\nheight = 60\n", "stop value-range")]
    [InlineData("lampblack = 0\npanel = 3\n", "stop value-kind")]
    [InlineData("lampblack = 0\nname = 3\n[[panel]]\nwidth = 100\nheight = 60\n", "stop value-kind")]
    public void An_old_file_has_the_findings_of_a_new_one(string toml, string expected)
    {
        var found = Run(toml, BuildParts.None).Findings.Where(finding => finding.Severity != Severity.Note);
        Assert.Equal(expected, string.Join(", ", found.Select(finding => $"{finding.Severity.ToString().ToLowerInvariant()} {finding.Code}")));
    }

    private static string[] Made(BuildResult result) =>
    [
        .. result.Files.Where(file => file.Path is not ("report.json" or "manifest.json")).Select(file => $"{file.Path} {Convert.ToHexString(System.Security.Cryptography.SHA256.HashData(file.Bytes.AsSpan()))}"),
    ];

    private static BuildResult Run(string toml, BuildParts parts = BuildParts.All) =>
        Build.Run(ExampleDesks.Alone(Encoding.UTF8.GetBytes(toml)), new("A4", "option", Parts: parts), new Progress<string>(), CancellationToken.None);
}
