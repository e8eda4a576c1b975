using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Artwork;
using Lampblack.Desks;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Separations;

/// <summary>What marks are printed in with a black build, gathered so that marks of one ink make one area and show no seam.</summary>
internal static class MarkInks
{
    /// <summary>How far a thin cover reaches under the black around it, so that no hairline traces the hidden shape.</summary>
    private const double CoverUnderMm = 0.15;

    /// <summary>The ink as this build can print it: in gray where the printer has black only (ISO 32000-1 10.3.3).</summary>
    public static Ink Of(Ink ink, BlackBuild build)
    {
        if (build.Ink.Space != InkSpace.Gray)
        {
            return ink;
        }

        var amounts = ink.Amounts;
        return ink.Space switch
        {
            InkSpace.Gray => ink,
            InkSpace.Rgb => Ink.Gray((0.3 * amounts[0]) + (0.59 * amounts[1]) + (0.11 * amounts[2])),
            _ => Ink.Gray(Math.Round(1 - Math.Min(1, (0.3 * amounts[0]) + (0.59 * amounts[1]) + (0.11 * amounts[2]) + amounts[3]), 4, MidpointRounding.AwayFromZero)),
        };
    }

    /// <summary>
    /// The style as this build prints it. A printer with black only has no colour that could hold when lit: its gray in the opening would only take light, so the opening stays clear.
    /// </summary>
    public static MarkStyle StyleOf(MarkStyle style, BlackBuild build) =>
        style.Backed && build.Ink.Space == InkSpace.Gray && HatchKey.IsColour(style.Ink) ? style with { Backed = false } : style;

    /// <summary>The field's own ink as this build can print it; null where the field is the build itself.</summary>
    public static Ink? Field(Panel panel, BlackBuild build) => panel.Field is { } ink ? Of(ink, build) : null;

    /// <summary>The cover of a hidden mark: one layer of what K's edge is made of, or a share of one, in the build's own colour space.</summary>
    public static Ink Cover(MarkStyle style, BlackBuild build)
    {
        var light = Math.Round(1 - style.CoverShare, 4, MidpointRounding.AwayFromZero);
        return build.Ink.Space switch
        {
            InkSpace.Gray => Ink.Gray(light),
            InkSpace.Rgb => Ink.Rgb(light, light, light),
            _ => Ink.Cmyk(0, 0, 0, style.CoverShare),
        };
    }

    /// <summary>Whether an ink is black itself, so that its edges grow and are pulled back as the field's are.</summary>
    public static bool IsBlack(Ink ink) => ink.Space switch
    {
        InkSpace.Gray => ink.Amounts[0] <= 0,
        InkSpace.Rgb => ink.Amounts.All(amount => amount <= 0),
        _ => ink.Amounts[3] >= 1,
    };

    /// <summary>Areas beside black that is pulled back: black ones with it, the others after it, so that no bare paper comes between.</summary>
    /// <param name="areas">The areas as they are drawn.</param>
    /// <param name="open">What is not black, as it is drawn.</param>
    /// <param name="sent">The same as it is sent.</param>
    /// <param name="byMm">How far the black is pulled back.</param>
    public static ImmutableArray<Painted<PanelSpace>> Beside(ImmutableArray<Painted<PanelSpace>> areas, Region<PanelSpace> open, Region<PanelSpace> sent, double byMm) => byMm <= 0 ? areas :
    [
        .. areas.Select(area => area with
        {
            Region = IsBlack(area.Ink) ? area.Region.Except(sent) : area.Region.Union(area.Region.Grow(byMm).Intersect(sent).Except(open)),
        }),
    ];

    public static bool IsHidden(Mark mark) => mark.Style is { Role: LightRole.Hidden, Ink: not null };

    /// <summary>The covers of hidden marks, by ink: grown by the spread, so that no misregister brings an opening out from under its cover; never over what is seen by day.</summary>
    public static ImmutableArray<Painted<PanelSpace>> Covers(ImmutableArray<Mark> visible, Region<PanelSpace> knocked, BlackBuild build, double spreadMm) =>
    [
        .. Gathered(visible.Where(IsHidden).Select(mark => (mark.Shape.Grow(spreadMm), Cover(mark.Style, build))))
            .Select(cover => cover with { Region = cover.Region.Except(knocked) }),
    ];

    /// <summary>Covers that K's edge doesn't make anyway, as they are laid under the black.</summary>
    public static IEnumerable<Painted<PanelSpace>> UnderBlack(IEnumerable<Painted<PanelSpace>> covers, Region<PanelSpace> knocked) =>
        covers.Select(cover => cover with { Region = cover.Region.Grow(CoverUnderMm).Except(knocked) });

    /// <summary>Marks seen by day in an ink of their own, by ink; bare paper is no ink.</summary>
    public static ImmutableArray<Painted<PanelSpace>> Coloured(ImmutableArray<Mark> visible, BlackBuild build) => Gathered(visible
        .Where(mark => mark.Style is { Role: not LightRole.Hidden, Ink: not null } && mark.Style.Ink != Ink.None)
        .Select(mark => (mark.Shape, Of(mark.Style.Ink!, build))));

    /// <summary>The colours printed in the openings of marks that ask for it, by ink.</summary>
    public static ImmutableArray<Painted<PanelSpace>> Backed(SeparationShapes shapes, BlackBuild build, double spreadMm) => Gathered(shapes.Visible
        .Where(mark => mark.Style.Backed && Separator.Shines(mark) && mark.Style.Ink != Ink.None)
        .Select(mark => (Separator.OpeningOf(mark, spreadMm).Intersect(shapes.Openings), Of(mark.Style.Ink!, build))));

    private static ImmutableArray<Painted<PanelSpace>> Gathered(IEnumerable<(Region<PanelSpace> Shape, Ink Ink)> areas) =>
        [.. areas.GroupBy(area => area.Ink).Select(group => new Painted<PanelSpace>(Region<PanelSpace>.Union(group.Select(area => area.Shape)), group.Key))];
}
