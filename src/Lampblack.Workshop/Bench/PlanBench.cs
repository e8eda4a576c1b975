using System;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using System.Threading.Tasks;
using Lampblack.Findings;
using Lampblack.Jobs;

namespace Lampblack.Workshop.Bench;

/// <summary>Plans a desk's light or wires, or writes its book, beside everything else. Only the newest desk is worth it: what was begun for an older one is dropped. Safe to use from several threads.</summary>
/// <typeparam name="TView">What a station shows of the plan.</typeparam>
/// <param name="plan">Plans a desk: told of progress, stopped with what there is so far, or ended.</param>
/// <param name="found">What a plan found.</param>
/// <param name="told">Told when a plan is through.</param>
public sealed class PlanBench<TView>(Func<DeskView, IProgress<string>, CancellationToken, CancellationToken, TView> plan, Func<TView, ImmutableArray<Finding>> found, Action told) : IDisposable
    where TView : class
{
    // Edits come in bursts; only the last state of one is worth the work.
    private static readonly TimeSpan Moment = TimeSpan.FromMilliseconds(500);

    private readonly Lock _lock = new();
    private Work? _work;
    private Wanted? _shown;

    /// <summary>Told whenever there is something new to show of the work, on any thread.</summary>
    public event Action? Changed;

    /// <summary>The newest plan; of an earlier desk until the next one is through. Null before the first.</summary>
    public TView? View { get; private set; }

    /// <summary>What is being done, in a few words; null when it rests.</summary>
    public string? Doing { get; private set; }

    /// <summary>Why there is no plan; null where there is no reason.</summary>
    public string? Problem { get; private set; }

    /// <summary>Whether the plan that is shown is of an earlier desk.</summary>
    public bool IsOld { get; private set; }

    /// <summary>What the plan of this very desk found; empty for an earlier one's.</summary>
    public ImmutableArray<Finding> Findings => !IsOld && View is { } view ? found(view) : [];

    /// <summary>A station shows the plan of this desk: it is made, unless it is already.</summary>
    /// <param name="desk">The desk.</param>
    /// <param name="settings">What is known of the printer.</param>
    public void Want(DeskView desk, BenchSettings settings)
    {
        ArgumentNullException.ThrowIfNull(desk);
        ArgumentNullException.ThrowIfNull(settings);
        Wanted wanted = new(desk, settings);
        Work work;
        lock (_lock)
        {
            if (_work is { } now ? now.Wanted.IsSame(wanted) : _shown?.IsSame(wanted) == true)
            {
                return;
            }

            End();
            _work = work = new(wanted);
            Doing = "waiting for the last change";
        }

        _ = Task.Run(() => Run(work));
    }

    /// <summary>The plan is made once more, though the desk is the same: something else that it depends on has changed.</summary>
    /// <param name="desk">The desk.</param>
    /// <param name="settings">What is known of the printer.</param>
    public void Anew(DeskView desk, BenchSettings settings)
    {
        lock (_lock)
        {
            End();
            (_shown, IsOld) = (null, true);
        }

        Want(desk, settings);
    }

    /// <summary>The desk is another one: a plan of an older one is of no use any more.</summary>
    /// <param name="desk">The desk as it is.</param>
    /// <param name="settings">What is known of the printer.</param>
    public void Follow(DeskView desk, BenchSettings settings)
    {
        Wanted now = new(desk, settings);
        lock (_lock)
        {
            IsOld = _shown?.IsSame(now) != true;
            if (_work is { } work && !work.Wanted.IsSame(now))
            {
                End();
            }
        }
    }

    /// <summary>Ends the search; the best places so far are taken.</summary>
    public void Stop()
    {
        lock (_lock)
        {
            _work?.Stopping.Cancel();
        }
    }

    /// <inheritdoc />
    public void Dispose()
    {
        lock (_lock)
        {
            End();
        }
    }

    private void End()
    {
        _work?.Ending.Cancel();
        (_work, Doing) = (null, null);
    }

    private async Task Run(Work work)
    {
        TView? view = null;
        string? problem = "something went wrong that should not have";
        try
        {
            await Task.Delay(Moment, work.Ending.Token).ConfigureAwait(false);
            ToldAtOnce progress = new(words => Say(work, words));
            view = plan(work.Wanted.Desk, progress, work.Stopping.Token, work.Ending.Token);
            problem = null;
        }
        catch (OperationCanceledException)
        {
            // Dropped for a newer desk.
        }
        catch (AggregateException several) when (several.InnerExceptions.All(one => one is OperationCanceledException))
        {
            // The same, out of work that is shared out.
        }
        catch (InvalidOperationException fault)
        {
            problem = fault.Message;
        }
        finally
        {
            // Whatever happened: nothing is left waiting.
            if (Ended(work, view, problem))
            {
                told();
                Changed?.Invoke();
            }
        }
    }

    /// <summary>Takes what came of the work; false where it was dropped for a newer desk.</summary>
    private bool Ended(Work work, TView? view, string? problem)
    {
        lock (_lock)
        {
            if (_work != work)
            {
                return false;
            }

            (_work, Doing, Problem) = (null, null, problem);
            if (view is not null)
            {
                (View, _shown, IsOld) = (view, work.Wanted, false);
            }

            return true;
        }
    }

    private void Say(Work work, string words)
    {
        lock (_lock)
        {
            if (_work != work)
            {
                return;
            }

            Doing = words;
        }

        Changed?.Invoke();
    }

    private sealed record Wanted(DeskView Desk, BenchSettings Settings)
    {
        /// <summary>Whether a plan for the one is a plan for the other: the same text, the same printer and black.</summary>
        public bool IsSame(Wanted other) =>
            Settings == other.Settings && (ReferenceEquals(Desk, other.Desk) || Desk.Source.Bytes.AsSpan().SequenceEqual(other.Desk.Source.Bytes.AsSpan()));
    }

    private sealed class Work(Wanted wanted)
    {
        public Wanted Wanted { get; } = wanted;

        public CancellationTokenSource Stopping { get; } = new();

        public CancellationTokenSource Ending { get; } = new();
    }
}
