using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Artwork;
using Lampblack.Findings;
using Lampblack.Separations;

namespace Lampblack.Jobs;

/// <summary>Front and mask of every panel of a desk.</summary>
/// <param name="Panels">The panels in the desk's order; none where nothing that is wanted shows a side.</param>
internal sealed record SeparatedDesk(ImmutableArray<PrintedPanel> Panels)
{
    /// <summary>Nothing is separated.</summary>
    public static SeparatedDesk Nothing { get; } = new([]);

    /// <summary>The sides alone.</summary>
    public ImmutableArray<PanelSeparation> Sides { get; } = [.. Panels.Select(panel => panel.Separation)];

    /// <summary>Separates all panels, beside each other.</summary>
    /// <param name="artworks">The panels as shapes.</param>
    /// <param name="setup">Printer, black and spreads.</param>
    /// <param name="secondPass">Which sides are printed twice.</param>
    /// <param name="findings">Takes what is found.</param>
    /// <param name="cancellation">Stops the work between two panels.</param>
    public static SeparatedDesk Of(ImmutableArray<PanelArtwork> artworks, PrintSetup setup, SecondPass secondPass, List<Finding> findings, CancellationToken cancellation)
    {
        var hatches = HatchKey.Of(artworks);
        var separations = artworks.AsParallel().AsOrdered().WithCancellation(cancellation)
            .Select(artwork => Separator.Separate(artwork, setup.Printer, setup.Black, setup.Spreads.Of(artwork.Laid.Panel.Id), hatches))
            .ToImmutableArray();
        findings.AddRange(separations.SelectMany(separation => separation.Findings));
        if (secondPass.HasFlag(SecondPass.Front))
        {
            findings.AddRange(separations.SelectMany(separation => SecondPassAreas.CheckFront(separation.Value)));
        }

        return new([.. separations.Select(separation => new PrintedPanel(separation.Value, Build.ToPrint(separation.Value, secondPass)))]);
    }
}
