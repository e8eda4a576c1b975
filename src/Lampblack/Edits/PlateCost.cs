using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Parts;

namespace Lampblack.Edits;

/// <summary>What an edit does to plates that are drilled already.</summary>
internal static class PlateCost
{
    /// <summary>A finding for each drilled control that no longer fits its hole.</summary>
    /// <param name="before">The desk as it was.</param>
    /// <param name="after">The desk as it is to be.</param>
    public static IEnumerable<Finding> Tell(Desk before, Desk after)
    {
        foreach (var (address, old, now) in Controls(before, after).Where(pair => pair.Old is { Drilled: not null }))
        {
            var what = now is null ? "is removed, so that its hole stays open: that takes a new plate"
                : (now.XMm, now.YMm) != (old!.XMm, old.YMm) ? "is moved, so that its hole is in the wrong place: that takes a new plate"
                : IsOtherHole(old, now) ? "gets a part with another hole: that takes a new hole, or a new plate where the new one is smaller"
                : null;
            if (what is not null)
            {
                yield return Finding.Warn("edit-drilled", $"`{address}` is drilled and {what}", "undo this where the drilled plate is to be kept", null, address);
            }
        }
    }

    /// <summary>Whether two controls need different holes.</summary>
    public static bool IsOtherHole(Control old, Control now) => !Hole(old).SequenceEqual(Hole(now));

    /// <summary>A control's hole in figures: the same for the same hole, whoever told its sizes. A round hole has no turn.</summary>
    private static IEnumerable<object> Hole(Control control)
    {
        var part = control.Part;
        var isRound = part is { Cutout: RoundCutout, Key: null, ExtraHoles.IsEmpty: true };
        return
        [
            part.Cutout.GetType(), isRound ? 0.0 : control.TurnDegrees, .. part.Cutout.Figures.Select(figure => (object)figure.Figure.Mm),
            part.Cutout is SlotCutout slot ? slot.DirectionDegrees : 0.0,
            part.Key is { } key ? (key.Width.Mm, key.Depth.Mm, key.DirectionDegrees) : (0.0, 0.0, 0.0),
            .. part.ExtraHoles.Select(hole => (object)(hole.XMm, hole.YMm, hole.Diameter.Mm)),
        ];
    }

    /// <summary>The controls of a desk, old and new side by side: by their ids, or by their places where one was renamed.</summary>
    public static IEnumerable<(string Address, Control? Old, Control? Now)> Controls(Desk before, Desk after)
    {
        foreach (var (panel, now) in Panels(before, after))
        {
            var olds = panel is null ? [] : panel.Items.OfType<Control>().ToList();
            var news = now is null ? [] : now.Items.OfType<Control>().ToList();
            var met = new HashSet<Control>(ReferenceEqualityComparer.Instance);
            foreach (var (number, old) in olds.Index())
            {
                var match = news.FirstOrDefault(other => other.Id == old.Id)
                    ?? (olds.Count == news.Count && olds.All(other => other.Id != news[number].Id) ? news[number] : null);
                if (match is not null)
                {
                    met.Add(match);
                }

                yield return ($"{panel!.Id}/{old.Id}", old, match);
            }

            foreach (var fresh in news.Where(control => !met.Contains(control)))
            {
                yield return ($"{now!.Id}/{fresh.Id}", null, fresh);
            }
        }
    }

    /// <summary>The panels of a desk, old and new side by side.</summary>
    public static IEnumerable<(Panel? Old, Panel? Now)> Panels(Desk before, Desk after)
    {
        var met = new HashSet<string>(StringComparer.Ordinal);
        foreach (var (number, old) in before.Panels.Index())
        {
            var match = after.Panels.FirstOrDefault(other => other.Id == old.Id)
                ?? (before.Panels.Length == after.Panels.Length && before.Panels.All(other => other.Id != after.Panels[number].Id) ? after.Panels[number] : null);
            met.Add(match?.Id ?? string.Empty);
            yield return (old, match);
        }

        foreach (var fresh in after.Panels.Where(panel => !met.Contains(panel.Id)))
        {
            yield return (null, fresh);
        }
    }
}
