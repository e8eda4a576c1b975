using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Circuits;
using Lampblack.Geometry;
using Lampblack.Parts;
using Lampblack.Wiring;

namespace Lampblack.Books;

/// <summary>A wire of the lamps' circuit.</summary>
/// <param name="Number">Its number: "L7" in pictures and tables.</param>
/// <param name="Net">What it is part of.</param>
/// <param name="Start">Where it begins.</param>
/// <param name="End">Where it ends.</param>
/// <param name="LengthMm">What to cut, slack included.</param>
/// <param name="Colour">Its colour.</param>
/// <param name="Awg">Its gauge.</param>
internal sealed record LampWire(int Number, string Net, LampEnd Start, LampEnd End, double LengthMm, string Colour, int Awg)
{
    /// <summary>"L7": bare numbers are those of the panels' wires.</summary>
    public string Name => FormattableString.Invariant($"L{Number}");

    /// <summary>Where it begins, in words.</summary>
    public string From => Start.Words;

    /// <summary>Where it ends, in words.</summary>
    public string To => End.Words;

    /// <summary>On a lamp board: the corners of its way there, ends included, seen from the front; none for one that leads away.</summary>
    public ImmutableArray<Point<PanelSpace>> Way { get; init; } = [];

    /// <summary>Whether its way leads across what carries the board, or what else stands there: none was found round it.</summary>
    public bool IsAcross { get; init; }

    /// <summary>Which of its board's pictures shows it, from 0.</summary>
    public int Picture { get; init; }

    /// <summary>Whether it is one of the pair from the supply, or from board to board.</summary>
    public bool IsPair { get; init; }
}

/// <summary>All wires of the lamps' circuit: on the lamp boards from leg to leg, and from the boards to the supply, to each other and to the controller.</summary>
/// <param name="Boards">The boards, each with its wires, channel by channel.</param>
/// <param name="Away">Those that lead away from a board.</param>
internal sealed record LampWires(ImmutableArray<(LampBoard Board, ImmutableArray<LampWire> Wires)> Boards, ImmutableArray<LampWire> Away)
{
    /// <summary>A wire's two ends have so much beyond the way between them: stripped ends, and a finger's breadth to bend. From memory.</summary>
    private const double SlackMm = 30;

    // Out of the box and into a case beside it.
    private const double OutsideMm = 200;

    // Thinner wire breaks under the fingers.
    private const int SignalAwg = 26;
    private const double StepMm = 5;

    // Where a desk has no controller its wires are as long as they would usually be.
    private const double UsualCableMm = 300;

    /// <summary>All wires, in the order of their numbers.</summary>
    public IEnumerable<LampWire> All => Boards.SelectMany(board => board.Wires).Concat(Away);

    /// <summary>The wires of a desk; none where nothing is fed.</summary>
    /// <param name="facts">The desk.</param>
    /// <param name="all">Its lamp boards.</param>
    public static LampWires Of(BookFacts facts, ImmutableArray<LampBoard> all)
    {
        if (facts.Circuit is not { } circuit)
        {
            return new([], []);
        }

        var number = 1;
        var boards = all.Where(board => !board.Channels.IsEmpty).Select(board => (board, On(board))).ToImmutableArray();
        return new(boards, [.. Leaving([.. boards.Select(board => board.board)], circuit, facts, () => number++)]);

        ImmutableArray<LampWire> On(LampBoard board)
        {
            ImmutableArray<(LampWire Wire, LampRun Run)> wanted = [.. board.Channels.SelectMany((channel, index) => Of(channel, index, board, facts, () => number++))];
            return [.. wanted.Zip(LampRoutes.Of(board, [.. wanted.Select(one => one.Run)], board.Ends), (one, run) => Laid(one.Wire, run, board))];
        }
    }

    /// <summary>A wire with its way, and as long as that is.</summary>
    private static LampWire Laid(LampWire wire, LampRun run, LampBoard board)
    {
        var alongMm = run.Way.Zip(run.Way.Skip(1)).Sum(side => Math.Abs(side.First.XMm - side.Second.XMm) + Math.Abs(side.First.YMm - side.Second.YMm));
        var outsideMm = board.Stand == JointsStand.Outside && (run.From is null || run.To is null) ? OutsideMm : 0;
        return wire with { LengthMm = Rounded(alongMm + run.AsideMm + SlackMm + outsideMm), Way = run.Way, IsAcross = run.IsAcross, Picture = run.Picture };
    }

    /// <summary>What an end of an emitter is called.</summary>
    private static LampEnd Leg(BookLamp lamp, bool isPlus, bool isLegged) =>
        new(LampPlace.Emitter, FormattableString.Invariant($"{lamp.Number}, {(isLegged ? isPlus ? "long leg (+)" : "short leg (−)" : isPlus ? "long wire (+)" : "short wire (−)")}"));

    /// <summary>Whether a channel's emitters have legs of their own.</summary>
    public static bool IsLegged(BookFacts facts) => facts.LampType is { Form: EmitterForm.Single, HasLegs: true };

    private static IEnumerable<(LampWire Wire, LampRun Run)> Of(BoardChannel channel, int index, LampBoard board, BookFacts facts, Func<int> next)
    {
        var (net, isLegged) = (channel.Name, IsLegged(facts));
        var awg = Awg(channel.Plan.HighestAmperes);
        var drain = channel.Plan.Switch is null ? new LampEnd(LampPlace.Zero, "0 V rail") : new(LampPlace.Drain, $"{channel.Labels.Switch}, D line");

        // Channels lie along the perforated board from right to left as seen from the front, each with its strings and its switch.
        var (before, all) = (board.Channels.Take(index).Sum(one => one.Pieces.Length + 2), board.Channels.Sum(one => one.Pieces.Length + 2));
        (LampWire, LampRun) Wire(double piece, LampEnd from, Point<PanelSpace>? fromAt, LampEnd to, Point<PanelSpace>? toAt) =>
            (new(next(), net, from, to, 0, channel.Colour, awg), new(fromAt, toAt, (before + piece + (fromAt is null ? 0.3 : 0.7)) / all));

        if (channel.IsSingles)
        {
            foreach (var (piece, lamps) in channel.Pieces.Index())
            {
                yield return Wire(piece, new(LampPlace.Resistor, $"{channel.Resistor(piece)}, free end") { Piece = piece }, null, Leg(lamps[0], true, isLegged), LampBoard.Plus(lamps[0]));
                foreach (var (one, other) in lamps.Zip(lamps.Skip(1)))
                {
                    yield return Wire(piece, Leg(one, false, isLegged), LampBoard.Minus(one), Leg(other, true, isLegged), LampBoard.Plus(other));
                }

                yield return Wire(piece, Leg(lamps[^1], false, isLegged), LampBoard.Minus(lamps[^1]), drain with { Piece = piece }, null);
            }

            yield break;
        }

        var isPixels = channel.Plan.Channel.Feed is AddressablePixels;
        (string Sign, LampEnd Rail)[] lines = [("+", new(LampPlace.Plus, "plus rail")), ("−", drain), .. isPixels ? [("data", new(LampPlace.Data, channel.Labels.Data))] : Array.Empty<(string, LampEnd)>()];
        foreach (var (sign, rail) in lines)
        {
            var (from, at) = (rail, (Point<PanelSpace>?)null);
            foreach (var piece in channel.Pieces)
            {
                var (words, place) = (Piece(piece), sign switch { "+" => LampBoard.Plus(piece[0]), "data" => LampBoard.Data(piece[0]), _ => LampBoard.Minus(piece[0]) });
                yield return Wire(0, from, at, new(LampPlace.Emitter, sign == "data" ? $"{words}, data in" : $"{words}, {sign}"), place);
                (from, at) = (new(LampPlace.Emitter, sign == "data" ? $"{words}, data out" : $"{words}, {sign}"), place);
            }
        }
    }

    private static IEnumerable<LampWire> Leaving(ImmutableArray<LampBoard> boards, CircuitPlan circuit, BookFacts facts, Func<int> next)
    {
        if (boards.IsEmpty)
        {
            yield break;
        }

        var gauge = circuit.Wire.Gauge.Awg;
        double Cable(LampBoard board) => facts.Wiring?.Wires.Panels.FirstOrDefault(panel => panel.Laid.Panel.Id == board.Box.Id)?.CableMm ?? UsualCableMm;
        var plus = circuit.Wire.FuseAmperes is null ? "supply, +" : "fuse F1 in its holder, behind the supply's +";
        yield return new(next(), "plus", new(LampPlace.Supply, plus), Rail(boards[0], true, boards), circuit.Wish.WireLengthMm, "red", gauge) { IsPair = true };
        yield return new(next(), "0 V", new(LampPlace.Supply, "supply, 0 V (−)"), Rail(boards[0], false, boards), circuit.Wish.WireLengthMm, "black", gauge) { IsPair = true };
        foreach (var (one, other) in boards.Zip(boards.Skip(1)))
        {
            foreach (var (net, colour, isPlus) in new[] { ("plus", "red", true), ("0 V", "black", false) })
            {
                yield return new(next(), net, Rail(one, isPlus, boards), Rail(other, isPlus, boards), Between(one, other, facts), colour, gauge) { IsPair = true };
            }
        }

        var gates = facts.Wiring is { } wiring ? wiring.Pins.Controllers.SelectMany(plan => AtController.Gates(plan, wiring.Needs).Select(gate => (Controller: plan.Index, Gate: gate))).ToList() : [];
        foreach (var controller in gates.Select(gate => gate.Controller).Distinct())
        {
            var nearest = boards.FirstOrDefault(board => board.Box == BoxSlots.Home(facts)) ?? boards[0];
            yield return new(next(), "0 V", Rail(nearest, false, boards), new(LampPlace.ControllerZero, $"{facts.Wiring!.Pins.At(controller)}GND") { Controller = controller }, Cable(nearest), "black", SignalAwg);
        }

        foreach (var board in boards)
        {
            foreach (var channel in board.Channels)
            {
                var first = channel.Plan.Switch is not null ? channel.Labels.Gate : channel.Plan.Pixels is { NeedsShifter: true } ? channel.Labels.Shifter : channel.Plan.Pixels is not null ? channel.Labels.Data : null;
                if (first is not null)
                {
                    var (controller, gate) = gates.Find(one => one.Gate.Channel == channel.Name);
                    var pin = gate is null ? "what will dim it: no pin is planned" : facts.Wiring!.Pins.At(controller) + (gate.Register?.AtSocket ?? gate.Place);
                    yield return new(next(), channel.Name, new(LampPlace.First, $"{first}, free end"), new(LampPlace.Pin, pin) { Controller = gate is null ? -1 : controller }, Cable(board), channel.Colour, SignalAwg);
                }
            }
        }
    }

    /// <summary>From the middle of one board to that of the next, through the slots in their upper walls, and past boxes that have no lamps.</summary>
    private static double Between(LampBoard one, LampBoard other, BookFacts facts)
    {
        var row = facts.Boxes.Select(box => (box.WidthMm, box.HeightMm)).ToList();
        return Rounded(BoxWay.BetweenMm(row, facts.Boxes.IndexOf(one.Box), facts.Boxes.IndexOf(other.Box)) + SlackMm);
    }

    /// <summary>A rail of a board, named with its panel where there are several.</summary>
    public static LampEnd Rail(LampBoard board, bool isPlus, IReadOnlyCollection<LampBoard> boards) =>
        new(isPlus ? LampPlace.Plus : LampPlace.Zero, (boards.Count == 1 ? string.Empty : $"{board.Box.Panel}, ") + (isPlus ? "plus rail" : "0 V rail")) { Board = board };

    private static string Piece(ImmutableArray<BookLamp> piece) => piece.Length == 1 ? FormattableString.Invariant($"{piece[0].Number}") : FormattableString.Invariant($"strip {piece[0].Number} to {piece[^1].Number}");

    private static int Awg(double amperes) => WireGauge.Usual.FirstOrDefault(gauge => gauge.Awg <= SignalAwg && gauge.SafeAmperes >= amperes)?.Awg ?? WireGauge.Usual[^1].Awg;

    private static double Rounded(double mm) => Math.Ceiling((mm / StepMm) - 1e-9) * StepMm;
}
