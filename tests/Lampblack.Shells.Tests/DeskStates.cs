using System;
using System.Collections.Generic;
using System.Text;
using Lampblack.Edits;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Shells.Tests;

/// <summary>A row of edits that a program makes until it is killed, and the states of the desk file that it goes through: the same in the program and in the test.</summary>
internal static class DeskStates
{
    /// <summary>Names the desk that the program is to edit.</summary>
    internal const string Variable = "LAMPBLACK_TEST_JOURNAL";

    internal const string Desk =
        "lampblack = 1\n# invented\n[[panel]]\nid = \"p\"\nsize = [200, 60]\n[[panel.control]]\nid = \"lamp\"\npart = \"hole-6\"\nat = [20, 20]\nlegend = \"LAMP 🔥\"\n";

    /// <summary>Edits until somebody ends the process; says the number of each step once it has been told to be done.</summary>
    internal static void Run(string desk)
    {
        using DeskJournal journal = DeskJournal.Open(desk);
        Console.Out.WriteLine("ready");
        for (int step = 1; ; step++)
        {
            JournalOutcome outcome = IsUndo(step) ? journal.Undo() : journal.Write(Edit.Apply(journal.Desk.Source, EditOf(step)));
            Console.Out.WriteLine(outcome.Result == JournalResult.Done ? FormattableString.Invariant($"{step}") : outcome.Message);
            Console.Out.Flush();
        }
    }

    /// <summary>The states from the first on, as many as a number of steps makes.</summary>
    internal static List<string> Until(int steps)
    {
        List<string> states = [Desk];
        for (int step = 1; step <= steps; step++)
        {
            byte[] now = Encoding.UTF8.GetBytes(states[^1]);
            states.Add(IsUndo(step) ? states[^2] : Encoding.UTF8.GetString(Edit.Apply(new DeskSource("desk.toml", [.. now], new Nothing()), EditOf(step)).Bytes.AsSpan()));
        }

        return states;
    }

    // Every fifth step takes the one before it back.
    private static bool IsUndo(int step) => step % 5 == 0;

    private static DeskEdit EditOf(int step) => step % 2 == 0
        ? new SetWords("p/lamp", [FormattableString.Invariant($"LAMP {step} 🔥")])
        : new MoveItems([new("p/lamp", step % 4 == 1 ? 1 : -1, 0.25)]);

    private sealed class Nothing : IDeskFiles
    {
        public FileReading Read(string relativePath, long limitBytes) => new([], "is not there");
    }
}
