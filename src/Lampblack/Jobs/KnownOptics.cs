using Lampblack.Optics;
using Lampblack.Printers;

namespace Lampblack.Jobs;

/// <summary>What is known of a printer's sheets in the light. The one place where densities that were measured take the place of usual ones.</summary>
internal static class KnownOptics
{
    /// <param name="build">The field's black.</param>
    /// <param name="file">What was learned of the printer; null where nothing was.</param>
    public static SheetOptics Of(BlackBuild build, PrinterFile? file) => SheetOptics.Unmeasured(build.Ink, file?.Path.WeightGramsPerM2);
}
