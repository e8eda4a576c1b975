using System.Collections.Immutable;
using System.Linq;
using Lampblack.Optics;
using Lampblack.Quantities;
using Lampblack.Separations;

namespace Lampblack.Jobs;

/// <summary>An ink that legends shine in.</summary>
/// <param name="Item">The first item that has it.</param>
/// <param name="Ink">The ink.</param>
/// <param name="IsBacked">Whether it is printed on the back as well, so that light passes it twice when it is lit, too.</param>
/// <param name="LitShare">What it lets through of the lamps' light when lit, as seen by the eye; bare paper is 1.</param>
/// <param name="DayReflectance">What it throws back by day.</param>
internal sealed record LegendLight(string Item, Ink Ink, bool IsBacked, double LitShare, double DayReflectance)
{
    /// <summary>Its colour when lit, bare paper before the same lamps at full.</summary>
    public LinearColour LitColour { get; init; }

    /// <summary>Its colour by day.</summary>
    public LinearColour DayColour { get; init; }
}

/// <summary>What can be told beforehand of one panel in the light. Shares are of what bare paper of the same kind shows before the same lamps.</summary>
/// <param name="Legends">Its lit legends by ink, the dimmest first; empty where nothing but hidden legends or pictures of many colours shines.</param>
/// <param name="Covers">What covers hidden legends; empty where there are none.</param>
/// <param name="OpenShare">What a bare legend shows, behind the smallest opening.</param>
/// <param name="FieldShare">What the field lets through.</param>
/// <param name="FieldReflectance">What the field throws back by day.</param>
/// <param name="HaloShare">What the ring around a legend lets through.</param>
/// <param name="HaloWidthMm">How wide that ring is, the paper's softness included.</param>
internal sealed record PanelLight(
    ImmutableArray<LegendLight> Legends, ImmutableArray<CoverLight> Covers, double OpenShare, double FieldShare, double FieldReflectance, double HaloShare, double HaloWidthMm)
{
    /// <summary>What the dimmest lit legend shows.</summary>
    public double DimmestShare => OpenShare * (Legends.IsEmpty ? 1 : Legends[0].LitShare);

    /// <summary>The dimmest lit legend against the field, in the dark.</summary>
    public double LitContrastFactor => DimmestShare / FieldShare;

    /// <summary>A panel's figures.</summary>
    /// <param name="separation">The panel.</param>
    /// <param name="sheet">What inks and paper do to light.</param>
    /// <param name="stack">What lies in the light's way.</param>
    /// <param name="lamps">The lamps' colour.</param>
    public static PanelLight Of(PanelSeparation separation, SheetOptics sheet, StackLight stack, LinearColour lamps)
    {
        var (build, panel) = (separation.Build, separation.Artwork.Laid.Panel);
        var marks = separation.Shapes.Visible.Where(mark => Separator.Shines(mark) && !MarkInks.IsHidden(mark))
            .Select(mark => (mark.Origin.Item, Ink: MarkInks.Of(mark.Style.Ink!, build), mark.Style.Backed))
            .Concat(separation.Shapes.Dots.Where(dot => dot is { Opening: not null, IsHidden: false, Mark.Colours: null })
                .Select(dot => (dot.Mark.Origin.Item, Ink: dot.OwnInk ?? Ink.None, dot.Mark.Style.Backed)));
        var legends = marks.GroupBy(mark => (mark.Ink, Backed: mark.Backed && mark.Ink != Ink.None)).Select(group =>
        {
            var filter = sheet.FrontTransmission(group.Key.Ink) * (group.Key.Backed ? sheet.MaskTransmission(group.Key.Ink) : LinearColour.White);
            var day = sheet.Reflectance(group.Key.Ink);
            return new LegendLight(group.First().Item, group.Key.Ink, group.Key.Backed, Passed(filter, lamps), day.Luminance) { LitColour = (1 / lamps.Peak) * (filter * lamps), DayColour = day };
        });
        var fieldInk = MarkInks.Field(panel, build) ?? build.Ink;

        // A field in an ink of its own has that on the front in place of the black.
        var front = fieldInk == build.Ink ? 1 : Passed(sheet.FrontTransmission(fieldInk), lamps) / sheet.FrontTransmission(build.Ink).Luminance;
        var field = stack.FieldShare * front;
        var face = sheet.Reflectance(fieldInk);
        var open = stack.LegendShare * (separation.Figures.Openings == 0 ? 1 : HaloLight.MiddleShare(sheet.Paper, separation.Figures.SmallestOpeningMm));
        return new(
            [.. legends.OrderBy(legend => legend.LitShare)],
            CoverLight.Of(separation, sheet, face, field, open, lamps),
            open,
            field,
            face.Luminance,
            stack.RingShare * front,
            HaloLight.WidthMm(sheet.Paper, separation.SpreadMm));
    }

    /// <summary>A face against the field in a lit room, lamps on.</summary>
    public double MixedContrastFactor(PaperOptics paper, RoomLight room) =>
        room.PlaceCandelaPerM2(paper, DimmestShare, Legends.IsEmpty ? paper.Reflectance : Legends[0].DayReflectance) / room.PlaceCandelaPerM2(paper, FieldShare, FieldReflectance);

    /// <summary>The palest legend by day against the field, lamps off.</summary>
    public double DayContrastFactor(PaperOptics paper) =>
        (Legends.IsEmpty ? paper.Reflectance : Legends.Max(legend => legend.DayReflectance)) / FieldReflectance;

    /// <summary>What the eye sees of lamps behind a filter.</summary>
    internal static double Passed(LinearColour filter, LinearColour lamps) => (filter * lamps).Luminance / lamps.Luminance;
}
