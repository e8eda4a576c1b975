using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Threading;
using Lampblack.Calibration;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Layout;
using Lampblack.Quantities;
using Lampblack.Tests.Calibration;
using Lampblack.Tests.Jobs;

namespace Lampblack.Tests.Photos;

/// <summary>A plate that was drilled by hand, and photos of it on its page.</summary>
internal static class PlateTrial
{
    private static readonly (string Id, string Part, double X, double Y)[] Places =
    [
        ("shutter", "toggle-mini-on-on", 20, 30), ("dew", "pot-9mm", 52, 30), ("fan", "hole-6", 80, 22), ("lamp", "hole-10", 100, 80), ("dome", "button-12-momentary", 130, 30),
        ("park", "button-16-latching", 130, 75), ("flat", "hole-1-4-in", 60, 85), ("rain", "lamp-5mm-clip", 20, 80), ("east", "hole-6", 160, 20), ("west", "hole-6", 165, 92),
    ];

    /// <summary>A desk with one panel of ten controls.</summary>
    public static string Desk { get; } = string.Create(CultureInfo.InvariantCulture, $"lampblack = 1\n[[panel]]\nid = \"dome\"\nsize = [180, 110]\n") + string.Concat(Places.Select(place =>
        string.Create(CultureInfo.InvariantCulture, $"  [[panel.control]]\n  id = \"{place.Id}\"\n  part = \"{place.Part}\"\n  at = [{place.X}, {place.Y}]\n  legend = \"{place.Id.ToUpperInvariant()}\"\n")));

    public static DeskSource Source { get; } = SecondTime.Source(Desk);

    /// <summary>The pages of a desk.</summary>
    public static ImmutableArray<TemplatePlan> Plans(string desk, string paper) =>
        HoleTemplates.Plan(DeskLayout.Place(DeskReader.Read("desk.toml", SecondTime.Source(desk).Bytes.AsSpan()).Value, FontShelf.Bundled).Value, PaperSize.Find(paper)!).Value;

    /// <summary>The holes as a hand drills them: up to a half millimetre off.</summary>
    public static ImmutableArray<PanelHole> Drilled(TemplatePlan plan, Chance chance) =>
        [.. plan.Panel.Holes.Select(hole => hole with { Centre = new(hole.Centre.XMm + chance.Between(-0.5, 0.5), hole.Centre.YMm + chance.Between(-0.5, 0.5)), RadiusMm = hole.RadiusMm + chance.Between(-0.1, 0.15) })];

    /// <summary>A photo by hand: every fault at once, by chance that repeats.</summary>
    public static DeskCamera Camera(int seed, Chance chance) => new()
    {
        Seed = seed,
        TiltDegrees = chance.Between(0, 15),
        TiltTowardsDegrees = chance.Between(0, 360),
        TurnDegrees = (90 * Math.Floor(chance.Between(0, 4))) + chance.Between(-8, 8),
        K1 = chance.Between(-0.1, 0.1),
        BlurPx = chance.Between(0.7, 1.8),
        Noise = chance.Between(0.003, 0.02),
        Uneven = chance.Between(0, 0.5),
        Fill = chance.Between(0.75, 0.9),
        Focal = chance.Between(0.65, 0.85),
    };

    public static Checked<DrilledPhotosResult> Read(DeskSource desk, string? panel, params byte[][] photos) => DrilledPhotos.Run(
        desk, photos.Select((photo, index) => ($"photo-{index + 1}.jpg", (ReadOnlyMemory<byte>)photo.AsMemory())), panel, new Progress<string>(), CancellationToken.None);

    /// <summary>How far each hole was read from where it is, with how well it was said to be known; a hole that was not read is not in it.</summary>
    public static List<(string Item, double OffMm, double SdMm)> Errors(TemplatePlan plan, ImmutableArray<PanelHole> truth, DrilledPhotosResult read) =>
    [
        .. truth.Zip(plan.Panel.Holes).Where(pair => read.Holes.Any(hole => hole.Item == pair.First.Item)).Select(pair =>
        {
            var hole = read.Holes.Single(one => one.Item == pair.First.Item);
            var off = pair.First.Centre - pair.Second.Centre;
            return (hole.Item, Math.Sqrt(Math.Pow(hole.DxMm - off.DxMm, 2) + Math.Pow(hole.DyMm - off.DyMm, 2)), hole.SdMm);
        }),
    ];
}
