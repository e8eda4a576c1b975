using System.Linq;
using Lampblack.Findings;
using Lampblack.Quantities;

namespace Lampblack.Jobs;

/// <summary>Tells of a paper that nobody knows.</summary>
internal static class UnknownPaper
{
    public static Finding Finding(string name) => Findings.Finding.Stop(
        "paper-unknown", $"there is no paper {Shown.Code(name)}", "known are " + string.Join(", ", PaperSize.All.Select(paper => paper.Name)));
}
