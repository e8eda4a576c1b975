using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>Writes <c>drilled</c> into a desk file, or takes it away. Nothing else of the file is touched.</summary>
internal static class DrilledEdit
{
    /// <summary>Sets or clears the key of some controls.</summary>
    /// <param name="fileName">The file's name for findings.</param>
    /// <param name="bytes">Its bytes.</param>
    /// <param name="wanted">The controls as read from these bytes, each once, with the offset that it is to have; null takes the key away.</param>
    /// <returns>The new bytes; the old ones where a finding stops it.</returns>
    public static Checked<ImmutableArray<byte>> Apply(
        string fileName, ImmutableArray<byte> bytes, ImmutableArray<(string Panel, Control Control, DrilledOffset? Offset)> wanted)
    {
        var decoding = new List<Finding>();
        var tree = TomlText.Read(fileName, bytes.AsSpan());
        if (tree.HasStop || StrictUtf8.Decode(fileName, bytes.AsSpan(), decoding) is not { } text)
        {
            return new(bytes, tree.Findings);
        }

        var tables = Trees.Tables(tree.Value).ToList();
        var splices = new List<Splice>();
        var touched = new HashSet<TableNode>(ReferenceEqualityComparer.Instance);
        var maker = new KeySplices(new(fileName, text));
        foreach (var (panel, control, offset) in wanted)
        {
            var table = tables.Find(table => table.Span == control.Span && table.Find("part") is not null);
            if (table?.Find("at") is null)
            {
                return Refused(bytes, panel, control);
            }

            touched.Add(table);
            if (offset is not null)
            {
                splices.AddRange(maker.Set(table, DrilledReader.Key, [Number(offset.DxMm), Number(offset.DyMm)], "at"));
            }
            else if (table.Find(DrilledReader.Key) is not null)
            {
                if (maker.Remove(table, DrilledReader.Key) is not { } splice)
                {
                    return Refused(bytes, panel, control);
                }

                splices.Add(splice);
            }
        }

        var edited = Splice.Apply(bytes.AsSpan(), text, splices);
        var again = TomlText.Read(fileName, edited.AsSpan());
        var desk = DeskReader.Read(fileName, edited.AsSpan()).Value;
        foreach (var (panel, control, offset) in wanted)
        {
            var now = desk.Panels.FirstOrDefault(other => other.Id == panel)?.Items.OfType<Control>().FirstOrDefault(other => other.Id == control.Id);
            if (again.HasStop || now is null || !IsAlike(now.Drilled, offset))
            {
                return Refused(bytes, panel, control);
            }
        }

        return Trees.AreAlike(tree.Value, again.Value, (table, key) => key == DrilledReader.Key && touched.Contains(table))
            ? new(edited, [])
            : Refused(bytes, wanted[0].Panel, wanted[0].Control);
    }

    /// <summary>A number of mm as it is written into the file, to 0.1 µm.</summary>
    public static string Number(double mm) => Rounded(mm).ToString("0.####", CultureInfo.InvariantCulture);

    /// <summary>The number that the file will give back; never a minus zero.</summary>
    public static double Rounded(double mm) => Math.Round(mm, 4, MidpointRounding.AwayFromZero) + 0.0;

    private static bool IsAlike(DrilledOffset? read, DrilledOffset? wanted) => read is null || wanted is null
        ? read == wanted
        : Number(read.DxMm) == Number(wanted.DxMm) && Number(read.DyMm) == Number(wanted.DyMm);

    private static Checked<ImmutableArray<byte>> Refused(ImmutableArray<byte> bytes, string panel, Control control) => new(
        bytes,
        [
            Finding.Stop(
                "drilled-edit",
                $"the table of `{panel}/{control.Id}` is written in a way that can't be changed without touching something else; nothing was written",
                $"change `{DrilledReader.Key}` in a text editor: it stands beside `at`, as `{DrilledReader.Key} = [0.3, -0.2]`",
                control.Span,
                $"{panel}/{control.Id}"),
        ]);
}
