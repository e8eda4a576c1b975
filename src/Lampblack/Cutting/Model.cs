using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Cutting;

/// <summary>Pieces of one size and worth. Sizes have one kerf more, as has the plate: then cuts eat nothing.</summary>
internal sealed record Kind(int Width, int Height, int Count, long Value, bool CanTurn, ImmutableArray<string> Ids)
{
    public long Area => (long)Width * Height;
}

/// <summary>A plate's size, with one kerf more.</summary>
internal sealed record Plate(CutStock Stock, int Width, int Height, int Count, bool HasGrain)
{
    public long Area => (long)Width * Height;
}

/// <summary>A task in whole numbers: lengths in the largest unit that measures them all, values in 1/10,000.</summary>
internal sealed class Model
{
    /// <summary>Lengths count to 0.01 mm.</summary>
    public const double UnitsPerMm = 100;

    private const decimal ValueParts = 10_000;

    private Model(ImmutableArray<Kind> kinds, ImmutableArray<Plate> plates, int narrowest, int kerf, int measure, int mostPlates, ImmutableArray<CutPiece> tooLarge) =>
        (Kinds, Plates, Narrowest, Kerf, Measure, MostPlates, TooLarge) = (kinds, plates, narrowest, kerf, measure, mostPlates, tooLarge);

    public ImmutableArray<Kind> Kinds { get; }

    public ImmutableArray<Plate> Plates { get; }

    /// <summary>The narrowest strip, with one kerf more.</summary>
    public int Narrowest { get; }

    /// <summary>The kerf in 0.01 mm.</summary>
    public int Kerf { get; }

    /// <summary>How many times 0.01 mm one unit is.</summary>
    public int Measure { get; }

    public int MostPlates { get; }

    /// <summary>Pieces that fit no plate.</summary>
    public ImmutableArray<CutPiece> TooLarge { get; }

    public int[] Counts => [.. Kinds.Select(kind => kind.Count)];

    public static Model Of(CutTask task)
    {
        var rules = task.Rules;
        var kerf = Units(rules.KerfMm);
        var narrowest = rules.NarrowestMm > 0 ? Units(rules.NarrowestMm) + kerf : 0;
        var usable = task.Stocks.Where(stock => Units(stock.WidthMm) > 0 && Units(stock.HeightMm) > 0 && stock.Count is null or > 0).ToList();
        bool Suits(CutPiece piece) => usable.Any(stock =>
            Goes(piece.WidthMm, piece.HeightMm, stock) || (rules.Rotate && !stock.HasGrain && Goes(piece.HeightMm, piece.WidthMm, stock)));
        bool Goes(double width, double height, CutStock stock) => Serves(width, stock.WidthMm) && Serves(height, stock.HeightMm);
        bool Serves(double length, double room) => new Extent(Units(length) + kerf, narrowest == 0).Serves(Units(room) + kerf, narrowest);
        var pieces = task.Pieces.Where(piece => piece.Count > 0 && Units(piece.WidthMm) > 0 && Units(piece.HeightMm) > 0).ToList();
        var suited = pieces.Where(Suits).ToList();
        var measure = suited.SelectMany(piece => new[] { Units(piece.WidthMm) + kerf, Units(piece.HeightMm) + kerf })
            .Concat(usable.SelectMany(stock => new[] { Units(stock.WidthMm) + kerf, Units(stock.HeightMm) + kerf }))
            .Append(narrowest)
            .Aggregate(0, Divisor);
        measure = Math.Max(1, measure);
        var kinds = suited
            .Select(piece => (Piece: piece, W: (Units(piece.WidthMm) + kerf) / measure, H: (Units(piece.HeightMm) + kerf) / measure, Value: ValueOf(piece)))
            .GroupBy(sized => (sized.W, sized.H, sized.Value))
            .Select(group => new Kind(
                group.Key.W,
                group.Key.H,
                Math.Min(group.Sum(sized => Math.Min(sized.Piece.Count, 1_000_000)), Most(group.Key.W, group.Key.H)),
                group.Key.Value,
                rules.Rotate && group.Key.W != group.Key.H,
                [.. group.SelectMany(sized => Enumerable.Repeat(sized.Piece.Id, Math.Min(sized.Piece.Count, 1_000_000)))]))
            .ToImmutableArray();
        var needed = (int)Math.Min(10_000, kinds.Sum(kind => (long)kind.Count));
        return new(
            kinds,
            [.. usable.Select(stock => new Plate(stock, (Units(stock.WidthMm) + kerf) / measure, (Units(stock.HeightMm) + kerf) / measure, Math.Min(stock.Count ?? needed, needed), stock.HasGrain))],
            narrowest / measure,
            kerf,
            measure,
            Math.Min(task.MostPlates ?? needed, needed),
            [.. pieces.Where(piece => !Suits(piece))]);

        // More than the plates' area holds is never cut; where plates are endless, what is asked for is.
        int Most(int width, int height) => usable.Any(stock => stock.Count is null) && task.MostPlates is null
            ? int.MaxValue
            : (int)Math.Min(int.MaxValue, MostArea() / ((long)width * height));

        long MostArea() => usable
            .SelectMany(stock => Enumerable.Repeat((long)((Units(stock.WidthMm) + kerf) / measure) * ((Units(stock.HeightMm) + kerf) / measure), Math.Min(stock.Count ?? task.MostPlates!.Value, 10_000)))
            .OrderDescending()
            .Take(task.MostPlates ?? int.MaxValue)
            .Sum();
    }

    /// <summary>A value as the maker wrote it.</summary>
    public static decimal ValueOf(long value) => value / ValueParts;

    /// <summary>Where a place lies, in mm.</summary>
    public double Mm(int units) => (long)units * Measure / UnitsPerMm;

    /// <summary>How long what has one kerf more is, in mm.</summary>
    public double LengthMm(int units) => (((long)units * Measure) - Kerf) / UnitsPerMm;

    /// <summary>The blocks of one piece.</summary>
    public IEnumerable<Block> PiecesOf(int kind)
    {
        var of = Kinds[kind];
        yield return Block.Piece(kind, of.Width, of.Height, false, of.Value, Narrowest);
        if (of.CanTurn)
        {
            yield return Block.Piece(kind, of.Height, of.Width, true, of.Value, Narrowest);
        }
    }

    /// <summary>The same pieces, worth a power of their areas.</summary>
    public Model Weighed(double power) => new(
        [.. Kinds.Select(kind => kind with { Value = (long)Math.Pow(kind.Area, power) })], Plates, Narrowest, Kerf, Measure, MostPlates, TooLarge);

    /// <summary>A block of pieces that were weighed, with their own worth.</summary>
    public Block Again(Block block) => block.Kind >= 0
        ? Block.Piece(block.Kind, block.Wide.Length, block.High.Length, block.IsTurned, Kinds[block.Kind].Value, Narrowest)
        : block.IsBeside ? Block.Beside(Again(block.First!), Again(block.Second!), Narrowest) : Block.Above(Again(block.First!), Again(block.Second!), Narrowest);

    private static int Units(double mm) => (int)Math.Round(mm * UnitsPerMm, MidpointRounding.AwayFromZero);

    private static long ValueOf(CutPiece piece) => (long)Math.Round((piece.Value ?? (Units(piece.WidthMm) * (decimal)Units(piece.HeightMm) / 10_000)) * ValueParts, MidpointRounding.AwayFromZero);

    private static int Divisor(int first, int second) => second == 0 ? first : Divisor(second, first % second);
}
