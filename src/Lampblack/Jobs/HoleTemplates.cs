using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Quantities;

namespace Lampblack.Jobs;

/// <summary>The pages on which drilled plates are photographed, two for each panel: one for a felt pen, one for a plate that is light.</summary>
public static class HoleTemplates
{
    internal const string Path = "drilled.pdf";

    /// <summary>The pages of all panels that have round holes.</summary>
    /// <param name="laid">The desk.</param>
    /// <param name="paper">The paper.</param>
    public static Checked<ImmutableArray<TemplatePlan>> Plan(LaidDesk laid, PaperSize paper)
    {
        var plans = ImmutableArray.CreateBuilder<TemplatePlan>();
        var findings = ImmutableArray.CreateBuilder<Finding>();
        foreach (var panel in laid.Panels.Select(Panel).OfType<TemplatePanel>())
        {
            ImmutableArray<TemplatePlan> pages = [.. new[] { false, true }.Select(isDark => TemplatePlan.Of(panel, paper, isDark)).OfType<TemplatePlan>()];
            plans.AddRange(pages);
            if (pages.IsEmpty)
            {
                findings.Add(Finding.Note(
                    "drilled-page-no-room",
                    $"{paper.Name} has no room for a page to photograph the drilled plate of `{panel.Id}` on",
                    "larger paper has; or measure holes with a caliper and write them with `lampblack drilled DESK ID=dx,dy`",
                    null,
                    panel.Id));
            }
        }

        return new(plans.ToImmutable(), findings.ToImmutable());
    }

    /// <summary>The file; null where there is no page.</summary>
    internal static OutputFile? Of(string title, ImmutableArray<TemplatePlan> plans, PrintSetup setup) => plans.IsEmpty ? null : new(
        Path,
        "pages to photograph the drilled plate on; plain paper, one side",
        PdfFile.Bind([.. plans.AsParallel().AsOrdered().Select(plan => PackedPage.Of(TemplatePage.Of(plan, setup.Black.Edge, setup.Printer)))], new($"{title} hole templates", PdfSides.OneSided)));

    /// <summary>What a template shows of a panel: its round holes where the desk means them to be, whatever was drilled; null where it has none.</summary>
    internal static TemplatePanel? Panel(LaidPanel laid)
    {
        var panel = laid.Panel;
        var holes = panel.Items.OfType<Control>().SelectMany(control => Enumerable.Range(0, control.Copies.Count).SelectMany(copy =>
        {
            var (dx, dy) = control.Copies.ShiftOf(copy);
            var placed = ComparisonControls.PlacedAt(control, new(control.XMm + dx, control.YMm + dy));
            return placed.Holes.Where(IsRound).Select(hole => new PanelHole(Item(panel, control, copy), hole.Bounds.Centre, hole.Bounds.WidthMm / 2));
        })).ToImmutableArray();
        return holes.IsEmpty ? null : new(panel.Id, panel.Title, panel.WidthMm, panel.HeightMm, laid.Outline, holes);
    }

    /// <summary>A control, or one copy of a row or grid, as findings call it.</summary>
    internal static string Item(Panel panel, Control control, int copy) => control.Copies.Count == 1
        ? $"{panel.Id}/{control.Id}"
        : string.Create(CultureInfo.InvariantCulture, $"{panel.Id}/{control.Id}.{copy + 1}");

    private static bool IsRound(Region<PanelSpace> hole)
    {
        var (width, height) = (hole.Bounds.WidthMm, hole.Bounds.HeightMm);
        return Math.Abs(width - height) < 0.02 && Math.Abs((hole.AreaMm2 / (width * width * Math.PI / 4)) - 1) < 0.01;
    }
}
