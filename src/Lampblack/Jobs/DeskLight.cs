using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Artwork;
using Lampblack.Circuits;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Illumination;
using Lampblack.Imaging;
using Lampblack.Layout;
using Lampblack.Lighting;
using Lampblack.Optics;
using Lampblack.Parts;
using Lampblack.Printers;
using Lampblack.Separations;

namespace Lampblack.Jobs;

/// <summary>The light of a whole desk: each panel's, and the circuit that feeds all.</summary>
/// <param name="Panels">The panels.</param>
/// <param name="Circuit">The circuit; null where nothing is fed.</param>
internal sealed record DeskLight(ImmutableArray<PanelLighting> Panels, CircuitPlan? Circuit)
{
    // Drawings, pictures and book ask for the same.
    private readonly ImmutableArray<Lazy<LightContours?>> _contours = [.. Panels.Select(panel => new Lazy<LightContours?>(() => LightContours.Of(panel, CancellationToken.None)))];

    /// <summary>A desk whose light is not planned.</summary>
    public static DeskLight Nothing { get; } = new([], null);

    /// <summary>Clear acrylic with all reflections within, index 1.49: 2 n / (n² + 1).</summary>
    private const double PlateTransmittance = 2 * 1.49 / ((1.49 * 1.49) + 1);

    /// <summary>The mask's back: black toner, with what the plate before it throws back. From memory.</summary>
    private const double TonerReflectance = 0.05;
    private const double TonerBehindPlateReflectance = 0.1;

    /// <summary>Whether the desk asks for a plan, so that a build makes it.</summary>
    public static bool IsAskedFor(Desk desk) => desk.Lighting.Emitter is not null || desk.Panels.Any(panel => !panel.Emitters.IsEmpty);

    /// <summary>Plans or judges all panels.</summary>
    /// <param name="laid">The desk.</param>
    /// <param name="artworks">Its panels, drawn.</param>
    /// <param name="black">The field's black.</param>
    /// <param name="printer">What was learned of the printer; null for nothing.</param>
    /// <param name="options">What is asked for beyond the desk.</param>
    /// <param name="findings">Takes what is found.</param>
    /// <param name="progress">Told what is being done.</param>
    /// <param name="cancellation">Ends everything.</param>
    public static DeskLight Of(
        LaidDesk laid, ImmutableArray<PanelArtwork> artworks, BlackBuild black, PrinterFile? printer, LightOptions options, List<Finding> findings, IProgress<string> progress, CancellationToken cancellation)
    {
        var desk = laid.Desk;
        var type = desk.Lighting.Emitter ?? EmitterTypes.Usual;
        var luminance = Luminance(desk, KnownOptics.Of(black, printer), black);
        var mask = desk.Order == WorkOrder.PrintBehind ? TonerReflectance : TonerBehindPlateReflectance;
        var shared = SharedProgress.Of(progress);
        var lit = artworks.AsParallel().AsOrdered().WithCancellation(cancellation).Select(artwork =>
        {
            var setting = LightSetting.Of(artwork, desk, type, luminance, mask) with
            {
                Placed = options.Given?.Emitters ?? artwork.Laid.Panel.Emitters,
                DrivesGiven = options.Given is null && artwork.Laid.Panel.Emitters.All(emitter => emitter.FluxLumens is null),
            };
            var (emitters, box) = Given(artwork.Laid.Panel, setting, options.Given);
            var named = new NamedProgress(artwork.Laid.Panel.Id, shared);
            named.Report("lighting it");
            return (Light: LightingDesign.Of(setting, emitters, box, options.Seed, options.MostLooks, named, options.Stop, cancellation), Setting: setting);
        }).ToList();

        ImmutableArray<PanelLighting> panels = [.. lit.Select(pair => pair.Light)];
        var circuit = LampCircuit.Of(desk, panels);
        findings.AddRange(lit.SelectMany(pair => LightingFindings.Of(pair.Light, pair.Setting, desk, circuit?.Dimming)));
        if (circuit is not null)
        {
            findings.AddRange(CircuitFindings.Of(circuit, _ => desk.Lighting.Span));
        }

        return new(panels, circuit);
    }

    /// <summary>The light behind a panel as pictures show it: the common light where it falls, cells with what they get; null where none was planned for it.</summary>
    /// <param name="panel">The panel's id.</param>
    /// <param name="lamps">The lamps' colour.</param>
    /// <param name="cellsOn">Whether what has a light of its own is lit.</param>
    public (Backlight Light, double MeanLux)? Behind(string panel, LinearColour lamps, bool cellsOn)
    {
        if (Panels.FirstOrDefault(one => one.Laid.Panel.Id == panel) is not { HasGeneral: true, Emitters.IsEmpty: false } lit)
        {
            return null;
        }

        return Contours(panel) is not { } contours ? null : (new Backlight(lamps, [.. lit.Cells.Select(cell => new LightCell(
            Region<PanelSpace>.Rectangle(cell.Inside),
            cellsOn ? cell.Legends.Average(legend => legend.Lux) / contours.MeanLux * lamps : cell.LeakShare * lamps))])
        {
            Map = contours.Map,
        }, contours.MeanLux);
    }

    /// <summary>How bright it is behind a panel from place to place, looked up once; null where no emitters are.</summary>
    public LightContours? Contours(string panel) => Panels.Index().FirstOrDefault(one => one.Item.Laid.Panel.Id == panel) is { Item: not null } found ? _contours[found.Index].Value : null;

    /// <summary>Panels are lit at the same time; each says which it is.</summary>
    private sealed class NamedProgress(string panel, SharedProgress progress) : IProgress<string>
    {
        public void Report(string value) => progress.Report($"panel {panel}: {value}");
    }

    private static (ImmutableArray<Emitter> Emitters, LightBox? Box) Given(Panel panel, LightSetting setting, EmitterFile? file)
    {
        ImmutableArray<Emitter> emitters =
        [
            .. (file?.Emitters ?? panel.Emitters).Select(emitter => new Emitter(
                new(emitter.XMm, emitter.YMm), emitter.FluxLumens ?? setting.Figures.FluxLumens, emitter.HalfAngleDegrees ?? setting.Type.HalfAngleDegrees)),
        ];
        if (file?.Box is not { } box)
        {
            return (emitters, null);
        }

        return (emitters, new(new Box<PanelSpace>(0, 0, box.WidthMm, box.HeightMm), box.DepthMm, box.WallReflectance, box.FloorReflectance, box.MaskReflectance)
        {
            Bodies = setting.Bodies(),
            Diffuser = box.Diffuser is { } sheet ? new(sheet.GapMm, sheet.Transmittance, sheet.Reflectance) : null,
        });
    }

    /// <summary>Of a mark's style its luminance for each lux behind the mask: plate, paper, inks, and what the eye makes of the lamps' colour (E tau / pi).</summary>
    private static Func<MarkStyle, double> Luminance(Desk desk, SheetOptics sheet, BlackBuild black)
    {
        var lamps = LightAccount.Lamps(desk.Light);
        var clear = PlateTransmittance * (desk.Stack.CoverMm > 0 ? PlateTransmittance : 1) * sheet.Paper.Transmittance / Math.PI;
        return style =>
        {
            var ink = style.Ink is { } own ? MarkInks.Of(own, black) : Quantities.Ink.None;
            var front = style.Role == LightRole.Hidden ? sheet.FrontTransmission(MarkInks.Cover(style, black)) : sheet.FrontTransmission(ink);
            return clear * PanelLight.Passed(front * (MarkInks.StyleOf(style, black).Backed && ink != Quantities.Ink.None ? sheet.MaskTransmission(ink) : LinearColour.White), lamps);
        };
    }
}

/// <summary>What is asked of a plan of light beyond the desk.</summary>
/// <param name="Given">Emitters to judge in place of the desk's or a plan's; null for none.</param>
/// <param name="Seed">Another seed looks elsewhere.</param>
/// <param name="Stop">Ends the search; the best places so far are taken.</param>
internal sealed record LightOptions(EmitterFile? Given, ulong Seed, CancellationToken Stop)
{
    /// <summary>A build doesn't wait for a long proof: a tenth of a second or so for each panel.</summary>
    private const long LooksInBuild = 20_000_000;

    /// <summary>How long to prove that fewer emitters won't do.</summary>
    public long MostLooks { get; init; } = EmitterSearch.UsualLooks;

    /// <summary>The desk as it is, for a build.</summary>
    public static LightOptions InBuild { get; } = new LightOptions(null, LightingDesign.UsualSeed, CancellationToken.None) { MostLooks = LooksInBuild };

    /// <summary>The desk as it is.</summary>
    public static LightOptions Usual { get; } = new(null, LightingDesign.UsualSeed, CancellationToken.None);
}
