using System.Linq;
using System.Text.Json;
using Lampblack.Cutting;
using Lampblack.Desks;

namespace Lampblack.Jobs;

/// <summary>A cut plan's figures, for other programs. Lengths in mm, areas in mm²; places are measured from the plate's lower left corner.</summary>
internal static class CutReport
{
    public static void Write(Utf8JsonWriter json, CutSheetPlan sheet)
    {
        var plan = sheet.Plan;
        json.WriteString("way", sheet.Way switch { CuttingWay.Snap => "snap", CuttingWay.Saw => "saw", _ => null });
        json.Number("kerf", sheet.Rules.KerfMm);
        json.Number("narrowest", sheet.Rules.NarrowestMm);
        json.Number("trim", sheet.TrimMm);
        json.WriteBoolean("assumed", sheet.IsAssumed);
        json.WriteStartArray("plates");
        foreach (var plate in plan.Plates)
        {
            Plate(json, plate);
        }

        json.WriteEndArray();
        Cuts(json, plan);
        var plates = plan.Plates.Sum(plate => plate.Stock.WidthMm * plate.Stock.HeightMm);
        var used = plan.Plates.SelectMany(plate => plate.Pieces).Sum(piece => piece.Box.WidthMm * piece.Box.HeightMm);
        json.WriteNumber("value", Plain(plan.Value));
        json.Number("waste", plates - used);
        json.Number("wasteShare", plates > 0 ? 1 - (used / plates) : 0);
        json.WriteBoolean("proven", plan.IsProven);
        json.WriteNumber("bound", Plain(plan.Bound));
        json.WriteNumber("platesBound", plan.PlatesBound);
        json.WriteNumber("price", Plain(plan.Plates.Sum(plate => plate.Stock.Price)));
        json.WriteStartArray("left");
        foreach (var (id, count) in plan.Left)
        {
            json.WriteStartObject();
            json.WriteString("id", id);
            json.WriteNumber("count", count);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteNumber("steps", plan.Steps);
    }

    private static void Plate(Utf8JsonWriter json, CutPlate plate)
    {
        json.WriteStartObject();
        json.WriteString("stock", plate.Stock.Id);
        json.WriteStartArray("size");
        json.Mm(plate.Stock.WidthMm);
        json.Mm(plate.Stock.HeightMm);
        json.WriteEndArray();
        json.WriteStartArray("pieces");
        foreach (var piece in plate.Pieces)
        {
            json.WriteStartObject();
            json.WriteString("id", piece.Id);
            Box(json, piece.Box);
            json.WriteBoolean("turned", piece.IsTurned);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("offcuts");
        foreach (var offcut in plate.Offcuts)
        {
            json.WriteStartObject();
            Box(json, offcut);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    /// <summary>The cuts of all plates in the order in which they are made; <c>plate</c> counts from 0, as the list does.</summary>
    private static void Cuts(Utf8JsonWriter json, CutPlan plan)
    {
        json.WriteStartArray("cuts");
        var number = 0;
        foreach (var (plate, index) in plan.Plates.Select((plate, index) => (plate, index)))
        {
            foreach (var cut in plate.Cuts)
            {
                json.WriteStartObject();
                json.WriteNumber("number", ++number);
                json.WriteNumber("plate", index);
                json.WriteString("direction", cut.IsUpright ? "upright" : "across");
                json.Number("at", cut.AtMm);
                json.WriteStartObject("inHand");
                Box(json, cut.InHand);
                json.WriteEndObject();
                json.WriteEndObject();
            }
        }

        json.WriteEndArray();
    }

    private static void Box(Utf8JsonWriter json, CutBox box)
    {
        json.Number("x", box.XMm);
        json.Number("y", box.YMm);
        json.Number("w", box.WidthMm);
        json.Number("h", box.HeightMm);
    }

    /// <summary>Without zeros at the end.</summary>
    private static decimal Plain(decimal value) => value / 1.0000000000000000000m;
}
