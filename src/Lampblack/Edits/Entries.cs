using System.Collections.Immutable;
using Lampblack.SourceText;

namespace Lampblack.Edits;

/// <summary>A panel as it stands in the file.</summary>
/// <param name="Number">From 0, among all panels.</param>
/// <param name="Id">Its id, given or made.</param>
/// <param name="Table">Its table.</param>
/// <param name="Items">Its items, kind by kind, each kind in the order of the file.</param>
internal sealed record PanelEntry(int Number, string Id, TableNode Table, ImmutableArray<ItemEntry> Items);

/// <summary>An item as it stands in the file.</summary>
/// <param name="Panel">Number of its panel.</param>
/// <param name="Kind">The key that its table stands under.</param>
/// <param name="Number">From 0, among all of its kind on its panel.</param>
/// <param name="Id">Its id, given or made.</param>
/// <param name="Table">Its table.</param>
internal sealed record ItemEntry(int Panel, string Kind, int Number, string Id, TableNode Table)
{
    /// <summary>Where it stands, whatever it is called.</summary>
    public ItemPlace Place => new(Panel, Kind, Number);
}

/// <summary>Where an item stands among others; stays the same through edits that neither add nor remove any before it.</summary>
/// <param name="Panel">Number of its panel.</param>
/// <param name="Kind">Its kind.</param>
/// <param name="Number">Its number among its kind.</param>
internal sealed record ItemPlace(int Panel, string Kind, int Number);

/// <summary>What an address leads to.</summary>
/// <param name="Table">The table.</param>
/// <param name="Panel">The panel that it is or stands on; null for the top of the file and its tables.</param>
/// <param name="Item">The item, if it is one.</param>
/// <param name="Copy">Number of the copy that was named, from 1.</param>
/// <param name="Fixing">Number of the hole that was named, from 1.</param>
/// <param name="Plates">What the plates are called that it is.</param>
internal sealed record Target(TableNode Table, PanelEntry? Panel = null, ItemEntry? Item = null, int? Copy = null, int? Fixing = null, string? Plates = null);
