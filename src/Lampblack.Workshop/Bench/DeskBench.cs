using System;
using System.Collections.Immutable;
using System.IO;
using System.Linq;
using System.Threading;
using System.Threading.Tasks;
using Lampblack.Edits;
using Lampblack.Findings;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Workshop.Bench;

/// <summary>The one desk that a workshop is about, shared by all pages that show it. Safe to use from several threads; edits come one after the other.</summary>
public sealed partial class DeskBench : IDisposable
{
    private static readonly TimeSpan LookEvery = TimeSpan.FromMilliseconds(700);
    private static readonly TimeSpan Rest = TimeSpan.FromSeconds(3);

    private readonly Lock _lock = new();
    private readonly DeskJournal _journal;
    private readonly Timer _looking;
    private static readonly string[] ArtEndings = [".svg", ".png", ".jpg", ".jpeg"];

    private readonly PictureStore<FacePictures> _faces = new();
    private readonly PictureStore<HeldToLamp> _lamps = new();
    private CancellationTokenSource _checking = new();
    private ImmutableArray<Finding> _checked = [];
    private ImmutableDictionary<string, double> _spreads = ImmutableDictionary<string, double>.Empty;

    private DeskBench(DeskJournal journal)
    {
        _journal = journal;
        Notice = journal.Problem ?? journal.Notice;
        View = DeskView.Of(journal.Desk.Source, Settings.Request(BuildParts.None));
        Light = new((desk, progress, stop, ending) => desk.Light(progress, stop, ending), view => view.Findings, Tell);
        Wires = new((desk, progress, stop, ending) => desk.Wiring(OutputFolder.LastWiring(OutputPath), progress, stop, ending), view => view.Findings, Tell);
        Book = new((desk, progress, stop, ending) => desk.Book(Settings.Request(BuildParts.Book) with { LastReport = OutputFolder.LastReport(OutputPath), LastWiring = OutputFolder.LastWiring(OutputPath), Legend = Legend }, progress, stop, ending), view => view.Findings, Tell);
        Check();
        _looking = new(_ => Look(), null, LookEvery, LookEvery);
    }

    /// <summary>Told after every change, on any thread.</summary>
    public event Action<BenchNews>? Changed;

    /// <summary>The desk file.</summary>
    public string FilePath => _journal.Desk.FilePath;

    /// <summary>Where sheets are written.</summary>
    public string OutputPath => _journal.Desk.UsualOutput;

    /// <summary>The desk as it is.</summary>
    public DeskView View { get; private set; }

    /// <summary>Where sheets are made.</summary>
    public PrintShop Shop { get; } = new();

    /// <summary>The maker's printers.</summary>
    public PrinterBench Printers { get; } = new();

    /// <summary>Counts the changes.</summary>
    public int Version { get; private set; }

    /// <summary>How it is to be printed.</summary>
    public BenchSettings Settings { get; private set; } = BenchSettings.Usual();

    /// <summary>Whether the slower checks (separation, light) are still at work on the newest state; what is shown of theirs is of the state before.</summary>
    public bool IsChecking { get; private set; }

    /// <summary>How the panels are cut from plates, as the slower checks found it last; null until they are through for the first time.</summary>
    public CutView? Cut { get; private set; }

    /// <summary>Something the maker has to know, such as a disk that is full; null for nothing.</summary>
    public string? Notice { get; private set; }

    /// <summary>What would be taken back next, in words.</summary>
    public string? NextUndo => _journal.NextUndo?.Words;

    /// <summary>What would be done again next, in words.</summary>
    public string? NextRedo => _journal.NextRedo?.Words;

    /// <summary>All findings, the heaviest first.</summary>
    public ImmutableArray<Finding> Findings =>
    [
        .. View.Findings.Concat(_checked).Concat(Light.Findings).Concat(Wires.Findings).Concat(Book.Findings).Distinct().OrderByDescending(finding => finding.Severity).ThenBy(finding => finding.Span?.Line ?? 0),
    ];

    /// <summary>Opens a desk.</summary>
    /// <param name="desk">As the maker named it.</param>
    /// <exception cref="FileProblemException">It cannot be read.</exception>
    public static DeskBench Open(string desk) => new(DeskJournal.Open(desk));

    /// <summary>A panel's face as it is now; drawn when it is first asked for. Null where there is no such panel.</summary>
    /// <param name="panel">The panel's id.</param>
    public FacePictures? Face(string panel)
    {
        // The version first: an edit in between then gives a newer picture under an older number, never an older one under a newer.
        var (version, view) = (Version, View);
        return _faces.Of(panel, version, () => view.Draw(panel));
    }

    /// <summary>Front and mask of a panel as filters of light; drawn when they are first asked for. Null where there is no such panel.</summary>
    /// <param name="panel">The panel's id.</param>
    public HeldToLamp? Lamp(string panel)
    {
        // The version first: an edit in between then gives a newer picture under an older number, never an older one under a newer.
        var (version, view) = (Version, View);
        return _lamps.Of(panel, version, () => view.DrawHeldToLamp(panel));
    }

    /// <summary>Puts artwork that was dropped on the page beside the desk file; a file that is there is never overwritten.</summary>
    /// <param name="name">Its name, without folders.</param>
    /// <param name="bytes">Its contents.</param>
    /// <returns>Why it is not taken; null where it is.</returns>
    public string? TakeArtwork(string name, ReadOnlyMemory<byte> bytes)
    {
        if (!ArtEndings.Any(ending => name.EndsWith(ending, StringComparison.OrdinalIgnoreCase)))
        {
            return "artwork is an SVG, PNG or JPEG file";
        }

        try
        {
            string folder = Path.GetDirectoryName(Path.GetFullPath(FilePath))!;
            string there = Path.Combine(folder, name);
            if (File.Exists(there) && File.ReadAllBytes(there).AsSpan().SequenceEqual(bytes.Span))
            {
                return null;
            }

            NewFolder.Write(folder, [(name, bytes)]);
            return null;
        }
        catch (FileProblemException problem)
        {
            return problem.Message;
        }
    }

    /// <summary>Makes the sheets, as <c>lampblack build</c> does.</summary>
    public Task MakeSheets() => Shop.Make(_journal.Desk.Source, Settings.Request(BuildParts.All), OutputPath, () => Changed?.Invoke(BenchNews.Quiet));

    /// <summary>Tells every page that there is something new to show.</summary>
    public void Tell() => Changed?.Invoke(BenchNews.Quiet);

    /// <summary>Does an edit and writes it, unless it costs a hole or a plate and nobody said yes to that yet.</summary>
    /// <param name="edit">The edit.</param>
    /// <param name="isPaid">Whether the maker said yes.</param>
    /// <returns>What came of it.</returns>
    public EditOutcome Do(DeskEdit edit, bool isPaid = false)
    {
        ArgumentNullException.ThrowIfNull(edit);
        lock (_lock)
        {
            EditResult result = Edit.Apply(_journal.Desk.Source, edit);
            if (!isPaid && !result.IsRefused && result.Findings.Any(finding => finding.Code == "edit-drilled"))
            {
                return new(result, Edit.Cost(_journal.Desk.Source, edit));
            }

            if (!result.IsRefused && !result.Changes.IsEmpty)
            {
                // What is to be seen is drawn while the disk takes the text; if the disk doesn't, it is thrown away.
                DeskSource edited = _journal.Desk.Source with { Bytes = result.Bytes };
                Task<NextState> next = Task.Run(() => Next(edited));
                Follow(_journal.Write(result), result.Words, next);
            }

            return new(result, null);
        }
    }

    /// <summary>An edit that the disk refused, in words; it is kept in memory. Null where there is none.</summary>
    public string? Waiting => _journal.Pending?.Words;

    /// <summary>Offers the edit that the disk refused once more.</summary>
    public void TryAgain()
    {
        lock (_lock)
        {
            if (_journal.Pending is { } edit)
            {
                Follow(_journal.Write(edit), edit.Words);
            }
        }
    }

    /// <summary>Takes the last edit back.</summary>
    public void Undo()
    {
        lock (_lock)
        {
            string words = NextUndo is { } step ? $"taken back: {step}" : string.Empty;
            Follow(_journal.Undo(), words);
        }
    }

    /// <summary>Does again what was taken back.</summary>
    public void Redo()
    {
        lock (_lock)
        {
            string words = NextRedo is { } step ? $"done again: {step}" : string.Empty;
            Follow(_journal.Redo(), words);
        }
    }

    /// <summary>Prints on another printer or paper, in another black, with another spread.</summary>
    public void Choose(BenchSettings settings)
    {
        lock (_lock)
        {
            Settings = settings;
            _spreads = ImmutableDictionary<string, double>.Empty;
            Show(string.Empty);
        }
    }

    /// <inheritdoc />
    public void Dispose()
    {
        _looking.Dispose();
        Shop.Dispose();
        Light.Dispose();
        Wires.Dispose();
        Book.Dispose();
        Roll.Dispose();
        _checking.Cancel();
        _checking.Dispose();
        _journal.Dispose();
    }

    /// <summary>Somebody else may have changed the file.</summary>
    private void Look()
    {
        if (!_lock.TryEnter())
        {
            return;
        }

        try
        {
            JournalOutcome outcome = _journal.Look();
            if (outcome.Result == JournalResult.ChangedOutside || (outcome.Result == JournalResult.Refused && outcome.Message != Notice))
            {
                Follow(outcome, "the desk file was changed by another program");
            }
        }
        finally
        {
            _lock.Exit();
        }
    }

    private void Follow(JournalOutcome outcome, string words, Task<NextState>? next = null)
    {
        Notice = outcome.Result is JournalResult.ChangedOutside or JournalResult.Refused ? outcome.Message : _journal.Problem;
        Show(outcome.Result == JournalResult.Done ? words : outcome.Message, next?.GetAwaiter().GetResult());
    }

    private void Show(string words, NextState? drawn = null)
    {
        DeskSource source = _journal.Desk.Source;
        (DeskView now, var faces) = drawn is not null && drawn.View.Source.Bytes.Equals(source.Bytes) ? drawn : Next(source);
        View = now;
        Version++;
        Light.Follow(now, Settings);
        Wires.Follow(now, Settings);
        Book.Follow(now, Settings);
        string[] alike = [.. now.PanelIds.Where(panel => !faces.ContainsKey(panel))];
        _faces.Keep(alike, Version);
        _lamps.Keep(alike, Version);

        // Begun before it is told, so that pages say at once that findings are yet to come.
        Check();
        Changed?.Invoke(new(faces, words));
    }

    /// <summary>A later state of the desk, with what it changes in its panels' faces. The state as it is stays.</summary>
    private NextState Next(DeskSource source)
    {
        DeskView before = View;
        DeskView now = DeskView.Of(source, Settings.Request(BuildParts.None), _spreads, before);
        Task besides = Task.Run(() => (now.Panels, now.Findings));
        ImmutableDictionary<string, ImmutableArray<FacePictures>?>.Builder faces = ImmutableDictionary.CreateBuilder<string, ImmutableArray<FacePictures>?>();
        foreach (string panel in now.PanelIds)
        {
            ImmutableArray<FacePictures>? changes = now.DrawChanges(panel, before);
            if (changes is not { IsEmpty: true })
            {
                faces[panel] = changes;
            }
        }

        besides.GetAwaiter().GetResult();
        return new(now, faces.ToImmutable());
    }

    /// <summary>Separates and looks at the light in the background; a newer edit stops it.</summary>
    private void Check()
    {
        _checking.Cancel();
        _checking = new();
        CancellationToken cancellation = _checking.Token;
        IsChecking = true;
        int version = Version;
        BuildRequest request = Settings.Request(BuildParts.None) with { LastReport = OutputFolder.LastReport(OutputPath), LastWiring = OutputFolder.LastWiring(OutputPath) };
        DeskSource source = _journal.Desk.Source;
        _ = Task.Run(
            async () =>
            {
                // Edits come in bursts; only the last state of one is worth the work.
                await Task.Delay(250, cancellation).ConfigureAwait(false);
                BuildResult result = Build.Run(source, request, new Progress<string>(), cancellation);
                lock (_lock)
                {
                    if (version != Version)
                    {
                        return;
                    }

                    _checked = [.. result.Findings.Where(finding => finding.Accepted is null)];
                    Cut = result.Cut;
                    IsChecking = false;
                    bool isOtherSpread = !Same(_spreads, result.SpreadsMm);
                    _spreads = result.SpreadsMm;
                    if (isOtherSpread && Settings.Printer is not null)
                    {
                        Show(string.Empty);
                        return;
                    }
                }

                Changed?.Invoke(BenchNews.Quiet);

                // Separating takes far more room than what is kept of it. While the maker looks at the panel, the machine gets it back; an edit comes first.
                await Task.Delay(Rest, cancellation).ConfigureAwait(false);
                GC.Collect(GC.MaxGeneration, GCCollectionMode.Aggressive, blocking: true, compacting: true);
            },
            cancellation);
    }

    private static bool Same(ImmutableDictionary<string, double> first, ImmutableDictionary<string, double> second) =>
        first.Count == second.Count && first.All(one => second.TryGetValue(one.Key, out double mm) && Math.Abs(mm - one.Value) < 0.005);

    private sealed record NextState(DeskView View, ImmutableDictionary<string, ImmutableArray<FacePictures>?> Faces);
}
