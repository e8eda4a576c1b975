using System;
using System.Collections.Generic;
using System.IO;
using Lampblack.Jobs;

namespace Lampblack.Host;

/// <summary>The files beside a desk file. Nothing outside the desk's folder can be read through it, not even through a link.</summary>
public sealed class DeskFolder : IDeskFiles
{
    private readonly string folder;

    /// <summary>The files of a folder.</summary>
    /// <param name="folder">The desk's folder; links in this path itself are followed.</param>
    public DeskFolder(string folder)
    {
        ArgumentNullException.ThrowIfNull(folder);
        this.folder = RealPath.Of(folder);
    }

    /// <inheritdoc />
    public FileReading Read(string relativePath, long limitBytes)
    {
        ArgumentNullException.ThrowIfNull(relativePath);
        if (RelativeName.Problem(relativePath, out IReadOnlyList<string> parts) is { } problem)
        {
            return new([], problem);
        }

        try
        {
            string path = RealPath.Of(Path.Combine(folder, Path.Combine([.. parts])));
            return RealPath.IsInside(path, folder)
                ? BoundedReading.Read(path, limitBytes)
                : new([], "is a link that leads out of the desk's folder");
        }
        catch (Exception exception) when (FileProblemException.IsRefusal(exception))
        {
            return new([], $"cannot be read: {FileProblemException.Reason(exception)}");
        }
    }
}
