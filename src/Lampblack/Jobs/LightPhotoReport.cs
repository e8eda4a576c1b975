using System;
using System.Collections.Generic;
using System.Linq;
using System.Text.Json;
using Lampblack.Findings;

namespace Lampblack.Jobs;

/// <summary>A photo beside a plan of light, in figures and in words.</summary>
internal static class LightPhotoReport
{
    /// <summary>Changes are named where they are larger than so many standard deviations, and than these shares.</summary>
    private const double NamedSds = 2;
    private const double NamedReflectance = 0.05;
    private const double NamedFlux = 0.1;

    /// <summary>Writes the object <c>photo</c>.</summary>
    public static void Write(Utf8JsonWriter json, LightPhoto photo)
    {
        var correction = photo.Correction;
        json.WriteStartObject("photo");
        json.WriteString("panel", photo.Lighting.Laid.Panel.Id);
        json.Number("correlation", photo.Photo.Correlation);
        json.WriteStartArray("corners");
        foreach (var (x, y) in photo.Photo.Pose.Corners)
        {
            json.WriteStartArray();
            json.WriteNumberValue(Math.Round((decimal)x, 1, MidpointRounding.AwayFromZero));
            json.WriteNumberValue(Math.Round((decimal)y, 1, MidpointRounding.AwayFromZero));
            json.WriteEndArray();
        }

        json.WriteEndArray();
        json.Number("softMm", photo.Photo.SoftMm);
        json.Number("rmsBefore", correction.RmsBefore);
        json.Number("rmsAfter", correction.RmsAfter);
        json.Number("wallReflectance", correction.WallReflectance);
        json.Number("wallReflectanceSd", correction.WallSd);
        json.Number("floorReflectance", correction.FloorReflectance);
        Numbers(json, "emitterFactors", photo.Lighting.Units.SelectMany((unit, index) => unit.Emitters.Select(_ => correction.UnitFactors[index])));
        Numbers(json, "emitterFactorSds", photo.Lighting.Units.SelectMany((unit, index) => unit.Emitters.Select(_ => correction.UnitSds[index] * correction.UnitFactors[index])));
        json.WriteStartArray("legends");
        foreach (var legend in photo.Legends)
        {
            json.WriteStartObject();
            json.WriteString("id", legend.Origin.Item);
            json.WriteString("words", legend.Words);
            json.Number("predicted", legend.Predicted);
            if (legend.Seen is { } seen)
            {
                json.Number("seen", seen);
            }
            else
            {
                json.WriteNull("seen");
            }

            json.Number("corrected", legend.Corrected);
            json.WriteBoolean("cutOff", legend.IsCut);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    /// <summary>The same as a short table.</summary>
    public static IEnumerable<string> Lines(LightPhoto photo)
    {
        var correction = photo.Correction;
        yield return Invariant($"photo of {photo.Lighting.Laid.Panel.Id} ({photo.Photo.Correlation:0.00} alike); beside the mean: predicted, seen, corrected");
        var names = photo.Legends.Select(legend => $"{legend.Origin.Item} {Shown.Quoted(legend.Words)}").ToList();
        var width = names.Select(name => name.Length).DefaultIfEmpty(0).Max();
        foreach (var (index, legend) in photo.Legends.Index())
        {
            var seen = legend.Seen is { } light ? Invariant($"{light,6:0.00}") : "     -";
            yield return Invariant($"  {names[index].PadRight(width)} {legend.Predicted,6:0.00} {seen} {legend.Corrected,6:0.00}{(legend.IsCut ? " cut off" : string.Empty)}");
        }

        yield return Invariant($"seen and predicted are {100 * correction.RmsBefore:0} % apart, seen and corrected {100 * correction.RmsAfter:0} % (root mean square)");
        yield return $"what the photo says: {Says(photo)}";
    }

    private static string Says(LightPhoto photo)
    {
        var (correction, box) = (photo.Correction, photo.Lighting.Light.Box);
        var said = new List<string>();
        var change = correction.WallReflectance - box.WallReflectance;
        if (Math.Abs(change) > Math.Max(NamedReflectance, NamedSds * correction.WallSd))
        {
            said.Add(Invariant($"walls throw back {correction.WallReflectance:0.00} instead of {box.WallReflectance:0.00} (give or take {NamedSds * correction.WallSd:0.00})"));
        }

        var isStrip = photo.Lighting.Units.Any(unit => unit.Emitters.Length > 1);
        foreach (var (index, unit) in photo.Lighting.Units.Index())
        {
            var (factor, sd) = (correction.UnitFactors[index], correction.UnitSds[index]);
            if (Math.Abs(Math.Log(factor)) > Math.Max(NamedFlux, NamedSds * sd))
            {
                said.Add(Invariant($"{(isStrip ? "piece of strip" : "emitter")} {index + 1} at {unit.Footprint.Centre.XMm:0.#}, {unit.Footprint.Centre.YMm:0.#} mm gives {factor:0.00} of its light beside the others (give or take {NamedSds * sd * factor:0.00})"));
            }
        }

        return said.Count == 0 ? "nothing surer than chance; walls and emitters are as planned, as far as it tells" : string.Join("; ", said);
    }

    private static void Numbers(Utf8JsonWriter json, string name, IEnumerable<double> numbers)
    {
        json.WriteStartArray(name);
        foreach (var number in numbers)
        {
            json.WriteNumberValue(Math.Round((decimal)number, 4, MidpointRounding.AwayFromZero));
        }

        json.WriteEndArray();
    }

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
