using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.IO;
using System.Linq;
using System.Threading;
using Lampblack.Geometry;
using Lampblack.Illumination;
using Lampblack.Tests.Peers;
using Xunit;

namespace Lampblack.Tests.Illumination;

/// <summary>Nine emitters over a plane against POV-Ray 3.7, a ray tracer that is not ours: straight light and shadows.</summary>
public class RayTracerTests
{
    private const int Px = 100;
    private const double Field = 100;
    private const double Depth = 30;
    private const double FadeMm = 0.03;
    private const double Scale = 150;

    [Fact]
    public void NineEmittersLightAPlaneAsARayTracerSays() => Agrees([]);

    [Fact]
    public void ABodyShadesAsInARayTracer() => Agrees([(60, 20, 72, 41, 18)]);

    [Fact]
    public void ALeftOutBodyWouldBeNoticed()
    {
        var (ours, traced) = Both([(60, 20, 72, 41, 18)]);
        var without = Ours([]);
        Assert.Contains(ours.Zip(without), pair => Math.Abs(pair.First - pair.Second) > 0.05 * pair.Second);
        Assert.Equal(Px * Px, traced.Count);
    }

    private static void Agrees((double Left, double Bottom, double Right, double Top, double Depth)[] bodies)
    {
        var (ours, traced) = Both(bodies);

        // On a shadow's edge a dot of the ray tracer is lit or not as a whole, as a place of ours is; both look at the same places, but not to the last digit.
        var edges = ours.Zip(traced).Count(pair => Math.Abs(pair.First - pair.Second) > 1e-3 * pair.Second);
        Assert.True(edges <= (bodies.Length == 0 ? 0 : Px * Px / 200), $"{edges} dots differ by more than 0.1 %");
        Assert.True(traced.Max() > 2 * traced.Min());
    }

    private static (double[] Ours, IReadOnlyList<double> Traced) Both((double Left, double Bottom, double Right, double Top, double Depth)[] bodies) => (Ours(bodies), Traced(bodies));

    private static IEnumerable<Point<PanelSpace>> Emitters() =>
        from row in Enumerable.Range(0, 3) from column in Enumerable.Range(0, 3) select new Point<PanelSpace>(22 + (25 * column), 25 + (25 * row));

    private static double[] Ours((double Left, double Bottom, double Right, double Top, double Depth)[] bodies)
    {
        var box = new LightBox(new(0, 0, Field, Field), Depth, 0, 0, 0)
        {
            Bodies = [.. bodies.Select(body => new OpaqueBody([new(body.Left, body.Bottom), new(body.Right, body.Bottom), new(body.Right, body.Top), new(body.Left, body.Top)], body.Depth))],
        };
        var places = (from row in Enumerable.Range(0, Px) from column in Enumerable.Range(0, Px) select new Point<PanelSpace>((column + 0.5) * Field / Px, Field - ((row + 0.5) * Field / Px))).ToImmutableArray();
        return [.. BoxLight.Of(box, CancellationToken.None).Lux([.. Emitters().Select(at => new Emitter(at, Math.PI, 60))], places, CancellationToken.None)];
    }

    /// <summary>The scene as that program has it: a point light with a spotlight's cosine, fading with the square of its distance; the plane z = 0 seen straight from behind, from z above.</summary>
    private static List<double> Traced((double Left, double Bottom, double Right, double Top, double Depth)[] bodies)
    {
        OutsideProgram.Need("povray");
        var scene = new StringWriter(CultureInfo.InvariantCulture);
        scene.WriteLine("#version 3.7; global_settings { assumed_gamma 1.0 }");
        scene.WriteLine(FormattableString.Invariant($"camera {{ orthographic location <{Field / 2},{Field / 2},100> direction <0,0,-1> right <{Field},0,0> up <0,{Field},0> look_at <{Field / 2},{Field / 2},0> }}"));
        scene.WriteLine("plane { z, 0 pigment { rgb 1 } finish { diffuse 1 ambient 0 } }");
        foreach (var at in Emitters())
        {
            // 1 / r² at distances far above the fade distance; the colour brings it to I0 = 1 and below 1, where the program cuts off.
            var colour = Scale / (2 * FadeMm * FadeMm);
            scene.WriteLine(FormattableString.Invariant($"light_source {{ <{at.XMm},{at.YMm},{Depth}> rgb {colour:R} spotlight radius 90 falloff 90 tightness 1 point_at <{at.XMm},{at.YMm},0> fade_distance {FadeMm} fade_power 2 }}"));
        }

        foreach (var body in bodies)
        {
            scene.WriteLine(FormattableString.Invariant($"box {{ <{body.Left},{body.Bottom},0.0001>, <{body.Right},{body.Top},{body.Depth}> pigment {{ rgb 0 }} finish {{ diffuse 0 ambient 0 }} no_image }}"));
        }

        var folder = Directory.CreateTempSubdirectory("lampblack-light-").FullName;
        try
        {
            File.WriteAllText(Path.Combine(folder, "scene.pov"), scene.ToString());
            OutsideProgram.RunWell("povray", ["+Iscene.pov", "+Oscene.ppm", $"+W{Px}", $"+H{Px}", "+FP16", "File_Gamma=1.0", "-A", "-D", "-GA"], folder);
            return Read(File.ReadAllBytes(Path.Combine(folder, "scene.ppm")));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>The first channel of a 16-bit pixmap as lux of our scene.</summary>
    private static List<double> Read(byte[] bytes)
    {
        var at = 0;
        var words = new List<string>();
        while (words.Count < 4)
        {
            var end = Array.IndexOf(bytes, (byte)'\n', at);
            var line = System.Text.Encoding.ASCII.GetString(bytes, at, end - at);
            at = end + 1;
            words.AddRange(line.Split('#')[0].Split(' ', StringSplitOptions.RemoveEmptyEntries));
        }

        Assert.Equal(["P6", "100", "100", "65535"], words);
        return [.. Enumerable.Range(0, Px * Px).Select(dot => ((bytes[at + (6 * dot)] * 256) + bytes[at + (6 * dot) + 1]) / 65535.0 / Scale * 1e6)];
    }
}
