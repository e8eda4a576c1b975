using System.Collections.Generic;
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

    public static LaidDesk Load(DeskSource source, List<Finding> findings)
    {
        var desk = DeskReader.Read(source.Name, source.Bytes.AsSpan());
        findings.AddRange(desk.Findings);
        var fonts = new FontShelf(OwnFonts(desk.Value, source.Files, findings));
        var laid = DeskLayout.Place(desk.Value, fonts);
        findings.AddRange(laid.Findings);
        return laid.Value;
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
