using System;
using System.Collections.Generic;
using System.Linq;
using System.Threading;
using Lampblack.Cutting;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Quantities;
using Lampblack.SourceText;

namespace Lampblack.Jobs;

/// <summary>Plans cuts: of a desk's panels, or of loose pieces.</summary>
public static class Cut
{
    /// <summary>Reads the file and plans.</summary>
    /// <param name="source">A desk file, or a file of loose pieces: the one that has a <c>[[panel]]</c> is a desk.</param>
    /// <param name="request">What was asked for.</param>
    /// <param name="progress">Told how far the search is.</param>
    /// <param name="stop">Ends the search; the best plan so far is given.</param>
    public static CutResult Run(DeskSource source, CutRequest request, IProgress<string> progress, CancellationToken stop)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(progress);
        var findings = new List<Finding>();
        var effort = new CutEffort(request.MostSteps, stop, progress);
        var text = TomlText.Read(source.Name, source.Bytes.AsSpan());
        var isDesk = text.Value.Find("panel") is not null;
        var (title, sheet) = isDesk ? OfDesk(source, effort, findings) : OfPieces(text, effort, findings);
        var paper = PaperSize.Find(request.Paper);
        if (paper is null)
        {
            findings.Add(UnknownPaper.Finding(request.Paper));
        }

        List<OutputFile> files = paper is null ? [] : [.. CutFiles.Of(title, sheet, paper)];
        if (files.Count > 0)
        {
            files.Add(Manifest.Write(files));
        }

        return new(title, [.. findings.OrderByDescending(finding => finding.Severity).ThenBy(finding => finding.Span?.Line ?? 0)], [.. files], sheet);
    }

    private static (string Title, CutSheetPlan Sheet) OfDesk(DeskSource source, CutEffort effort, List<Finding> findings)
    {
        var desk = DeskReader.Read(source.Name, source.Bytes.AsSpan());
        findings.AddRange(desk.Findings);
        return (desk.Value.Title, DeskCut.Plan(desk.Value, effort, findings));
    }

    private static (string Title, CutSheetPlan Sheet) OfPieces(Checked<TableNode> text, CutEffort effort, List<Finding> findings)
    {
        findings.AddRange(text.Findings);
        var (title, task) = LooseCut.Read(text.Value, findings);
        var plan = CutSearch.Run(task, effort);
        CutFindings.Tell(task, plan, findings, _ => null, false);
        return (title, new(plan, null, false, 0, task.Rules));
    }
}
