using System;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Geometry;
using Lampblack.Illumination;
using Xunit;

namespace Lampblack.Tests.Illumination;

/// <summary>Light of emitters on a plane, nothing thrown back, against closed forms.</summary>
public class EmitterArraysTests
{
    // m = -ln 2 / ln cos(half angle): textbook formula.
    [Theory]
    [InlineData(60, 1)]
    [InlineData(45, 2)]
    [InlineData(30, 4.8188)]
    [InlineData(15, 19.9937)]
    [InlineData(10, 45.2776)]
    [InlineData(70, 0.6461)]
    public void TheExponentOfABeamFollowsFromItsHalfAngle(double halfAngle, double exponent) =>
        Assert.Equal(exponent, Emitter.OrderOf(halfAngle), 1e-4);

    [Theory]
    [InlineData(0)]
    [InlineData(90)]
    [InlineData(-1)]
    public void AHalfAngleThatIsNoneIsRefused(double halfAngle) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Emitter.OrderOf(halfAngle));

    // Flux / pi straight ahead of a Lambertian source; E = I / r².
    [Fact]
    public void AHundredLumensAtFiveCentimetres()
    {
        var emitter = new Emitter(new(0, 0), 100, 60);
        Assert.Equal(31.831, emitter.AxisCandela, 1e-3);
        Assert.Equal(12732.4, Lux(50, new(0, 0), emitter), 0.1);
    }

    // cos^4, the law of illumination of a plane by a parallel Lambertian source.
    [Theory]
    [InlineData(30, 0.5625)]
    [InlineData(45, 0.25)]
    public void OffTheAxisALambertianSourceFallsWithTheFourthPowerOfTheCosine(double degrees, double share)
    {
        var emitter = new Emitter(new(0, 0), 100, 60);
        Assert.Equal(share, Lux(50, new(50 * Math.Tan(degrees * Math.PI / 180), 0), emitter) / Lux(50, new(0, 0), emitter), 1e-9);
    }

    // Infinite square grid of Lambertian sources over a parallel plane, by Poisson's sum; pitch / height 1, 1.5, 2.
    [Theory]
    [InlineData(1.0, 0.9516)]
    [InlineData(1.5, 0.7165)]
    [InlineData(2.0, 0.4394)]
    public void AnEndlessGridIsAsEvenAsItsClosedFormSays(double pitchPerHeight, double evenness)
    {
        const double Over = 20;
        const int Half = 150;
        var pitch = pitchPerHeight * Over;
        var grid = Enumerable.Range(-Half, (2 * Half) + 1).SelectMany(column => Enumerable.Range(-Half, (2 * Half) + 1)
            .Select(row => new Emitter(new(column * pitch, row * pitch), 1, 60))).ToImmutableArray();

        // What lies beyond the grid adds little, and the same everywhere: the mean is known to be flux / pitch².
        var lux = At(Over, Cell(pitch), grid);
        var missing = (1e6 / (pitch * pitch)) - lux.Average();
        Assert.InRange(missing / lux.Average(), 0, 1e-3);
        var (over, corner) = (lux[0] + missing, Lux(Over, new(pitch / 2, pitch / 2), grid) + missing);
        Assert.Equal(evenness, corner / over, 5e-4);
    }

    // True illuminance of a plane: flat where the second derivative is 0, at 2 / sqrt(m + 4) of the height for exponent m + 1 in Moreno's formula.
    [Fact]
    public void APairOfLambertianSourcesIsFlatInTheMiddleAtItsTrueSpacing()
    {
        Assert.Equal(0, Curvature(2 / Math.Sqrt(5) * 50, Plane), 1e-6);
        Assert.Equal(0.894427, 2 / Math.Sqrt(5), 1e-6);
    }

    // Moreno, Avendano-Alejo, Tzonchev, Applied Optics 45 (2006) 2265: the same with his convention, which leaves the cosine of incidence out: kept here only.
    [Fact]
    public void ThePublishedSpacingOfAPairIsThatOfAnotherConvention()
    {
        Assert.Equal(0, Curvature(50, Published), 1e-6);
        Assert.True(Math.Abs(Curvature(50, Plane)) > 1e-3);
    }

    // Facts of the same paper for exponent 30, in his convention.
    [Theory]
    [InlineData(30, 0.348155)]
    public void ThePublishedSpacingOfANarrowPair(double exponent, double spacing)
    {
        double Curvature(double pitch) => CurvatureOf([new(-pitch / 2 * Height, 0), new(pitch / 2 * Height, 0)], exponent);

        // Nearer together the middle is a hill, farther apart a hollow.
        var (nearer, farther) = (Curvature(spacing - 1e-5), Curvature(spacing + 1e-5));
        Assert.True(nearer < 0 && farther > 0, $"{nearer} and {farther}");
    }

    // Three in line, as read in notes of others on that paper: sqrt(3 / (m + 3)) of the height, 0.866025 for m = 1, is where the middle bends down least.
    [Theory]
    [InlineData(1, 0.866025)]
    [InlineData(30, 0.301511)]
    public void ThePublishedSpacingOfThreeInLine(double exponent, double spacing)
    {
        double Curvature(double pitch) => CurvatureOf([new(-pitch * Height, 0), new(0, 0), new(pitch * Height, 0)], exponent);

        // By how much it grows with the pitch, again by a fourth-order difference.
        const double Step = 0.005;
        double Growth(double pitch) => (-Curvature(pitch + (2 * Step)) + (8 * Curvature(pitch + Step)) - (8 * Curvature(pitch - Step)) + Curvature(pitch - (2 * Step))) / (12 * Step);
        var (nearer, farther) = (Growth(spacing - 1e-5), Growth(spacing + 1e-5));
        Assert.True(nearer > 0 && farther < 0, $"{nearer} and {farther}");
    }

    // Rings of three and more are flat in the middle at a radius of sqrt(2 / (m + 2)) of the height, so that two by two are at 1.154701 (from memory; computed: the second derivative is 0).
    [Theory]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(6)]
    public void ThePublishedRadiusOfARing(int emitters)
    {
        var ring = Enumerable.Range(0, emitters).Select(index => index * 2 * Math.PI / emitters).Select(angle => new Point<PanelSpace>(0.816497 * Height * Math.Cos(angle), 0.816497 * Height * Math.Sin(angle))).ToImmutableArray();
        Assert.Equal(0, CurvatureOf(ring, 1), 5e-6);
        Assert.Equal(0, CurvatureOf(Grid(2, 2, 1.154701), 1), 5e-6);
    }

    // Sums read in notes of others on that paper, worked out for m = 30: four in line 0.27114, four by four 0.27537 of the height; flat to the last figure given.
    [Theory]
    [InlineData(4, 1, 0.27114)]
    [InlineData(4, 4, 0.27537)]
    public void ThePublishedSpacingOfNarrowOnesInLineAndInAGrid(int columns, int rows, double spacing)
    {
        var (nearer, farther) = (CurvatureOf(Grid(columns, rows, spacing - 1e-5), 30), CurvatureOf(Grid(columns, rows, spacing + 1e-5), 30));
        Assert.True(nearer < 0 && farther > 0, $"{nearer} and {farther}");
    }

    private const double Height = 50;

    private static ImmutableArray<Point<PanelSpace>> Grid(int columns, int rows, double spacing) =>
    [
        .. from column in Enumerable.Range(0, columns)
           from row in Enumerable.Range(0, rows)
           select new Point<PanelSpace>((column - ((columns - 1) / 2.0)) * spacing * Height, (row - ((rows - 1) / 2.0)) * spacing * Height),
    ];

    private static double Plane(double x, double height) => Lux(height, new(x, 0), new Emitter(new(0, 0), 1, 60)) / 1e6 * Math.PI * height * height;

    private static double Published(double x, double height) => Plane(x, height) * Math.Sqrt((x * x) + (height * height)) / height;

    /// <summary>Second derivative in the middle between two sources, in units of the height.</summary>
    private static double Curvature(double spacing, Func<double, double, double> single) =>
        CurvatureOf(x => single(x - (spacing / 2), Height) + single(x + (spacing / 2), Height));

    /// <summary>The same of any sources of an exponent around the origin, along the first axis; in the published convention, where one source is 1 right before it.</summary>
    private static double CurvatureOf(ImmutableArray<Point<PanelSpace>> sources, double exponent)
    {
        var halfAngle = Math.Acos(Math.Pow(2, -1 / exponent)) * 180 / Math.PI;
        var most = Lux(Height, new(0, 0), new Emitter(new(0, 0), 1, halfAngle));
        return CurvatureOf(x => sources.Sum(source =>
            Lux(Height, new(x, 0), new Emitter(source, 1, halfAngle)) / most * Math.Sqrt((Math.Pow(x - source.XMm, 2) + Math.Pow(source.YMm, 2) + (Height * Height)) / (Height * Height))));
    }

    private static double CurvatureOf(Func<double, double> at)
    {
        // Fourth-order difference, so that the step itself adds nothing at this precision.
        const double Step = 0.05;
        return (-at(2 * Step) + (16 * at(Step)) - (30 * at(0)) + (16 * at(-Step)) - at(-2 * Step)) / (12 * Step * Step) * Height * Height;
    }

    private static ImmutableArray<Point<PanelSpace>> Cell(double pitch) =>
        [.. from column in Enumerable.Range(0, 20) from row in Enumerable.Range(0, 20) select new Point<PanelSpace>(column * pitch / 20, row * pitch / 20)];

    private static double Lux(double depth, Point<PanelSpace> at, params ImmutableArray<Emitter> emitters) => At(depth, [at], emitters)[0];

    private static ImmutableArray<double> At(double depth, ImmutableArray<Point<PanelSpace>> places, ImmutableArray<Emitter> emitters) =>
        BoxLight.Of(new LightBox(new(-10, -10, 20, 20), depth, 0, 0, 0), CancellationToken.None).Lux(emitters, places, CancellationToken.None);
}
