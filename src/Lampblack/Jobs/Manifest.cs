using System;
using System.Collections.Generic;
using System.Security.Cryptography;

namespace Lampblack.Jobs;

/// <summary>The list of everything a build made, by which a later build knows what is ours.</summary>
public static class Manifest
{
    /// <summary>The manifest's path, relative to the output folder.</summary>
    public const string Path = "manifest.json";

    /// <summary>What stands as <c>schema</c> in it.</summary>
    public const string Schema = "lampblack-manifest/1";

    /// <summary>Writes the manifest of these files.</summary>
    internal static OutputFile Write(IEnumerable<OutputFile> files) => new(
        Path,
        "what was made, with the SHA-256 of each file",
        JsonBytes.Write(json =>
        {
            json.WriteString("schema", Schema);
            json.WriteStartArray("files");
            foreach (var file in files)
            {
                json.WriteStartObject();
                json.WriteString("path", file.Path);
                json.WriteString("purpose", file.Purpose);
                json.WriteString("sha256", Convert.ToHexStringLower(SHA256.HashData(file.Bytes.AsSpan())));
                json.WriteEndObject();
            }

            json.WriteEndArray();
        }));
}
