using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Geometry;
using Lampblack.Layout;

namespace Lampblack.Jobs;

/// <summary>The controls of a panel as reports tell them, and which one of an earlier report is which one now.</summary>
internal static class ComparisonControls
{
    /// <summary>Every control; the copies of a row or grid each on its own.</summary>
    public static ImmutableArray<ReportedControl> Of(Panel panel) =>
    [
        .. panel.Items.OfType<Control>().SelectMany(control =>
        {
            // About the origin and not in its place, where the grid would round it another way with every move.
            var hash = ComparisonFingerprint.OfHoles([PlacedAt(control, default)]);
            return Enumerable.Range(0, control.Copies.Count).Select(copy =>
            {
                var (dx, dy) = control.Copies.ShiftOf(copy);
                var id = control.Copies.Count == 1 ? control.Id : string.Create(CultureInfo.InvariantCulture, $"{control.Id}.{copy + 1}");
                return new ReportedControl(
                    id,
                    control.Part.Id,
                    new(Rounded(control.XMm + dx), Rounded(control.YMm + dy)),
                    control.Drilled is { } off ? new(Rounded(off.DxMm), Rounded(off.DyMm)) : null,
                    hash);
            });
        }),
    ];

    /// <summary>A control's part as it would be at a place.</summary>
    public static PlacedPart PlacedAt(Control control, Point<PanelSpace> centre) =>
        ControlLayout.PlacePart(control.Part, centre, control.TurnDegrees, new(control.Id, control.Span));

    /// <summary>
    /// Pairs what belongs together: by id where the maker gave one; then by place and hole, because ids made from numbers change when a control is
    /// put in before; then by id.
    /// </summary>
    public static ImmutableArray<(ReportedControl Before, ReportedControl Now)> Pairs(
        ImmutableArray<ReportedControl> before, ImmutableArray<ReportedControl> now)
    {
        var pairs = ImmutableArray.CreateBuilder<(ReportedControl, ReportedControl)>();
        var left = before.ToList();
        var open = now.ToList();
        Take(control => IsNumbered(control.Id) ? null : control.Id);
        Take(control => string.Create(CultureInfo.InvariantCulture, $"{control.At.XMm:0.####} {control.At.YMm:0.####} {control.HoleHash}"));
        Take(control => control.Id);
        return pairs.ToImmutable();

        void Take(Func<ReportedControl, string?> keyOf)
        {
            var byKey = new Dictionary<string, ReportedControl>(StringComparer.Ordinal);
            foreach (var control in left)
            {
                if (keyOf(control) is { } key)
                {
                    byKey.TryAdd(key, control);
                }
            }

            var taken = new HashSet<ReportedControl>(ReferenceEqualityComparer.Instance);
            foreach (var control in open)
            {
                if (keyOf(control) is { } key && byKey.Remove(key, out var other))
                {
                    pairs.Add((other, control));
                    taken.Add(other);
                    taken.Add(control);
                }
            }

            left.RemoveAll(taken.Contains);
            open.RemoveAll(taken.Contains);
        }
    }

    private static bool IsNumbered(string id) => id.StartsWith("control-", StringComparison.Ordinal);

    /// <summary>To 0.1 µm, just as a report writes it.</summary>
    private static double Rounded(double mm) => (double)Math.Round((decimal)mm, 4, MidpointRounding.AwayFromZero);
}
