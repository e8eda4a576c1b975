using System;
using System.Collections.Immutable;
using System.IO;

namespace Lampblack.Host;

/// <summary>Records of roll-calls as files.</summary>
public static class RollCallRecord
{
    /// <summary>What a record beside a desk is called, where nobody names it.</summary>
    public const string UsualName = "rollcall.json";

    private const int MostBytes = 10_000_000;

    /// <summary>The record in a file; empty where it can't be read.</summary>
    /// <param name="file">The file.</param>
    public static ImmutableArray<byte> Read(string file)
    {
        try
        {
            return File.Exists(file) && new FileInfo(file).Length <= MostBytes ? [.. File.ReadAllBytes(file)] : [];
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            return [];
        }
    }

    /// <summary>Writes beside and moves over it, so that a record is never half there.</summary>
    /// <param name="file">The file.</param>
    /// <param name="bytes">The record.</param>
    /// <exception cref="FileProblemException">It can't be written.</exception>
    public static void Keep(string file, ImmutableArray<byte> bytes)
    {
        try
        {
            string beside = file + ".new";
            File.WriteAllBytes(beside, [.. bytes]);
            File.Move(beside, file, overwrite: true);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            throw new FileProblemException($"The record can't be written to {file}: {problem.Message}", problem);
        }
    }
}
