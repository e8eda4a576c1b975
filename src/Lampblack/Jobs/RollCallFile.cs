using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Text.Json;
using Lampblack.Findings;
using Lampblack.RollCalls;

namespace Lampblack.Jobs;

/// <summary>The record of a roll-call as a file, and read back.</summary>
internal static class RollCallFile
{
    /// <summary>Name and version of the file's form.</summary>
    public const string Schema = "lampblack-rollcall/1";

    /// <summary>Writes the record's properties into an object.</summary>
    public static void Write(Utf8JsonWriter json, string plan, RollCallRecord record)
    {
        json.WriteString("plan", plan);
        json.WriteBoolean("good", record.IsGood);
        json.WriteStartArray("controls");
        foreach (var result in record.Results)
        {
            json.WriteStartObject();
            json.WriteString("id", result.Id);
            json.WriteString("name", result.Name);
            json.WriteString("verdict", Word(result.Verdict));
            json.WriteStartArray("said");
            foreach (var sentence in result.Said)
            {
                json.WriteStringValue(sentence);
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("causes");
        foreach (var cause in record.Causes)
        {
            json.WriteStringValue(cause);
        }

        json.WriteEndArray();
        json.WriteBoolean("oneCause", record.IsOneCause);
        json.WriteStartArray("bounces");
        foreach (var bounce in record.Bounces)
        {
            json.WriteStartObject();
            json.WriteString("contact", bounce.Contact);
            json.WriteNumber("changes", bounce.Changes);
            json.Number("milliseconds", bounce.Ticks / 8.0, 3);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    /// <summary>Whether a file is a record of a plan.</summary>
    public static bool IsOf(ReadOnlySpan<byte> bytes, string plan)
    {
        List<Finding> findings = [];
        _ = Earlier(bytes, string.Empty, plan, findings);
        return findings.Count == 0;
    }

    /// <summary>What became of those who were called, in an earlier record of the same plan.</summary>
    public static ImmutableArray<RollCallResult> Earlier(ReadOnlySpan<byte> bytes, string name, string plan, List<Finding> findings)
    {
        try
        {
            using var document = JsonDocument.Parse(bytes.ToArray());
            var root = document.RootElement;
            if (root.GetProperty("schema").GetString() != Schema)
            {
                throw new FormatException($"its schema is not {Schema}");
            }

            if (root.GetProperty("plan").GetString() != plan)
            {
                findings.Add(Finding.Note("rollcall-other-plan", $"{Shown.Code(name)} is of another plan of the wires, and is kept under another name; every control is called again"));
                return [];
            }

            return
            [
                .. root.GetProperty("controls").EnumerateArray()
                    .Select(one => new RollCallResult(
                        one.GetProperty("id").GetString() ?? throw new FormatException("an id is missing"),
                        one.GetProperty("name").GetString() ?? throw new FormatException("a name is missing"),
                        VerdictOf(one.GetProperty("verdict").GetString()),
                        [.. one.GetProperty("said").EnumerateArray().Select(sentence => sentence.GetString() ?? string.Empty)]))
                    .Where(result => result.Verdict != RollCallVerdict.NotCalled)
                    .DistinctBy(result => result.Id),
            ];
        }
        catch (Exception problem) when (problem is JsonException or FormatException or InvalidOperationException or KeyNotFoundException)
        {
            findings.Add(Finding.Stop("rollcall-file", $"{Shown.Code(name)} is no record of a roll-call: {Shown.Short(problem.Message)}", "name another file, so that nothing of yours is written over"));
            return [];
        }
    }

    private static string Word(RollCallVerdict verdict) => verdict switch
    {
        RollCallVerdict.Answered => "answered",
        RollCallVerdict.Wrong => "wrong",
        RollCallVerdict.Skipped => "skipped",
        _ => "not-called",
    };

    private static RollCallVerdict VerdictOf(string? word) => Enum.GetValues<RollCallVerdict>().Where(verdict => Word(verdict) == word).Select(verdict => (RollCallVerdict?)verdict).FirstOrDefault()
        ?? throw new FormatException("a verdict is none");
}
