using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.IO;
using System.Linq;
using System.Text;
using System.Threading;
using Lampblack.Findings;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Cli.Commands;

/// <summary>One run of <c>lampblack listen</c>.</summary>
internal static class ListenRun
{
    /// <summary>Listens until it is stopped.</summary>
    internal static int Run(Call call, ListenAsked asked)
    {
        (DeskSource? desk, ImmutableArray<byte> plan) = PanelArguments.Read(call, asked.Desk, asked.Plan);
        Checked<Listening?> begun = Listen.Begin(desk, plan, asked.Plan ?? string.Empty, call.Cancellation);
        PanelArguments.Complain(call, begun.Findings);
        if (begun.Value is not { } listening)
        {
            return ExitCodes.Stopped;
        }

        using Simulator? simulator = PanelArguments.Simulated(call, asked.Simulate, asked.Faults, desk, plan, asked.Plan ?? string.Empty);
        string port = simulator?.Port ?? asked.Port;
        using Stream output = Console.OpenStandardOutput();
        using OscOutlet? osc = asked.Osc is { } place ? new(place) : null;
        using VirtualInput? joystick = asked.Joystick ? Played(() => VirtualInput.Joystick("Lampblack panel", listening.Buttons, listening.Axes)) : null;
        using VirtualInput? keyboard = asked.Keyboard ? Played(() => VirtualInput.Keyboard("Lampblack panel keys", listening.Buttons)) : null;
        TellLeftOut(call, asked, listening);
        PanelLine line = new(port, listening);
        bool isWatched = !Console.IsErrorRedirected;
        Lock words = new();
        void Say(string sentence)
        {
            lock (words)
            {
                call.Terminal.Complain(sentence);
            }
        }

        using MqttOutlet? mqtt = asked.Mqtt is { } broker
            ? new(broker, MqttLogin.Read(Environment.GetEnvironmentVariable, asked.PasswordFile), listening.Lamps, line.Post, Say)
            : null;
        using CancellationTokenSource ended = CancellationTokenSource.CreateLinkedTokenSource(call.Cancellation);
        line.Missing = reason => Say($"{port}: {reason}. Waiting for it; Ctrl-C ends.");
        line.After = () =>
        {
            foreach (string complaint in listening.TakeComplaints())
            {
                Say(complaint);
            }

            foreach (HeardEvent heard in listening.TakeHeard())
            {
                osc?.Send(heard);
                mqtt?.Send(heard);

                // What the line does is for people in any case; what hands do only where they watch and nothing else shows it.
                if (heard.Kind == "link" || (isWatched && Console.IsOutputRedirected))
                {
                    Say(heard.Said);
                }

                if (!Wrote(output, heard.Line))
                {
                    ended.Cancel();
                }
            }

            IReadOnlyCollection<HeardMove> moves = listening.TakeMoves();
            joystick?.Play(moves);
            keyboard?.Play(moves.Where(move => !move.IsAxis));
        };
        Thread typing = new(() => PanelArguments.Type(line, simulator)) { IsBackground = true, Name = "typing" };
        typing.Start();
        line.Run(ended.Token);
        return call.Cancellation.IsCancellationRequested ? ExitCodes.Interrupted : ExitCodes.Fine;
    }

    private static void TellLeftOut(Call call, ListenAsked asked, Listening listening)
    {
        if (asked.Joystick && listening.Buttons > VirtualInput.ButtonCodes.Length)
        {
            call.Terminal.Complain($"A game controller has {VirtualInput.ButtonCodes.Length} buttons, the desk needs {listening.Buttons}: the last ones are left out.");
        }

        if (asked.Joystick && listening.Axes > VirtualInput.AxisCodes.Length)
        {
            call.Terminal.Complain($"A game controller has {VirtualInput.AxisCodes.Length} axes, the desk needs {listening.Axes}: the last ones are left out.");
        }

        if (asked.Keyboard && listening.Buttons > VirtualInput.KeyCodes.Length)
        {
            call.Terminal.Complain($"There are {VirtualInput.KeyCodes.Length} keys that no keyboard has, the desk needs {listening.Buttons}: the last ones are left out.");
        }
    }

    private static VirtualInput Played(Func<VirtualInput> make)
    {
        if (!OperatingSystem.IsLinux())
        {
            throw new FileProblemException("Game controllers and keyboards are played on Linux only; take --osc or --mqtt.");
        }

        try
        {
            return make();
        }
        catch (IOException problem)
        {
            throw new FileProblemException($"No game controller or keyboard can be played: {problem.Message}.", problem);
        }
    }

    private static bool Wrote(Stream output, string line)
    {
        try
        {
            output.Write(Encoding.UTF8.GetBytes(line + "\n"));
            output.Flush();
            return true;
        }
        catch (IOException)
        {
            // Whoever read has gone.
            return false;
        }
    }
}
