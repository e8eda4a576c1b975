using System;
using System.IO;

namespace Lampblack.Cli;

/// <summary>Paths as a person at this terminal would type them.</summary>
internal static class ShownPath
{
    /// <summary>A path, short where it lies in the current folder, in quotes where it has a blank.</summary>
    /// <param name="path">Any path.</param>
    internal static string Of(string path)
    {
        string relative = Path.GetRelativePath(Environment.CurrentDirectory, path);
        string shown = relative.StartsWith("..", StringComparison.Ordinal) ? path : relative;
        return shown.Contains(' ', StringComparison.Ordinal) ? $"\"{shown}\"" : shown;
    }

    /// <summary>A word of the command line as it would be typed again.</summary>
    /// <param name="written">A name or a path.</param>
    internal static string OfName(string written) => written.Contains(' ', StringComparison.Ordinal) ? $"\"{written}\"" : written;
}
