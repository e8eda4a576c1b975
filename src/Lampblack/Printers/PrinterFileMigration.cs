using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Printers;

/// <summary>Brings older printer files to the current format, on the read tree; the file itself changes only when something new is learned.</summary>
internal static class PrinterFileMigration
{
    /// <summary>The key that says of which format the file is.</summary>
    public const string Key = "lampblack-printer";

    // The draft's form: the path's keys stood at the top.
    private static readonly ImmutableArray<string> PathKeysOfZero =
        ["colour", "slot", "paper", "weight", "edge", "turning", "order", "heavy", "margin", "leading-edge"];

    /// <summary>The tree in the current format; null where nothing of it can be read.</summary>
    public static TableNode? ToCurrent(string fileName, TableNode root, List<Finding> findings)
    {
        switch (root.Find(Key))
        {
            case NumberNode { IsInteger: true, Value: PrinterFile.Version }:
                return root;
            case NumberNode { IsInteger: true, Value: 0 } old:
                findings.Add(Finding.Note(
                    "format-migrated",
                    "the printer file is of format 0 and was read as format 1: what describes the path now stands under `[path]`",
                    "nothing to do: it is written as format 1 when something is next learned",
                    old.Span));
                return FromZero(root);
            case NumberNode { Value: > PrinterFile.Version } newer:
                findings.Add(Finding.Stop(
                    "format-newer",
                    string.Create(CultureInfo.InvariantCulture, $"the printer file is of format {newer.Written}, and this version of Lampblack reads up to {PrinterFile.Version}"),
                    "get the newer Lampblack that wrote it",
                    newer.Span));
                return null;
            case null when findings.Any(finding => finding.Severity == Severity.Stop):
                return null;
            case var other:
                findings.Add(Finding.Stop(
                    "format-missing",
                    other is null ? "the file does not say that it is a printer file, and of which format" : $"`{Key}` must be a whole number, the file's format",
                    $"make `{Key} = {PrinterFile.Version}` its first line; a desk file is something else",
                    other?.Span ?? new SourceSpan(fileName, 0, 0, 1, 1)));
                return null;
        }
    }

    private static TableNode FromZero(TableNode root)
    {
        if (root.Find("path") is not null)
        {
            return root;
        }

        var path = root.Entries.Where(entry => PathKeysOfZero.Contains(entry.Key, StringComparer.Ordinal)).ToImmutableArray();
        return root with { Entries = [.. root.Entries.Except(path), new Entry("path", root.Span, new TableNode(path, false, root.Span))] };
    }
}
