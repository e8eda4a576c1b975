using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Imaging;
using Lampblack.Optics;
using Lampblack.Parts;
using Lampblack.Separations;

namespace Lampblack.Jobs;

/// <summary>What can be told beforehand of light through the sheets of a build: figures of each panel, and what to print for the contrast wanted.</summary>
/// <param name="Sheet">What inks and paper do to light.</param>
/// <param name="Printed">What lies in the light's way as it is printed.</param>
/// <param name="Choices">All stacks there are, the lightest work first.</param>
/// <param name="Panels">Each panel's figures, in the order of the separations.</param>
/// <param name="WantedFactor">The contrast wanted.</param>
/// <param name="Enough">The first stack that gives it on every panel; null where none does.</param>
internal sealed record LightAccount(
    SheetOptics Sheet, StackLight Printed, ImmutableArray<StackLight> Choices, ImmutableArray<PanelLight> Panels, double WantedFactor, StackLight? Enough)
{
    private const double LargestMisregisterMm = 3;
    private const double LowestContrast = 2;
    private const double HighestContrast = 100_000;

    /// <summary>What is to be said of it.</summary>
    public ImmutableArray<Finding> Findings { get; private init; } = [];

    public static LightAccount Of(EmitterColour light, ImmutableArray<PanelSeparation> separations, PrintSetup setup, BuildRequest request)
    {
        var sheet = KnownOptics.Of(setup.Black, request.Printer);
        var frontPasses = request.SecondPass.HasFlag(SecondPass.Front) ? 2 : 1;

        // With a film and a second pass both, only one of them is counted: what is promised is no less than what comes.
        var layering = request.Film ? Layering.Film : request.SecondPass.HasFlag(SecondPass.Mask) ? Layering.SecondPass : Layering.TwoSides;
        var printed = StackLight.Of(layering, sheet, frontPasses);
        var lamps = Lamps(light);
        ImmutableArray<PanelLight> panels = [.. separations.Select(separation => PanelLight.Of(separation, sheet, printed, lamps))];
        ImmutableArray<StackLight> choices = [.. Enum.GetValues<Layering>().Select(choice => StackLight.Of(choice, sheet))];

        // A stack changes legends and field by the same shares on every panel, so the panel with the least contrast decides.
        var least = panels.Where(panel => !panel.Legends.IsEmpty).Select(panel => panel.LitContrastFactor / printed.ContrastFactor).DefaultIfEmpty(1).Min();
        var account = new LightAccount(
            sheet, printed, choices, panels, request.ContrastFactor, choices.FirstOrDefault(choice => choice.ContrastFactor * least >= request.ContrastFactor));
        return account with { Findings = [.. Ranges(request), .. LightFindings.Of(account, separations, setup), .. LampColours.Of(light, panels, separations)] };
    }

    /// <summary>The colour of a desk's lamps.</summary>
    public static LinearColour Lamps(EmitterColour light) => light switch
    {
        EmitterColour.CoolWhite => EmitterColours.CoolWhite,
        EmitterColour.Red => EmitterColours.Red,
        EmitterColour.Amber => EmitterColours.Amber,
        EmitterColour.Green => EmitterColours.Green,
        EmitterColour.Blue => EmitterColours.Blue,
        _ => EmitterColours.WarmWhite,
    };

    /// <summary>What the pictures are to show.</summary>
    public PictureWish Wish(BuildRequest request) => new(Sheet, new Vector<PanelSpace>(request.MisregisterRightMm, request.MisregisterUpMm), request.Film);

    private static IEnumerable<Finding> Ranges(BuildRequest request)
    {
        if (!(Math.Abs(request.MisregisterRightMm) <= LargestMisregisterMm && Math.Abs(request.MisregisterUpMm) <= LargestMisregisterMm))
        {
            yield return Finding.Stop(
                "misregister-range",
                FormattableString.Invariant($"the mask can be drawn off by at most {LargestMisregisterMm} mm each way, found {request.MisregisterRightMm:0.###} mm right and {request.MisregisterUpMm:0.###} mm up"),
                "`--misregister 0.2,-0.1` draws it 0.2 mm right and 0.1 mm down; only the pictures change");
        }

        if (!(request.ContrastFactor is >= LowestContrast and <= HighestContrast))
        {
            yield return Finding.Stop(
                "contrast-range",
                FormattableString.Invariant($"the contrast wanted must be from {LowestContrast} to {HighestContrast}, found {request.ContrastFactor}"),
                FormattableString.Invariant($"{BuildRequest.UsualContrastFactor} is usual: lit legends thirty times as bright as the field"));
        }
    }
}
