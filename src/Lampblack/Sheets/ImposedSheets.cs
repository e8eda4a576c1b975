using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Sheets;

/// <summary>Sheets of which only it is decided which panel goes where.</summary>
public sealed record ImposedSheets
{
    internal ImposedSheets(SheetRoom room, ImmutableArray<(ImmutableArray<PlacedPanel> Panels, FreeSpace Free)> sheets)
    {
        Room = room;
        Sheets = sheets;
    }

    /// <summary>The panels of each sheet in their places, without spare copies.</summary>
    public ImmutableArray<ImmutableArray<PlacedPanel>> Panels => [.. Sheets.Select(sheet => sheet.Panels)];

    internal SheetRoom Room { get; }

    internal ImmutableArray<(ImmutableArray<PlacedPanel> Panels, FreeSpace Free)> Sheets { get; }
}
