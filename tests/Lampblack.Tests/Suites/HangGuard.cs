using System;
using System.Diagnostics;
using System.Globalization;
using System.Runtime.ExceptionServices;
using System.Threading;
using Xunit;

namespace Lampblack.Tests.Suites;

/// <summary>Runs many cases beside each other and fails, naming the case, where one throws or does not end.</summary>
internal static class HangGuard
{
    /// <summary>How long one case may take. Generous: other work may share the machine.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(300);

    /// <summary>Runs the cases 0 to count - 1.</summary>
    /// <param name="count">How many.</param>
    /// <param name="run">One case.</param>
    /// <param name="describe">What a case is, for the message; called only for one that fails.</param>
    /// <param name="patience">How long one may take; the usual where null.</param>
    public static void Run(int count, Action<int> run, Func<int, string> describe, TimeSpan? patience = null)
    {
        var limit = patience ?? Patience;
        var next = -1;
        var failed = -1;
        ExceptionDispatchInfo? failure = null;
        var lanes = new Lane[Math.Clamp(Environment.ProcessorCount, 1, 4)];
        for (var index = 0; index < lanes.Length; index++)
        {
            var lane = lanes[index] = new Lane();

            // A thread of its own, which the process does not wait for: nothing else can leave a case that never ends behind.
            new Thread(() => Work(lane)) { IsBackground = true }.Start();
        }

        foreach (var lane in lanes)
        {
            while (!lane.Done.Wait(200))
            {
                foreach (var other in lanes)
                {
                    if (other.Case is var stuck and >= 0 && Stopwatch.GetElapsedTime(Volatile.Read(ref other.Since)) > limit && other.Case == stuck)
                    {
                        Assert.Fail(string.Create(CultureInfo.InvariantCulture, $"case {stuck} did not end within {limit.TotalSeconds} s:\n{describe(stuck)}"));
                    }
                }
            }
        }

        if (failure is not null)
        {
            Assert.Fail(string.Create(CultureInfo.InvariantCulture, $"case {failed}: {failure.SourceException}\n{describe(failed)}"));
        }

        void Work(Lane lane)
        {
            for (var mine = Interlocked.Increment(ref next); mine < count && failure is null; mine = Interlocked.Increment(ref next))
            {
                Volatile.Write(ref lane.Since, Stopwatch.GetTimestamp());
                lane.Case = mine;
                try
                {
                    run(mine);
                }
#pragma warning disable CA1031 // Whatever is thrown is the failure of this case.
                catch (Exception exception)
#pragma warning restore CA1031
                {
                    failed = mine;
                    failure = ExceptionDispatchInfo.Capture(exception);
                }
            }

            lane.Case = -1;
            lane.Done.Set();
        }
    }

    private sealed class Lane
    {
        public volatile int Case = -1;
        public long Since;

        public ManualResetEventSlim Done { get; } = new();
    }
}
