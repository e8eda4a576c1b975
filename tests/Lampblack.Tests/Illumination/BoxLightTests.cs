using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Geometry;
using Lampblack.Illumination;
using Xunit;

namespace Lampblack.Tests.Illumination;

/// <summary>Light that goes to and fro in a box, against a closed form and against a path tracer.</summary>
public class BoxLightTests
{
    private const double Width = 90;
    private const double Height = 60;
    private const double Depth = 36;
    private const double FluxLumens = 10;

    // In a closed box of one reflectance what is swallowed is what is sent out: mean illuminance of all sides = flux / (area (1 - R)), the sphere's multiplier without a port.
    [Theory]
    [InlineData(0.5)]
    [InlineData(0.8)]
    [InlineData(0.9)]
    public void ThePathTracerKeepsToTheCavitysClosedForm(double reflectance)
    {
        var (_, arrivals) = new PathTracer(Width, Height, Depth, reflectance, reflectance, reflectance, [], seed: 7).Run(30, 20, 400_000, 1, 1);
        Assert.Equal(1 / (1 - reflectance), arrivals, 0.005 / (1 - reflectance));
    }

    // The sphere's multiplier with a port: walls of 0.9 with a fifth open. Spread evenly over all sides that is a closed box of 0.72, where M = 0.9 / (1 - 0.72) = 3.2143, and 0.2 M = 0.6429 of the light goes out.
    [Fact]
    public void ThePathTracerKeepsToACavitysClosedFormWithAPort()
    {
        const double Wall = 0.9;
        const double Port = 0.2;
        const double Closed = Wall * (1 - Port);
        var (_, arrivals) = new PathTracer(Width, Height, Depth, Closed, Closed, Closed, [], seed: 7).Run(30, 20, 400_000, 1, 1);
        Assert.Equal(3.2143, Wall * arrivals, 0.005 * 3.2143);
        Assert.Equal(0.6429, Port * Wall * arrivals, 0.005 * 0.6429);
    }

    [Theory]
    [InlineData(0.72, 0.72, 0.72)]
    [InlineData(0.8, 0.8, 0.8)]
    [InlineData(0.9, 0.9, 0.05)]
    [InlineData(0.8, 0.6, 0.05)]
    [InlineData(0, 0.8, 0.3)]
    public void ABoxThrowsLightBackAsAPathTracerFindsIt(double wall, double floor, double mask) =>
        Agrees(new LightBox(new(0, 0, Width, Height), Depth, wall, floor, mask), []);

    [Theory]
    [InlineData(20)]
    [InlineData(Depth)]
    public void BodiesShadeBothWays(double depth) =>
        Agrees(
            new LightBox(new(0, 0, Width, Height), Depth, 0.8, 0.8, 0.3)
            {
                Bodies = [Body(45, 10, 60, 30, depth), Body(10, 40, 22, 50, depth)],
            },
            [(45, 10, 60, 30, depth), (10, 40, 22, 50, depth)]);

    /// <summary>A box of the largest number of facets is looked at less closely, and yet gives what a path tracer finds: a hundred bodies, six emitters. All figures are invented.</summary>
    [Fact]
    public void ALargeBoxOfManyBodiesIsLitAsAPathTracerFindsIt()
    {
        const double Wide = 280;
        const double High = 400;
        const int Across = 7;
        const int Up = 10;
        const int Fine = 20;
        var bodies = (from row in Enumerable.Range(0, 12) from column in Enumerable.Range(0, 8) select (Left: 6.0 + (34 * column), Bottom: 4.0 + (32 * row), Right: 20.0 + (34 * column), Top: 24.0 + (32 * row), Depth: 18.0)).ToArray();
        var emitters = (from row in Enumerable.Range(0, 3) from column in Enumerable.Range(0, 2) select new Point<PanelSpace>(76 + (130 * column), 70 + (130 * row))).ToArray();
        var traced = new double[Across * Up];
        foreach (var (index, at) in emitters.Index())
        {
            var (cells, _) = new PathTracer(Wide, High, Depth, 0.8, 0.8, 0.1, bodies, seed: 17 + (ulong)index).Run(at.XMm, at.YMm, 500_000, Across, Up);
            for (var cell = 0; cell < traced.Length; cell++)
            {
                traced[cell] += cells[cell % Across, cell / Across] * FluxLumens / (Wide / Across * High / Up * 1e-6);
            }
        }

        // Bodies, emitters and so the edges of shadows lie on even millimetres, places between them.
        var places = (from row in Enumerable.Range(0, Up)
                      from column in Enumerable.Range(0, Across)
                      from y in Enumerable.Range(0, Fine)
                      from x in Enumerable.Range(0, Fine)
                      select new Point<PanelSpace>((column + ((x + 0.5) / Fine)) * Wide / Across, (row + ((y + 0.5) / Fine)) * High / Up)).ToImmutableArray();
        var box = new LightBox(new(0, 0, Wide, High), Depth, 0.8, 0.8, 0.1) { Bodies = [.. bodies.Select(body => Body(body.Left, body.Bottom, body.Right, body.Top, body.Depth))] };
        var lux = BoxLight.Of(box, CancellationToken.None).Lux([.. emitters.Select(at => new Emitter(at, FluxLumens, 60))], places, CancellationToken.None);
        var ours = lux.Chunk(Fine * Fine).Select(cell => cell.Average()).ToArray();

        // As above: 1 % of the whole, and in a cell what chance does to some 10,000 rays and what bodies as small as a facet do.
        Assert.Equal(traced.Average(), ours.Average(), 0.01 * traced.Average());
        Assert.All(ours.Zip(traced), pair => Assert.Equal(pair.Second, pair.First, (0.01 * pair.Second) + (0.028 * traced.Average())));
    }

    /// <summary>What each emitter gives alone adds up to what all give together; seventeen are one more than are worked out side by side.</summary>
    [Fact]
    public void EmittersOneByOneAddUpToAllOfThem()
    {
        var box = new LightBox(new(0, 0, Width, Height), Depth, 0.8, 0.8, 0.3) { Bodies = [Body(45, 10, 60, 30, 20)] };
        ImmutableArray<Emitter> emitters = [.. Enumerable.Range(0, 17).Select(index => new Emitter(new(5 + (5 * index), 8 + (3 * index)), 1 + index, 45))];
        ImmutableArray<Point<PanelSpace>> places = [new(20, 20), new(70, 15), new(30, 50), new(85, 55)];
        var ready = BoxLight.Of(box, CancellationToken.None).At(places, CancellationToken.None);
        var each = ready.Responses(emitters, CancellationToken.None);
        var all = ready.Lux(emitters, CancellationToken.None);
        Assert.All(places.Index(), place => Assert.Equal(all[place.Index], each.Sum(row => row[place.Index]), 1e-4 * all[place.Index]));
        Assert.All(emitters.Index(), emitter => Assert.All(places.Index(), place => Assert.Equal(ready.Lux([emitter.Item], CancellationToken.None)[place.Index], each[emitter.Index][place.Index], 1e-4 * each[emitter.Index][place.Index])));
    }

    /// <summary>What one of the tests above would see if a change of the box went by unnoticed.</summary>
    [Fact]
    public void TwiceTheEmitterIsTwiceTheLightAndABlackWallOrABodyTakesLightAway()
    {
        var box = new LightBox(new(0, 0, Width, Height), Depth, 0.8, 0.8, 0.3);
        var before = Cells(box);
        var twice = Cells(box, 2 * FluxLumens);
        Assert.All(before.Zip(twice), pair => Assert.Equal(2 * pair.First, pair.Second, 1e-3 * pair.Second));
        var black = Cells(box with { WallReflectance = 0 });
        Assert.All(before.Zip(black), pair => Assert.True(pair.Second < pair.First));
        var shaded = Cells(box with { Bodies = [Body(45, 10, 60, 30, 30)] });
        Assert.All(before.Zip(shaded), pair => Assert.True(pair.Second < pair.First));
        Assert.True(before.Sum() - shaded.Sum() > 0.05 * before.Sum());
    }

    // A sheet on the mask: tau / (1 - Rd Rm), and the box sees Rd + tau² Rm / (1 - Rd Rm).
    [Fact]
    public void ADiffuserOnABlackMaskLetsItsShareThrough()
    {
        var bare = new LightBox(new(0, 0, Width, Height), Depth, 0, 0, 0);
        Assert.All(Cells(bare).Zip(Cells(bare with { Diffuser = new(0, 0.6, 0) })), pair => Assert.Equal(0.6 * pair.First, pair.Second, 1e-6 * pair.First));
    }

    /// <summary>All light that passes a diffuser at a distance comes evenly from every place of it: traced in two stages.</summary>
    [Fact]
    public void ADiffuserAtADistanceGivesWhatAChainOfRaysGives()
    {
        const double Gap = 12;
        var box = new LightBox(new(0, 0, Width, Height), Depth, 0.8, 0.8, 0.05) { Diffuser = new(Gap, 0.6, 0.3) };
        var traced = TwoStages(Gap, 0.6, 0.3);
        var ours = Cells(box);
        var mean = ours.Average();
        Assert.Equal(traced.Average(), mean, 0.02 * mean);
        Assert.All(ours.Zip(traced), pair => Assert.Equal(pair.Second, pair.First, 0.04 * mean));
    }

    private const int Columns = 6;
    private const int Rows = 4;

    private static void Agrees(LightBox box, (double, double, double, double, double)[] bodies)
    {
        var (cells, _) = new PathTracer(Width, Height, Depth, box.WallReflectance, box.FloorReflectance, box.MaskReflectance, bodies, seed: 11).Run(30, 20, 3_000_000, Columns, Rows);
        var cellM2 = Width / Columns * Height / Rows * 1e-6;
        var traced = (from row in Enumerable.Range(0, Rows) from column in Enumerable.Range(0, Columns) select cells[column, row] * FluxLumens / cellM2).ToArray();
        var ours = Cells(box);

        // Within 1 % for the whole mask; of a single cell of it also what chance does to some 100,000 rays. In the shadow of bodies no wider than a facet
        // a cell may be off by some 3 % of the mean: light that comes round them is known facet by facet only.
        var slackShare = box.Bodies.IsEmpty ? 0.006 : 0.028;
        Assert.Equal(traced.Average(), ours.Average(), 0.01 * ours.Average());
        Assert.All(ours.Zip(traced), pair => Assert.Equal(pair.Second, pair.First, (0.01 * pair.Second) + (slackShare * traced.Average())));
    }

    /// <summary>The same light twice over: rays of the emitter to the sheet, and from where they pass it on.</summary>
    private static double[] TwoStages(double gap, double transmittance, double reflectance)
    {
        const int Fine = 4;
        var (first, _) = new PathTracer(Width, Height, Depth - gap, 0.8, 0.8, reflectance, [], seed: 3).Run(30, 20, 400_000, Columns * Fine, Rows * Fine);
        var sum = new double[Columns * Rows];
        for (var x = 0; x < Columns * Fine; x++)
        {
            for (var y = 0; y < Rows * Fine; y++)
            {
                var (second, _) = new PathTracer(Width, Height, gap, 0.8, reflectance, 0.05, [], seed: (ulong)((x * 100) + y))
                    .Run((x + 0.5) * Width / (Columns * Fine), (y + 0.5) * Height / (Rows * Fine), 6000, Columns, Rows);
                for (var cell = 0; cell < sum.Length; cell++)
                {
                    sum[cell] += transmittance * first[x, y] * second[cell % Columns, cell / Columns];
                }
            }
        }

        return [.. sum.Select(share => share * FluxLumens / (Width / Columns * Height / Rows * 1e-6))];
    }

    /// <summary>Mean illuminance of each cell of the mask, row by row from the lower left.</summary>
    private static double[] Cells(LightBox box, double fluxLumens = FluxLumens)
    {
        const int Fine = 15;
        var places = (from row in Enumerable.Range(0, Rows)
                      from column in Enumerable.Range(0, Columns)
                      from y in Enumerable.Range(0, Fine)
                      from x in Enumerable.Range(0, Fine)
                      select new Point<PanelSpace>((column + ((x + 0.5) / Fine)) * Width / Columns, (row + ((y + 0.5) / Fine)) * Height / Rows)).ToImmutableArray();
        var lux = BoxLight.Of(box, CancellationToken.None).Lux([new Emitter(new(30, 20), fluxLumens, 60)], places, CancellationToken.None);
        return [.. lux.Chunk(Fine * Fine).Select(cell => cell.Average())];
    }

    private static OpaqueBody Body(double left, double bottom, double right, double top, double depth) =>
        new([new(left, bottom), new(right, bottom), new(right, top), new(left, top)], depth);
}
