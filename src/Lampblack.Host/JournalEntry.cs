using System;
using System.Collections.Immutable;
using System.IO;
using System.Linq;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Lampblack.Edits;

namespace Lampblack.Host;

/// <summary>What a line of the journal tells of.</summary>
internal enum JournalKind
{
    /// <summary>An edit.</summary>
    Edit,

    /// <summary>A step that was undone.</summary>
    Undo,

    /// <summary>A step that was redone.</summary>
    Redo,

    /// <summary>A change by another program.</summary>
    Outside,

    /// <summary>The entry before it has reached the desk file.</summary>
    Done,
}

/// <summary>One line of the journal: a checksum, then what happened as JSON.</summary>
/// <param name="Kind">What kind of thing it is.</param>
/// <param name="Step">Number of the step that it makes, undoes or redoes; 0 for others.</param>
/// <param name="Before">Hash of the desk file before.</param>
/// <param name="After">Hash of the desk file after.</param>
/// <param name="Changes">What was exchanged.</param>
/// <param name="Words">What was done, in words.</param>
/// <param name="Items">The items that it was about.</param>
internal sealed record JournalEntry(
    JournalKind Kind, int Step, string Before, string After, ImmutableArray<ByteChange> Changes, string Words, ImmutableArray<string> Items)
{
    /// <summary>The form of the lines; others are not read.</summary>
    private const int Version = 1;

    private const int SumLength = 16;

    /// <summary>Says that the entry before has reached the desk file.</summary>
    internal static JournalEntry IsDone { get; } = new(JournalKind.Done, 0, string.Empty, string.Empty, [], string.Empty, []);

    /// <summary>The hash that names a state of the desk file.</summary>
    internal static string HashOf(ImmutableArray<byte> bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes.AsSpan()));

    /// <summary>Reads a line, without its break; null where it is none of ours, torn or damaged.</summary>
    internal static JournalEntry? Read(ReadOnlySpan<byte> line)
    {
        if (line.Length <= SumLength + 1 || line[SumLength] != (byte)' ' || !line[..SumLength].SequenceEqual(SumOf(line[(SumLength + 1)..])))
        {
            return null;
        }

        try
        {
            using JsonDocument document = JsonDocument.Parse(line[(SumLength + 1)..].ToArray());
            JsonElement root = document.RootElement;
            return root.GetProperty("v").GetInt32() != Version || !Enum.TryParse(root.GetProperty("kind").GetString(), ignoreCase: true, out JournalKind kind)
                ? null
                : new(
                    kind,
                    root.GetProperty("step").GetInt32(),
                    root.GetProperty("before").GetString()!,
                    root.GetProperty("after").GetString()!,
                    [.. root.GetProperty("changes").EnumerateArray().Select(change => new ByteChange(change[0].GetInt32(), [.. change[1].GetBytesFromBase64()], [.. change[2].GetBytesFromBase64()]))],
                    root.GetProperty("words").GetString()!,
                    [.. root.GetProperty("items").EnumerateArray().Select(item => item.GetString()!)]);
        }
        catch (Exception exception) when (exception is JsonException or InvalidOperationException or System.Collections.Generic.KeyNotFoundException or FormatException or IndexOutOfRangeException)
        {
            return null;
        }
    }

    /// <summary>The line with its break.</summary>
    internal byte[] Line()
    {
        using MemoryStream json = new();
        using (Utf8JsonWriter writer = new(json))
        {
            writer.WriteStartObject();
            writer.WriteNumber("v", Version);
            writer.WriteString("kind", Kind.ToString().ToLowerInvariant());
            writer.WriteNumber("step", Step);
            writer.WriteString("before", Before);
            writer.WriteString("after", After);
            writer.WriteString("words", Words);
            writer.WriteStartArray("items");
            foreach (string item in Items)
            {
                writer.WriteStringValue(item);
            }

            writer.WriteEndArray();
            writer.WriteStartArray("changes");
            foreach (ByteChange change in Changes)
            {
                writer.WriteStartArray();
                writer.WriteNumberValue(change.Offset);
                writer.WriteBase64StringValue(change.Removed.AsSpan());
                writer.WriteBase64StringValue(change.Inserted.AsSpan());
                writer.WriteEndArray();
            }

            writer.WriteEndArray();
            writer.WriteEndObject();
        }

        byte[] body = json.ToArray();
        return [.. SumOf(body), (byte)' ', .. body, (byte)'\n'];
    }

    private static byte[] SumOf(ReadOnlySpan<byte> body) => Encoding.ASCII.GetBytes(Convert.ToHexStringLower(SHA256.HashData(body))[..SumLength]);
}
