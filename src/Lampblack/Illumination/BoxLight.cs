using System;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using System.Threading.Tasks;
using Lampblack.Geometry;

namespace Lampblack.Illumination;

/// <summary>A box made ready to answer how much light of an emitter reaches a place of the mask: straight, off walls, floor and mask, past bodies, through a diffuser.</summary>
public sealed class BoxLight
{
    /// <summary>Facets of this share of the depth are fine enough for 1 %.</summary>
    private const double FineShare = 1 / 3.0;

    /// <summary>Those of a diffuser shine on a mask that is near.</summary>
    private const double GapShare = 0.6;

    /// <summary>More facets than this take longer than an answer may.</summary>
    private const int MostFacets = 1400;

    /// <summary>A mask that throws back no more than this adds a few parts in a hundred to what legends get.</summary>
    private const double DimReflectance = 0.2;

    private readonly double _depthMm;
    private readonly Shadows _shadows;

    // What swallows light: white bodies cast a shadow, and no more.
    private readonly Shadows _swallowing;
    private readonly Chamber? _chamber;
    private readonly Chamber? _behindDiffuser;
    private readonly Diffuser? _diffuser;
    private readonly bool _isMaskDim;

    private BoxLight(LightBox box, double stepMm, CancellationToken cancellation)
    {
        Box = box;
        if (box.Diffuser is not { GapMm: > 0 } apart)
        {
            // A sheet that lies on the mask dims, and light goes to and fro between the two.
            var mask = box.MaskReflectance;
            if (box.Diffuser is { } sheet)
            {
                var between = 1 - (sheet.Reflectance * mask);
                ThroughShare = sheet.Transmittance / between;
                mask = sheet.Reflectance + (sheet.Transmittance * sheet.Transmittance * mask / between);
            }

            (_depthMm, _shadows, _swallowing) = (box.DepthMm, new(box.Bodies), new(box.Bodies.Where(body => !body.IsWhite)));
            _isMaskDim = mask <= DimReflectance;
            _chamber = IsDark(box, mask) ? null : Chamber.Of(box with { MaskReflectance = mask }, _swallowing, stepMm, cancellation);
            return;
        }

        // Two boxes, one before the other: the sheet is the first one's front and the second one's shining floor.
        _diffuser = apart;
        _depthMm = box.DepthMm - apart.GapMm;
        _shadows = new(box.Bodies.Select(body => body with { DepthMm = body.DepthMm - apart.GapMm }));
        _swallowing = new(box.Bodies.Where(body => !body.IsWhite).Select(body => body with { DepthMm = body.DepthMm - apart.GapMm }));
        _behindDiffuser = Chamber.Of(box with { DepthMm = _depthMm, MaskReflectance = apart.Reflectance }, _swallowing, stepMm, cancellation);
        _chamber = Chamber.Of(box with { DepthMm = apart.GapMm, FloorReflectance = apart.Reflectance }, new(box.Bodies.Where(body => !body.IsWhite)), stepMm, cancellation);
    }

    private BoxLight(BoxLight other, double wallReflectance, double floorReflectance)
    {
        Box = other.Box with { WallReflectance = wallReflectance, FloorReflectance = floorReflectance };
        (ThroughShare, _depthMm, _shadows, _swallowing, _diffuser, _isMaskDim) = (other.ThroughShare, other._depthMm, other._shadows, other._swallowing, other._diffuser, other._isMaskDim);
        _behindDiffuser = other._behindDiffuser?.With(wallReflectance, floorReflectance);

        // Before a diffuser that stands apart the floor is the diffuser.
        _chamber = other._chamber?.With(wallReflectance, _diffuser is null ? floorReflectance : null);
    }

    /// <summary>The box.</summary>
    public LightBox Box { get; }

    /// <summary>What a sheet that lies on the mask leaves of the light.</summary>
    internal double ThroughShare { get; } = 1;

    /// <summary>Makes a box ready.</summary>
    /// <param name="box">The box.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <param name="finestFactor">How much finer than usual the sides are cut.</param>
    /// <exception cref="ArgumentException">A diffuser lies behind the emitters.</exception>
    public static BoxLight Of(LightBox box, CancellationToken cancellation, double finestFactor = 1)
    {
        ArgumentNullException.ThrowIfNull(box);
        if (box.Diffuser is { } diffuser && diffuser.GapMm >= box.DepthMm)
        {
            throw new ArgumentException("the diffuser lies behind the emitters", nameof(box));
        }

        var (width, height, depth) = (box.Inside.WidthMm, box.Inside.HeightMm, box.DepthMm);
        var area = (2 * width * height) + (2 * (width + height) * depth);
        var finest = box.Diffuser is { GapMm: > 0 } apart ? Math.Min(depth * FineShare, apart.GapMm * GapShare) : depth * FineShare;
        return new(box, Math.Max(finest / finestFactor, Math.Sqrt(area / (MostFacets * finestFactor))), cancellation);
    }

    /// <summary>Makes places of the mask ready: what they see of the box is looked up once.</summary>
    /// <param name="places">The places.</param>
    /// <param name="cancellation">Stops the work.</param>
    public MaskPlaces At(ImmutableArray<Point<PanelSpace>> places, CancellationToken cancellation)
    {
        var seen = new float[_chamber is null ? 0 : places.Length][];
        Parallel.For(0, seen.Length, new ParallelOptions { CancellationToken = cancellation }, place => seen[place] = _chamber!.SeenFromMask(places[place]));
        return new(this, places, seen);
    }

    /// <summary>The same box with other walls and floor, at little cost; one that is black all over stays so.</summary>
    internal BoxLight With(double wallReflectance, double floorReflectance) => new(this, wallReflectance, floorReflectance);

    /// <summary>The illuminance of places of the mask, all emitters on.</summary>
    public ImmutableArray<double> Lux(ImmutableArray<Emitter> emitters, ImmutableArray<Point<PanelSpace>> places, CancellationToken cancellation) =>
        At(places, cancellation).Lux(emitters, cancellation);

    /// <summary>What of an emitter's straight light bodies leave to a place, as a share; 1 past a diffuser, where none is straight.</summary>
    public double OpenShare(ImmutableArray<Emitter> emitters, Point<PanelSpace> place)
    {
        var (all, open, at) = (0.0, 0.0, new Place(place.XMm, place.YMm, 0));
        foreach (var beam in Beams(emitters))
        {
            var lux = DirectLight.Lux(beam, at, new(0, 0, 1));
            all += lux;
            open += lux > 0 && !_shadows.Block(at, beam.At) ? lux : 0;
        }

        return _diffuser is null && all > 0 ? open / all : 1;
    }

    private static bool IsDark(LightBox box, double maskReflectance) => box is { WallReflectance: 0, FloorReflectance: 0 } && maskReflectance == 0;

    /// <summary>The emitters as they stand in the box.</summary>
    internal Beam[] Beams(ImmutableArray<Emitter> emitters) => [.. emitters.Select(emitter => Beam.Of(emitter, _depthMm))];

    /// <summary>What reaches a place without touching anything; nothing does past a diffuser.</summary>
    internal double Straight(in Beam beam, Point<PanelSpace> place) =>
        _diffuser is null ? ThroughShare * DirectLight.OnMask(beam, new(place.XMm, place.YMm, 0), _shadows) : 0;

    /// <summary>What leaves the facets that the mask sees.</summary>
    internal float[]? Leaving(ImmutableArray<Emitter> emitters)
    {
        if (_chamber is null)
        {
            return null;
        }

        if (_behindDiffuser is not { } behind || _diffuser is not { } diffuser)
        {
            return _chamber.Leaving(Sum(Direct(_chamber, emitters, CancellationToken.None)));
        }

        var direct = Sum(Direct(behind, emitters, CancellationToken.None));
        var leaving = behind.Leaving(direct);
        var glow = new float[_chamber.Facets.Length];
        for (var facet = 0; facet < behind.MaskFacets; facet++)
        {
            glow[_chamber.MaskFacets + facet] = (float)diffuser.Transmittance * (direct[facet] + behind.Arriving(facet, leaving));
        }

        return _chamber.Leaving(new float[glow.Length], glow);
    }

    /// <summary>Of what leaves all facets that which can reach the mask: all but its own.</summary>
    internal ReadOnlySpan<float> ToMask(float[] leaving) => leaving.AsSpan(_chamber!.MaskFacets);

    /// <summary>What leaves those facets by each emitter alone; null where nothing is thrown back.</summary>
    internal float[][]? Leavings(ImmutableArray<Emitter> emitters, CancellationToken cancellation) =>
        _chamber is null ? null
            : _behindDiffuser is null ? _chamber.Leaving(Direct(_chamber, emitters, cancellation), cancellation)
            : [.. emitters.AsParallel().AsOrdered().WithCancellation(cancellation).Select(emitter => Leaving([emitter])!)];

    /// <summary>What reaches the facets straight from each emitter; all that one sends out arrives somewhere, whatever the few places looked at say.</summary>
    private float[][] Direct(Chamber chamber, ImmutableArray<Emitter> emitters, CancellationToken cancellation)
    {
        var (beams, each) = (Beams(emitters), new float[emitters.Length][]);
        Parallel.For(0, each.Length, new ParallelOptions { CancellationToken = cancellation }, emitter => each[emitter] = DirectOf(chamber, beams[emitter]));
        return each;
    }

    private static float[] Sum(float[][] each)
    {
        var sum = (float[])each[0].Clone();
        foreach (var one in each.AsSpan(1))
        {
            for (var index = 0; index < sum.Length; index++)
            {
                sum[index] += one[index];
            }
        }

        return sum;
    }

    private float[] DirectOf(Chamber chamber, Beam beam)
    {
        var (shaded, lumens, isDimCoarse) = (new double[chamber.Facets.Length], 0.0, _isMaskDim && chamber.Looks.IsDimMaskCoarse);
        for (var index = 0; index < shaded.Length; index++)
        {
            var facet = chamber.Facets[index];
            (var lux, shaded[index]) = DirectLight.OnFacet(beam, facet, _swallowing, isDimCoarse && facet.Side == BoxSide.Mask);
            lumens += lux * facet.AreaMm2 * 1e-6;
        }

        var factor = lumens > 0 ? beam.FluxLumens / lumens : 0;
        return [.. shaded.Select(lux => (float)(factor * lux))];
    }
}
