using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Circuits;
using Lampblack.Geometry;

namespace Lampblack.Books;

/// <summary>A channel of the lamps' circuit on its lamp board.</summary>
/// <param name="Plan">The channel.</param>
/// <param name="Labels">What its parts are called.</param>
/// <param name="Name">The channel's name, that no other has.</param>
/// <param name="Colour">The colour of all its wires.</param>
/// <param name="Pieces">Its emitters in the order in which they are joined: strings of single ones, pieces of strip, or pixels.</param>
internal sealed record BoardChannel(ChannelPlan Plan, CircuitLabels Labels, string Name, string Colour, ImmutableArray<ImmutableArray<BookLamp>> Pieces)
{
    /// <summary>Whether each emitter is joined by two legs of its own.</summary>
    public bool IsSingles => Plan.Channel.Feed is SingleDiodes;

    /// <summary>The resistor of a string: its name where several are alike is that of the drawing with a number.</summary>
    public string Resistor(int piece)
    {
        var first = 0;
        foreach (var (kind, label) in Plan.Strings.Zip(Labels.Resistors))
        {
            if (piece < first + kind.StringCount)
            {
                return kind.StringCount == 1 ? label : FormattableString.Invariant($"{label}.{piece - first + 1}");
            }

            first += kind.StringCount;
        }

        return string.Empty;
    }

    /// <summary>Its ohms.</summary>
    public double ResistorOhms(int piece) => Plan.Strings.SelectMany(kind => Enumerable.Repeat(kind.String.ResistorOhms, kind.StringCount)).ElementAt(piece);
}

/// <summary>The board behind a panel that carries its emitters.</summary>
/// <param name="Box">Its box.</param>
/// <param name="Lamps">Its emitters.</param>
/// <param name="Channels">What feeds them.</param>
/// <param name="Notch">Where the loom passes; null where none does.</param>
/// <param name="Rests">What it lies on.</param>
/// <param name="Blocks">Where its corners are cut off for the blocks that the panel is screwed to.</param>
internal sealed record LampBoard(BookBox Box, ImmutableArray<BookLamp> Lamps, ImmutableArray<BoardChannel> Channels, LampRest? Notch, ImmutableArray<LampRest> Rests, ImmutableArray<Box<PanelSpace>> Blocks)
{
    /// <summary>From an emitter's middle to each of its legs. From memory: 2.54 mm between the legs of a lamp, a little more between the wires of a flat one.</summary>
    public const double LegMm = 1.5;

    // Clear of plus and minus as they are drawn.
    private const double DataMm = 3;

    private static readonly ImmutableArray<string> Colours = ["yellow", "green", "blue", "violet", "grey", "white", "brown", "orange"];

    /// <summary>The strip of perforated board on its back that resistors and transistors stand on, seen from the front.</summary>
    public Box<PanelSpace> Joints { get; init; }

    /// <summary>How it stands there.</summary>
    public JointsStand Stand { get; init; }

    /// <summary>Whether a screw may go through the board in the middle of a piece of strip: no strip of emitters lies there.</summary>
    public bool TakesScrew(LampRest rest)
    {
        var middle = rest.Area.Centre;
        return Channels.Where(channel => !channel.IsSingles).SelectMany(channel => channel.Pieces)
            .All(piece => piece.Zip(piece.Skip(1).Append(piece[^1])).All(stretch => middle.DistanceMm(new(stretch.First.XMm, stretch.First.YMm), new(stretch.Second.XMm, stretch.Second.YMm)) > HalfStripMm + ScrewMm));
    }

    // A strip of emitters is 8 to 10 mm wide; a hole of 3.5 mm with room for the drill. From memory.
    private const double HalfStripMm = 5;
    private const double ScrewMm = 2.5;

    /// <summary>The boards, panel by panel.</summary>
    public static ImmutableArray<LampBoard> Of(BookFacts facts)
    {
        var open = facts.Circuit is { } circuit ? circuit.Channels.Zip(CircuitLabels.Of(circuit), circuit.Names).Index().Select(one => (one.Item.First, one.Item.Second, one.Item.Third, Colour: Colours[one.Index % Colours.Length])).ToList() : [];
        var boards = ImmutableArray.CreateBuilder<LampBoard>();
        foreach (var box in facts.Boxes)
        {
            ImmutableArray<BookLamp> lamps = [.. facts.Lamps.Where(lamp => lamp.Panel == box.Id)];
            var channels = ImmutableArray.CreateBuilder<BoardChannel>();
            foreach (var group in lamps.GroupBy(lamp => lamp.Channel))
            {
                // The circuit has its channels in the order of the panels; one that can't be fed is left out. Legends that say the same have channels of one name.
                var (waiting, fed) = (group.ToImmutableArray(), Fed(open.FindAll(one => one.First.Channel.Name == group.Key), one => one.First.Channel.Count, group.Count()));
                foreach (var (plan, labels, name, colour) in fed)
                {
                    channels.Add(new(plan, labels, name, colour, Pieces(plan, waiting[..plan.Channel.Count])));
                    waiting = waiting[plan.Channel.Count..];
                }

                open.RemoveAll(fed.Contains);
            }

            // As they lie from right to left: so their wires do not cross those of the next on the way from the perforated board.
            ImmutableArray<BoardChannel> fedHere = [.. channels.OrderByDescending(channel => MiddleMm(channel.Pieces.SelectMany(piece => piece)))];

            // A strip lies on the board: only where its wires go through does a joint come behind.
            var strips = channels.Where(channel => !channel.IsSingles).SelectMany(channel => channel.Pieces).ToList();
            ImmutableArray<Point<PanelSpace>> legs = [.. lamps.Except(strips.SelectMany(piece => piece)).SelectMany(lamp => new[] { Plus(lamp), Minus(lamp) }), .. strips.Select(piece => new Point<PanelSpace>(piece[0].XMm, piece[0].YMm))];
            var plug = facts.Wiring?.Wires.Panels.FirstOrDefault(panel => panel.Laid.Panel.Id == box.Id)?.Plug;
            ImmutableArray<Box<PanelSpace>> blocks = [.. box.Blocks.Where(block => block.Blocker is null).Select(block => block.Area)];
            var notch = plug is null ? null : LampRests.Notch(box.Inside, legs, blocks, plug.At);
            var board = new LampBoard(box, lamps, fedHere, notch, LampRests.Of(box.Inside, legs, blocks, notch), blocks);
            var (area, stand) = JointsPlace.Of(board, legs);
            boards.Add(board with { Joints = area, Stand = stand });
        }

        return boards.ToImmutable();
    }

    /// <summary>The longer leg, seen from the front at the right: from behind it is at the left of every emitter.</summary>
    public static Point<PanelSpace> Plus(BookLamp lamp) => new(lamp.XMm + LegMm, lamp.YMm);

    /// <summary>The shorter leg.</summary>
    public static Point<PanelSpace> Minus(BookLamp lamp) => new(lamp.XMm - LegMm, lamp.YMm);

    /// <summary>Where data go in and out of a pixel: above its two others, seen upright.</summary>
    public static Point<PanelSpace> Data(BookLamp lamp) => new(lamp.XMm, lamp.YMm + DataMm);

    /// <summary>Where wires end at its emitters and pieces of strip: plus and minus of each, and of pixels the data.</summary>
    public ImmutableArray<(Point<PanelSpace> Plus, Point<PanelSpace> Minus)> Ends =>
    [
        .. from lamp in Channels.SelectMany(channel => channel.Pieces.SelectMany(piece => channel.IsSingles ? piece : piece[..1])) orderby lamp.Number select (Plus(lamp), Minus(lamp)),
        .. from channel in Channels where channel.Plan.Pixels is not null from piece in channel.Pieces select (Data(piece[0]), Data(piece[0])),
    ];

    /// <summary>The first channels that together have so many lamps; none where no number of them has.</summary>
    private static ImmutableArray<TChannel> Fed<TChannel>(List<TChannel> channels, Func<TChannel, int> count, int lamps)
    {
        for (var many = 1; many <= channels.Count; many++)
        {
            if (channels.Take(many).Sum(count) == lamps)
            {
                return [.. channels.Take(many)];
            }
        }

        return [];
    }

    private static ImmutableArray<ImmutableArray<BookLamp>> Pieces(ChannelPlan plan, ImmutableArray<BookLamp> lamps)
    {
        switch (plan.Channel.Feed)
        {
            case CutStrip strip:
                return [.. lamps.Chunk(strip.UnitCount).Select(unit => unit.ToImmutableArray())];
            case AddressablePixels:
                return [.. lamps.Select(lamp => ImmutableArray.Create(lamp))];
        }

        var waiting = Along(lamps);
        var pieces = ImmutableArray.CreateBuilder<ImmutableArray<BookLamp>>();
        foreach (var kind in plan.Strings)
        {
            // Strings of one kind have the same resistor: they too lie from right to left.
            var alike = waiting.Take(kind.StringCount * kind.String.DiodeCount).Chunk(kind.String.DiodeCount).Select(piece => piece.ToImmutableArray()).ToList();
            waiting.RemoveRange(0, Math.Min(kind.StringCount * kind.String.DiodeCount, waiting.Count));
            pieces.AddRange(alike.OrderByDescending(piece => MiddleMm(piece)));
        }

        return pieces.ToImmutable();
    }

    private static double MiddleMm(IEnumerable<BookLamp> lamps) => lamps.Select(lamp => lamp.XMm).DefaultIfEmpty(0).Average();

    /// <summary>One after the other, always the nearest next, from the one that is farthest to the right.</summary>
    private static List<BookLamp> Along(ImmutableArray<BookLamp> lamps)
    {
        var (way, waiting) = (new List<BookLamp>(), lamps.OrderByDescending(lamp => lamp.XMm).ThenBy(lamp => lamp.Number).ToList());
        while (waiting.Count > 0)
        {
            var next = way.Count == 0 ? waiting[0] : waiting.MinBy(lamp => Math.Abs(lamp.XMm - way[^1].XMm) + Math.Abs(lamp.YMm - way[^1].YMm))!;
            way.Add(next);
            waiting.Remove(next);
        }

        return way;
    }
}
