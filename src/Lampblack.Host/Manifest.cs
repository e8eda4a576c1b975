using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.IO;
using System.Security.Cryptography;
using System.Text.Json;

namespace Lampblack.Host;

/// <summary>One file that a build made.</summary>
/// <param name="Path">Relative to the output folder, with '/'.</param>
/// <param name="Sha256">SHA-256 of its bytes, 64 lower-case hexadecimal digits.</param>
internal sealed record ManifestEntry(string Path, string Sha256);

/// <summary>The list of files that a build leaves beside them, so that the next one knows which files are its own.</summary>
internal static class Manifest
{
    /// <summary>The manifest's name in the output folder.</summary>
    internal const string FileName = "manifest.json";

    /// <summary>The journal of a build that is putting its files in place; it exists longer only after a crash.</summary>
    internal const string PendingName = ".lampblack-pending";

    private const string Schema = "lampblack-manifest/1";
    private const long LimitBytes = 8_000_000;

    /// <summary>Reads a manifest. Whatever is not one of ours gives null: then nothing in the folder counts as ours.</summary>
    /// <param name="bytes">The file's bytes.</param>
    internal static ImmutableArray<ManifestEntry>? Parse(ReadOnlyMemory<byte> bytes)
    {
        try
        {
            using JsonDocument document = JsonDocument.Parse(bytes);
            JsonElement root = document.RootElement;
            if (root.ValueKind != JsonValueKind.Object || Text(root, "schema") != Schema
                || !root.TryGetProperty("files", out JsonElement files) || files.ValueKind != JsonValueKind.Array)
            {
                return null;
            }

            ImmutableArray<ManifestEntry>.Builder entries = ImmutableArray.CreateBuilder<ManifestEntry>();
            foreach (JsonElement file in files.EnumerateArray())
            {
                // An entry that names anything but a plain file below the folder is skipped: a manifest may come from somebody else.
                if (file.ValueKind == JsonValueKind.Object && Text(file, "path") is { } path && Text(file, "sha256") is { Length: 64 } hash
                    && RelativeName.Problem(path, out IReadOnlyList<string> parts) is null)
                {
                    entries.Add(new(string.Join('/', parts), hash.ToLowerInvariant()));
                }
            }

            return entries.ToImmutable();
        }
        catch (Exception exception) when (exception is JsonException or InvalidOperationException)
        {
            return null;
        }
    }

    /// <summary>Reads a manifest of a folder; null where there is none of ours.</summary>
    /// <param name="path">The manifest's or journal's path.</param>
    internal static ImmutableArray<ManifestEntry>? Read(string path)
    {
        if (new FileInfo(path) is { Exists: true, LinkTarget: null } && BoundedReading.Read(path, LimitBytes) is { Problem: null } reading)
        {
            return Parse(reading.Bytes.AsMemory());
        }

        return null;
    }

    /// <summary>Writes the journal's form: the same schema, where a path may stand more than once.</summary>
    /// <param name="entries">Everything that may be ours from now on.</param>
    internal static ImmutableArray<byte> Journal(IEnumerable<ManifestEntry> entries)
    {
        using MemoryStream bytes = new();
        using (Utf8JsonWriter writer = new(bytes))
        {
            writer.WriteStartObject();
            writer.WriteString("schema", Schema);
            writer.WriteStartArray("files");
            foreach (ManifestEntry entry in entries)
            {
                writer.WriteStartObject();
                writer.WriteString("path", entry.Path);
                writer.WriteString("sha256", entry.Sha256);
                writer.WriteEndObject();
            }

            writer.WriteEndArray();
            writer.WriteEndObject();
        }

        return [.. bytes.ToArray()];
    }

    /// <summary>The hash that a manifest names, of bytes in memory.</summary>
    /// <param name="bytes">A file's contents.</param>
    internal static string HashOf(ImmutableArray<byte> bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes.AsSpan()));

    /// <summary>The hash that a manifest names, of a file on the disk.</summary>
    /// <param name="path">The file.</param>
    internal static string HashOf(string path)
    {
        using FileStream stream = new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        return Convert.ToHexStringLower(SHA256.HashData(stream));
    }

    private static string? Text(JsonElement parent, string name) =>
        parent.TryGetProperty(name, out JsonElement value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;
}
