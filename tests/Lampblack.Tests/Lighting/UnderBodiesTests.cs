using System.Linq;
using Lampblack.Geometry;
using Lampblack.Tests.Books;
using Xunit;

namespace Lampblack.Tests.Lighting;

/// <summary>An emitter may stand under a body, but only under one that ends above it: depths of the bodies are those of the catalogue, and all bodies count.</summary>
public sealed class UnderBodiesTests
{
    [Theory]
    [InlineData("dome-desk", "")]
    [InlineData("yard-board", null)]
    [InlineData("kiln", "5 6 7")]
    public void What_stands_over_an_emitter_ends_above_it(string name, string? deepOnes)
    {
        var facts = ExampleBooks.Of(name).Facts;
        var over = (from lamp in facts.Lamps
                    from panel in facts.Laid.Panels
                    where panel.Panel.Id == lamp.Panel
                    from part in panel.Parts
                    where part.Part.Body is not null && part.Body().Contains(new Point<PanelSpace>(lamp.XMm, lamp.YMm))
                    select (lamp.Number, DepthMm: part.Part.Body!.Depth.Mm)).ToList();
        Assert.All(over, one => Assert.True(one.DepthMm <= facts.BoxDepthMm - facts.LampType!.RaisedMm - 1, $"emitter {one.Number} stands where a body of {one.DepthMm} mm is"));

        // By a ruler on the kiln's drawing: the barrel's middle at 54, 58, its radius 22.75 mm, its depth 45 mm of 60.
        if (deepOnes is not null)
        {
            Assert.Equal(deepOnes, string.Join(' ', over.Where(one => one.DepthMm > 40).Select(one => one.Number).Order()));
        }
    }
}
