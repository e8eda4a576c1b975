using System;
using Lampblack.Imaging;
using Lampblack.Separations;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>A separated panel and what is printed of it.</summary>
/// <param name="Separation">Front and mask, seen from the front.</param>
/// <param name="Print">The same as it goes onto a sheet.</param>
internal sealed record PrintedPanel(PanelSeparation Separation, Printable Print)
{
    /// <summary>The finished panel as layers, made once for the pictures of the build and of its book.</summary>
    public Lazy<PanelLayers> Finished { get; } = new(() => PictureLayers.Finished(Separation));
}
