using System;
using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.IO;
using System.Linq;
using Lampblack.Art;
using Lampblack.Artwork;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Host;
using Lampblack.Jobs;
using Lampblack.Layout;
using Lampblack.Lettering;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Separations;
using Lampblack.Sheets;
using Lampblack.Tests.Sheets;
using Xunit;

namespace Lampblack.Tests.Register;

/// <summary>A desk taken through the core up to its sheets, for tests of what is printed.</summary>
public sealed record SeparatedDesk(
    PrinterProperties Printer, ImmutableArray<PanelSeparation> Panels, ImmutableArray<Sheet> Sheets, ImmutableArray<Finding> Findings)
{
    /// <summary>Dots per inch of the checks on rasters.</summary>
    public const int Dpi = 600;

    /// <summary>An A4 sheet whose sides are whole numbers of dots, so that a mirrored plate falls on the same grid.</summary>
    public static readonly PaperSize Paper = new("A4 in whole dots", 4960 * 25.4 / Dpi, 7015 * 25.4 / Dpi);

    private static readonly ConcurrentDictionary<string, Lazy<SeparatedDesk>> Examples = new(StringComparer.Ordinal);

    /// <summary>The spread of its panels.</summary>
    public double SpreadMm => Panels[0].SpreadMm;

    /// <summary>Root of the repository.</summary>
    public static string Root { get; } = FindRoot();

    /// <summary>One of the examples, with the full build.</summary>
    public static SeparatedDesk Example(string name) => Examples.GetOrAdd(
        name, static name => new(() => Of(File.ReadAllBytes(Path.Combine(Folder(name), "desk.toml")), "full", files: new DeskFolder(Folder(name))))).Value;

    /// <summary>The folder of an example.</summary>
    public static string Folder(string example) => Path.Combine(Root, "examples", example);

    /// <summary>A desk from its bytes.</summary>
    public static SeparatedDesk Of(byte[] toml, string black, double spreadMm = 0.5, PaperSize? paper = null, bool coupon = false, IDeskFiles? files = null)
    {
        var desk = DeskReader.Read("desk.toml", toml);
        var arts = desk.Value.Panels.SelectMany(panel => panel.Items.OfType<ArtItem>()).Select(item => (Item: item, Read: ReadArt(item, files))).ToList();
        var laid = DeskLayout.Place(desk.Value, FontShelf.Bundled, arts.ToDictionary(art => art.Item, art => art.Read.Value!));
        var printer = PrinterProperties.Unmeasured;
        var build = printer.Build(black)!;
        var separated = laid.Value.Panels.Select(panel => Separator.Separate(PanelArtwork.Draw(panel), printer, build, spreadMm)).ToImmutableArray();
        var sheets = SheetsOf.Panels(
            desk.Value.Title, [.. separated.Select(panel => Printable(panel.Value))], paper ?? Paper, printer, build, new(Fill: false, coupon ? Coupon.Of(printer, build, spreadMm, desk.Value.Order) : null));
        ImmutableArray<Finding> findings =
            [.. desk.Findings, .. arts.SelectMany(art => art.Read.Findings), .. laid.Findings, .. separated.SelectMany(panel => panel.Findings), .. sheets.Findings];
        Assert.DoesNotContain(findings, finding => finding.Severity == Severity.Stop);
        return new(printer, [.. separated.Select(panel => panel.Value)], sheets.Value, findings);
    }

    private static Checked<ArtContent?> ReadArt(ArtItem item, IDeskFiles? files)
    {
        var file = files?.Read(item.File, ArtFile.LimitBytes) ?? throw new InvalidOperationException($"{item.File} was not given");
        Assert.Null(file.Problem);
        var art = ArtFile.Read(file.Bytes.AsMemory(), item.File, item, ImmutableSortedDictionary<string, Typeface>.Empty);
        Assert.NotNull(art.Value);
        return art;
    }

    private static Printable Printable(PanelSeparation separation)
    {
        var panel = separation.Artwork.Laid.Panel;
        return new(
            panel.Id, panel.Title, panel.WidthMm, panel.HeightMm, PanelSeparation.BleedMm, separation.Front, separation.Mask, separation.Artwork.Holes)
        {
            SpreadMm = separation.SpreadMm,
        };
    }

    private static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Lampblack.slnx")))
        {
            folder = folder.Parent;
        }

        return folder?.FullName ?? throw new InvalidOperationException("the tests run from a folder inside the repository");
    }
}
