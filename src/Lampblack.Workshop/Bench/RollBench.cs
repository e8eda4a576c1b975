using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using System.Threading.Tasks;
using Lampblack.Findings;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Workshop.Bench;

/// <summary>Calls the roll of a panel beside the pages. One at a time; safe to use from several threads.</summary>
public sealed class RollBench : IDisposable
{
    private const int MostSaid = 40;

    private readonly Lock _lock = new();
    private readonly List<string> _said = [];
    private Work? _work;

    /// <summary>Told whenever there is something new to show, on any thread.</summary>
    public event Action? Changed;

    /// <summary>Whether the roll is being called.</summary>
    public bool IsCalling => _work is not null;

    /// <summary>Whether the panel is a simulated one.</summary>
    public bool IsSimulated => _work?.Simulator is not null;

    /// <summary>What the maker is asked at the moment; null where nothing is.</summary>
    public RollCallQuestion? Question { get; private set; }

    /// <summary>What was said, the newest last.</summary>
    public ImmutableArray<string> Said { get; private set; } = [];

    /// <summary>The record in words; empty before the first roll-call.</summary>
    public ImmutableArray<string> Record { get; private set; } = [];

    /// <summary>The file that the record is in; null before there is one.</summary>
    public string? RecordFile { get; private set; }

    /// <summary>Why it could not be begun, or kept; null where nothing stood in the way.</summary>
    public string? Problem { get; private set; }

    /// <summary>Begins.</summary>
    /// <param name="desk">The desk.</param>
    /// <param name="plan">The pin plan of its last build; empty for none.</param>
    /// <param name="port">The port; empty for a simulated panel.</param>
    /// <param name="only">Who is called; empty for all.</param>
    /// <param name="recordFile">Where the record is kept.</param>
    /// <param name="earlier">The record that is gone on with; empty to call everybody.</param>
    public void Begin(DeskSource desk, ImmutableArray<byte> plan, string port, ImmutableArray<string> only, string recordFile, ImmutableArray<byte> earlier)
    {
        ArgumentNullException.ThrowIfNull(desk);
        ArgumentNullException.ThrowIfNull(port);
        lock (_lock)
        {
            if (_work is not null)
            {
                return;
            }

            (Problem, Question, Said) = (null, null, []);
            _said.Clear();
            try
            {
                Checked<RollCalling?> begun = CallRoll.Begin(desk, plan, WiringPlanFile.Path, only, earlier, RollCallRecord.UsualName);
                if (begun.Value is not { } roll)
                {
                    Problem = string.Join(" ", begun.Findings.Select(finding => $"{finding.Message}; {finding.Hint}."));
                    return;
                }

                Simulator? simulator = port.Length > 0 ? null : Simulated(desk, plan);
                _work = new(roll, new(simulator?.Port ?? port, roll), simulator, recordFile);
            }
            catch (FileProblemException problem)
            {
                Problem = problem.Message;
                return;
            }
            finally
            {
                Changed?.Invoke();
            }

            Work work = _work;
            work.Line.After = () => Follow(work);
            work.Line.Missing = reason => Say(FormattableString.Invariant($"{(port.Length > 0 ? port : "The simulated panel")}: {reason}. Waiting for it."));
            _ = Task.Factory.StartNew(() => Run(work), CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default);
        }
    }

    /// <summary>Says why it is not begun.</summary>
    /// <param name="problem">Why.</param>
    public void Refuse(string problem)
    {
        Problem = problem;
        Changed?.Invoke();
    }

    /// <summary>What the maker answers: "" for done or yes, "n", "o", "a", "s", "q".</summary>
    public void Answer(string word) => _work?.Line.Post(word);

    /// <summary>Moves a control of the simulated panel: "close contact.0".</summary>
    public void Move(string command) => _work?.Simulator?.Do(command);

    /// <summary>Ends it; what answered so far is in the record.</summary>
    public void Stop() => _work?.Ending.Cancel();

    /// <inheritdoc />
    public void Dispose() => Stop();

    private static Simulator Simulated(DeskSource desk, ImmutableArray<byte> plan)
    {
        Checked<SimulatedPanel?> panel = SimulatedPanel.Of(desk, plan, WiringPlanFile.Path, Simulator.ImageName);
        return panel.Value is { } made ? Simulator.Start(made, []) : throw new FileProblemException($"This desk can't be simulated: {string.Join("; ", panel.Findings.Select(finding => finding.Message))}.");
    }

    private void Run(Work work)
    {
        work.Line.Run(work.Ending.Token);
        work.Simulator?.Dispose();
        lock (_lock)
        {
            (Record, Question) = (work.Roll.Lines, null);
            try
            {
                RollCallRecord.Keep(work.RecordFile, work.Roll.File());
                RecordFile = work.RecordFile;
            }
            catch (FileProblemException problem)
            {
                Problem = problem.Message;
            }

            _work = null;
        }

        work.Ending.Dispose();
        Changed?.Invoke();
    }

    /// <summary>On the line's thread: the roll-call itself is only looked at here.</summary>
    private void Follow(Work work)
    {
        ImmutableArray<string> said = work.Roll.TakeSaid();
        RollCallQuestion? question = work.Roll.Question;
        if (said.IsEmpty && question?.Sentence == Question?.Sentence && question?.Id == Question?.Id)
        {
            return;
        }

        Question = question;
        Add(said);
    }

    private void Say(string sentence) => Add([sentence]);

    private void Add(ImmutableArray<string> said)
    {
        lock (_said)
        {
            _said.AddRange(said);
            _said.RemoveRange(0, Math.Max(0, _said.Count - MostSaid));
            Said = [.. _said];
        }

        Changed?.Invoke();
    }

    private sealed record Work(RollCalling Roll, PanelLine Line, Simulator? Simulator, string RecordFile)
    {
        public CancellationTokenSource Ending { get; } = new();
    }
}
