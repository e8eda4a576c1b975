using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading.Tasks;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Quantities;
using Lampblack.Workshop.Bench;
using Microsoft.AspNetCore.Components;

namespace Lampblack.Workshop.Pages;

/// <summary>The station where sheets are made, printed and looked at.</summary>
public class PrintStationBase : ComponentBase, IDisposable
{
    /// <summary>The desk.</summary>
    [Parameter, EditorRequired]
    public DeskBench Bench { get; set; } = null!;

    /// <summary>The maker's printers.</summary>
    protected ImmutableArray<string> Printers { get; private set; } = [];

    /// <summary>All papers.</summary>
    protected static ImmutableArray<string> Papers { get; } = [.. PaperSize.All.Select(paper => paper.Name)];

    /// <summary>The four rows of dots.</summary>
    protected static ImmutableArray<string> Ways { get; } = ["N", "E", "S", "W"];

    /// <summary>What was counted in each.</summary>
    protected Dictionary<string, string> Counts { get; } = new(StringComparer.Ordinal) { ["N"] = "0", ["E"] = "0", ["S"] = "0", ["W"] = "0" };

    /// <summary>Where on the sheet it was counted.</summary>
    protected string Place { get; set; } = string.Empty;

    /// <summary>What was made last.</summary>
    protected MadeFiles? Made => Bench.Shop.Newest;

    /// <summary>Places that have rows of dots on the sheets that were made.</summary>
    protected ImmutableArray<string> Places => Made?.Result?.DotPlaces ?? [];

    /// <summary>What the sheets promise.</summary>
    protected IEnumerable<Finding> Promises => Made?.Result?.Findings.Where(finding => finding.Code is "spread-learned" or "spread-short" or "spread-default") ?? [];

    /// <summary>The spread as it is asked for.</summary>
    protected string SpreadWritten => Bench.Settings.SpreadMm is { } mm ? FormattableString.Invariant($"{mm:0.###} mm") : string.Empty;

    /// <summary>What an answer means that nothing is learned from.</summary>
    protected string? Answer { get; private set; }

    /// <inheritdoc />
    public void Dispose()
    {
        GC.SuppressFinalize(this);
        Bench.Changed -= OnChanged;
    }

    /// <inheritdoc />
    protected override void OnInitialized()
    {
        Bench.Changed += OnChanged;
        Printers = Bench.Printers.Names();
    }

    /// <summary>Makes the sheets.</summary>
    protected Task Make() => Bench.MakeSheets();

    /// <summary>Prints on another printer.</summary>
    protected void ChoosePrinter(string? name)
    {
        if (name is not { Length: > 0 })
        {
            Bench.Choose(BenchSettings.Usual() with { FillSheet = Bench.Settings.FillSheet });
        }
        else if (Bench.Printers.Read(name) is { } printer)
        {
            Bench.Choose(Bench.Settings with { PrinterName = name, Printer = printer, Paper = PrinterFiles.PaperOf(printer), PaperFrom = "printer", Black = null });
        }
    }

    /// <summary>Prints on another paper.</summary>
    protected void ChoosePaper(string? paper) => Bench.Choose(Bench.Settings with { Paper = paper ?? Bench.Settings.Paper, PaperFrom = "option" });

    /// <summary>Prints in another black.</summary>
    protected void ChooseBlack(string? black) => Bench.Choose(Bench.Settings with { Black = black is { Length: > 0 } ? black : null });

    /// <summary>Asks for a spread; without one the printer decides.</summary>
    protected void ChooseSpread(string? typed)
    {
        Answer = null;
        if (string.IsNullOrWhiteSpace(typed))
        {
            Bench.Choose(Bench.Settings with { SpreadMm = null });
        }
        else if (LengthText.TryRead(typed, out double mm, out string problem))
        {
            Bench.Choose(Bench.Settings with { SpreadMm = mm });
        }
        else
        {
            Answer = $"{typed}: {problem}";
        }
    }

    /// <summary>Fills the sheets with spare copies, or leaves them.</summary>
    protected void Fill(bool isFilled) => Bench.Choose(Bench.Settings with { FillSheet = isFilled });

    /// <summary>The tick was seen.</summary>
    protected void Saw(string where)
    {
        Answer = null;
        if (Bench.Settings.Printer is null)
        {
            Answer = where switch
            {
                "A" => "Right: the sheet went in the right way.",
                "B" => "The other edge went in first. Lay the sheet in with the same edge first, or start this printer at the station Printer, so that the next sheet is made for the way it turns.",
                "front" => "The wrong face was printed. Lay the sheet in with the other face up.",
                _ => "Either the second side was printed on another sheet, or the page was scaled: print at actual size, 100 %.",
            };
            return;
        }

        Store(LearnAnswers.Nothing with { Tick = where });
    }

    /// <summary>The dots were counted.</summary>
    protected void StoreDots()
    {
        if (Bench.Settings.Printer is null)
        {
            Answer = "To learn from this, choose a printer above; start yours at the station Printer.";
            return;
        }

        string counted = string.Join(',', Ways.Select(way => $"{way}={Counts[way]}"));
        Store(LearnAnswers.Nothing with { Dots = [$"{Place}:{counted}"], Report = ReportOfMade() });
    }

    private void Store(LearnAnswers answers)
    {
        string name = Bench.Settings.PrinterName;
        if (Bench.Printers.Store(name, answers) && Bench.Printers.Read(name) is { } printer)
        {
            Bench.Choose(Bench.Settings with { Printer = printer });
            Answer = "Learned. Make the sheets again: the next one goes by what you saw.";
        }
    }

    private ImmutableArray<byte> ReportOfMade() => Made?.Files.FirstOrDefault(file => file.Path == "report.json")?.Bytes ?? [];

    private void OnChanged(BenchNews news) => _ = InvokeAsync(StateHasChanged);
}
