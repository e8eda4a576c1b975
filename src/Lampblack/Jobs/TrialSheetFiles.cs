using System.Collections.Generic;
using System.Collections.Immutable;
using Lampblack.Layout;
using Lampblack.Separations;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>What goes with the print files: trial sheets, part card, print card.</summary>
internal static class TrialSheetFiles
{
    public static IEnumerable<OutputFile> Of(
        LaidDesk laid, ImmutableArray<PanelSeparation> separations, ImmutableArray<Sheet> sheets, PrintSetup setup, BuildRequest request)
    {
        var desk = laid.Desk;
        yield return TrialSheet.Of(desk.Title, desk.Order, separations, sheets, setup);
        if (PartCard.Of(desk.Title, laid.Panels, setup) is { } parts)
        {
            yield return parts;
        }

        yield return PrintCard.Of(desk.Title, desk.Order, sheets, setup, request);
    }
}
