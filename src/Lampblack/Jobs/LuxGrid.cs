using System;
using System.Collections.Immutable;
using System.Linq;
using System.Text.Json;
using System.Threading;
using Lampblack.Geometry;
using Lampblack.Lighting;

namespace Lampblack.Jobs;

/// <summary>The illuminance behind a panel's mask on an even grid of places, row by row from the lower left.</summary>
/// <param name="LowerLeft">The first place.</param>
/// <param name="StepMm">From one place to the next, both ways.</param>
/// <param name="Columns">How many places a row has.</param>
/// <param name="Rows">How many rows there are.</param>
/// <param name="Lux">The illuminance of each place; in lux.</param>
internal sealed record LuxGrid(Point<PanelSpace> LowerLeft, double StepMm, int Columns, int Rows, ImmutableArray<double> Lux)
{
    private const int MostPlaces = 200_000;

    /// <summary>The grid of a panel, about the middle of its box.</summary>
    /// <param name="panel">The panel.</param>
    /// <param name="gridMm">The step that is asked for; a larger one is taken where that would be too many places.</param>
    public static LuxGrid Of(PanelLighting panel, double gridMm)
    {
        var inside = panel.Light.Box.Inside;
        var step = gridMm * Math.Max(1, Math.Ceiling(Math.Sqrt(inside.WidthMm * inside.HeightMm / (gridMm * gridMm) / MostPlaces)));
        var (columns, rows) = (Math.Max(1, (int)Math.Floor(inside.WidthMm / step)), Math.Max(1, (int)Math.Floor(inside.HeightMm / step)));
        var (left, bottom) = (inside.Centre.XMm - ((columns - 1) * step / 2), inside.Centre.YMm - ((rows - 1) * step / 2));
        var places = (from row in Enumerable.Range(0, rows) from column in Enumerable.Range(0, columns) select new Point<PanelSpace>(left + (column * step), bottom + (row * step))).ToImmutableArray();
        return new(new(left, bottom), step, columns, rows, panel.Light.Lux(panel.Emitters, places, CancellationToken.None));
    }

    /// <summary>Writes it as <c>grid</c>.</summary>
    /// <param name="json">Where to.</param>
    public void Write(Utf8JsonWriter json)
    {
        json.WriteStartObject("grid");
        json.Number("x0Mm", LowerLeft.XMm);
        json.Number("y0Mm", LowerLeft.YMm);
        json.Number("stepMm", StepMm);
        json.WriteNumber("nx", Columns);
        json.WriteNumber("ny", Rows);
        json.WriteStartArray("lux");
        foreach (var lux in Lux)
        {
            json.WriteNumberValue(Math.Round((decimal)lux, 4, MidpointRounding.AwayFromZero));
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }
}
