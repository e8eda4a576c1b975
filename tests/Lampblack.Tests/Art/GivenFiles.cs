using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Jobs;

namespace Lampblack.Tests.Art;

/// <summary>Files beside a desk file, from memory.</summary>
internal sealed class GivenFiles(params (string Name, byte[] Bytes)[] files) : IDeskFiles
{
    public FileReading Read(string relativePath, long limitBytes) =>
        files.FirstOrDefault(file => string.Equals(file.Name, relativePath, StringComparison.Ordinal)) is { Bytes: { } bytes }
            ? new(ImmutableArray.Create(bytes), null)
            : new([], "is not there");
}
