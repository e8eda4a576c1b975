using System.Collections.Immutable;
using System.IO;

namespace Lampblack.Host;

/// <summary>What the journal does to the disk. A test puts one in its place that runs full or is pulled out.</summary>
internal class JournalDisk
{
    /// <summary>Adds a line behind what is known to be whole, and makes sure that it is on the disk.</summary>
    /// <param name="path">The journal.</param>
    /// <param name="at">Where the known lines end; whatever is behind them was torn and goes.</param>
    /// <param name="line">The line with its break.</param>
    /// <param name="flush">Whether to wait for the disk.</param>
    internal virtual void Append(string path, long at, byte[] line, bool flush)
    {
        using FileStream stream = new(path, FileMode.OpenOrCreate, FileAccess.Write, FileShare.Read, bufferSize: 0);
        if (stream.Length != at)
        {
            stream.SetLength(at);
        }

        stream.Position = at;
        stream.Write(line);
        stream.Flush(flushToDisk: flush);
    }

    /// <summary>Takes back a line whose edit could not be written.</summary>
    internal virtual void CutBack(string path, long at)
    {
        using FileStream stream = new(path, FileMode.Open, FileAccess.Write, FileShare.Read, bufferSize: 0);
        stream.SetLength(at);
        stream.Flush(flushToDisk: true);
    }

    /// <summary>Writes a whole file aside and makes sure that it is on the disk.</summary>
    internal virtual string WriteAside(string folder, ImmutableArray<byte> bytes) => TemporaryFiles.Write(folder, bytes);

    /// <summary>Gives a file that was written aside its name.</summary>
    internal virtual void Rename(string from, string to) => File.Move(from, to, overwrite: true);
}
