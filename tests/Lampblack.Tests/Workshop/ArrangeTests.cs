using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using CsCheck;
using Lampblack.Edits;
using Lampblack.Geometry;
using Lampblack.Jobs;
using Xunit;

namespace Lampblack.Tests.Workshop;

/// <summary>Items put in order stand in order.</summary>
public sealed class ArrangeTests
{
    private static readonly Gen<ImmutableArray<ItemView>> Items = Gen.Select(Gen.Double[0, 180], Gen.Double[0, 100], Gen.Double[1, 30], Gen.Double[1, 20], Gen.Enum<ItemKind>())
        .List[2, 7].Select(all => all.Select((one, index) => Item($"p/item-{index}", one.Item1, one.Item2, one.Item3, one.Item4, one.Item5)).ToImmutableArray());

    [Fact]
    public void Edges_and_middles_come_into_line() => Items.Sample(items =>
    {
        AssertLine(After(items, Arrangement.LeftEdges).Select(item => item.Box.LeftMm));
        AssertLine(After(items, Arrangement.RightEdges).Select(item => item.Box.RightMm));
        AssertLine(After(items, Arrangement.UpperEdges).Select(item => item.Box.TopMm));
        AssertLine(After(items, Arrangement.LowerEdges).Select(item => item.Box.BottomMm));
        AssertLine(After(items, Arrangement.MiddlesAbove).Select(item => Middle(item).XMm).Append(Middle(items[^1]).XMm));
        AssertLine(After(items, Arrangement.MiddlesBeside).Select(item => Middle(item).YMm).Append(Middle(items[^1]).YMm));
    });

    [Fact]
    public void Even_steps_are_even_and_the_outermost_stay() => Items.Sample(items =>
    {
        var (before, after) = (items.Select(item => Middle(item).XMm).Order().ToList(), After(items, Arrangement.EvenAcross).Select(item => Middle(item).XMm).Order().ToList());
        Assert.Equal(before[0], after[0], 0.001);
        Assert.Equal(before[^1], after[^1], 0.001);
        var step = (before[^1] - before[0]) / (before.Count - 1);
        Assert.All(after.Skip(1).Zip(after), pair => Assert.Equal(step, pair.First - pair.Second, 0.001));
    });

    [Fact]
    public void One_item_and_copies_of_one_table_are_left_alone()
    {
        Assert.Empty(Arrange.Moves([Item("p/a", 3, 4, 5, 6, ItemKind.Legend)], Arrangement.LeftEdges).Moves);
        var copies = new[] { Item("p/a.1", 3, 4, 5, 6, ItemKind.Control) with { Copies = 2 }, Item("p/a.2", 30, 4, 5, 6, ItemKind.Control) with { Copies = 2 } };
        Assert.Empty(Arrange.Moves(copies, Arrangement.LeftEdges).Moves);
        Assert.Equal([new ItemMove("p/a", 7, 0)], Arrange.Moves([copies[0], Item("p/b", 10, 0, 5, 5, ItemKind.Rule) with { Box = new(10, 0, 5, 5) }], Arrangement.RightEdges).Moves.Where(move => move.Item == "p/a"));
    }

    /// <summary>By hand: boxes of 10 x 4 at 0, 0 and of 6 x 4 at 25, 12.</summary>
    [Fact]
    public void The_way_between_two_items_is_told_from_edge_to_edge_and_from_middle_to_middle() => Assert.Equal(
        (15.0, 8.0, 23.0, 12.0), Arrange.Between(Item("p/a", 0, 0, 10, 4, ItemKind.Legend), Item("p/b", 25, 12, 6, 4, ItemKind.Legend)));

    private static IEnumerable<ItemView> After(ImmutableArray<ItemView> items, Arrangement how)
    {
        var moves = Arrange.Moves(items, how).Moves.ToDictionary(move => move.Item);
        return items.Select(item => moves.TryGetValue(item.Address, out var move)
            ? item with
            {
                Box = item.Box with { LeftMm = item.Box.LeftMm + move.DxMm, BottomMm = item.Box.BottomMm + move.DyMm },
                Anchor = new(item.Anchor.XMm + move.DxMm, item.Anchor.YMm + move.DyMm),
            }
            : item);
    }

    private static Point<PanelSpace> Middle(ItemView item) => item.Kind is ItemKind.Control or ItemKind.Dial or ItemKind.Fixing ? item.Anchor : item.Box.Centre;

    /// <summary>Desk files hold tenths of a micrometre.</summary>
    private static void AssertLine(IEnumerable<double> places) => Assert.True(places.Max() - places.Min() < 0.0002);

    /// <summary>A control's hole stands off the middle of hole and words.</summary>
    private static ItemView Item(string address, double x, double y, double width, double height, ItemKind kind) =>
        new(address, kind, "WORDS", new(x, y, width, height), new(x + (width / 3), y + (height / 4)), "M0 0Z", false, false, 1, 2);
}
