using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Layout;
using Lampblack.Separations;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>What goes with the print files: trial sheets, part card, print card.</summary>
internal static class TrialSheetFiles
{
    public static ImmutableArray<OutputFile> Of(
        LaidDesk laid, ImmutableArray<PanelSeparation> separations, ImmutableArray<Sheet> sheets, PrintSetup setup, BuildRequest request)
    {
        var desk = laid.Desk;
        var tasks = new Func<OutputFile?>[]
        {
            () => PartCard.Of(desk.Title, laid.Panels, setup),
            () => TrialSheet.Of(desk.Title, desk.Order, separations, sheets, setup),
            () => PrintCard.Of(desk.Title, desk.Order, sheets, setup, request, laid.Panels.Any(panel => !panel.Parts.IsEmpty)),
        };
        return tasks.AsParallel().AsOrdered().Select(task => task()).OfType<OutputFile>().ToImmutableArray();
    }
}
