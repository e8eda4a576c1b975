using System;
using System.Globalization;
using System.IO;
using System.Runtime.InteropServices;
using Lampblack.Jobs;

namespace Lampblack.Host;

/// <summary>Reads whole files, but never more than a limit: the size is asked before a byte is read, and growth while reading is noticed.</summary>
internal static class BoundedReading
{
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

            // ReadWrite lets the maker's editor keep the file open.
            using FileStream stream = new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, bufferSize: 0);
            if (stream.CanSeek && stream.Length > limitBytes)
            {
                return new([], TooLarge(limitBytes));
            }

            using MemoryStream bytes = new();
            byte[] block = new byte[81920];
            int count;
            while ((count = stream.Read(block)) > 0)
            {
                if (bytes.Length + count > limitBytes)
                {
                    return new([], TooLarge(limitBytes));
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

    private static string TooLarge(long limitBytes) =>
        string.Create(CultureInfo.InvariantCulture, $"is larger than the {limitBytes / 1e6:0.###} MB that are read");
}
