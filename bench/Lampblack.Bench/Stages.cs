using System.Collections.Immutable;
using System.Linq;
using BenchmarkDotNet.Attributes;
using Lampblack.Artwork;
using Lampblack.Desks;
using Lampblack.Formats;
using Lampblack.Imaging;
using Lampblack.Layout;
using Lampblack.Optics;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Separations;
using Lampblack.Sheets;

namespace Lampblack.Bench;

/// <summary>The stages of a build one by one, each from the results of the one before; what a build does for several panels side by side is done one after the other here.</summary>
public class Stages
{
    private static readonly PrinterProperties Printer = PrinterProperties.Unmeasured;
    private static readonly BlackBuild Black = Printer.Builds[0];
    private static readonly PaperSize Paper = PaperSize.Find("A4")!;

    private byte[] _toml = [];
    private Desk _desk = null!;
    private LaidDesk _laid = null!;
    private ImmutableArray<PanelSeparation> _separations;
    private ImmutableArray<Sheet> _sheets;
    private PanelRaster _raster = null!;
    private Picture _picture = null!;

    /// <summary>Which desk.</summary>
    [Params("dome-desk", "400 controls")]
    public string Desk { get; set; } = "";

    /// <summary>Takes the desk through all stages once.</summary>
    [GlobalSetup]
    public void Prepare()
    {
        _toml = Desk == "dome-desk" ? Desks.Dome : Desks.Many;
        _desk = Read();
        _laid = Layout();
        _separations = Separate();
        _sheets = Compose();
        _raster = PanelRaster.Of(PictureLayers.Finished(_separations[0]), 0.125, new(PaperOptics.Heavy, InkOptics.Assumed));
        _picture = PanelPictures.Day(_raster);
    }

    /// <summary>TOML to records.</summary>
    [Benchmark]
    public Desk Read() => DeskReader.Read("desk.toml", _toml).Value;

    /// <summary>Records to placed items, lettering included.</summary>
    [Benchmark]
    public LaidDesk Layout() => DeskLayout.Place(_desk, FontShelf.Bundled).Value;

    /// <summary>Placed items to front and mask.</summary>
    [Benchmark]
    public ImmutableArray<PanelSeparation> Separate() =>
        [.. _laid.Panels.Select(panel => Separator.Separate(PanelArtwork.Draw(panel), Printer, Black, Printer.SpreadMm).Value)];

    /// <summary>Fronts and masks on sheets with marks and gauges.</summary>
    [Benchmark]
    public ImmutableArray<Sheet> Compose() =>
        SheetComposer.Compose("Bench", SheetComposer.Impose([.. _separations.Select(ToPrint)], Paper, Printer).Value, [.. _separations.Select(ToPrint)], Printer, Black, new(Fill: false)).Value;

    /// <summary>Sheets to print files.</summary>
    [Benchmark]
    public int Pdf() => _sheets.Sum(sheet => PdfFile.Write(
        [SheetPdf.FrontPage(sheet, Printer), SheetPdf.MaskPage(sheet, Printer)], new("Bench", PdfSides.TwoSidedLongEdge)).Length);

    /// <summary>One picture of the first panel, its shapes already drawn.</summary>
    [Benchmark]
    public void LitPicture()
    {
        using var picture = PanelPictures.Lit(_raster, Backlight.Even(EmitterColours.WarmWhite), 0.002)[0];
    }

    /// <summary>One picture as a file.</summary>
    [Benchmark]
    public int Png() => PngFile.Write(_picture).Length;

    private static Printable ToPrint(PanelSeparation separation)
    {
        var panel = separation.Artwork.Laid.Panel;
        return new(
            panel.Id, panel.Title, panel.WidthMm, panel.HeightMm, PanelSeparation.BleedMm, separation.Front, separation.Mask, separation.Artwork.Holes);
    }
}
