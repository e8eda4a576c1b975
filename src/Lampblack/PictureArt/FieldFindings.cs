using System;
using System.Collections.Immutable;
using System.Globalization;
using Lampblack.Bitmaps;
using Lampblack.Findings;

namespace Lampblack.PictureArt;

/// <summary>What is said of the field that was found, and how sure it is.</summary>
internal static class FieldFindings
{
    private const double MostDoubtfulWhenSure = 0.01;
    private const double MostDoubtful = 0.05;

    /// <summary>Against the smaller of field and openings.</summary>
    private const double MostDoubtfulOfSmaller = 0.08;

    public static Finding OneTone(string fileName) => Finding.Stop(
        "art-one-tone",
        $"{Shown.Quoted(fileName)} has one tone only, so that nothing tells its legends from its field.",
        "Export the artwork with a black or dark field and light legends, or say below which lightness it is field: `levels`.");

    /// <summary>What lies behind the transparent part: white where the code of the ground is that of paper.</summary>
    public static (bool IsWhite, bool IsDoubtful) Ground(SourcePicture picture, FieldOptions options, ImmutableArray<Finding>.Builder findings)
    {
        if (!picture.IsTransparent)
        {
            return (true, false);
        }

        var census = picture.Census;
        var light = census.DrawnLight / Math.Max(1e-9, census.DrawnLight + census.DrawnDark);
        var fieldByDrawing = options.Inverted ? light < 0.5 : light >= 0.5;
        var isField = options.Transparent switch { TransparentIs.Field => true, TransparentIs.Paper => false, _ => fieldByDrawing };
        var share = Percent(census.Transparent / Math.Max(1, census.Dots));
        var taken = isField ? "field" : "paper";
        if (options.Transparent == TransparentIs.Auto)
        {
            var isClear = light is >= 0.75 or <= 0.25;
            findings.Add(Finding.Warn(
                "art-transparent",
                $"{share} of {Shown.Quoted(picture.FileName)} is transparent; taken as {taken}, as {Percent(light)} of what is drawn is light.",
                isClear ? "Look at the picture of the field; if that is wrong, say `background = \"field\"` or `\"paper\"`." : "Say `background = \"field\"` or `\"paper\"`: the drawing has both light and dark parts."));
            return (isField == options.Inverted, !isClear);
        }

        findings.Add(Finding.Note("art-transparent", $"{share} of {Shown.Quoted(picture.FileName)} is transparent; {taken}, as told."));
        return (isField == options.Inverted, false);
    }

    public static Sureness Judge(GainHistogram.Valley valley, GainPlane plane, BitRaster doubtful, bool told)
    {
        if (told)
        {
            return Sureness.Told;
        }

        var dots = (double)plane.Width * plane.Height;
        var lit = plane.Between(valley.Threshold, 255).Count() / dots;
        var share = doubtful.Count() / dots;
        var ofSmaller = share / Math.Max(1e-9, Math.Min(lit, 1 - lit) + share);
        if (valley.Depth < Doubts.ShallowDepth || share > MostDoubtful || (ofSmaller > MostDoubtfulOfSmaller && share > 2e-4) || valley.Lit - valley.Field < 50)
        {
            return Sureness.Doubtful;
        }

        return valley.Depth < 0.75 || share > MostDoubtfulWhenSure ? Sureness.FairlySure : Sureness.Sure;
    }

    public static void Add(FoundField found, FieldOptions options, ImmutableArray<Finding>.Builder findings)
    {
        var name = Shown.Quoted(found.Picture.FileName);
        var border = string.Create(CultureInfo.InvariantCulture, $"L* {found.ThresholdLightness:0}");
        var numbers = $"{Percent(found.FieldShare)} of it is field, {Percent(found.DoubtfulShare)} could be either, the histogram's valley is {Percent(found.ValleyDepthShare)} deep";
        if (found.Sureness == Sureness.Doubtful)
        {
            findings.Add(Finding.Warn(
                "art-threshold-doubtful",
                $"It is doubtful what of {name} is field: everything below {border} was taken; {numbers}.",
                "Look at the picture of doubtful places. Clean or brighten them in the drawing program, or say below which lightness it is field: `levels`."));
        }
        else
        {
            findings.Add(Finding.Note(
                "art-threshold",
                $"The field of {name} is everything below {border}, {found.Sureness.Word()}; {numbers}; its mean colour is {Colour(found)}."));
        }

        if (found.FieldShare < 0.3 && !options.Inverted)
        {
            findings.Add(Finding.Warn(
                "art-mostly-light",
                $"Only {Percent(found.FieldShare)} of {name} is dark; as it is, all the rest becomes one opening.",
                "If it is drawn dark on light, as on paper, say `invert = true`."));
        }
    }

    internal static string Percent(double share) => string.Create(CultureInfo.InvariantCulture, $"{share * 100:0.0#} %");

    private static string Colour(FoundField found) =>
        string.Create(CultureInfo.InvariantCulture, $"#{found.FieldColour.Red:X2}{found.FieldColour.Green:X2}{found.FieldColour.Blue:X2} (L* {found.FieldLightness:0})");
}
