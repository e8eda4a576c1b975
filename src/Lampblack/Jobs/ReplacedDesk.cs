using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;

namespace Lampblack.Jobs;

/// <summary>Says that the sheets of one picture took the place of a desk's build: the folder that was named held one.</summary>
public static class ReplacedDesk
{
    /// <summary>The warning; null where the folder held nothing, or the sheets of another picture.</summary>
    /// <param name="lastReport">The report of the build before; empty for none.</param>
    /// <param name="folder">The folder as it was named.</param>
    public static Finding? Of(ImmutableArray<byte> lastReport, string folder) =>
        ComparisonReport.Read(lastReport.IsDefault ? default : lastReport.AsMemory()) is { } report && report.Panels.Select(panel => panel.Id) is var panels && !panels.SequenceEqual([Separate.PanelId])
            ? Finding.Warn(
                "output-other-desk",
                $"{Shown.Code(folder)} held the build of a desk (panel {string.Join(", ", panels.Select(Shown.Code))}); the sheets of this picture took the place of its files",
                "build that desk once more to have it back, and name another folder for the picture with `-o`")
            : null;
}
