using System.Collections.Immutable;

namespace Lampblack.Jobs;

/// <summary>A file to be written, still only a name and bytes.</summary>
/// <param name="Path">Relative to the output folder, with '/'.</param>
/// <param name="Purpose">What it is for, in a few words for the maker.</param>
/// <param name="Bytes">Its contents.</param>
public sealed record OutputFile(string Path, string Purpose, ImmutableArray<byte> Bytes)
{
    /// <summary>Whether it is for the bench: charts, templates, drawings to cut and drill by.</summary>
    public bool IsForBench { get; init; }
}

/// <summary>The files beside a desk file, which only the host can read.</summary>
public interface IDeskFiles
{
    /// <summary>Reads a file named in the desk.</summary>
    /// <param name="relativePath">As written in the desk; the host refuses what leaves the desk's folder.</param>
    /// <param name="limitBytes">Larger files are refused before a byte is read.</param>
    FileReading Read(string relativePath, long limitBytes);
}

/// <summary>What came of reading a file.</summary>
/// <param name="Bytes">The contents; empty where there is a problem.</param>
/// <param name="Problem">Why it could not be read, as a sentence's end ("is not there", "lies outside the desk's folder"); null where it could.</param>
public sealed record FileReading(ImmutableArray<byte> Bytes, string? Problem)
{
    /// <summary>Whether it was not read because it is larger than allowed.</summary>
    public bool IsTooLarge { get; init; }
}
