using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using System.Threading.Tasks;
using Lampblack.Findings;
using Lampblack.Host;
using Lampblack.Jobs;
using Lampblack.Printers;

namespace Lampblack.Workshop.Bench;

/// <summary>The maker's printers, and what is being learned of one of them: photos that were dropped, what they show, whether to store it.</summary>
public sealed class PrinterBench
{
    private const int MostPhotos = 40;

    private readonly PrinterShelf _shelf = PrinterShelf.Here();
    private readonly Lock _lock = new();
    private readonly List<(string Name, ReadOnlyMemory<byte> Bytes)> _photos = [];

    /// <summary>What it is doing, in a few words; null when it rests.</summary>
    public string? Doing { get; private set; }

    /// <summary>What the dropped photos show; null where none were dropped since the last that were stored.</summary>
    public PhotosOfSheets? Shown { get; private set; }

    /// <summary>Pictures of it.</summary>
    public ImmutableArray<OutputFile> Arrows { get; private set; } = [];

    /// <summary>What the last lesson said.</summary>
    public ImmutableArray<string> Words { get; private set; } = [];

    /// <summary>What the last lesson found.</summary>
    public ImmutableArray<Finding> Findings { get; private set; } = [];

    /// <summary>Why the last thing that was asked for could not be done; null where it could.</summary>
    public string? Problem { get; private set; }

    /// <summary>The names of the dropped photos.</summary>
    public ImmutableArray<string> Photos
    {
        get
        {
            lock (_lock)
            {
                return [.. _photos.Select(photo => photo.Name)];
            }
        }
    }

    /// <summary>The printers on the maker's shelf.</summary>
    public ImmutableArray<string> Names()
    {
        ImmutableArray<string> names = Try(() => _shelf.All().Where(printer => !printer.Reading.HasStop).Select(printer => printer.Name).ToImmutableArray());
        return names.IsDefault ? [] : names;
    }

    /// <summary>What is known of one; null where it cannot be read.</summary>
    public PrinterFile? Read(string name) => Try(() => _shelf.Read(name)) is { Reading: { HasStop: false } reading } ? reading.Value : null;

    /// <summary>Starts a printer.</summary>
    /// <returns>Whether it was started.</returns>
    public bool Start(NewPrinter printer)
    {
        Checked<PrinterFile> started = PrinterFiles.Start(printer);
        Findings = started.Findings;
        return !started.HasStop && Try(() => _shelf.Create(printer.Name, started.Value)) is { Reading.HasStop: false };
    }

    /// <summary>The calibration sheet of a printer.</summary>
    /// <param name="name">The printer.</param>
    /// <param name="copies">How many sheets, each with its own number.</param>
    public ImmutableArray<OutputFile> Sheet(string name, int copies)
    {
        if (Read(name) is not { } printer)
        {
            return [];
        }

        Checked<ImmutableArray<OutputFile>> made = CalibrationSheetJob.Run(PrinterFiles.PaperOf(printer), printer, name, copies);
        Findings = made.Findings;
        return made.HasStop ? [] : made.Value;
    }

    /// <summary>The sheet that tells how a printer takes paper.</summary>
    public ImmutableArray<OutputFile> WhichWay(string name)
    {
        if (Read(name) is not { } printer)
        {
            return [];
        }

        Checked<ImmutableArray<OutputFile>> made = WhichWayJob.Run(PrinterFiles.PaperOf(printer), printer, name);
        Findings = made.Findings;
        return made.HasStop ? [] : made.Value;
    }

    /// <summary>Takes a photo.</summary>
    /// <returns>Why it is not taken; null where it is.</returns>
    public string? Take(string name, ReadOnlyMemory<byte> bytes)
    {
        lock (_lock)
        {
            if (_photos.Count >= MostPhotos)
            {
                return FormattableString.Invariant($"{MostPhotos} photos are enough at once");
            }

            _photos.RemoveAll(photo => photo.Name == name);
            _photos.Add((name, bytes));
            return null;
        }
    }

    /// <summary>Looks at all photos that were dropped.</summary>
    /// <param name="name">The printer they are about.</param>
    /// <param name="report"><c>report.json</c> of the desk's last build, whose sheets may be among them; empty where there is none.</param>
    /// <param name="changed">Told whenever there is something new to show.</param>
    public async Task Look(string name, ImmutableArray<byte> report, Action changed)
    {
        (string Name, ReadOnlyMemory<byte> Bytes)[] photos;
        lock (_lock)
        {
            if (Doing is not null || _photos.Count == 0)
            {
                return;
            }

            photos = [.. _photos];
            Doing = "looking at the photos";
        }

        changed();
        try
        {
            bool hasColours = Read(name) is not { } printer || PrinterFiles.HasColours(printer);
            PhotosOfSheets shown = await Task.Run(() => PhotosOfSheets.Read(photos, new ToldAtOnce(words =>
            {
                Doing = words;
                changed();
            }), CancellationToken.None, hasColours, report)).ConfigureAwait(false);
            (Shown, Words, Findings) = (shown, [], shown.Findings);
            Arrows = shown.CanTeach ? shown.Arrows() : [];
        }
        finally
        {
            Doing = null;
            changed();
        }
    }

    /// <summary>Puts the photos away unlearned.</summary>
    public void PutAway()
    {
        lock (_lock)
        {
            _photos.Clear();
        }

        (Shown, Arrows, Findings, Problem) = (null, [], [], null);
    }

    /// <summary>Stores what was seen in the printer's file.</summary>
    /// <param name="name">The printer.</param>
    /// <param name="answers">What was seen.</param>
    /// <returns>Whether it was stored.</returns>
    public bool Store(string name, LearnAnswers answers)
    {
        ImmutableArray<string> words = [];
        ShelvedPrinter? after = Try(() => _shelf.Change(name, file =>
        {
            Checked<LearnResult> learned = Learn.Run(file, answers with { Date = Today.Text });
            words = learned.Value.Words;
            return new(learned.Value.File, learned.Findings);
        }));
        if (after is null)
        {
            return false;
        }

        (Words, Findings) = (after.Reading.HasStop ? [] : words, after.Reading.Findings);
        if (!after.Reading.HasStop && answers.Photos is not null)
        {
            ImmutableArray<Finding> kept = Findings;
            PutAway();
            Findings = kept;
        }

        return !after.Reading.HasStop;
    }

    /// <summary>Something that was asked for on the page could not be done.</summary>
    public void Complain(string problem) => Problem = problem;

    private T? Try<T>(Func<T> work)
    {
        try
        {
            Problem = null;
            return work();
        }
        catch (FileProblemException problem)
        {
            Problem = problem.Message;
            return default;
        }
    }
}
