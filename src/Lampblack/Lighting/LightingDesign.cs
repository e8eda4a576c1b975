using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Geometry;
using Lampblack.Illumination;
using Lampblack.Layout;

namespace Lampblack.Lighting;

/// <summary>Plans a panel's light, or judges emitters that the maker chose.</summary>
internal sealed class LightingDesign
{
    /// <summary>The seed that everybody gets who asks for none.</summary>
    public const ulong UsualSeed = 1;

    /// <summary>While places are compared, sides are cut this much coarser than for the last word.</summary>
    private const double CoarseFactor = 0.5;

    /// <summary>Lower currents are hard to set; the rest is left to dimming. Common practice, no source.</summary>
    private const double LeastDriveShare = 0.1;

    /// <summary>Marks with less than this beside the bodies are dark to the eye. Ours; no source.</summary>
    private const double LitShare = 0.5;

    private const int MostUnits = 150;
    private const int Repairs = 3;

    private readonly LightSetting _setting;
    private readonly IProgress<string> _progress;
    private readonly CancellationToken _stop;
    private readonly CancellationToken _cancellation;
    private readonly ulong _seed;
    private readonly long _mostLooks;
    private ImmutableArray<ScrewBlock> _blocks = [];

    private LightingDesign(LightSetting setting, ulong seed, long mostLooks, IProgress<string> progress, CancellationToken stop, CancellationToken cancellation) =>
        (_setting, _seed, _mostLooks, _progress, _stop, _cancellation) = (setting, seed, mostLooks, progress, stop, cancellation);

    /// <summary>A panel's light.</summary>
    /// <param name="setting">What it depends on.</param>
    /// <param name="given">Emitters that are judged as they are; none to plan them.</param>
    /// <param name="box">The box that is judged; null for that of the desk.</param>
    /// <param name="seed">Another seed looks elsewhere.</param>
    /// <param name="mostLooks">How long to prove that fewer emitters won't do.</param>
    /// <param name="progress">Told what is being done.</param>
    /// <param name="stop">Ends the search for places; the best so far are taken.</param>
    /// <param name="cancellation">Ends everything.</param>
    public static PanelLighting Of(
        LightSetting setting, ImmutableArray<Emitter> given, LightBox? box, ulong seed, long mostLooks, IProgress<string> progress, CancellationToken stop, CancellationToken cancellation) =>
        new LightingDesign(setting, seed, mostLooks, progress, stop, cancellation).Run(given, box);

    private PanelLighting Run(ImmutableArray<Emitter> given, LightBox? asked)
    {
        var cells = LightCells.Of(_setting.ForCells(), _cancellation);
        var general = LitPieces.General(_setting.Artwork, _setting.Luminance);
        ImmutableArray<Box<PanelSpace>> walls = [.. cells.Select(cell => LightCells.Outside(cell.Inside))];
        _blocks = asked is null ? _setting.Blocks(walls, given, general) : [];
        var box = asked ?? _setting.Box(walls, _blocks);
        var (pieces, dark) = Open(general, box);
        _progress.Report("working out what walls and floor throw back");
        var light = BoxLight.Of(box, _cancellation);
        var done = given.IsEmpty ? Searched(light, pieces, dark, cells) : Judged(light, pieces, dark, given);
        return done with { Common = general, Cells = LightCells.WithLeaks(cells, done, _setting) };
    }

    private PanelLighting Searched(BoxLight light, ImmutableArray<LitPiece> pieces, ImmutableArray<LitPiece> dark, ImmutableArray<LitCell> cells)
    {
        var done = pieces.IsEmpty ? Nothing(light) : Planned(light, new(light, pieces, _cancellation), cells);
        return dark.IsEmpty ? done : done with { Dark = done.Dark.AddRange(new PieceLights(light, dark, _cancellation).Of(done.Emitters, _cancellation)) };
    }

    /// <summary>
    /// What lies over the walls is not reached by the light within them, nor is what lies right before a body. Of marks that lie half before one the rest
    /// is judged; those that lie mostly before one are dark.
    /// </summary>
    private static (ImmutableArray<LitPiece> Lit, ImmutableArray<LitPiece> Dark) Open(ImmutableArray<LitPiece> pieces, LightBox box)
    {
        var bodies = box.Bodies.Select(body => Region<PanelSpace>.FromCorners(body.Corners)).Select(shape => (shape.Bounds, Shape: shape)).ToList();
        var (lit, dark) = (ImmutableArray.CreateBuilder<LitPiece>(), ImmutableArray.CreateBuilder<LitPiece>());
        foreach (var piece in pieces)
        {
            var around = piece.Box;
            var near = bodies.FindAll(body => body.Bounds.Overlaps(around, -0.01));
            ImmutableArray<LitPlace> inside = [.. piece.Places.Where(place => box.Inside.Contains(place.At))];
            ImmutableArray<LitPlace> open = [.. inside.Where(place => !near.Any(body => body.Bounds.Contains(place.At) && body.Shape.Contains(place.At)))];
            if (open.Sum(place => place.Weight) > LitShare * inside.Sum(place => place.Weight))
            {
                lit.Add(piece with { Places = open });
            }
            else if (!inside.IsEmpty)
            {
                dark.Add(piece with { Places = inside });
            }
        }

        return (lit.ToImmutable(), dark.ToImmutable());
    }

    private PanelLighting Nothing(BoxLight light) =>
        new(_setting.Artwork.Laid, _setting.Type, _setting.Figures, light, [], [], []) { Wish = _setting.PlanWish, IsPlanned = true, IsDepthAssumed = _setting.IsDepthAssumed, Blocks = _blocks };

    /// <summary>What lies in the light and what lies before a body are looked up at once, as what leaves the walls is the same for both.</summary>
    private PanelLighting Judged(BoxLight light, ImmutableArray<LitPiece> pieces, ImmutableArray<LitPiece> dark, ImmutableArray<Emitter> given)
    {
        var all = new PieceLights(light, pieces.AddRange(dark), _cancellation).WithShares(given, _cancellation);
        var legends = all[..pieces.Length];
        var mean = legends.IsEmpty ? 0 : legends.Average(legend => legend.CandelaPerM2);
        var drive = _setting.DrivesGiven && mean > 0 ? DriveShareOf(_setting.WantedCandelaPerM2 / mean) : 1;
        return Nothing(light) with
        {
            Units =
            [
                .. given.Select(emitter => new EmitterUnit(
                    [emitter with { FluxLumens = drive * emitter.FluxLumens }], new Box<PanelSpace>(emitter.At.XMm, emitter.At.YMm, 0, 0).Grow(_setting.Type.HeightMm / 2))),
            ],
            Legends = [.. legends.Select(legend => legend with { Lux = drive * legend.Lux })],
            Dark = [.. all[pieces.Length..].Select(legend => legend with { Lux = drive * legend.Lux, OneShares = null })],
            DriveShare = drive,
            IsPlanned = false,
        };
    }

    private PanelLighting Planned(BoxLight light, PieceLights places, ImmutableArray<LitCell> cells)
    {
        var walled = cells.Select(cell => LightCells.Outside(cell.Inside)).Concat(_blocks.Where(block => block.Blocker is null).Select(block => block.Area));
        var floor = new EmitterPlaces(light.Box.Inside, _setting.Type, _setting.Figures, _setting.Taken(), walled);
        var units = floor.All();
        if (units.IsEmpty)
        {
            return Nothing(light) with { Legends = places.Of(ImmutableArray<Emitter>.Empty, _cancellation) };
        }

        _progress.Report("looking up what each place would light");
        var coarse = new PieceLights(BoxLight.Of(light.Box, _cancellation, CoarseFactor), places.Pieces, _cancellation);
        var lights = coarse.Of(units, _cancellation);
        var reached = lights.Reached();
        var all = places;
        (lights, places) = (lights.Only(reached), all.Only(reached));
        var dark = all.Only(Enumerable.Range(0, all.Pieces.Length).Except(reached));
        var wish = _setting.PlanWish;
        var asked = wish;
        PanelLighting? best = null;
        UnitChoice? choice = null;
        for (var repair = 0; repair <= Repairs; repair++)
        {
            choice = EmitterSearch.Run(lights, asked, Starts(floor, units, choice?.Units.Length), MostUnits, _seed, _progress, _stop, _mostLooks);
            var tried = Plan(light, places, [.. choice.Units.Select(unit => units[unit])], wish);
            if (best is null || Rank(tried) < Rank(best))
            {
                best = tried with { LeastUnits = choice.LeastUnits, IsStopped = choice.IsStopped };
            }

            // What finely cut sides say a little differently: ask for a little more.
            if (best.IsMetWhereOpen || !choice.IsMet || _stop.IsCancellationRequested)
            {
                break;
            }

            asked = asked with { MostEvennessFactor = Math.Max(1.01, asked.MostEvennessFactor * 0.995 * wish.MostEvennessFactor / Math.Max(tried.EvennessFactor, wish.MostEvennessFactor)) };
        }

        var plan = BesideGrid(best!, light, places, floor, wish);
        return plan with { Dark = dark.Of(plan.Emitters, _cancellation) };
    }

    /// <summary>Of plans that do the one with the fewest units first, then the others, the evenest first.</summary>
    private static double Rank(PanelLighting plan) => plan.IsMetWhereOpen ? plan.Units.Length : 2 * MostUnits * plan.EvennessFactor;

    /// <summary>The fewest of an even grid that does as well; where that takes fewer it is the plan.</summary>
    private PanelLighting BesideGrid(PanelLighting plan, BoxLight light, PieceLights places, EmitterPlaces floor, PlanWish wish)
    {
        if (_stop.IsCancellationRequested || !plan.IsMetWhereOpen)
        {
            return plan;
        }

        _progress.Report("comparing with an even grid");
        var most = Math.Min(MostUnits, (2 * plan.Units.Length) + 8);
        foreach (var (columns, rows) in Grids(floor, light.Box.Inside, most))
        {
            _cancellation.ThrowIfCancellationRequested();
            var units = floor.Grid(columns, rows);
            if (units.IsEmpty || Plan(light, places, units, wish) is not { IsMetWhereOpen: true } grid)
            {
                continue;
            }

            return units.Length < plan.Units.Length
                ? grid with { GridUnits = units.Length, LeastUnits = Math.Min(plan.LeastUnits, units.Length) }
                : plan with { GridUnits = units.Length };
        }

        return plan with { GridsTriedTo = most };
    }

    /// <summary>Grids of more and more units, none much closer one way than the other.</summary>
    private static IEnumerable<(int Columns, int Rows)> Grids(EmitterPlaces floor, Box<PanelSpace> inside, int most) =>
        from columns in Enumerable.Range(1, floor.MostColumns)
        from rows in Enumerable.Range(1, 40)
        where columns * rows <= most
        let pitches = inside.WidthMm / columns / (inside.HeightMm / rows)
        where columns * rows == 1 || floor.MostColumns < 40 || pitches is > 0.5 and < 2
        orderby columns * rows, Math.Abs(Math.Log(pitches))
        select (columns, rows);

    private static ImmutableArray<ImmutableArray<int>> Starts(EmitterPlaces floor, ImmutableArray<EmitterUnit> units, int? around) =>
    [
        .. from columns in Enumerable.Range(1, Math.Min(10, floor.MostColumns))
           from rows in Enumerable.Range(1, 10)
           where around is null || Math.Abs((columns * rows) - around.Value) < 3
           let places = floor.Grid(columns, rows).Select(wanted => Nearest(units, wanted)).Distinct().ToImmutableArray()
           where places.Length == columns * rows
           select places,
    ];

    private static int Nearest(ImmutableArray<EmitterUnit> units, EmitterUnit wanted)
    {
        var (nearest, nearestMm) = (-1, double.PositiveInfinity);
        var centre = wanted.Footprint.Centre;
        for (var index = 0; index < units.Length; index++)
        {
            var mm = units[index].Footprint.Centre.DistanceMm(centre) + Math.Abs(units[index].Footprint.WidthMm - wanted.Footprint.WidthMm);
            if (mm < nearestMm)
            {
                (nearest, nearestMm) = (index, mm);
            }
        }

        return nearest;
    }

    /// <summary>Units at the current that gives the luminance wanted, judged to the last.</summary>
    private PanelLighting Plan(BoxLight light, PieceLights places, ImmutableArray<EmitterUnit> units, PlanWish wish)
    {
        ImmutableArray<Emitter> full = [.. units.SelectMany(unit => unit.Emitters)];
        var legends = places.WithShares(full, _cancellation);
        var mean = legends.Average(legend => legend.CandelaPerM2);
        var drive = DriveShareOf(wish.LeastMeanCandelaPerM2 / mean);
        return Nothing(light) with
        {
            Units = [.. units.Select(unit => unit with { Emitters = [.. unit.Emitters.Select(emitter => emitter with { FluxLumens = drive * emitter.FluxLumens })] })],
            Legends = [.. legends.Select(legend => legend with { Lux = drive * legend.Lux })],
            DriveShare = drive,
        };
    }

    private double DriveShareOf(double wantedShare) => LightCells.DriveShareOf(_setting, wantedShare, LeastDriveShare);
}
