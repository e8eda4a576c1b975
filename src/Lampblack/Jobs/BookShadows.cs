using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Books;
using Lampblack.Geometry;
using Lampblack.Lighting;

namespace Lampblack.Jobs;

/// <summary>Words that the body of a lever or button takes the light from, if only from the letters beside it: the plan judges words as wholes, and lets that pass.</summary>
internal static class BookShadows
{
    // A fifth less light than the rest: beside a brighter letter one sees it. From memory.
    private const double DimShare = 0.8;

    // So much of the straight light is gone that a body must be what dims it.
    private const double OpenShare = 0.8;
    private static readonly ImmutableArray<double> Shares = [0.1, 0.5, 0.9];

    public static ImmutableArray<BookShadow> Of(ImmutableArray<PanelLighting> lit, CancellationToken cancellation) =>
    [
        .. lit.Where(panel => panel.HasGeneral && !panel.Emitters.IsEmpty).SelectMany(panel => Dark(panel).Concat(Of(panel, cancellation))),
    ];

    /// <summary>What stands right before a body, where no light comes at all. Strokes that are no words are named like the item.</summary>
    private static IEnumerable<BookShadow> Dark(PanelLighting panel) => panel.Dark
        .Select(legend => new BookShadow(panel.Laid.Panel.Title, legend.Piece.Words, legend.Piece.Origin.Name, 0, IsDark: true)).Distinct();

    private static IEnumerable<BookShadow> Of(PanelLighting panel, CancellationToken cancellation)
    {
        // What is bright as a whole is no worse for a dim corner.
        var words = panel.Legends.Where(legend => legend.CandelaPerM2 < panel.MeanCandelaPerM2 && panel.Laid.Texts.Any(text => text.Origin.Item == legend.Piece.Origin.Item && text.Words == legend.Piece.Words)).ToList();
        ImmutableArray<Point<PanelSpace>> places = [.. words.SelectMany(legend => Letters(legend.Piece.Box))];
        var lux = panel.Light.Lux(panel.Emitters, places, cancellation);
        var mean = panel.Legends.Average(legend => legend.Lux);
        return
        [
            .. words.Zip(places.Zip(lux).Chunk(Shares.Length * Shares.Length))
                .Select(one => (one.First, Least: one.Second.MinBy(letter => letter.Second)))
                .Where(one => one.Least.Second < DimShare * mean && panel.Light.OpenShare(panel.Emitters, one.Least.First) < OpenShare)
                .OrderBy(one => one.Least.Second)
                .Select(one => new BookShadow(panel.Laid.Panel.Title, one.First.Piece.Words, one.First.Piece.Origin.Name, one.Least.Second / mean, IsDark: false))
                .DistinctBy(shadow => (shadow.Words, shadow.Item)),
        ];
    }

    /// <summary>The middle of a word, and its first and last letters.</summary>
    private static ImmutableArray<Point<PanelSpace>> Letters(Box<PanelSpace> box) =>
        [.. Shares.SelectMany(across => Shares.Select(up => new Point<PanelSpace>(box.LeftMm + (across * box.WidthMm), box.BottomMm + (up * box.HeightMm))))];
}
