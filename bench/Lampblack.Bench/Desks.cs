using System;
using System.Collections.Immutable;
using System.IO;
using System.Text;
using Lampblack.Jobs;

namespace Lampblack.Bench;

/// <summary>The desks that are measured.</summary>
internal static class Desks
{
    /// <summary>The example that a newcomer builds first: two panels on one sheet.</summary>
    public static byte[] Dome { get; } = File.ReadAllBytes(Path.Combine(Root(), "examples", "dome-desk", "desk.toml"));

    /// <summary>400 controls on four panels, a sheet of A4 each.</summary>
    public static byte[] Many { get; } = Encoding.UTF8.GetBytes(ManyControls.OnA4());

    /// <summary>A desk as the host would hand it over.</summary>
    public static DeskSource Source(byte[] toml) => new("desk.toml", [.. toml], new NoFiles());

    private static string Root()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Lampblack.slnx")))
            {
                return folder.FullName;
            }
        }

        throw new InvalidOperationException("the benchmarks run inside the repository");
    }

    private sealed class NoFiles : IDeskFiles
    {
        public FileReading Read(string relativePath, long limitBytes) => new([], "is not there");
    }
}
