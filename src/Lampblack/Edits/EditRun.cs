using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Edits;

/// <summary>Makes an edit in a desk file's bytes.</summary>
internal static class EditRun
{
    /// <summary>Makes it, reads the result, and takes it back where it would stop what could be read before.</summary>
    /// <param name="fileName">The file's name for findings.</param>
    /// <param name="bytes">Its bytes.</param>
    /// <param name="edit">What is wanted.</param>
    public static EditResult Apply(string fileName, ImmutableArray<byte> bytes, DeskEdit edit)
    {
        var read = ReadDesk.Of(fileName, bytes);
        var before = read.Desk;
        if (Start(fileName, bytes, read) is not { } work)
        {
            return Refused(bytes, [Unreadable(before.Findings)]);
        }

        var mark = bytes.Length - work.Desk.Bytes.Length;
        try
        {
            if (!Make(work, edit, before.Value))
            {
                return Refused(bytes, work.Findings);
            }

            work.Step();
        }
        catch (BrokenStepException broken)
        {
            return Refused(bytes, [Unusable(broken.Fault)]);
        }

        var changes = work.Desk.Changes(mark);

        // Places count from the first sign after a byte-order mark, in bytes and in tables alike.
        ImmutableArray<byte> edited = mark == 0 ? work.Desk.Bytes : [.. bytes.AsSpan(0, mark), .. work.Desk.Bytes];
        if (changes.IsEmpty)
        {
            return new(bytes, [], [.. work.Findings], string.Empty, Names(work));
        }

        var after = ReadDesk.Of(fileName, edited, () => work.Desk.Tree).Desk;
        return Worse(work.Desk, before, after) is { } worse
            ? Refused(bytes, [worse])
            : new(edited, changes, [.. work.Findings, .. PlateCost.Tell(before.Value, after.Value)], work.Words, Names(work));
    }

    /// <summary>What an edit would cost; the reason where it would be refused.</summary>
    public static string Cost(string fileName, ImmutableArray<byte> bytes, DeskEdit edit)
    {
        var result = Apply(fileName, bytes, edit);
        return result.Findings.FirstOrDefault(finding => finding.Severity == Severity.Stop) is { } refused
            ? $"Not possible: {refused.Message}."
            : result.Changes.IsEmpty ? "Nothing changes."
            : EditCost.Of(ReadDesk.Of(fileName, bytes).Desk.Value, ReadDesk.Of(fileName, result.Bytes).Desk.Value).Sentence;
    }

    private static EditWork? Start(string fileName, ImmutableArray<byte> bytes, ReadDesk before)
    {
        var decoding = new List<Finding>();
        if (bytes.Length > TomlText.MaxBytes || StrictUtf8.Decode(fileName, bytes.AsSpan(), decoding) is not { } text || decoding.Count > 0)
        {
            return null;
        }

        var desk = DeskText.Of(fileName, text, before.Text);
        return desk.Faults.Any(fault => fault.Severity == Severity.Stop) || before.Desk.Findings.Any(finding => finding.Code == "format-newer") ? null : new(desk);
    }

    private static bool Make(EditWork work, DeskEdit edit, Desk desk) => edit switch
    {
        MoveItems move => Moving.Make(work, move, desk),
        TurnItems turn => Turning.Make(work, turn),
        SetWords words => Wording.Make(work, words, desk),
        SetKey key => KeySetting.Make(work, key),
        AddItem add => Adding.Make(work, add),
        AddPanel add => PanelAdding.Make(work, add),
        AddPlate add => PlateAdding.Make(work, add),
        KeepEmitters keep => Keeping.Make(work, keep),
        RemoveItems remove => Removing.Make(work, remove, desk),
        CopyItems copy => Copying.Make(work, copy),
        Repeat repeat => Repeating.Make(work, repeat, desk),
        SplitCopies split => Splitting.Make(work, split, desk),
        _ => work.Refuse("this edit is not known", string.Empty),
    };

    private static EditResult Refused(ImmutableArray<byte> bytes, IEnumerable<Finding> findings) =>
        new(bytes, [], [.. findings.Where(finding => finding.Severity == Severity.Stop)], string.Empty, []);

    private static Finding Unreadable(ImmutableArray<Finding> findings)
    {
        var first = findings.First(finding => finding.Severity == Severity.Stop);
        return Finding.Stop(
            "edit-refused", $"the desk file can't be edited as long as its text can't be read: {first.Message}; nothing was changed", "mend it in the text first", first.Span, first.Item);
    }

    private static Finding Unusable(Finding finding) =>
        Finding.Stop("edit-refused", $"the desk file could not be used afterwards: {finding.Message}; nothing was changed", finding.Hint, null, finding.Item);

    /// <summary>What stops the edited file and did not stop the old one; null where there is nothing.</summary>
    private static Finding? Worse(DeskText desk, Checked<Desk> before, Checked<Desk> after)
    {
        var known = before.Findings.Where(finding => finding.Severity == Severity.Stop).GroupBy(Kind).ToDictionary(group => group.Key, group => group.Count());
        foreach (var finding in desk.Faults.Concat(after.Findings).Where(finding => finding.Severity == Severity.Stop))
        {
            var left = known.GetValueOrDefault(Kind(finding));
            if (left == 0)
            {
                return Unusable(finding);
            }

            known[Kind(finding)] = left - 1;
        }

        return null;

        static (string, string?) Kind(Finding finding) => (finding.Code, finding.Item);
    }

    private static ImmutableArray<string> Names(EditWork work)
    {
        var names = work.Touched.Select(place => work.Desk.AddressOf(work.Desk.At(place)));
        return work.TouchedPanel is { } panel ? [.. names.Prepend(work.Desk.Panels[panel].Id)] : [.. names];
    }
}
