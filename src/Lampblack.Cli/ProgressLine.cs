using System;
using System.Threading;

namespace Lampblack.Cli;

/// <summary>Shows what is being made, but only to somebody who watches and only when it takes longer than a moment.</summary>
internal sealed class ProgressLine : IProgress<string>, IDisposable
{
    // A second is where a person begins to wonder (common practice, no source).
    private static readonly TimeSpan Moment = TimeSpan.FromSeconds(1);

    private readonly Terminal terminal;
    private readonly Timer? timer;
    private readonly Lock gate = new();
    private string current = string.Empty;
    private bool isShown;
    private bool isOver;

    /// <summary>A line on a terminal.</summary>
    /// <param name="terminal">Where to show it.</param>
    internal ProgressLine(Terminal terminal)
    {
        this.terminal = terminal;
        timer = terminal.ShowsProgress ? new Timer(_ => Show(), null, Moment, Timeout.InfiniteTimeSpan) : null;
    }

    /// <inheritdoc />
    public void Report(string value)
    {
        terminal.Log(value);
        lock (gate)
        {
            current = value;
            if (isShown && !isOver)
            {
                terminal.Progress(current);
            }
        }
    }

    /// <inheritdoc />
    public void Dispose()
    {
        timer?.Dispose();
        lock (gate)
        {
            isOver = true;
            if (isShown)
            {
                terminal.Progress(string.Empty);
            }
        }
    }

    private void Show()
    {
        lock (gate)
        {
            if (!isOver)
            {
                isShown = true;
                terminal.Progress(current);
            }
        }
    }
}
