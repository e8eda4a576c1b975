using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Runtime.InteropServices;
using System.Threading;
using Lampblack.Desks;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Imaging;
using Lampblack.Optics;
using Lampblack.Parts;
using Lampblack.Quantities;
using Lampblack.Separations;

namespace Lampblack.Jobs;

/// <summary>What the pictures are to show.</summary>
/// <param name="Sheet">What inks and paper do to light.</param>
/// <param name="Misregister">How far the mask lies off, seen from the front.</param>
/// <param name="Film">Whether a film with the mask lies behind the sheet.</param>
internal sealed record PictureWish(SheetOptics Sheet, Vector<PanelSpace> Misregister, bool Film)
{
    /// <summary>The light behind the panels, where it was planned.</summary>
    public DeskLight Light { get; init; } = DeskLight.Nothing;

    public bool IsOff => Misregister != default;
}

/// <summary>The pictures of the panels.</summary>
internal static class PictureFiles
{
    private const double DotsPerMm = 8;
    private const double DrawnDotsPerMm = 12;
    private const double LargestSidePx = 1500;

    /// <param name="light">The lamps' colour.</param>
    /// <param name="panels">The panels.</param>
    /// <param name="wish">What is to be seen.</param>
    /// <param name="cancellation">Stops the work between two pictures.</param>
    public static IEnumerable<OutputFile> Of(EmitterColour light, ImmutableArray<PrintedPanel> panels, PictureWish wish, CancellationToken cancellation) =>
        Drawn(panels.SelectMany(panel => Tasks(light, panel, wish, LargestSidePx, isFew: false)), cancellation);

    /// <summary>A few of the pictures, smaller, for a page that holds them.</summary>
    /// <param name="light">The lamps' colour.</param>
    /// <param name="panels">The panels.</param>
    /// <param name="wish">What is to be seen.</param>
    /// <param name="names">Which ones: <c>day</c>, <c>lit</c>, <c>through</c> and so on.</param>
    /// <param name="largestSidePx">How many dots their longer side has at most.</param>
    /// <param name="cancellation">Stops the work between two pictures.</param>
    public static IEnumerable<OutputFile> Few(
        EmitterColour light, ImmutableArray<PrintedPanel> panels, PictureWish wish, ImmutableArray<string> names, double largestSidePx, CancellationToken cancellation) =>
        Drawn(panels.SelectMany(panel => Tasks(light, panel, wish, largestSidePx, isFew: true).Where(task => names.Contains(task.Name))), cancellation);

    private static List<OutputFile> Drawn(IEnumerable<(string Name, Func<ImmutableArray<OutputFile>> Draw)> tasks, CancellationToken cancellation) =>
        tasks.AsParallel().AsOrdered().WithCancellation(cancellation).SelectMany(task => task.Draw()).ToList();

    /// <summary>What draws a panel's pictures, by the name of the first that each draws.</summary>
    private static IEnumerable<(string Name, Func<ImmutableArray<OutputFile>> Draw)> Tasks(EmitterColour light, PrintedPanel printed, PictureWish wish, double largestSidePx, bool isFew)
    {
        var (separation, print) = printed;
        var panel = separation.Artwork.Laid.Panel;
        var folder = $"panels/{panel.Id}";
        var mmPerDot = Math.Max(1 / DotsPerMm, Math.Max(panel.WidthMm, panel.HeightMm) / largestSidePx);
        var layers = new Lazy<PanelLayers>(() =>
        {
            var single = printed.Finished.Value;
            return single with { FrontAgain = print.FrontAgain, MaskAgain = wish.Film ? single.Mask : print.MaskAgain };
        });
        var finished = new Lazy<PanelRaster>(() => PanelRaster.Of(layers.Value, mmPerDot, wish.Sheet).WithMisregister(wish.Misregister));
        var uncut = new Lazy<PanelRaster>(() => finished.Value.With(PictureLayers.Uncut(separation, layers.Value)));
        var (off, how) = wish.IsOff
            ? (wish.Misregister, FormattableString.Invariant($"{wish.Misregister.DxMm:0.###} mm right and {wish.Misregister.DyMm:0.###} mm up"))
            : (new Vector<PanelSpace>(separation.SpreadMm * Math.Sqrt(0.5), separation.SpreadMm * Math.Sqrt(0.5)), "the whole spread up and right");
        var isOff = wish.IsOff ? $", the mask off by {how}" : string.Empty;
        var hidden = Region<PanelSpace>.Union(separation.Shapes.Covers.Select(cover => cover.Region));
        var lamps = LightAccount.Lamps(light);
        var (common, backLux, byWhat) = wish.Light.Behind(panel.Id, lamps, cellsOn: false) is { } planned
            ? (planned.Light, planned.MeanLux, " by its emitters")
            : (new Backlight(lamps, hidden.IsEmpty ? [] : [new LightCell(hidden, LinearColour.Black)]), RoomLight.UsualBackLux, string.Empty);
        if (!hidden.IsEmpty)
        {
            yield return ("lit-hidden", () => wish.Light.Behind(panel.Id, lamps, cellsOn: true) is { } withCells
                ? Png("lit-hidden", $"the same as lit.png with the lamps of hidden legends on{isOff}", () => PanelPictures.Lit(finished.Value, withCells.Light, RoomLight.Night.RoomShare)[0])
                : Png(
                    "lit-hidden",
                    $"the same as lit.png with the lamps of hidden legends on, each ten times as bright{isOff}",
                    () => PanelPictures.Lit(finished.Value, common with { Cells = [new LightCell(hidden, CoverLight.LampTimes * lamps)] }, RoomLight.Night.RoomShare)[0]));
        }

        // The rooms share all that is slow about them.
        yield return ("lit", () =>
        {
            ImmutableArray<double> rooms = isFew ? [RoomLight.Night.RoomShare] : [RoomLight.Night.RoomShare, (RoomLight.Evening with { BackLux = backLux }).RoomShare];
            var lit = PanelPictures.Lit(finished.Value, common, rooms);
            return
            [
                .. Png("lit", $"the face lit{byWhat}, in a dark room{isOff}", () => lit[0]),
                .. isFew ? [] : Png("mixed", FormattableString.Invariant($"the face lit{byWhat}, in a room of {RoomLight.Evening.RoomLux:0} lx{isOff}"), () => lit[1]),
            ];
        });
        yield return ("day", () => Png("day", "the face by day, lamps off, parts fitted", () => PanelPictures.Day(finished.Value)));
        yield return ("mask", () => Png("mask", "the mask in front view", () => PanelPictures.Mask(uncut.Value)));
        yield return ("through", () => Png("through", "both sides held to a lamp, in register", () => PanelPictures.ThroughLight(uncut.Value.WithMisregister(default))));
        yield return ("through-off", () => Png("through-off", $"both sides held to a lamp, the mask off by {how}", () => PanelPictures.ThroughLight(uncut.Value.WithMisregister(off))));
        foreach (var (index, art) in separation.Artwork.Laid.Arts.Index().Where(art => art.Item.Content.Account.Doubts is not null))
        {
            var name = DoubtsPath(panel.Id, index);
            yield return ("doubts", () => [new OutputFile(name, $"the artwork of `{art.Origin.Item}` in grays; striped is what could be field or not", art.Content.Account.Doubts!.Value)]);
        }

        yield return ("panel", () => [new OutputFile($"{folder}/panel.svg", "the face as a drawing in mm", Drawing(separation))]);

        ImmutableArray<OutputFile> Png(string name, string purpose, Func<Picture> draw)
        {
            using var picture = draw();
            return [new OutputFile($"{folder}/{name}.png", purpose, ImmutableCollectionsMarshal.AsImmutableArray(PngFile.Write(picture, isSmall: isFew)))];
        }
    }

    /// <summary>Path of the picture that shows what of an artwork is doubtful.</summary>
    internal static string DoubtsPath(string panel, int index) => string.Create(CultureInfo.InvariantCulture, $"panels/{panel}/art-{index + 1}-doubts.png");

    private static ImmutableArray<byte> Drawing(PanelSeparation separation)
    {
        var (laid, build) = (separation.Artwork.Laid, separation.Build);
        var layers = ImmutableArray.CreateBuilder<SvgLayer<PanelSpace>>();
        layers.Add(new("plate", laid.Panel.Title, laid.Outline, Fill(MarkInks.Field(laid.Panel, build) ?? build.Ink)));
        foreach (var mark in separation.Shapes.Visible)
        {
            var id = string.Create(CultureInfo.InvariantCulture, $"mark-{layers.Count}");
            layers.Add(new(id, $"{mark.Origin.Item}: {mark.Name}", mark.Shape.Intersect(laid.Outline), Fill(mark.Style.Role == LightRole.Hidden ? Ink.FullK : mark.Style.Ink is { } ink ? MarkInks.Of(ink, build) : MarkInks.Field(laid.Panel, build) ?? build.Ink)));
        }

        foreach (var dot in DotPaint.Front(separation.Shapes.Dots, build, separation.Shapes.FrontBlack, core: null, [], 0))
        {
            var layer = new SvgLayer<PanelSpace>(string.Create(CultureInfo.InvariantCulture, $"dots-{layers.Count}"), "artwork in dots", Region<PanelSpace>.Empty, Fill(dot.Ink));
            layers.Add(dot.Dots!.Content switch
            {
                Stencil stencil => layer with { Stencil = (stencil.Dots, dot.Dots.Placement) },
                _ => layer with { Region = dot.Region, Png = Coloured(dot) },
            });
        }

        layers.Add(new("holes", "cut away", separation.Artwork.Holes, "#ffffff"));
        return SvgFile.Write(laid.Panel.WidthMm, laid.Panel.HeightMm, laid.Panel.Title, layers.ToImmutable());
    }

    private static ImmutableArray<byte> Coloured(Painted<PanelSpace> dots)
    {
        var box = dots.Region.Bounds;
        using var picture = DotPicture.Of(dots.Dots!, box, Math.Max(1 / DrawnDotsPerMm, box.WidthMm / LargestSidePx), default);
        return ImmutableCollectionsMarshal.AsImmutableArray(PngFile.Write(picture, withAlpha: true));
    }

    internal static string Fill(Ink ink) => Colour(ink).ToString();

    internal static ScreenColour Colour(Ink ink)
    {
        var colour = InkOptics.Assumed.Reflectance(ink, PaperOptics.Heavy);
        return new(Srgb.Code(colour.Red), Srgb.Code(colour.Green), Srgb.Code(colour.Blue));
    }
}
