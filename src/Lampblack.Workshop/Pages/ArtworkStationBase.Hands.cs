using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading.Tasks;
using Lampblack.Edits;
using Lampblack.Jobs;
using Lampblack.Workshop.Bench;
using Microsoft.JSInterop;

namespace Lampblack.Workshop.Pages;

/// <summary>What the page's script reports of the maker's hands.</summary>
public partial class ArtworkStationBase
{
    /// <summary>Other items are held.</summary>
    [JSInvokable]
    public void Take(string[] items)
    {
        Hands.Take(items);
        StateHasChanged();
    }

    /// <summary>Items were moved; the lengths are mm in front view.</summary>
    /// <returns>Whether the edit was done; otherwise it was refused, or waits for a yes.</returns>
    [JSInvokable]
    public bool Move(string[] items, double dxMm, double dyMm)
    {
        ImmutableArray<ItemMove> moves = [.. Items(items).DistinctBy(item => item.TableAddress).Select(item => new ItemMove(item.TableAddress, Round(dxMm), Round(dyMm)))];
        return !moves.IsEmpty && Do(new MoveItems(moves), holdsResult: false);
    }

    /// <summary>What it costs to put items elsewhere, said while they are carried.</summary>
    [JSInvokable]
    public Task<string> PriceOfMove(string[] items)
    {
        ImmutableArray<ItemMove> moves = [.. Items(items).Select(item => item.TableAddress).Distinct().Select(table => new ItemMove(table, 1, 0))];
        return moves.IsEmpty ? Task.FromResult(string.Empty) : Task.Run(() => Prices.Of(Bench, new MoveItems(moves)));
    }

    /// <summary>What it costs to put something from the shelf on the panel, said while it is carried.</summary>
    [JSInvokable]
    public Task<string> PriceOfPut(string what) =>
        Shown is { } shown && Shelved.Item(shown.Id, what, shown.WidthMm / 2, shown.HeightMm / 2) is { } edit ? Task.Run(() => Prices.Of(Bench, edit)) : Task.FromResult(string.Empty);

    /// <summary>Items were turned.</summary>
    [JSInvokable]
    public void TurnBy(string[] items, double degrees)
    {
        ImmutableArray<string> turned = [.. Items(items).Where(item => item.CanTurn).Select(item => item.TableAddress).Distinct()];
        if (!turned.IsEmpty)
        {
            Do(new TurnItems(turned, degrees), holdsResult: false);
        }
    }

    /// <summary>Items were taken off the panel.</summary>
    [JSInvokable]
    public void Remove(string[] items)
    {
        Hands.PutDown();
        Do(new RemoveItems([.. Items(items).Select(item => item.TableAddress).Distinct()]), holdsResult: false);
    }

    /// <summary>A copy is wanted beside items.</summary>
    [JSInvokable]
    public void Copy(string[] items)
    {
        List<ItemView> copied = [.. Items(items)];
        if (copied.Count > 0)
        {
            Do(new CopyItems([.. copied.Select(item => item.TableAddress).Distinct()], Math.Ceiling(copied.Max(item => item.Box.WidthMm)) + 3, 0));
        }
    }

    /// <summary>Words were written in place.</summary>
    [JSInvokable]
    public void Write(string item, string words)
    {
        ArgumentNullException.ThrowIfNull(words);
        if (Items([item]).FirstOrDefault() is { Kind: ItemKind.Control or ItemKind.Legend or ItemKind.Rule } written)
        {
            ImmutableArray<string> lines = [.. words.Split('\n').Select(line => line.Trim())];
            Do(
                written.Kind == ItemKind.Rule
                    ? new SetKey(written.TableAddress, "title", words.Trim().Length == 0 ? null : KeyValue.Of(words.Trim()))
                    : new SetWords(written.Address, words.Trim().Length == 0 ? [] : lines),
                holdsResult: false);
        }
    }

    /// <summary>Something from the shelf was put down on the panel.</summary>
    [JSInvokable]
    public void PutAt(string what, double xMm, double yMm) => Put((what, xMm, yMm));

    /// <summary>Something could not be done on the page itself.</summary>
    [JSInvokable]
    public void Complain(string why) => Tell(why);

    /// <summary>A step is to be taken back.</summary>
    [JSInvokable]
    public void TakeBack() => Bench.Undo();

    /// <summary>A step is to be done again.</summary>
    [JSInvokable]
    public void DoAgain() => Bench.Redo();

    /// <summary>Puts something from the shelf on the panel.</summary>
    protected void Put((string What, double XMm, double YMm) put)
    {
        if (Shown is { } shown && Shelved.Item(shown.Id, put.What, Round(put.XMm), Round(put.YMm)) is { } edit)
        {
            Do(edit);
        }
    }

    private static double Round(double mm) => Math.Round(mm, 4, MidpointRounding.AwayFromZero);
}
