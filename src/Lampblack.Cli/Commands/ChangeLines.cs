using System.Collections.Generic;
using System.Linq;
using System.Text.Json;
using Lampblack.Jobs;

namespace Lampblack.Cli.Commands;

/// <summary>What a build changed, on the terminal and for machines.</summary>
internal static class ChangeLines
{
    /// <summary>Says it, below the summary; nothing where there was no build to compare with.</summary>
    /// <param name="terminal">Where to say it.</param>
    /// <param name="changes">The changes.</param>
    internal static void Say(Terminal terminal, IReadOnlyCollection<BuildChange> changes)
    {
        if (changes.Count == 0)
        {
            return;
        }

        if (changes.Count == 1 && changes.First().Kind == "same")
        {
            terminal.Say($"Since the last build {changes.First().Sentence}.");
            return;
        }

        terminal.Say("Since the last build:");
        foreach (BuildChange change in changes)
        {
            terminal.Say($"  {change.Sentence}");
        }
    }

    /// <summary>Writes the property <c>changes</c>.</summary>
    /// <param name="writer">The answer's writer.</param>
    /// <param name="changes">The changes.</param>
    internal static void Write(Utf8JsonWriter writer, IEnumerable<BuildChange> changes)
    {
        writer.WriteStartArray("changes");
        foreach (BuildChange change in changes)
        {
            writer.WriteStartObject();
            writer.WriteString("item", change.Item);
            writer.WriteString("kind", change.Kind);
            writer.WriteString("sentence", change.Sentence);
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
    }
}
