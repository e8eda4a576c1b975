using System;
using System.Collections.Immutable;
using System.IO;
using System.Linq;
using Lampblack.Jobs;

namespace Lampblack.Host;

/// <summary>A desk file as it was found on the disk.</summary>
/// <param name="Source">Its bytes and the files beside it.</param>
/// <param name="FilePath">The file, as the maker named it or relative to what the maker named.</param>
/// <param name="FolderPath">The folder it lies in; empty for the current folder.</param>
public sealed record OpenedDesk(DeskSource Source, string FilePath, string FolderPath)
{
    /// <summary>The name that a desk file has when only its folder is given.</summary>
    public const string UsualName = "desk.toml";

    /// <summary>
    /// Where a build goes when the maker names no folder: <c>out</c> beside the desk file, or beside the picture. A picture that lies in a desk's folder has a folder
    /// of its own, <c>out-NAME</c>: the desk's last build is what its next one is compared with and keeps its wires by.
    /// </summary>
    public string UsualOutput => Path.Combine(
        FolderPath, Source.IsMade && Directory.EnumerateFiles(FolderPath.Length == 0 ? "." : FolderPath, "*.toml").Any() ? $"out-{Path.GetFileNameWithoutExtension(FilePath)}" : "out");

    /// <summary>Reads a desk file; one that is too large is refused before it is read.</summary>
    /// <param name="desk">A <c>.toml</c> file, or a folder that holds <c>desk.toml</c>.</param>
    /// <exception cref="FileProblemException">It cannot be read.</exception>
    public static OpenedDesk Open(string desk)
    {
        ArgumentNullException.ThrowIfNull(desk);
        if (desk.Length == 0)
        {
            throw new FileProblemException("The desk's name is empty: name a .toml file or a folder that holds desk.toml.");
        }

        string file = desk;
        if (Directory.Exists(desk))
        {
            file = Path.Combine(desk, UsualName);
            if (!File.Exists(file))
            {
                // In quotes where it has a blank, so that the line can be typed as it stands.
                string typed = desk.Contains(' ', StringComparison.Ordinal) ? $"\"{desk}\"" : desk;
                throw new FileProblemException($"The folder '{desk}' holds no {UsualName}. 'lampblack new {typed}' would start one there.");
            }
        }
        else if (!File.Exists(desk))
        {
            throw new FileProblemException($"There is no file or folder '{desk}'. 'lampblack new DIR' starts a new desk.");
        }
        else if (!string.Equals(Path.GetExtension(desk), ".toml", StringComparison.OrdinalIgnoreCase))
        {
            throw new FileProblemException($"'{desk}' is not a .toml file: a desk is a .toml file or a folder that holds {UsualName}.");
        }

        ImmutableArray<byte> bytes = ReadText(file);
        string folder = Path.GetDirectoryName(file) ?? string.Empty;
        DeskFolder files = new(folder.Length == 0 ? "." : folder);
        return new(new DeskSource(Path.GetFileName(file), bytes, files), file, folder);
    }

    /// <summary>Reads a file that belongs to a desk and is named beside it.</summary>
    /// <param name="file">The file.</param>
    /// <param name="holds">What it is to hold, in a word.</param>
    /// <exception cref="FileProblemException">It cannot be read.</exception>
    public static ImmutableArray<byte> ReadBeside(string file, string holds)
    {
        ArgumentNullException.ThrowIfNull(file);
        return File.Exists(file) ? ReadText(file) : throw new FileProblemException(Directory.Exists(file)
            ? $"'{file}' is a folder; name the file of {holds} in it."
            : $"There is no file '{file}' to read {holds} from.");
    }

    private static ImmutableArray<byte> ReadText(string file)
    {
        FileReading reading = BoundedReading.Read(file, DeskSource.LimitBytes);
        return reading.Problem is null ? reading.Bytes : throw new FileProblemException($"'{file}' {reading.Problem}.");
    }
}
