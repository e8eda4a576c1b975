using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Art;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Layout;
using Lampblack.Lettering;

namespace Lampblack.Jobs;

/// <summary>Reads a desk with the files it names, and lays it out.</summary>
internal static class DeskLoading
{
    private const long FontLimitBytes = 20_000_000;

    private const string TooLarge = "take a file of one style for the letters you need: collections, and fonts with the signs of all languages, are larger; or use a bundled font";

    public static LaidDesk Load(DeskSource source, List<Finding> findings) => Load(source, findings, null).Laid;

    /// <summary>The same for a desk that was loaded before, in an earlier state: what is written as it was is not laid out again.</summary>
    /// <param name="source">The desk file.</param>
    /// <param name="findings">Told what is wrong.</param>
    /// <param name="earlier">The earlier state; null for none.</param>
    public static LoadedDesk Load(DeskSource source, List<Finding> findings, LoadedDesk? earlier)
    {
        var read = ReadDesk.Of(source.Name, source.Bytes);
        var desk = read.Desk;
        findings.AddRange(desk.Findings);
        var own = OwnFonts(desk.Value, source.Files, findings);
        var fonts = new FontShelf(own);

        // A font of the desk's own may be another file by now.
        var before = earlier is not null && own.Count == 0 && !earlier.HasOwnFonts ? new EarlierLayout(earlier.Laid, UnchangedItems.Between(earlier.Read, read)) : null;
        var laid = DeskLayout.Place(desk.Value, fonts, Arts(desk.Value, source.Files, own, findings), before);
        findings.AddRange(laid.Findings);
        return new(read, laid.Value, own.Count > 0);
    }

    /// <summary>The artwork that the desk names; a file that stands in several places is read once for each way of reading it.</summary>
    private static Dictionary<ArtItem, ArtContent> Arts(Desk desk, IDeskFiles files, IEnumerable<KeyValuePair<string, Typeface>> fonts, List<Finding> findings)
    {
        var own = ImmutableSortedDictionary.CreateRange(StringComparer.OrdinalIgnoreCase, fonts);
        var items = desk.Panels.SelectMany(panel => panel.Items.OfType<ArtItem>()).ToList();
        var read = items.AsParallel().AsOrdered().Select(item => (Item: item, Content: Read(item, files, own))).ToList();
        findings.AddRange(read.SelectMany(art => art.Content.Findings));
        var arts = new Dictionary<ArtItem, ArtContent>(ReferenceEqualityComparer.Instance);
        foreach (var (item, content) in read)
        {
            if (content.Value is { } known)
            {
                arts[item] = known;
            }
        }

        return arts;
    }

    private static Checked<ArtContent?> Read(ArtItem item, IDeskFiles files, ImmutableSortedDictionary<string, Typeface> fonts)
    {
        var file = files.Read(item.File, ArtFile.LimitBytes);
        return file.Problem is { } problem
            ? new(null, [Finding.Stop("art-file", $"the artwork {Shown.Code(item.File)} {problem}", "put it beside the desk file and name it from there", item.FileSpan, item.Id)])
            : ArtFile.Read(file.Bytes.AsMemory(), item.File[(item.File.LastIndexOf('/') + 1)..], item, fonts);
    }

    private static List<KeyValuePair<string, Typeface>> OwnFonts(Desk desk, IDeskFiles files, List<Finding> findings)
    {
        var own = new List<KeyValuePair<string, Typeface>>();
        foreach (var font in desk.Fonts)
        {
            var file = files.Read(font.File, FontLimitBytes);
            if (file.Problem is { } problem)
            {
                findings.Add(Finding.Stop("font-file", $"the font file {Shown.Code(font.File)} {problem}", file.IsTooLarge ? TooLarge : "put it beside the desk file and name it from there", font.Span));
                continue;
            }

            var face = Typeface.FromBytes(font.Name, file.Bytes, font.Span);
            findings.AddRange(face.Findings);
            if (face.Value is { } typeface)
            {
                own.Add(new(font.Name, typeface));
            }
        }

        return own;
    }
}

/// <summary>A desk that was read and laid out.</summary>
/// <param name="Read">As it was read.</param>
/// <param name="Laid">In its places.</param>
/// <param name="HasOwnFonts">Whether it brings fonts along.</param>
internal sealed record LoadedDesk(ReadDesk Read, LaidDesk Laid, bool HasOwnFonts);
