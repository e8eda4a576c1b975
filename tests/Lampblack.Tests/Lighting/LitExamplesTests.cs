using System;
using System.IO;
using System.Text.Json;
using System.Threading;
using Lampblack.Jobs;
using Lampblack.Tests.Suites;
using Xunit;

namespace Lampblack.Tests.Lighting;

/// <summary>The examples lit: each reaches the evenness that it asks for, with no more emitters than an even grid that does as well.</summary>
public class LitExamplesTests
{
    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void AnExampleIsLitAsEvenlyAsItAsksWithNoMoreEmittersThanAGridNeeds(string name)
    {
        var result = Light.Run(ExampleDesks.Source(name), new("A4", "option") { GridMm = 20 }, new Progress<string>(), CancellationToken.None);
        Assert.DoesNotContain(result.Findings, finding => finding.Code is "light-uneven" or "light-dim" or "cell-dim" or "cell-crowded" or "cell-leaks" or "legend-over-wall");
        using var stream = new MemoryStream();
        using (var writer = new Utf8JsonWriter(stream))
        {
            writer.WriteStartObject();
            result.WriteTo(writer);
            writer.WriteEndObject();
        }

        using var json = JsonDocument.Parse(stream.ToArray());
        Assert.All(json.RootElement.GetProperty("panels").EnumerateArray(), panel =>
        {
            Assert.True(panel.GetProperty("met").GetBoolean());
            Assert.True(panel.TryGetProperty("gridUnits", out var grid) ? panel.GetProperty("units").GetInt32() <= grid.GetInt32() : panel.GetProperty("gridsTriedTo").GetInt32() > panel.GetProperty("units").GetInt32());
        });
        Assert.NotEmpty(result.Lines);
    }
}
