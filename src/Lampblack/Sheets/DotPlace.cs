using System;
using System.Globalization;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Sheets;

/// <summary>Where the dot rows of a sheet stand, as it is printed beside them and typed back: whole centimetres from the sheet's lower left corner, such as <c>6-21</c>.</summary>
public static class DotPlace
{
    /// <summary>The place of a sheet's rows; null where it has none.</summary>
    public static string? Of(Sheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        var rows = sheet.Gauges.Where(gauge => DotRow.All.Any(row => row.Name == gauge.Name)).Select(gauge => gauge.Box.Centre).ToList();
        return rows.Count == 0 ? null : Text(new(rows.Average(row => row.XMm), rows.Average(row => row.YMm)));
    }

    /// <summary>A place in words.</summary>
    internal static string Text(Point<SheetSpace> middle) => string.Create(
        CultureInfo.InvariantCulture,
        $"{Math.Round(middle.XMm / 10, MidpointRounding.AwayFromZero):0}-{Math.Round(middle.YMm / 10, MidpointRounding.AwayFromZero):0}");
}
