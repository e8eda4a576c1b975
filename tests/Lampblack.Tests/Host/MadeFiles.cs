using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Lampblack.Jobs;

namespace Lampblack.Tests.Host;

/// <summary>Outputs as a build gives them, made up for tests.</summary>
internal static class MadeFiles
{
    internal static ImmutableArray<OutputFile> Of(params (string Path, string Text)[] files)
    {
        List<OutputFile> made = [.. files.Select(file => new OutputFile(file.Path, "for a test", [.. Encoding.UTF8.GetBytes(file.Text)]))];
        string manifest = JsonSerializer.Serialize(new
        {
            schema = "lampblack-manifest/1",
            files = made.Select(file => new { path = file.Path, purpose = file.Purpose, sha256 = Hash(file.Bytes) }),
        });
        made.Add(new("manifest.json", "the list", [.. Encoding.UTF8.GetBytes(manifest)]));
        return [.. made];
    }

    private static string Hash(ImmutableArray<byte> bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes.AsSpan()));
}
