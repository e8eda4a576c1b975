using System.Collections.Immutable;
using Lampblack.Findings;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Sheets;

namespace Lampblack.Tests.Sheets;

/// <summary>Sheets of panels whose sides are known from the start, as a build makes them in two steps.</summary>
internal static class SheetsOf
{
    public static Checked<ImmutableArray<Sheet>> Panels(
        string title, ImmutableArray<Printable> panels, PaperSize paper, PrinterProperties printer, BlackBuild build, SheetWishes wishes)
    {
        var imposed = SheetComposer.Impose(panels, paper, printer);
        var sheets = SheetComposer.Compose(title, imposed.Value, panels, printer, build, wishes);
        return new(sheets.Value, imposed.Findings.AddRange(sheets.Findings));
    }
}
