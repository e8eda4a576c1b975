using Lampblack.Optics;
using Lampblack.Printers;

namespace Lampblack.Jobs;

/// <summary>What is known of a printer's sheets in the light. The one place where densities that were measured take the place of usual ones.</summary>
internal static class KnownOptics
{
    /// <param name="build">The field's black.</param>
    /// <param name="file">What was learned of the printer; null where nothing was.</param>
    public static SheetOptics Of(BlackBuild build, PrinterFile? file)
    {
        var usual = SheetOptics.Unmeasured(build.Ink, file?.Path.WeightGramsPerM2);
        if (file is not { Wedges.IsEmpty: false } || usual.Field is not { } field)
        {
            return usual;
        }

        var wedge = WedgeEstimate.Of(file);
        return usual with { Field = field with { Front = Known(wedge.OfBuild(build), field.Front), Mask = Known(wedge.OfBuildOnBack(build), field.Mask) } };
    }

    /// <summary>A density that was read is that of the layer as it came out: its pinholes are in it already. Of one that is only known to be darker than a bound, the bound is taken.</summary>
    private static SideBlack Known(PatchDensity? read, SideBlack usual) => read is null
        ? usual
        : new(read.Density, 0, read.IsInferred || read.IsLowerBound ? Knowledge.Inferred : Knowledge.Measured);
}
