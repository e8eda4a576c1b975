using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.IO;
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
    private CancellationTokenSource? _ending;
    private Task? _running;
    private PanelLine? _line;
    private Simulator? _simulator;

    /// <summary>Told whenever there is something new to show, on any thread.</summary>
    public event Action? Changed;

    /// <summary>Whether the roll is being called.</summary>
    public bool IsCalling => _ending is not null;

    /// <summary>Whether the panel is a simulated one.</summary>
    public bool IsSimulated => _simulator is not null;

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

    /// <summary>Begins, beside the page. A simulated panel leaves no record, and goes on with none.</summary>
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
        CancellationTokenSource ending = new();
        lock (_lock)
        {
            if (_ending is not null)
            {
                ending.Dispose();
                return;
            }

            (_ending, Problem, Question, Said, Record, RecordFile) = (ending, null, null, [], [], null);
        }

        lock (_said)
        {
            _said.Clear();
        }

        Changed?.Invoke();
        _running = Task.Factory.StartNew(() => Call(desk, plan, port, only, recordFile, earlier, ending.Token), CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default);
    }

    private void Call(DeskSource desk, ImmutableArray<byte> plan, string port, ImmutableArray<string> only, string recordFile, ImmutableArray<byte> earlier, CancellationToken ending)
    {
        Simulator? simulator = null;
        RollCalling? roll = null;
        RollCallKeeper? keeper = null;
        try
        {
            bool isSimulated = port.Length == 0;
            Checked<RollCalling?> begun = CallRoll.Begin(desk, plan, WiringPlanFile.Path, only, isSimulated ? [] : earlier, RollCallRecord.UsualName, isSimulated, ending);
            if (begun.Value is null)
            {
                Problem = string.Join(" ", begun.Findings.Select(finding => $"{finding.Message}; {finding.Hint}."));
                return;
            }

            roll = begun.Value;
            foreach (Finding finding in begun.Findings)
            {
                Add([finding.Message]);
            }

            keeper = isSimulated ? null : new(recordFile, roll)
            {
                PutAside = aside => Add([$"{Path.GetFileName(recordFile)} is no record of this plan; it is kept as {Path.GetFileName(aside)}."]),
                Failed = problem => Add([problem]),
            };
            simulator = isSimulated ? Simulated(desk, plan, ending) : null;
            PanelLine line = new(simulator?.Port ?? port, roll);
            (_line, _simulator) = (line, simulator);
            line.After = () =>
            {
                keeper?.Follow();
                Follow(roll);
            };
            line.Missing = reason => Add([FormattableString.Invariant($"{(port.Length > 0 ? port : "The simulated panel")}: {reason}. Waiting for it.")]);
            Changed?.Invoke();
            line.Run(ending);
        }
        catch (FileProblemException problem)
        {
            Problem = problem.Message;
        }
        catch (OperationCanceledException) when (ending.IsCancellationRequested)
        {
            // Stopped before the panel was reached: there is nothing to keep.
        }
        finally
        {
            (_line, _simulator) = (null, null);
            Keep(roll, keeper, recordFile);
            simulator?.Dispose();
            lock (_lock)
            {
                _ending?.Dispose();
                (_ending, Question) = (null, null);
            }

            Changed?.Invoke();
        }
    }

    private void Keep(RollCalling? roll, RollCallKeeper? keeper, string recordFile)
    {
        if (roll is not { HasBegun: true })
        {
            return;
        }

        Record = roll.Lines;
        try
        {
            RecordFile = keeper?.Keep() == true ? recordFile : null;
        }
        catch (FileProblemException problem)
        {
            Problem = problem.Message;
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
    public void Answer(string word) => _line?.Post(word);

    /// <summary>Moves a control of the simulated panel: "close contact.0".</summary>
    public void Move(string command) => _simulator?.Do(command);

    /// <summary>Ends it; what answered so far is in the record.</summary>
    public void Stop()
    {
        lock (_lock)
        {
            _ending?.Cancel();
        }
    }

    /// <summary>Ends it, and waits until the record is kept.</summary>
    public void Dispose()
    {
        Stop();
        _running?.Wait(TimeSpan.FromSeconds(5));
    }

    private static Simulator Simulated(DeskSource desk, ImmutableArray<byte> plan, CancellationToken ending)
    {
        Checked<SimulatedPanel?> panel = SimulatedPanel.Of(desk, plan, WiringPlanFile.Path, Simulator.ImageName, ending);
        return panel.Value is { } made ? Simulator.Start(made, [], ending) : throw new FileProblemException($"This desk can't be simulated: {string.Join("; ", panel.Findings.Select(finding => finding.Message))}.");
    }

    /// <summary>On the line's thread: the roll-call itself is only looked at here.</summary>
    private void Follow(RollCalling roll)
    {
        ImmutableArray<string> said = roll.TakeSaid();
        RollCallQuestion? question = roll.Question;
        if (said.IsEmpty && question?.Sentence == Question?.Sentence && question?.Id == Question?.Id)
        {
            return;
        }

        Question = question;
        Add(said);
    }

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
}
