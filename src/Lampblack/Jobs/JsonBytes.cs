using System;
using System.Collections.Immutable;
using System.IO;
using System.Text.Encodings.Web;
using System.Text.Json;
using Lampblack.Geometry;

namespace Lampblack.Jobs;

/// <summary>Writes JSON as bytes: UTF-8, indented, line feeds, the same everywhere.</summary>
internal static class JsonBytes
{
    private static readonly JsonWriterOptions Options = new() { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Writes one object.</summary>
    public static ImmutableArray<byte> Write(Action<Utf8JsonWriter> content)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, Options))
        {
            json.WriteStartObject();
            content(json);
            json.WriteEndObject();
        }

        stream.WriteByte((byte)'\n');
        return [.. stream.ToArray()];
    }

    /// <summary>Writes a length with the last digit at 0.1 µm.</summary>
    public static void Mm(this Utf8JsonWriter json, double mm) => json.WriteNumberValue(Round(mm, 4));

    /// <summary>Writes a number with so many decimals.</summary>
    public static void Number(this Utf8JsonWriter json, string name, double value, int decimals = 4) => json.WriteNumber(name, Round(value, decimals));

    /// <summary>Writes a box as [x, y, width, height].</summary>
    public static void Box<TSpace>(this Utf8JsonWriter json, string name, Box<TSpace> box)
        where TSpace : struct, ISpace
    {
        json.WriteStartArray(name);
        foreach (var value in (ReadOnlySpan<double>)[box.LeftMm, box.BottomMm, box.WidthMm, box.HeightMm])
        {
            json.Mm(value);
        }

        json.WriteEndArray();
    }

    private static decimal Round(double value, int decimals) =>
        Math.Round((decimal)value, decimals, MidpointRounding.AwayFromZero) / 1.0000000000000000000m;
}
