using System.Collections.Generic;
using System.Linq;

namespace Lampblack.Cutting;

/// <summary>Plates with their blocks, and what they cost.</summary>
internal sealed record Covered(List<(Plate Plate, Block Block)> Plates)
{
    public long Value { get; } = Plates.Sum(plate => plate.Block.Value);

    public decimal Price { get; } = Plates.Sum(plate => plate.Plate.Stock.Price);

    /// <summary>Whether it is worth more, takes fewer plates, costs less, or leaves a longer strip, in this order.</summary>
    public bool IsBetterThan(Covered other, Model model) => Value != other.Value ? Value > other.Value
        : Plates.Count != other.Plates.Count ? Plates.Count < other.Plates.Count
        : Price != other.Price ? Price < other.Price
        : LongestOffcut(model).CompareTo(other.LongestOffcut(model)) > 0;

    private (int, int) LongestOffcut(Model model) =>
        Plates.Select(plate => Placing.LongestOffcut(model, plate.Plate, plate.Block)).DefaultIfEmpty((0, 0)).Max();
}
