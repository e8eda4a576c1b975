using System;
using System.Collections.Immutable;
using System.IO;
using Lampblack.Jobs;

namespace Lampblack.Host;

/// <summary>A picture as it was found on the disk.</summary>
/// <param name="Bytes">Its bytes.</param>
/// <param name="Name">Its file name.</param>
/// <param name="FilePath">The file, as the maker named it.</param>
public sealed record OpenedArt(ImmutableArray<byte> Bytes, string Name, string FilePath)
{
    /// <summary>Reads a picture; one that is too large is refused before it is read.</summary>
    /// <param name="path">The file.</param>
    /// <param name="limitBytes">The most that is read.</param>
    /// <exception cref="FileProblemException">It cannot be read.</exception>
    public static OpenedArt Open(string path, long limitBytes)
    {
        ArgumentNullException.ThrowIfNull(path);
        if (path.Length == 0 || !File.Exists(path))
        {
            throw new FileProblemException(Directory.Exists(path)
                ? $"'{path}' is a folder; name the picture in it."
                : $"There is no file '{path}'.");
        }

        FileReading reading = BoundedReading.Read(path, limitBytes);
        return reading.Problem is null
            ? new(reading.Bytes, Path.GetFileName(path), path)
            : throw new FileProblemException($"'{path}' {reading.Problem}.");
    }

    /// <summary>The picture as the one thing on a desk.</summary>
    /// <param name="deskText">The desk file for it.</param>
    public OpenedDesk AsDesk(ImmutableArray<byte> deskText) => new(
        new DeskSource(Separate.DeskName, deskText, new Only(this)) { IsMade = true }, FilePath, Path.GetDirectoryName(FilePath) ?? string.Empty);

    /// <summary>No file but the picture.</summary>
    private sealed class Only(OpenedArt art) : IDeskFiles
    {
        public FileReading Read(string relativePath, long limitBytes) =>
            relativePath == art.Name ? new(art.Bytes, null) : new([], "is not there");
    }
}
