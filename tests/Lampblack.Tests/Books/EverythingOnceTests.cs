using System;
using System.Collections.Generic;
using System.Linq;
using System.Text;
using System.Threading;
using System.Xml.Linq;
using Lampblack.Jobs;
using Lampblack.Tests.Suites;
using Xunit;

namespace Lampblack.Tests.Books;

/// <summary>Every hole, wire, part and lamp of a desk stands once in its book's steps: read back from the finished page, against the lists that other folders write.</summary>
public sealed class EverythingOnceTests
{
    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void Every_hole_part_wire_and_lamp_of_an_example_stands_once(string name)
    {
        var result = Build.Run(ExampleDesks.Source(name), new("A4", "option", Parts: BuildParts.Bench | BuildParts.Book), new Progress<string>(), CancellationToken.None);
        var page = SmallDesk.Xml(SmallDesk.Html(result));
        Check(result, page);

        // The check itself sees a row that is missing, and one that stands twice.
        foreach (var kind in new[] { "hole", "part", "wire", "lamp" })
        {
            var row = SmallDesk.Rows(page, kind)[0].Row;
            row.AddAfterSelf(new XElement(row));
            Assert.ThrowsAny<Xunit.Sdk.XunitException>(() => Check(result, page));
            row.NextNode!.Remove();
            var (before, parent) = (row.PreviousNode, row.Parent!);
            row.Remove();
            Assert.ThrowsAny<Xunit.Sdk.XunitException>(() => Check(result, page));
            if (before is null)
            {
                parent.AddFirst(row);
            }
            else
            {
                before.AddAfterSelf(row);
            }
        }

        Check(result, page);
    }

    [Fact]
    public void A_hole_that_is_drilled_and_a_screw_stand_once_too()
    {
        var text = SmallDesk.Text().Replace("id = \"points\"\n", "id = \"points\"\n  drilled = [0.2, 0.1]\n", StringComparison.Ordinal);
        var result = SmallDesk.Build(text, parts: BuildParts.Bench | BuildParts.Book);
        var page = SmallDesk.Xml(SmallDesk.Html(result));
        Check(result, page);
        Assert.Contains(SmallDesk.Rows(page, "hole"), row => row.Row.Value.Contains("drilled already", StringComparison.Ordinal));
        Assert.Equal(4, SmallDesk.Rows(page, "part").Count(row => row.Key.Contains("fixing", StringComparison.Ordinal)));
    }

    private static void Check(BuildResult result, XDocument page)
    {
        var holes = Csv(result, "hole-chart.csv");
        Same(holes.Select(row => $"{row["panel"]}:{row["hole"]}"), page, "hole");
        Same(holes.Select(row => row["item"]).Distinct(), page, "part");
        Same(Csv(result, "wiring/wires.csv").Select(row => row["no"]).Where(no => no[0] != 'X'), page, "wire");
        Same(Csv(result, "wiring/wires.csv").Select(row => row["no"]).Where(no => no[0] == 'X'), page, "adapter-wire");
        Same(Csv(result, "light/emitters.csv").Select(row => $"{row["panel"]}:{row["number"]}"), page, "lamp");
        Same(Csv(result, "bill.csv").Select(row => row["key"]), page, "bill");
        Assert.Equal(Csv(result, "wiring/plugs.csv").Count, SmallDesk.Rows(page, "contact").Length);
    }

    private static void Same(IEnumerable<string> wanted, XDocument page, string kind) =>
        Assert.Equal(wanted.Order(StringComparer.Ordinal), SmallDesk.Rows(page, kind).Select(row => row.Key).Order(StringComparer.Ordinal));

    internal static List<Dictionary<string, string>> Csv(BuildResult result, string path)
    {
        var lines = Encoding.UTF8.GetString(result.Files.Single(file => file.Path == path).Bytes.AsSpan()).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        var head = Fields(lines[0]);
        return [.. lines.Skip(1).Select(line => Fields(line).Zip(head).ToDictionary(pair => pair.Second, pair => pair.First))];
    }

    private static List<string> Fields(string line)
    {
        var (fields, field, isQuoted) = (new List<string>(), new StringBuilder(), false);
        foreach (var letter in line)
        {
            if (letter == '"')
            {
                isQuoted = !isQuoted;
            }
            else if (letter == ',' && !isQuoted)
            {
                fields.Add(field.ToString());
                field.Clear();
            }
            else
            {
                field.Append(letter);
            }
        }

        fields.Add(field.ToString());
        return fields;
    }
}
