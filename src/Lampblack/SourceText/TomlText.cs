using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Tomlyn;
using Tomlyn.Parsing;

namespace Lampblack.SourceText;

/// <summary>Reads TOML 1.1 (toml.io) into nodes that know their places. Never throws; what can't be read is a finding.</summary>
public static class TomlText
{
    /// <summary>The largest file that is read, in bytes: 2 MB, a thousand times a usual desk.</summary>
    public const int MaxBytes = 2_000_000;

    /// <summary>How many tables and lists may stand inside one another. The parser's own limit is 64.</summary>
    public const int MaxDepth = 32;

    /// <summary>How many values a file may hold.</summary>
    public const int MaxNodes = 200_000;

    private const int MostFindings = 200;

    /// <summary>Reads a file.</summary>
    /// <param name="fileName">Its name in the findings, as the user gave it.</param>
    /// <param name="bytes">Its contents: UTF-8, with or without a byte-order mark.</param>
    /// <returns>The file's table, as much of it as could be read, and what was found, in the file's order. Every finding has a place.</returns>
    public static Checked<TableNode> Read(string fileName, ReadOnlySpan<byte> bytes)
    {
        var findings = new List<Finding>();
        if (bytes.Length > MaxBytes)
        {
            findings.Add(Finding.Stop(
                "toml-too-large",
                string.Create(CultureInfo.InvariantCulture, $"the file has {bytes.Length} bytes; at most {MaxBytes} are read"),
                "Check that it is the right file.",
                new(fileName, 0, 0, 1, 1)));
            return Result(Empty(fileName), findings);
        }

        var text = StrictUtf8.Decode(fileName, bytes, findings);
        if (text is null)
        {
            return Result(Empty(fileName), findings);
        }

        var places = new Places(fileName, text);
        var scan = new TomlScan(places, findings);
        return Result(scan.Run() ? Parse(places, scan, findings) : Empty(fileName), findings);
    }

    private static TableNode Parse(Places places, TomlScan scan, List<Finding> findings)
    {
        try
        {
            // Without the parser's own validation: it quotes whole tables in its messages, and TreeBuilder finds the same with better places.
            var document = SyntaxParser.Parse(scan.Repaired.Build(), "", false);
            var faults = document.Diagnostics.Select(fault => (Offset: scan.Repaired.Original(fault.Span.Offset), fault.Message)).OrderBy(fault => fault.Offset).ToList();
            Report(places, scan, faults, findings);
            return new TreeBuilder(places, scan, [.. faults.Select(fault => fault.Offset)], findings).Build(document);
        }
        catch (TomlException fault)
        {
            // Not known to happen: the scan stops what is known to make the parser throw.
            findings.Add(Finding.Stop("toml-syntax", $"the file can't be read: {Shown.Short(fault.Message)}", "Check its brackets and quotes.", places.Span(0, 0)));
            return Empty(places.Span(0, 0).File);
        }
    }

    /// <summary>One finding a line: what the parser says after the first fault of a line follows from it.</summary>
    private static void Report(Places places, TomlScan scan, List<(int Offset, string Message)> faults, List<Finding> findings)
    {
        var lastLine = 0;
        foreach (var (offset, message) in faults)
        {
            var line = places.Line(offset);
            if (line != lastLine && !scan.IsFaultyLine(line) && !(lastLine > 0 && SyntaxFault.IsAftermath(places, offset, message)))
            {
                findings.Add(SyntaxFault.Explain(places, offset, message));
            }

            lastLine = line;
        }
    }

    private static TableNode Empty(string fileName) => new([], false, new(fileName, 0, 0, 1, 1));

    private static Checked<TableNode> Result(TableNode table, List<Finding> findings)
    {
        var inOrder = findings.OrderBy(finding => finding.Span?.Offset ?? 0).ToList();
        if (inOrder.Count > MostFindings)
        {
            var more = inOrder.Count - MostFindings;
            inOrder.RemoveRange(MostFindings, more);
            inOrder.Add(Finding.Stop(
                "toml-syntax",
                string.Create(CultureInfo.InvariantCulture, $"there are {more} more faults like these"),
                "Mend the first ones and read the file again.",
                inOrder[^1].Span));
        }

        return new(table, [.. inOrder]);
    }
}
