using System;
using System.Collections.Immutable;
using System.IO;
using System.Threading;
using Lampblack.Findings;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Cli.Commands;

/// <summary>One run of <c>lampblack rollcall</c>.</summary>
internal static class RollCallRun
{
    /// <summary>Calls the roll until it is through or stopped.</summary>
    internal static int Run(Call call, RollCallAsked asked)
    {
        (DeskSource? desk, ImmutableArray<byte> plan) = PanelArguments.Read(call, asked.Desk, asked.Plan);
        ImmutableArray<byte> earlier = asked.Record is { } file && File.Exists(file) ? call.Await(() => OpenedArt.Open(file, 10_000_000)).Bytes : [];
        Checked<RollCalling?> begun = CallRoll.Begin(desk, plan, asked.Plan ?? string.Empty, [.. asked.Only], earlier, asked.Record ?? string.Empty, asked.Simulate, call.Cancellation);
        PanelArguments.Complain(call, begun.Findings);
        if (begun.Value is not { } roll)
        {
            if (call.IsJson)
            {
                JsonAnswer.Print(asked.Schema, ExitCodes.Stopped, writer => JsonAnswer.WriteFindings(writer, begun.Findings));
            }

            return ExitCodes.Stopped;
        }

        using Simulator? simulator = PanelArguments.Simulated(call, asked.Simulate, asked.Faults, desk, plan, asked.Plan ?? string.Empty);
        string port = simulator?.Port ?? asked.Port;
        PanelLine line = new(port, roll);
        RollCallQuestion? shown = null;
        bool wasSaid = false;

        // Questions are for people: machines read the standard output.
        void Tell(string text)
        {
            if (call.IsJson)
            {
                call.Terminal.Complain(text);
            }
            else
            {
                call.Terminal.Insist(text);
            }
        }

        RollCallKeeper? keeper = asked.Record is null ? null : new(asked.Record, roll)
        {
            PutAside = aside => Tell($"{ShownPath.Of(asked.Record)} is no record of this plan; it is kept as {ShownPath.Of(aside)}."),
            Failed = problem => Tell($"{problem} The roll is called all the same."),
        };
        line.Missing = reason => Tell($"{port}: {reason}. Waiting for it; Ctrl-C ends.");
        line.After = () =>
        {
            foreach (string sentence in roll.TakeSaid())
            {
                Tell($"  {sentence}");
                wasSaid = true;
            }

            keeper?.Follow();
            RollCallQuestion? question = roll.Question;
            if (question is null || (question.Sentence == shown?.Sentence && !wasSaid))
            {
                return;
            }

            if (question.Id != shown?.Id)
            {
                foreach (string row in question.Map)
                {
                    Tell($"    {row}");
                }
            }

            Tell(question.Number == 0 ? question.Sentence : FormattableString.Invariant($"[{question.Number}/{question.Count}] {question.Sentence}{(question.MayBeOther ? " (Enter yes, n no, o another one)" : question.IsQuestion ? " (Enter yes, n no)" : string.Empty)}"));
            (shown, wasSaid) = (question, false);
        };
        Thread typing = new(() => PanelArguments.Type(line, simulator)) { IsBackground = true, Name = "typing" };
        typing.Start();
        line.Run(call.Cancellation);

        keeper?.Keep();
        int exit = call.Cancellation.IsCancellationRequested || roll.IsStopped ? ExitCodes.Interrupted : roll.IsGood ? ExitCodes.Fine : ExitCodes.Stopped;
        if (call.IsJson)
        {
            JsonAnswer.Print(asked.Schema, exit, writer =>
            {
                roll.WriteTo(writer);
                JsonAnswer.WriteFindings(writer, begun.Findings);
            });
            return exit;
        }

        foreach (string text in roll.Lines)
        {
            call.Terminal.Insist(text);
        }

        if (asked.Record is not null && roll.HasBegun)
        {
            call.Terminal.Say($"The record is in {ShownPath.Of(asked.Record)}; call again with it to go on.");
        }

        return exit;
    }
}
