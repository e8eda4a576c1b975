using System.Linq;
using System.Text.Json;
using Lampblack.Wiring;

namespace Lampblack.Jobs;

/// <summary>The figures of a desk's wiring, as <c>wiring</c> in the report.</summary>
internal static class WiringReport
{
    /// <summary>Writes them; of wires only where they were laid.</summary>
    public static void Write(Utf8JsonWriter json, DeskWiring wiring)
    {
        json.WriteStartObject("wiring");
        json.WriteNumber("controls", wiring.Pins.Controls.Length);
        json.WriteStartArray("controllers");
        foreach (var plan in wiring.Pins.Controllers)
        {
            json.WriteStartObject();
            json.WriteString("chip", plan.Chip.ToString());
            json.WriteNumber("contacts", plan.Contacts.Length);
            json.WriteNumber("columns", plan.Columns.Length);
            json.WriteNumber("rows", plan.Rows.Length);
            json.WriteNumber("diodes", plan.Diodes ? plan.Contacts.Count(contact => contact.Place is MatrixInput) : 0);
            json.WriteNumber("inputRegisters", plan.Inputs?.ChipCount ?? 0);
            json.WriteNumber("outputRegisters", plan.Outputs?.ChipCount ?? 0);
            json.WriteNumber("encoders", plan.Encoders.Length);
            json.WriteNumber("wipers", plan.Wipers.Length);
            json.WriteNumber("ladders", plan.Ladders.Length);
            json.WriteNumber("indicators", plan.Indicators.Length);
            json.WriteNumber("dimmers", plan.Dimmers.Count(dimmer => !dimmer.IsMeter));
            json.WriteNumber("meters", plan.Dimmers.Count(dimmer => dimmer.IsMeter));
            if (!plan.Columns.IsEmpty)
            {
                var (lengthMm, leastMm) = MatrixGrouping.Lengths(plan, wiring.Needs);
                json.Number("rowsAndColumnsMm", lengthMm, 0);
                json.Number("rowsAndColumnsLeastMm", leastMm, 0);
            }

            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteNumber("wires", wiring.Wires.Panels.Sum(panel => panel.Wires.Length));
        json.Number("wireMm", wiring.Wires.Panels.Sum(panel => panel.Wires.Sum(wire => wire.LengthMm)), 0);
        json.WriteEndObject();
    }
}
