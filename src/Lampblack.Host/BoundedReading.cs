using System;
using System.Formats.Tar;
using System.Globalization;
using System.IO;
using System.Runtime.InteropServices;
using Lampblack.Jobs;

namespace Lampblack.Host;

/// <summary>Reads whole files, but never more than a limit: the size is asked before a byte is read, and growth while reading is noticed.</summary>
internal static class BoundedReading
{
    private const string NoPlainFile = "is a pipe or a device, not a plain file";

    /// <summary>Reads a file.</summary>
    /// <param name="path">The file.</param>
    /// <param name="limitBytes">The most bytes that are accepted.</param>
    internal static FileReading Read(string path, long limitBytes)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(limitBytes);
        try
        {
            if (Directory.Exists(path))
            {
                return new([], "is a folder");
            }

            if (IsPipeOrDevice(path))
            {
                return new([], NoPlainFile);
            }

            // ReadWrite lets the maker's editor keep the file open.
            using FileStream stream = new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, bufferSize: 0);
            if (!stream.CanSeek)
            {
                return new([], NoPlainFile);
            }

            if (stream.Length > limitBytes)
            {
                return TooLarge(limitBytes);
            }

            using MemoryStream bytes = new();
            byte[] block = new byte[81920];
            int count;
            while ((count = stream.Read(block)) > 0)
            {
                if (bytes.Length + count > limitBytes)
                {
                    return TooLarge(limitBytes);
                }

                bytes.Write(block, 0, count);
            }

            return new(ImmutableCollectionsMarshal.AsImmutableArray(bytes.ToArray()), null);
        }
        catch (Exception exception) when (FileProblemException.IsRefusal(exception))
        {
            return new([], exception is FileNotFoundException or DirectoryNotFoundException
                ? "is not there"
                : $"cannot be read: {FileProblemException.Reason(exception)}");
        }
    }

    private static FileReading TooLarge(long limitBytes) =>
        new([], string.Create(CultureInfo.InvariantCulture, $"is larger than the {limitBytes / 1e6:0.###} MB that are read")) { IsTooLarge = true };

    /// <summary>Whether something that says it has no length is no plain file. It is not opened: a pipe would wait for whoever writes into it, and a device may not let itself be read.</summary>
    private static bool IsPipeOrDevice(string path)
    {
        // A link has its own length.
        if (OperatingSystem.IsWindows() || (File.ResolveLinkTarget(path, returnFinalTarget: true) ?? new FileInfo(path)) is not FileInfo { Exists: true, Length: 0 } file)
        {
            return false;
        }

        // The platform tells kinds of file apart only where it writes archives.
        using MemoryStream archive = new();
        using (TarWriter writer = new(archive, leaveOpen: true))
        {
            writer.WriteEntry(file.FullName, "file");
        }

        archive.Position = 0;
        using TarReader reader = new(archive);
        return reader.GetNextEntry()?.EntryType is TarEntryType.CharacterDevice or TarEntryType.BlockDevice or TarEntryType.Fifo;
    }
}
