using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Artwork;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Separations;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>How much larger each panel's openings are than what shines, and how many sheets come out whole with that.</summary>
internal sealed record SpreadPlan
{
    // Smaller than this, no gauge of the sheet can tell any more whether it is good.
    private const double LeastMm = 0.15;

    private readonly double _usualMm;
    private readonly ImmutableDictionary<string, double> _panels;
    private readonly ImmutableArray<double?> _shares;

    private SpreadPlan(double usualMm, ImmutableDictionary<string, double> panels, ImmutableArray<double?> shares)
    {
        _usualMm = usualMm;
        _panels = panels;
        _shares = shares;
    }

    /// <summary>The smallest spread of any panel: what the print card's limits go by.</summary>
    public double SmallestMm => _panels.IsEmpty ? _usualMm : _panels.Values.Min();

    /// <summary>The spreads in words, without the unit.</summary>
    public string Words => SmallestMm is var least && (_panels.IsEmpty ? _usualMm : _panels.Values.Max()) is var most && most > least
        ? string.Create(CultureInfo.InvariantCulture, $"{least:0.###} to {most:0.###}")
        : string.Create(CultureInfo.InvariantCulture, $"{least:0.###}");

    /// <summary>One and the same for every panel.</summary>
    public static SpreadPlan Uniform(double spreadMm) => new(spreadMm, ImmutableDictionary<string, double>.Empty, []);

    /// <summary>The spread of a panel.</summary>
    /// <param name="panel">Its id.</param>
    public double Of(string panel) => _panels.TryGetValue(panel, out var mm) ? mm : _usualMm;

    /// <summary>The share of sheets that come out whole; null where nothing is known of the register.</summary>
    /// <param name="sheet">The sheet's id.</param>
    public double? ShareOf(string sheet) =>
        _shares.Index().FirstOrDefault(one => string.Create(CultureInfo.InvariantCulture, $"sheet-{one.Index + 1}") == sheet).Item;

    /// <summary>The plan of a build.</summary>
    /// <param name="request">What the maker asked for.</param>
    /// <param name="setup">Paper, printer and the spread asked for.</param>
    /// <param name="sheets">The panels of each sheet in their places.</param>
    /// <param name="artworks">The panels as shapes.</param>
    /// <param name="findings">Where findings go.</param>
    public static SpreadPlan Of(
        BuildRequest request, PrintSetup setup, ImmutableArray<ImmutableArray<PlacedPanel>> sheets, ImmutableArray<PanelArtwork> artworks, List<Finding> findings)
    {
        var usual = Uniform(setup.AskedSpreadMm ?? setup.Printer.SpreadMm);
        if (request.Printer is not { Register.IsEmpty: false } printer)
        {
            if (setup.AskedSpreadMm is null)
            {
                findings.Add(PrinterNotes.DefaultSpread(usual._usualMm, request.Printer, request.PrinterWord));
            }

            return usual;
        }

        var promise = SheetPromise.Of(RegisterEstimate.Of(printer), setup.Paper);
        var panels = ImmutableDictionary.CreateBuilder<string, double>(StringComparer.Ordinal);
        var shares = ImmutableArray.CreateBuilder<double?>();
        foreach (var (index, sheet) in sheets.Index())
        {
            var shining = sheet.Select(placed => (placed.Panel.Id, Places: Shining(placed, artworks))).Where(panel => !panel.Places.IsEmpty).ToList();
            ImmutableArray<ImmutableArray<Point<SheetSpace>>> places = [.. shining.Select(panel => panel.Places)];
            var spreads = Spreads(request, setup, promise, places);
            foreach (var (panel, mm) in shining.Zip(spreads))
            {
                panels[panel.Id] = mm;
            }

            shares.Add(places.IsEmpty ? null : promise.Share(places, spreads));
            if (shares[^1] is { } share)
            {
                findings.Add(Told(index, shining.Zip(spreads).Select(panel => (panel.First.Id, panel.Second)), share, request, setup, promise, places));
            }
        }

        return new(usual._usualMm, panels.ToImmutable(), shares.ToImmutable());
    }

    /// <summary>As asked for; else what the wanted share takes, but no more than usual where nobody asked for a share: a wide halo is no remedy for a register that is hardly known.</summary>
    private static ImmutableArray<double> Spreads(BuildRequest request, PrintSetup setup, SheetPromise promise, ImmutableArray<ImmutableArray<Point<SheetSpace>>> places) =>
        setup.AskedSpreadMm is { } asked ? [.. places.Select(_ => asked)]
        : request.GoodShare is { } share ? [.. promise.SpreadsMm(places, share, LeastMm).Select(mm => Math.Min(mm, PrintSetup.LargestSpreadMm))]
        : [.. promise.SpreadsMm(places, BuildRequest.UsualGoodShare, LeastMm).Select(mm => Math.Min(mm, setup.Printer.SpreadMm))];

    private static Finding Told(
        int sheet,
        IEnumerable<(string Panel, double SpreadMm)> panels,
        double share,
        BuildRequest request,
        PrintSetup setup,
        SheetPromise promise,
        ImmutableArray<ImmutableArray<Point<SheetSpace>>> places)
    {
        var wanted = request.GoodShare ?? BuildRequest.UsualGoodShare;
        var spreads = string.Join(", ", panels.GroupBy(panel => panel.SpreadMm).OrderBy(group => group.Key)
            .Select(group => FormattableString.Invariant($"{group.Key:0.##} mm on {Shown.List(group.Select(panel => Shown.Code(panel.Panel)))}")));
        var found = FormattableString.Invariant($"sheet {sheet + 1}: openings are larger than what shines by {spreads}; by what was learned of the printer {Shown.Code(request.Printer!.Name)}, {Percent(share)} of sheets come out whole");
        if (share >= wanted - 1e-9)
        {
            return Finding.Note("spread-learned", found, "`--spread` sets another, `--good-sheets` another share; `lampblack printer show` tells what it rests on");
        }

        var needed = promise.SpreadsMm(places, wanted, LeastMm).Max();
        var several = SheetPromise.SheetsForOne(share) switch
        {
            1 => "print one: 19 times out of 20 it is whole",
            { } count => FormattableString.Invariant($"print {count} and keep the best: 19 times out of 20 one of them is whole"),
            null => "hardly any sheet will be whole",
        };
        var option = needed > PrintSetup.LargestSpreadMm ? FormattableString.Invariant($"more than the {PrintSetup.LargestSpreadMm} mm that an opening may be larger")
            : setup.AskedSpreadMm is null ? FormattableString.Invariant($"`--good-sheets {wanted * 100:0.##}`") : FormattableString.Invariant($"`--spread {needed:0.##}`");
        return Finding.Warn(
            "spread-short",
            found,
            FormattableString.Invariant($"{several}. {Percent(wanted)} would take {needed:0.##} mm, {option}; more calibration sheets, learned from, bring that down"));
    }

    private static string Percent(double share) => string.Create(CultureInfo.InvariantCulture, $"{Math.Floor(share * 1000 + 1e-6) / 10:0.#} %");

    /// <summary>Corners of boxes around all that shines, on the sheet.</summary>
    private static ImmutableArray<Point<SheetSpace>> Shining(PlacedPanel placed, ImmutableArray<PanelArtwork> artworks)
    {
        var artwork = artworks.First(artwork => artwork.Laid.Panel.Id == placed.Panel.Id);
        var boxes = artwork.Marks.Where(mark => Separator.Shines(mark) && !mark.Extent.IsEmpty).Select(mark => mark.Extent.Bounds);
        if (!artwork.Dots.IsEmpty)
        {
            boxes = boxes.Append(new(0, 0, placed.Panel.WidthMm, placed.Panel.HeightMm));
        }

        return
        [
            .. boxes.SelectMany(box => new Point<PanelSpace>[]
            {
                new(box.LeftMm, box.BottomMm), new(box.RightMm, box.BottomMm), new(box.RightMm, box.TopMm), new(box.LeftMm, box.TopMm),
            }).Select(placed.Map.Apply),
        ];
    }
}
