using System;
using System.Globalization;
using System.Threading;

namespace Lampblack.Cutting;

/// <summary>How much a search may work.</summary>
/// <param name="MostSteps">Steps after which it ends with the best plan so far. Steps, unlike seconds, are the same on every machine.</param>
/// <param name="Stop">Ends it with the best plan so far.</param>
/// <param name="Progress">Told how far it is.</param>
public sealed record CutEffort(long MostSteps, CancellationToken Stop, IProgress<string>? Progress = null);

/// <summary>Counts steps, and says when to end.</summary>
internal sealed class Work(CutEffort effort)
{
    private const int Often = 1 << 16;
    private long _next = Often;
    private long _limit = effort.MostSteps;

    public long Steps { get; private set; }

    /// <summary>Whether the search has to end: out of steps, or stopped.</summary>
    public bool IsOver { get; private set; }

    /// <summary>Whether it ended because it was stopped from outside.</summary>
    public bool IsStopped => IsOver && effort.Stop.IsCancellationRequested;

    /// <summary>Takes steps; false once there are none left.</summary>
    public bool Spend(long steps = 1)
    {
        Steps += steps;
        if (Steps >= _next)
        {
            _next = Steps + Often;
            IsOver |= Steps >= _limit || effort.Stop.IsCancellationRequested;
            effort.Progress?.Report(string.Create(CultureInfo.InvariantCulture, $"planning the cuts: {Steps / 1000} thousand steps"));
        }

        return !IsOver;
    }

    /// <summary>Does a part of the work with its own limit within the whole; whether the part came to its end.</summary>
    public T Within<T>(long steps, Func<T> part)
    {
        var whole = _limit;
        (_limit, _next) = (Math.Min(whole, Steps + steps), Math.Min(_next, Steps + steps));
        var result = part();
        _limit = whole;
        IsOver = Steps >= _limit || effort.Stop.IsCancellationRequested;
        return result;
    }
}
