using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Text;

namespace Lampblack.Formats;

/// <summary>Tables for programs: UTF-8, commas between, lines ended by CR LF (RFC 4180).</summary>
public static class CsvFile
{
    /// <summary>The file.</summary>
    /// <param name="head">The columns' names.</param>
    /// <param name="rows">The rows, one field for each column.</param>
    public static ImmutableArray<byte> Write(IEnumerable<string> head, IEnumerable<IEnumerable<string>> rows)
    {
        ArgumentNullException.ThrowIfNull(head);
        ArgumentNullException.ThrowIfNull(rows);
        var text = new StringBuilder();
        foreach (var row in rows.Prepend(head))
        {
            text.AppendJoin(',', row.Select(Quoted)).Append("\r\n");
        }

        return [.. Encoding.UTF8.GetBytes(text.ToString())];
    }

    /// <summary>A field, in quotes where it has to be; one that a table program would take for a formula gets a blank before it.</summary>
    private static string Quoted(string field)
    {
        var isFormula = field is ['=' or '+' or '-' or '@', ..] && !double.TryParse(field, NumberStyles.Float, CultureInfo.InvariantCulture, out _);
        var safe = isFormula ? " " + field : field;
        return safe.AsSpan().IndexOfAny(",\"\r\n") < 0 ? safe : $"\"{safe.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
    }
}
