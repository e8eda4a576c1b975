using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;

namespace Lampblack.Jobs;

/// <summary>What became of a desk file.</summary>
/// <param name="Bytes">Its new bytes; the old ones where nothing changed or a finding stops it.</param>
/// <param name="IsChanged">Whether they differ.</param>
/// <param name="Drilled">Every control that is marked as drilled now, in words.</param>
public sealed record DrilledResult(ImmutableArray<byte> Bytes, bool IsChanged, ImmutableArray<DrilledLine> Drilled);

/// <summary>A drilled control.</summary>
/// <param name="Item">Panel and control: <c>dome/shutter</c>.</param>
/// <param name="DxMm">How far to the right of its place.</param>
/// <param name="DyMm">How far up.</param>
/// <param name="Words">The same in words.</param>
public sealed record DrilledLine(string Item, double DxMm, double DyMm, string Words);

/// <summary>Marks controls of a desk as drilled, so that the next print fits the plate.</summary>
public static class DrilledMarks
{
    /// <summary>Writes the marks into the desk's text.</summary>
    /// <param name="source">The desk file.</param>
    /// <param name="marks">Each <c>ID=dx,dy</c>, where the id is <c>panel/control</c>, or <c>control</c> where there is only one.</param>
    /// <param name="clears">Ids that are no longer to be marked.</param>
    public static Checked<DrilledResult> Mark(DeskSource source, IReadOnlyList<string> marks, IReadOnlyList<string> clears)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(marks);
        ArgumentNullException.ThrowIfNull(clears);
        var findings = new List<Finding>();
        var desk = DeskReader.Read(source.Name, source.Bytes.AsSpan());
        var known = new DrilledAddresses(desk.Value);
        var wanted = new List<(string Panel, Control Control, DrilledOffset? Offset)>();
        foreach (var mark in marks)
        {
            if (DrilledWords.Read(mark, findings) is { } read && known.Find(read.Address, findings) is { } found)
            {
                Want(found.Panel, found.Control, read.Offset);
            }
        }

        foreach (var address in clears)
        {
            if (known.Find(address, findings) is { } found)
            {
                Want(found.Panel, found.Control, null);
            }
        }

        var isStopped = findings.Any(finding => finding.Severity == Severity.Stop);
        var edit = isStopped || wanted.Count == 0 ? new(source.Bytes, []) : DrilledEdit.Apply(source.Name, source.Bytes, [.. wanted]);
        findings.AddRange(edit.Findings);
        var isChanged = !edit.Value.AsSpan().SequenceEqual(source.Bytes.AsSpan());
        var now = isChanged ? DeskReader.Read(source.Name, edit.Value.AsSpan()) : desk;
        var about = wanted.Select(want => want.Control.Id).ToHashSet(StringComparer.Ordinal);
        findings.AddRange(now.Findings.Where(finding => finding.Code == "drilled-far" && about.Contains(finding.Item ?? string.Empty)));
        if (wanted.Count == 0 && marks.Count + clears.Count > 0 && desk.HasStop)
        {
            // Perhaps the control is not known because its table could not be read.
            findings.AddRange(desk.Findings.Where(finding => finding.Severity == Severity.Stop));
        }

        return new(new(edit.Value, isChanged, Lines(now.Value)), [.. findings.Distinct()]);

        void Want(string panel, Control control, DrilledOffset? offset)
        {
            var item = $"{panel}/{control.Id}";
            if (wanted.Any(want => ReferenceEquals(want.Control, control)))
            {
                findings.Add(Finding.Stop("drilled-form", $"`{item}` is named twice", "name every control once", item: item));
                return;
            }

            wanted.Add((panel, control, offset));
            Tell(item, control, offset, findings);
        }
    }

    private static void Tell(string item, Control control, DrilledOffset? offset, List<Finding> findings)
    {
        if (control.Copies.Count > 1)
        {
            findings.Add(DrilledCopies.Finding(item, control, null));
        }
        else if (control.Drilled is { } before && offset is not null && before != offset)
        {
            findings.Add(Finding.Note(
                "drilled-replaced",
                $"`{item}` was marked already, {DrilledReader.Words(before)} of its place; the new measurement takes its place",
                string.Empty,
                control.Span,
                item));
        }
        else if (control.Drilled is null && offset is null)
        {
            findings.Add(Finding.Note("drilled-none", $"`{item}` is not marked as drilled: there is nothing to clear", string.Empty, control.Span, item));
        }
    }

    private static ImmutableArray<DrilledLine> Lines(Desk desk) =>
    [
        .. desk.Panels.SelectMany(panel => panel.Items.OfType<Control>().Select(control => control.Drilled is { } off
            ? new DrilledLine($"{panel.Id}/{control.Id}", off.DxMm, off.DyMm, $"{DrilledReader.Words(off)} of its place")
            : null)).OfType<DrilledLine>(),
    ];
}
