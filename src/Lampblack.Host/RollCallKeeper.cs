using System;
using System.IO;
using Lampblack.Jobs;

namespace Lampblack.Host;

/// <summary>Keeps the record of a roll-call in a file: after each control, so that a computer that goes out costs one control at most. What is there and is not of this plan is put aside first.</summary>
public sealed class RollCallKeeper
{
    private readonly string file;
    private readonly RollCalling roll;
    private int keptCount;
    private bool hasLooked;

    /// <summary>Touches nothing yet.</summary>
    /// <param name="file">The record's file.</param>
    /// <param name="roll">The roll-call.</param>
    public RollCallKeeper(string file, RollCalling roll)
    {
        ArgumentNullException.ThrowIfNull(roll);
        (this.file, this.roll) = (file, roll);
    }

    /// <summary>Told under which name the file is kept that was there and is not of this plan.</summary>
    public Action<string>? PutAside { get; set; }

    /// <summary>Told once why the record can't be written while the roll is called.</summary>
    public Action<string>? Failed { get; set; }

    /// <summary>To be called after each step: keeps the record when there is something new in it. Never throws.</summary>
    public void Follow()
    {
        if (roll.JudgedCount == keptCount)
        {
            return;
        }

        try
        {
            Keep();
        }
        catch (FileProblemException problem)
        {
            // It is tried again with the next control, and at the end.
            keptCount = roll.JudgedCount;
            Failed?.Invoke(problem.Message);
            Failed = null;
        }
    }

    /// <summary>Keeps the record as it is now; nothing where the panel never answered.</summary>
    /// <returns>Whether there is a record.</returns>
    /// <exception cref="FileProblemException">It can't be written.</exception>
    public bool Keep()
    {
        if (!roll.HasBegun)
        {
            return false;
        }

        if (!hasLooked)
        {
            MoveAside();
            hasLooked = true;
        }

        RollCallRecord.Keep(file, roll.File());
        keptCount = roll.JudgedCount;
        return true;
    }

    private void MoveAside()
    {
        try
        {
            if (!File.Exists(file) || (RollCallRecord.Read(file) is var bytes && roll.Owns(bytes.AsSpan())))
            {
                return;
            }

            string aside = Free();
            File.Move(file, aside);
            PutAside?.Invoke(aside);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            throw new FileProblemException($"{file} is not of this plan and can't be put aside: {problem.Message}", problem);
        }
    }

    private string Free()
    {
        string start = Path.Combine(Path.GetDirectoryName(file) ?? string.Empty, $"{Path.GetFileNameWithoutExtension(file)}-before");
        string end = Path.GetExtension(file);
        string aside = start + end;
        for (int number = 2; Path.Exists(aside); number++)
        {
            aside = FormattableString.Invariant($"{start}-{number}{end}");
        }

        return aside;
    }
}
