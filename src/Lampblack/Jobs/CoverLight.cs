using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Optics;
using Lampblack.Separations;

namespace Lampblack.Jobs;

/// <summary>A cover that hidden legends have or could have, by the two numbers that decide.</summary>
/// <param name="CoverShare">The share of a layer, as <c>cover</c> has it.</param>
/// <param name="IsUsed">Whether a legend of the panel has it.</param>
/// <param name="PassedShare">What it lets through when its lamp is on; bare paper is 1.</param>
/// <param name="AwayLightness">How far it is from the field by day, as a difference of CIE lightness.</param>
/// <param name="ShownContrastFactor">Against the field in a lit room, its own lamp on.</param>
internal sealed record CoverLight(double CoverShare, bool IsUsed, double PassedShare, double AwayLightness, double ShownContrastFactor)
{
    /// <summary>Steps of CIE lightness that side by side are hardly seen; about two just noticeable ones. From memory.</summary>
    public const double NearLightness = 2;

    /// <summary>How bright the lamp of a hidden legend is: one K layer passes a fortieth or so, and its own lamp must make up for a good part of that.</summary>
    public const double LampTimes = 10;

    /// <summary>The least contrast of a sign to its ground: 3:1, a guideline on colour displays.</summary>
    public const double LeastContrastFactor = 3;

    private static readonly ImmutableArray<double> Candidates = [1, 0.95, 0.9, 0.8, 0.7, 0.6, 0.5];

    /// <summary>Whether it can't be told from the field by day.</summary>
    public bool Hides => AwayLightness <= NearLightness;

    /// <summary>Whether what it covers is seen when its lamp is on.</summary>
    public bool Shows => ShownContrastFactor >= LeastContrastFactor;

    /// <summary>The covers of a panel and other ones, the darkest first.</summary>
    /// <param name="separation">The panel.</param>
    /// <param name="sheet">What inks and paper do to light.</param>
    /// <param name="face">The field by day.</param>
    /// <param name="fieldShare">What the field lets through.</param>
    /// <param name="openShare">What a bare legend shows behind the stack and the smallest opening.</param>
    /// <param name="lamps">The lamps' colour.</param>
    public static ImmutableArray<CoverLight> Of(PanelSeparation separation, SheetOptics sheet, LinearColour face, double fieldShare, double openShare, LinearColour lamps)
    {
        var hidden = separation.Shapes.Visible.Where(MarkInks.IsHidden).ToList();
        if (hidden.Count == 0)
        {
            return [];
        }

        var used = hidden.Select(mark => mark.Style.CoverShare).ToHashSet();
        var room = RoomLight.Evening;
        var field = room.PlaceCandelaPerM2(sheet.Paper, fieldShare, face.Luminance);
        return
        [
            .. used.Union(Candidates).OrderDescending().Select(share =>
            {
                var ink = MarkInks.Cover(hidden[0].Style with { CoverShare = share }, separation.Build);
                var passed = PanelLight.Passed(sheet.FrontTransmission(ink), lamps);
                var seen = sheet.Reflectance(ink);
                var shown = room with { BackLux = room.BackLux * LampTimes };
                return new CoverLight(
                    share, used.Contains(share), passed, Math.Abs(seen.Lightness - face.Lightness), shown.PlaceCandelaPerM2(sheet.Paper, passed * openShare, seen.Luminance) / field);
            }),
        ];
    }
}
