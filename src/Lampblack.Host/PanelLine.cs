using System;
using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.IO;
using System.Threading;
using Lampblack.Jobs;

namespace Lampblack.Host;

/// <summary>Keeps a talk with a panel going: opens the port, carries bytes, and opens it again whenever it was lost.</summary>
public sealed class PanelLine
{
    private const int AgainMs = 500;
    private const int LongestWaitMs = 250;

    /// <summary>As long the one who talks may put things right after a stop.</summary>
    private const int EndingMs = 1000;

    private readonly string name;
    private readonly IPanelTalk talk;
    private readonly Func<string, int, IPanelPort> open;
    private readonly BlockingCollection<Message> inbox = [];

    /// <summary>A line that is not open yet.</summary>
    /// <param name="name">The port.</param>
    /// <param name="talk">Who talks.</param>
    public PanelLine(string name, IPanelTalk talk)
        : this(name, talk, PanelPorts.Open)
    {
    }

    /// <summary>The same with another way of opening.</summary>
    internal PanelLine(string name, IPanelTalk talk, Func<string, int, IPanelPort> open) => (this.name, this.talk, this.open) = (name, talk, open);

    /// <summary>Called after each step, on the line's thread.</summary>
    public Action? After { get; set; }

    /// <summary>Told once each time the port can't be opened, with the reason.</summary>
    public Action<string>? Missing { get; set; }

    /// <summary>Hands a line to the talk, from any thread.</summary>
    /// <param name="line">The line.</param>
    public void Post(string line) => inbox.Add(new(null, line, null));

    /// <summary>Runs until it is stopped or the talk is done. Never throws for what the line does.</summary>
    /// <param name="stop">Stops it.</param>
    public void Run(CancellationToken stop)
    {
        string? told = null;
        while (!stop.IsCancellationRequested && !talk.IsDone)
        {
            IPanelPort port;
            try
            {
                port = open(name, talk.Baud);
            }
            catch (IOException problem)
            {
                if (told != problem.Message)
                {
                    told = problem.Message;
                    Missing?.Invoke(problem.Message);
                }

                long end = Environment.TickCount64 + AgainMs;
                while (Environment.TickCount64 < end && !stop.IsCancellationRequested && !talk.IsDone)
                {
                    Step(null, stop, end);
                }

                continue;
            }

            told = null;
            using (port)
            {
                Talk(port, stop);
            }

            if (!stop.IsCancellationRequested && !talk.IsDone)
            {
                talk.Closed(Environment.TickCount64);
                After?.Invoke();
            }
        }
    }

    private void Talk(IPanelPort port, CancellationToken stop)
    {
        using CancellationTokenSource reading = new();
        Thread thread = new(() => ReadAll(port, reading.Token)) { IsBackground = true, Name = "panel" };
        thread.Start();
        try
        {
            port.Write(talk.Opened(Environment.TickCount64).AsSpan());
            After?.Invoke();
            while (!stop.IsCancellationRequested && !talk.IsDone && Step(port, stop, long.MaxValue))
            {
            }

            if (stop.IsCancellationRequested && !talk.IsDone && talk.HasEnding)
            {
                End(port);
            }
        }
        catch (IOException)
        {
            // The port is gone; it is opened again.
        }

        reading.Cancel();
        thread.Join();
    }

    /// <summary>Lamps are not left on, nor reports, because somebody stopped.</summary>
    private void End(IPanelPort port)
    {
        long end = Environment.TickCount64 + EndingMs;
        port.Write(talk.End(Environment.TickCount64).AsSpan());
        After?.Invoke();
        while (!talk.IsDone && Environment.TickCount64 < end && Step(port, CancellationToken.None, end))
        {
        }
    }

    /// <summary>One message, or the time; false where the port is gone.</summary>
    private bool Step(IPanelPort? port, CancellationToken stop, long endMs)
    {
        long now = Environment.TickCount64;
        long wait = Math.Clamp((port is null ? endMs : talk.DueMs) - now, 1, LongestWaitMs);
        Message? message;
        try
        {
            inbox.TryTake(out message, (int)wait, stop);
        }
        catch (OperationCanceledException)
        {
            return false;
        }

        now = Environment.TickCount64;
        if (message is { Bytes: null, Line: null })
        {
            return message.From != port;
        }

        ImmutableArray<byte> send = message?.Bytes is { } bytes ? message.From == port ? talk.Received(bytes, now) : []
            : message?.Line is { } line ? talk.Typed(line, now)
            : port is null ? [] : talk.Tick(now);
        if (port is not null && !send.IsDefaultOrEmpty)
        {
            port.Write(send.AsSpan());
        }

        After?.Invoke();
        return true;
    }

    private void ReadAll(IPanelPort port, CancellationToken stop)
    {
        byte[] buffer = new byte[4096];
        try
        {
            while (!stop.IsCancellationRequested)
            {
                int count = port.Read(buffer);
                if (count > 0)
                {
                    inbox.Add(new(buffer[..count], null, port), CancellationToken.None);
                }
            }
        }
        catch (IOException)
        {
            inbox.Add(new(null, null, port), CancellationToken.None);
        }
    }

    private sealed record Message(byte[]? Bytes, string? Line, IPanelPort? From);
}
