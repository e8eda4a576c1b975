using System;
using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Threading;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>A desk file as it was read. One change of a desk is looked at by many jobs, one after the other: they share one reading. Never changes; safe to use from several threads.</summary>
public sealed class ReadDesk
{
    // By the bytes themselves, which never change: what nobody holds any more is forgotten.
    private static readonly ConditionalWeakTable<byte[], ReadDesk> Known = [];

    private readonly string _fileName;
    private readonly Lazy<Checked<Desk>> _desk;

    private ReadDesk(string fileName, Checked<TableNode> text)
    {
        _fileName = fileName;
        Text = text;
        _desk = new(() => DeskReader.Read(fileName, text), LazyThreadSafetyMode.ExecutionAndPublication);
    }

    /// <summary>Its tables, and what was found in its text.</summary>
    public Checked<TableNode> Text { get; }

    /// <summary>The desk, and all that was found.</summary>
    public Checked<Desk> Desk => _desk.Value;

    /// <summary>Reads a desk file, unless the same bytes were read before and are still in use.</summary>
    /// <param name="fileName">Its name for findings.</param>
    /// <param name="bytes">Its bytes as they are on disk.</param>
    public static ReadDesk Of(string fileName, ImmutableArray<byte> bytes) => Of(fileName, bytes, () => TomlText.Read(fileName, bytes.AsSpan()));

    /// <summary>The same of a text whose tables are read already.</summary>
    internal static ReadDesk Of(string fileName, ImmutableArray<byte> bytes, Func<Checked<TableNode>> text)
    {
        if (ImmutableCollectionsMarshal.AsArray(bytes) is not { Length: > 0 } key)
        {
            return new(fileName, text());
        }

        if (Known.TryGetValue(key, out var known) && known._fileName == fileName)
        {
            return known;
        }

        var read = new ReadDesk(fileName, text());
        Known.AddOrUpdate(key, read);
        return read;
    }
}
