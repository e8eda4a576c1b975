using System;
using System.Linq;
using System.Text.Json;
using Lampblack.Optics;

namespace Lampblack.Jobs;

/// <summary>Light through the sheets, as the report has it.</summary>
/// <remarks>Shares are of what bare paper shows before the same lamps; a contrast is so many to 1.</remarks>
internal static class LightReport
{
    private const int Fine = 6;

    /// <summary>What holds for all panels.</summary>
    public static void Write(Utf8JsonWriter json, LightAccount account)
    {
        var sheet = account.Sheet;
        json.WriteStartObject("light");
        Side(json, "front", sheet.Field!.Front);
        Side(json, "mask", sheet.Field.Mask);
        json.WriteStartObject("paper");
        json.WriteString("known", LightFindings.Word(sheet.PaperKnown));
        json.Number("transmittance", sheet.Paper.Transmittance);
        json.Number("reflectance", sheet.Paper.Reflectance);
        json.Number("kpMm", sheet.Paper.SpreadMm);
        json.WriteEndObject();
        json.WriteString("inksKnown", LightFindings.Word(Knowledge.Assumed));
        json.Number("backLux", RoomLight.UsualBackLux, 1);
        json.Number("mixedRoomLux", RoomLight.Evening.RoomLux, 1);
        json.Number("contrastWanted", account.WantedFactor, 2);
        json.WriteString("enough", account.Enough is { } enough ? Name(enough.Layering) : null);
        json.WriteString("printed", Name(account.Printed.Layering));
        json.WriteStartArray("stacks");
        foreach (var stack in account.Choices)
        {
            json.WriteStartObject();
            json.WriteString("layers", Name(stack.Layering));
            json.Number("legendShare", stack.LegendShare);
            json.Number("fieldShare", stack.FieldShare, 9);
            json.Number("contrast", stack.ContrastFactor, 1);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    /// <summary>One panel's.</summary>
    public static void Write(Utf8JsonWriter json, LightAccount account, PanelLight light)
    {
        var paper = account.Sheet.Paper;
        json.WriteStartObject("light");
        json.WriteString("known", LightFindings.Word(account.Sheet.BlackKnown));
        json.Number("openShare", light.OpenShare, Fine);
        json.Number("dimmestShare", light.DimmestShare, Fine);
        json.Number("fieldShare", light.FieldShare, 9);
        json.Number("haloShare", light.HaloShare, Fine);
        json.Number("haloWidthMm", light.HaloWidthMm);
        json.Number("contrastLit", light.LitContrastFactor, 1);
        json.Number("contrastMixed", light.MixedContrastFactor(paper, RoomLight.Evening), 1);
        json.Number("contrastDay", light.DayContrastFactor(paper), 1);
        json.WriteStartArray("legends");
        foreach (var legend in light.Legends)
        {
            json.WriteStartObject();
            json.WriteString("item", legend.Item);
            json.WriteString("space", legend.Ink.Space.ToString());
            json.WriteStartArray("amounts");
            foreach (var amount in legend.Ink.Amounts)
            {
                json.WriteNumberValue(Math.Round(amount, 4, MidpointRounding.AwayFromZero));
            }

            json.WriteEndArray();
            json.WriteBoolean("backed", legend.IsBacked);
            json.Number("litShare", legend.LitShare);
            json.Number("dayReflectance", legend.DayReflectance);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        if (light.Covers.Any())
        {
            json.WriteStartArray("covers");
            foreach (var cover in light.Covers)
            {
                json.WriteStartObject();
                json.Number("cover", cover.CoverShare);
                json.WriteBoolean("used", cover.IsUsed);
                json.Number("passedShare", cover.PassedShare, Fine);
                json.Number("awayLightness", cover.AwayLightness, 1);
                json.Number("contrastShown", cover.ShownContrastFactor, 1);
                json.WriteBoolean("hides", cover.Hides);
                json.WriteBoolean("shows", cover.Shows);
                json.WriteEndObject();
            }

            json.WriteEndArray();
        }

        json.WriteEndObject();
    }

    private static void Side(Utf8JsonWriter json, string name, SideBlack black)
    {
        json.WriteStartObject(name);
        json.WriteString("known", LightFindings.Word(black.Known));
        json.Number("density", black.SolidDensity, 3);
        json.Number("pinholeShare", black.PinholeShare, Fine);
        json.Number("densityWithPinholes", black.MeanDensity, 3);
        json.WriteEndObject();
    }

    private static string Name(Layering layering) => layering switch
    {
        Layering.OneSide => "one-side",
        Layering.TwoSides => "two-sides",
        Layering.SecondPass => "second-pass",
        Layering.Film => "film",
        _ => "second-sheet",
    };
}
