using System.Collections.Generic;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Parts;

/// <summary>An opening of any form, cut along its line as somebody drew it.</summary>
/// <param name="Outline">The area, one piece without holes, the middle of the box around it at the origin.</param>
public sealed record DrawnCutout(Region<ItemSpace> Outline) : Cutout
{
    /// <inheritdoc/>
    public override string SizeText => $"{Text(Width.Mm)} x {Text(Height.Mm)}";

    /// <inheritdoc/>
    public override IEnumerable<(string What, Figure Figure)> Figures => [("width", Width), ("height", Height)];

    private Figure Width => Figure.FromUser(Rounded(Outline.Bounds.WidthMm));

    private Figure Height => Figure.FromUser(Rounded(Outline.Bounds.HeightMm));

    /// <inheritdoc/>
    public override Region<ItemSpace> Shape() => Outline;

    /// <inheritdoc/>
    public override ArcPath<ItemSpace> Line() => Border(Outline);

    /// <inheritdoc/>
    public override ArcPath<ItemSpace> PaperLine(double marginMm) => Border(marginMm > 0 ? Outline.Grow(marginMm) : Outline);

    private static ArcPath<ItemSpace> Border(Region<ItemSpace> area) =>
        ArcPath<ItemSpace>.Straight(area.Borders().MaxBy(border => border.SignedAreaMm2)!.Points.AsSpan());

    private static double Rounded(double mm) => System.Math.Round(mm, 1, System.MidpointRounding.AwayFromZero);
}
