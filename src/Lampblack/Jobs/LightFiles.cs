using System;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Artwork;
using Lampblack.Desks;
using Lampblack.Fabrication;
using Lampblack.Formats;
using Lampblack.Lighting;

namespace Lampblack.Jobs;

/// <summary>Drawings and lists of a plan of light.</summary>
internal static class LightFiles
{
    /// <summary>Stands where emitters, cells and circuit are drawn.</summary>
    public const string Caution = "Low voltage only: a certified supply of limited current with a fuse close to it, no mains inside. Your local code and licensed people come first.";

    /// <summary>The files; none where nothing is lit.</summary>
    /// <param name="desk">The desk.</param>
    /// <param name="light">Its light.</param>
    /// <param name="setup">Paper and printer.</param>
    /// <param name="cancellation">Stops the work between two drawings.</param>
    public static ImmutableArray<OutputFile> Of(Desk desk, DeskLight light, PrintSetup setup, CancellationToken cancellation = default)
    {
        ImmutableArray<PanelLighting> lit = [.. light.Panels.Where(panel => panel.HasGeneral || !panel.Emitters.IsEmpty || !panel.Cells.IsEmpty)];
        if (lit.IsEmpty)
        {
            return [];
        }

        var files = ImmutableArray.CreateBuilder<OutputFile>();
        files.AddRange(lit.SelectMany(panel => Drawings(desk, panel, light, setup)).AsParallel().AsOrdered().WithCancellation(cancellation).Select(draw => draw()));
        var walls = CellWalls.Of(desk, lit);
        if (CellPages.Of(desk.Title, walls, setup) is { IsEmpty: false } pages)
        {
            files.Add(new("light/cells.pdf", "walls of the cells in true size, to cut out of card and fold", PdfFile.Write(pages, new($"{desk.Title} cells", PdfSides.OneSided))));
        }

        files.AddRange(LightTables.Of(desk, lit, light.Circuit, walls));
        return files.ToImmutable();
    }

    private static Func<OutputFile>[] Drawings(Desk desk, PanelLighting panel, DeskLight light, PrintSetup setup)
    {
        var (id, size) = (panel.Laid.Panel.Id, panel.Laid.Panel);
        return
        [
            () => new($"light/{id}-evenness.svg", "how evenly the panel is lit, in true size", LightDrawing.Svg(panel, LightDrawing.Layers(panel, PanelArtwork.Draw(panel.Laid), light.Contours(id)))),
            () => new($"light/{id}-emitters.svg", "where the emitters stand, seen from the front, in true size", EmitterDrawing.Svg(panel)),
            () => new(
                $"light/{id}-emitters.pdf",
                "the same to lay a board out with, at true size; plain paper, one side",
                PdfFile.Write(
                    TemplatePages.Of(size.WidthMm, size.HeightMm, EmitterDrawing.Layers(panel).Select(layer => layer.Region).Where(region => !region.IsEmpty), EmitterDrawing.Words(panel, Caution), setup.Paper, setup.Black.Edge, setup.Printer),
                    new($"{desk.Title} emitters {id}", PdfSides.OneSided))),
        ];
    }
}
