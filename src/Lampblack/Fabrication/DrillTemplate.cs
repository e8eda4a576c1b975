using System;
using System.Collections.Immutable;
using Lampblack.Formats;
using Lampblack.Parts;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Fabrication;

/// <summary>The drill template of a plate at true size: its edge and score lines, every opening with its cross and number. It is stuck on the acrylic's film, or held over the print.</summary>
public static class DrillTemplate
{
    private const string Use = "Plain paper, actual size (100 %), one side: measure the bar below. Stick it on the plate's film, the black corner on the lower left corner; where the print is on already, only hold it with tape at the edges.";

    /// <summary>The pages as the printer gets them.</summary>
    /// <param name="chart">The panel's chart.</param>
    /// <param name="paper">The paper.</param>
    /// <param name="ink">The one ink.</param>
    /// <param name="printer">What is known of the printer; what it does to side 1 is undone, as on a front.</param>
    public static ImmutableArray<PdfPage> Pages(HoleChart chart, PaperSize paper, Ink ink, PrinterProperties printer)
    {
        ArgumentNullException.ThrowIfNull(chart);
        ArgumentNullException.ThrowIfNull(paper);
        ArgumentNullException.ThrowIfNull(printer);
        var panel = chart.Laid.Panel;
        var words = new TemplateWords(
            $"{PrintableText.Clean(panel.Title)}  ·  drill template {Cutout.Text(panel.WidthMm)} x {Cutout.Text(panel.HeightMm)} mm, seen from the front",
            [Use, Explained(chart, isSpread: false)],
            [Use, Explained(chart, isSpread: true)]);
        return TemplatePages.Of(panel.WidthMm, panel.HeightMm, TemplateDrawing.Shapes(chart), words, paper, ink, printer);
    }

    /// <summary>How a template is read; of numbers only where holes have some.</summary>
    /// <param name="chart">The panel's chart.</param>
    /// <param name="isSpread">Whether it is spread over several pages.</param>
    public static string Explained(HoleChart chart, bool isSpread)
    {
        ArgumentNullException.ThrowIfNull(chart);
        var hasHoles = !chart.Holes.IsEmpty;
        return isSpread
            ? "Cut along one page's edge and lay cross on cross, letter on letter; tape." + (hasHoles ? " Numbers are those of the hole chart, with sizes in mm." : string.Empty)
            : (hasHoles ? "Beside each hole: its number in the hole chart, and its size in mm. " : string.Empty) + "Long lines are score lines, edge to edge; the corners are filed.";
    }
}
