using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using Lampblack.Desks;
using Lampblack.Lettering;

namespace Lampblack.Jobs;

/// <summary>The licences of the bundled fonts that a desk's outputs use.</summary>
internal static class FontLicences
{
    public static IEnumerable<OutputFile> Of(Desk desk)
    {
        var own = desk.Fonts.Select(font => font.Name).ToImmutableHashSet(StringComparer.Ordinal);
        var used = new SortedDictionary<string, string>(StringComparer.Ordinal);
        foreach (var name in desk.Panels.SelectMany(panel => panel.Items).SelectMany(Fonts).Append("barlow-condensed-medium").Where(name => !own.Contains(name)))
        {
            if (BundledFonts.Find(name) is { } face)
            {
                used[face.FamilyName] = BundledFonts.LicenceOf(name);
            }
        }

        return used.Select(pair => new OutputFile(
            $"licences/{pair.Key.ToLowerInvariant().Replace(' ', '-')}.txt", $"licence of the font {pair.Key}", [.. Encoding.UTF8.GetBytes(pair.Value)]));
    }

    private static IEnumerable<string> Fonts(PanelItem item) => item switch
    {
        Control control => [control.LegendText.Font, control.StateText.Font, .. control.Dial is { } dial ? [dial.Text.Font] : Array.Empty<string>()],
        Legend legend => [legend.Text.Font],
        FreeDial dial => [dial.Dial.Text.Font],
        Rule { Title.Length: > 0 } rule => [rule.TitleText.Font],
        _ => [],
    };
}
