using System;
using System.Collections.Generic;
using System.IO;
using System.Text;

namespace Lampblack.Host;

/// <summary>
/// The one rule for names of files inside a folder: relative, with '/', and such that every system reads it alike.
/// A desk that works on one machine then works on the next, and no name can reach out of its folder.
/// </summary>
internal static class RelativeName
{
    /// <summary>Longest part of a name in UTF-8 bytes; the usual limit of file systems (NAME_MAX).</summary>
    private const int LongestPartBytes = 255;

    // Names that Windows gives to devices, with any extension: "Naming Files, Paths, and Namespaces", Windows documentation; from memory.
    private static readonly HashSet<string> Devices = new(StringComparer.OrdinalIgnoreCase)
    {
        "CON", "PRN", "AUX", "NUL", "CONIN$", "CONOUT$", "CLOCK$",
        "COM0", "COM1", "COM2", "COM3", "COM4", "COM5", "COM6", "COM7", "COM8", "COM9", "COM\u00B9", "COM\u00B2", "COM\u00B3",
        "LPT0", "LPT1", "LPT2", "LPT3", "LPT4", "LPT5", "LPT6", "LPT7", "LPT8", "LPT9", "LPT\u00B9", "LPT\u00B2", "LPT\u00B3",
    };

    /// <summary>Reads a name.</summary>
    /// <param name="text">The name as written.</param>
    /// <param name="parts">Its parts, without "." and with ".." worked out; empty where there is a problem.</param>
    /// <returns>Why it is refused, as the end of a sentence; null where it is fine.</returns>
    internal static string? Problem(string text, out IReadOnlyList<string> parts)
    {
        parts = [];
        if (text.Length == 0)
        {
            return "is an empty name";
        }

        if (text.StartsWith("//", StringComparison.Ordinal) || text.StartsWith("\\\\", StringComparison.Ordinal))
        {
            return "is a network path; only files in the folder can be named";
        }

        if (text.Contains('\\', StringComparison.Ordinal))
        {
            return "has a '\\'; folders are separated with '/'";
        }

        if (text[0] == '/')
        {
            return "is an absolute path; name it relative to the folder";
        }

        if (text.Contains(':', StringComparison.Ordinal))
        {
            return "names a drive or has a ':', which not every system allows";
        }

        List<string> kept = [];
        foreach (string part in text.Split('/'))
        {
            if (part == "..")
            {
                if (kept.Count == 0)
                {
                    return "lies outside the folder";
                }

                kept.RemoveAt(kept.Count - 1);
            }
            else if (part != ".")
            {
                if (PartProblem(part) is { } problem)
                {
                    return problem;
                }

                kept.Add(part);
            }
        }

        if (kept.Count == 0)
        {
            return "names the folder itself";
        }

        parts = kept;
        return null;
    }

    /// <summary>Refuses a new file or folder that has the name of a device, on every system alike. Folders above it that are there already may be called as they are.</summary>
    /// <param name="path">Its path, as the maker wrote it.</param>
    /// <exception cref="FileProblemException">It has.</exception>
    internal static void RefuseDevices(string path)
    {
        string last = path.TrimEnd('/', '\\');
        for (string? here = last; here is { Length: > 0 }; here = Path.GetDirectoryName(here))
        {
            if (Device(Path.GetFileName(here)) is { } device && (here == last || !Directory.Exists(here)))
            {
                throw new FileProblemException($"'{path}' uses '{device}', the name of a device on some systems; take another name, so that every system can have it.");
            }
        }
    }

    /// <summary>The name of a device that a part of a path is taken for; null for none.</summary>
    private static string? Device(string part)
    {
        int dot = part.IndexOf('.', StringComparison.Ordinal);
        string stem = (dot < 0 ? part : part[..dot]).TrimEnd(' ');
        return Devices.Contains(stem) ? stem : null;
    }

    private static string? PartProblem(string part)
    {
        if (part.Length == 0)
        {
            return "has an empty part between two '/' or at its end";
        }

        foreach (char character in part)
        {
            if (character < ' ' || character == '\u007F' || "<>\"|?*".Contains(character, StringComparison.Ordinal))
            {
                return "has a character that not every system allows in names (such as < > \" | ? *)";
            }
        }

        if (part[^1] is '.' or ' ')
        {
            return "has a part that ends with a dot or a space, which some systems drop";
        }

        if (Device(part) is { } device)
        {
            return $"uses '{device}', the name of a device on some systems";
        }

        return Encoding.UTF8.GetByteCount(part) > LongestPartBytes ? "has a part longer than 255 bytes" : null;
    }
}
