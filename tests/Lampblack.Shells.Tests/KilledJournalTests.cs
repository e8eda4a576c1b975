using System;
using System.Collections.Generic;
using System.Diagnostics;
using System.Globalization;
using System.IO;
using System.Threading;
using System.Threading.Tasks;
using Lampblack.Host;
using Xunit;

namespace Lampblack.Shells.Tests;

/// <summary>A program is killed while it edits a desk, as by a power cut that the disk survives.</summary>
public sealed class KilledJournalTests
{
    private static readonly int Kills = Environment.GetEnvironmentVariable("LAMPBLACK_LONG") == "1" ? 200 : 20;

    [Fact]
    public void A_killed_program_leaves_a_state_that_was_written_and_loses_at_most_the_edit_under_way()
    {
        Random random = new(20261127);
        (int completed, int early, int torn) = (0, 0, 0);
        for (int kill = 0; kill < Kills; kill++)
        {
            using WorkFolder work = new();
            work.Put("desk.toml", DeskStates.Desk);
            int last = RunAndKill(work, random.Next(12), random.NextDouble());
            List<string> states = DeskStates.Until(last + 1);
            string found = File.ReadAllText(work.Below("desk.toml"));
            Assert.Contains(found, states[last..]);
            byte[] journalBytes = File.Exists(work.Below(".lampblack/desk.journal")) ? File.ReadAllBytes(work.Below(".lampblack/desk.journal")) : [];
            torn += journalBytes.Length > 0 && journalBytes[^1] != (byte)'\n' ? 1 : 0;

            using DeskJournal journal = DeskJournal.Open(work.Full);
            string now = File.ReadAllText(work.Below("desk.toml"));
            Assert.Contains(now, states[last..]);
            Assert.Equal(now, System.Text.Encoding.UTF8.GetString(journal.Desk.Source.Bytes.AsSpan()));
            Assert.True(journal.Notice is null || (journal.Notice.Contains("completed", StringComparison.Ordinal) && now == states[last + 1]), journal.Notice);
            completed += journal.Notice is null ? 0 : 1;
            early += last == 0 ? 1 : 0;
            while (journal.NextUndo is not null)
            {
                Assert.Equal(JournalResult.Done, journal.Undo().Result);
            }

            Assert.Equal(DeskStates.Desk, File.ReadAllText(work.Below("desk.toml")));
        }

        TestContext.Current.SendDiagnosticMessage("{0} kills: {1} steps completed on opening, {2} torn lines, {3} before the first step was done", Kills, completed, torn, early);
        if (Environment.GetEnvironmentVariable("LAMPBLACK_KILLS") is { } path)
        {
            File.WriteAllText(path, string.Create(CultureInfo.InvariantCulture, $"{Kills} kills, {completed} completed on opening, {torn} torn lines, {early} before the first step"));
        }
    }

    /// <summary>Lets the program make a number of steps, and kills it somewhere in the next ones.</summary>
    /// <returns>The last step that it said to be done.</returns>
    private static int RunAndKill(WorkFolder work, int steps, double share)
    {
        Dictionary<string, string> variables = new() { ["DOTNET_STARTUP_HOOKS"] = typeof(StartupHook).Assembly.Location, [DeskStates.Variable] = work.Full };
        using Process process = ProgramRun.Start(work.Full, variables, "--version");
        Task<string> errors = process.StandardError.ReadToEndAsync();
        Assert.Equal("ready", process.StandardOutput.ReadLine());

        int last = 0;
        while (last < steps)
        {
            last = Step(process.StandardOutput.ReadLine());
        }

        // The first step is slow, as the program is still being compiled then.
        Thread.Sleep((int)(share * (steps == 0 ? 500 : 25)));
        process.Kill();
        process.WaitForExit();
        while (process.StandardOutput.ReadLine() is { } line)
        {
            last = Step(line);
        }

        return last;

        int Step(string? line)
        {
            if (!int.TryParse(line, NumberStyles.None, CultureInfo.InvariantCulture, out int step))
            {
                process.Kill();
                Assert.Fail($"{line} {errors.GetAwaiter().GetResult()}");
            }

            return step;
        }
    }
}
