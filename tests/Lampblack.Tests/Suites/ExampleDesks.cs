using System;
using System.Collections.Immutable;
using System.IO;
using System.Linq;
using Lampblack.Host;
using Lampblack.Jobs;
using Lampblack.Tests.Register;

namespace Lampblack.Tests.Suites;

/// <summary>Every desk in <c>examples/</c>: a folder there with a <c>desk.toml</c> takes part in these tests without being named in them.</summary>
internal static class ExampleDesks
{
    /// <summary>Their names, sorted.</summary>
    public static ImmutableArray<string> Names { get; } =
    [
        .. Directory.EnumerateFiles(Path.Combine(SeparatedDesk.Root, "examples"), "desk.toml", SearchOption.AllDirectories)
            .Select(path => Path.GetRelativePath(Path.Combine(SeparatedDesk.Root, "examples"), Path.GetDirectoryName(path)!).Replace('\\', '/'))
            .Where(name => !name.Contains('/', StringComparison.Ordinal))
            .Order(StringComparer.Ordinal),
    ];

    /// <summary>The bytes of one.</summary>
    public static byte[] Bytes(string name) => File.ReadAllBytes(Path.Combine(Folder(name), "desk.toml"));

    /// <summary>One as the host would hand it over, with other bytes where they are given.</summary>
    public static DeskSource Source(string name, byte[]? bytes = null) =>
        new("desk.toml", [.. bytes ?? Bytes(name)], new DeskFolder(Folder(name)));

    /// <summary>A desk that brings no files along.</summary>
    public static DeskSource Alone(byte[] bytes, IDeskFiles? files = null) => new("desk.toml", [.. bytes], files ?? new NoFiles());

    /// <summary>Whether the long sets are asked for.</summary>
    public static bool IsLong => Environment.GetEnvironmentVariable("LAMPBLACK_LONG") == "1";

    private static string Folder(string name) => Path.Combine(SeparatedDesk.Root, "examples", name);

    private sealed class NoFiles : IDeskFiles
    {
        public FileReading Read(string relativePath, long limitBytes) => new([], "is not there");
    }
}
