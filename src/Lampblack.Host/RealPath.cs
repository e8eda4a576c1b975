using System;
using System.IO;

namespace Lampblack.Host;

/// <summary>Where a path really leads when every link on the way is followed.</summary>
internal static class RealPath
{
    /// <summary>More links than this on one way are taken for a ring; Linux uses the same number (path_resolution(7), from memory).</summary>
    private const int MostLinks = 40;

    private static readonly StringComparison Comparison =
        OperatingSystem.IsWindows() || OperatingSystem.IsMacOS() ? StringComparison.OrdinalIgnoreCase : StringComparison.Ordinal;

    /// <summary>Follows every link of a path. Parts that do not exist are kept as they are.</summary>
    /// <param name="path">Any path.</param>
    /// <exception cref="IOException">The links go round in a ring.</exception>
    internal static string Of(string path)
    {
        int links = 0;
        return Follow(Path.GetFullPath(path), ref links);
    }

    /// <summary>Whether a real path lies below a real folder.</summary>
    /// <param name="path">A path from <see cref="Of"/>.</param>
    /// <param name="folder">A folder from <see cref="Of"/>.</param>
    internal static bool IsInside(string path, string folder) =>
        path.StartsWith(Path.EndsInDirectorySeparator(folder) ? folder : folder + Path.DirectorySeparatorChar, Comparison);

    /// <summary>Whether something, be it a dangling link, has this name.</summary>
    /// <param name="path">Any path.</param>
    internal static bool IsTaken(string path) => Path.Exists(path) || new FileInfo(path).LinkTarget is not null;

    private static string Follow(string full, ref int links)
    {
        string root = Path.GetPathRoot(full) ?? string.Empty;
        string here = root;
        string[] parts = full[root.Length..].Split(
            [Path.DirectorySeparatorChar, Path.AltDirectorySeparatorChar], StringSplitOptions.RemoveEmptyEntries);
        foreach (string part in parts)
        {
            string next = Path.Combine(here, part);
            if (new FileInfo(next).LinkTarget is { } target)
            {
                if (++links > MostLinks)
                {
                    throw new IOException("its links go round in a ring");
                }

                next = Follow(Path.GetFullPath(target, here), ref links);
            }

            here = next;
        }

        return here;
    }
}
