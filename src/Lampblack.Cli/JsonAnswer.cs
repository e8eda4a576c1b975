using System;
using System.Buffers;
using System.Collections.Generic;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Unicode;
using Lampblack.Findings;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Cli;

/// <summary>One JSON object on the standard output, and nothing beside it.</summary>
internal static class JsonAnswer
{
    private static readonly JsonWriterOptions Options = new() { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.Create(UnicodeRanges.All) };

    /// <summary>Prints an object.</summary>
    /// <param name="schema">Name and version of its form.</param>
    /// <param name="exit">The exit code that goes with it.</param>
    /// <param name="content">Writes its other properties.</param>
    internal static void Print(string schema, int exit, Action<Utf8JsonWriter> content)
    {
        ArrayBufferWriter<byte> bytes = new();
        using (Utf8JsonWriter writer = new(bytes, Options))
        {
            writer.WriteStartObject();
            writer.WriteString("schema", schema);
            writer.WriteString("version", Program.Version);
            writer.WriteNumber("exit", exit);
            content(writer);
            writer.WriteEndObject();
        }

        bytes.Write("\n"u8);
        Terminal.SayBytes(bytes.WrittenSpan);
    }

    /// <summary>Writes the property <c>findings</c>; lines and columns are one-based, columns count code points.</summary>
    /// <param name="writer">The object's writer.</param>
    /// <param name="findings">The findings.</param>
    internal static void WriteFindings(Utf8JsonWriter writer, IEnumerable<Finding> findings)
    {
        writer.WriteStartArray("findings");
        foreach (Finding finding in findings)
        {
            writer.WriteStartObject();
            writer.WriteString("severity", FindingLines.Name(finding.Severity));
            writer.WriteString("code", finding.Code);
            if (finding.Span is { } span)
            {
                writer.WriteString("file", span.File);
                writer.WriteNumber("line", span.Line);
                writer.WriteNumber("column", span.Column);
            }
            else
            {
                writer.WriteNull("file");
                writer.WriteNull("line");
                writer.WriteNull("column");
            }

            writer.WriteString("item", finding.Item);
            writer.WriteString("message", finding.Message);
            writer.WriteString("hint", finding.Hint);
            if (finding.Accepted is { } because)
            {
                writer.WriteString("accepted", because);
            }

            writer.WriteEndObject();
        }

        writer.WriteEndArray();
    }

    /// <summary>Writes the properties <c>files</c> and <c>removed</c>.</summary>
    /// <param name="writer">The object's writer.</param>
    /// <param name="files">The files that were made.</param>
    /// <param name="writing">How they were written; null where nothing was.</param>
    internal static void WriteFiles(Utf8JsonWriter writer, IEnumerable<OutputFile> files, OutputWriting? writing)
    {
        writer.WriteStartArray("files");
        foreach (OutputFile file in files)
        {
            writer.WriteStartObject();
            writer.WriteString("path", file.Path);
            writer.WriteString("purpose", file.Purpose);
            writer.WriteNumber("bytes", file.Bytes.Length);
            writer.WriteBoolean("changed", writing is not null && writing.Written.Contains(file.Path));
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
        WriteTexts(writer, "removed", writing?.Removed ?? []);
    }

    /// <summary>Writes a property that is a list of texts.</summary>
    /// <param name="writer">The object's writer.</param>
    /// <param name="name">The property.</param>
    /// <param name="texts">The texts.</param>
    internal static void WriteTexts(Utf8JsonWriter writer, string name, IEnumerable<string> texts)
    {
        writer.WriteStartArray(name);
        foreach (string text in texts)
        {
            writer.WriteStringValue(text);
        }

        writer.WriteEndArray();
    }
}
