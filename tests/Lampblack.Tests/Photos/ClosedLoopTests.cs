using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.IO;
using System.Linq;
using System.Text;
using System.Text.Json;
using Lampblack.Geometry;
using Lampblack.Jobs;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Tests.Calibration;
using Lampblack.Tests.Printers;
using Lampblack.Tests.Suites;
using Xunit;

namespace Lampblack.Tests.Photos;

/// <summary>From made-up printers through photos of three calibration sheets each to a build, and then sheets of that build printed by the same printers.</summary>
public sealed class ClosedLoopTests
{
    private const int Sheets = 400;

    // A panel of 180 x 110 mm; what shines stands in its corners. All invented.
    private const string Desk = """
        lampblack = 1
        [[panel]]
        id = "pumps"
        size = [180, 110]
        [[panel.legend]]
        text = "INLET"
        at = [18, 100]
        [[panel.legend]]
        text = "OUTLET"
        at = [160, 100]
        [[panel.legend]]
        text = "DRAIN"
        at = [18, 10]
        [[panel.legend]]
        text = "RETURN"
        at = [160, 10]
        """;

    private static readonly PaperSize A4 = PaperSize.Find("A4")!;

    [Fact]
    public void Three_printers_learned_from_photos_of_three_sheets_print_as_many_whole_sheets_as_was_promised()
    {
        var shares = new List<double>();
        var told = new StringBuilder();
        for (var seed = 1; seed <= 3; seed++)
        {
            var printer = new MadeUpPrinter(seed);
            var read = PhotosOfSheets.Read(
                Enumerable.Range(1, 3).Select(copy => ($"copy-{copy}.jpg", Kept(seed, copy, printer.Photo(copy)))), new Progress<string>(), TestContext.Current.CancellationToken);
            Assert.True(read.CanTeach);
            var learned = Learn.Run(PrinterSamples.New(), LearnAnswers.Nothing with { Photos = read });
            Assert.False(learned.HasStop, string.Join(" | ", learned.Findings.Select(finding => finding.Message)));
            var file = learned.Value.File;
            var (spreadMm, promised, corners) = Built(file);
            var undone = RegisterEstimate.Of(file).On(A4).Inverse();
            var whole = Enumerable.Range(0, Sheets).Count(_ =>
            {
                var lands = undone.Then(printer.NextSheet());
                return corners.All(corner => lands.Apply(corner).DistanceMm(corner) <= spreadMm);
            });
            shares.Add(whole / (double)Sheets);
            told.Append(CultureInfo.InvariantCulture, $"printer {seed}: spread {spreadMm:0.00} mm, {promised:P1} promised, {shares[^1]:P1} of {Sheets} sheets whole; ");
            Assert.True(promised >= 0.95 || spreadMm >= 0.5, told.ToString());
        }

        TestContext.Current.TestOutputHelper?.WriteLine(told.ToString());
        Assert.True(shares.Average() >= 0.93, told.ToString());
        Assert.True(shares.Min() >= 0.75, told.ToString());
    }

    /// <summary>What the build chose, and the corners of the panel where it was put: nothing that shines lies farther out.</summary>
    private static (double SpreadMm, double? Promised, ImmutableArray<Point<SheetSpace>> Corners) Built(PrinterFile file)
    {
        var result = Build.Run(
            ExampleDesks.Alone(Encoding.UTF8.GetBytes(Desk)),
            new BuildRequest("A4", "printer", Parts: BuildParts.Print, Printer: file),
            new Progress<string>(),
            TestContext.Current.CancellationToken);
        using var report = JsonDocument.Parse(result.Files.Single(made => made.Path == "report.json").Bytes.AsMemory());
        var panel = report.RootElement.GetProperty("panels")[0];
        var box = panel.GetProperty("trimBoxMm").EnumerateArray().Select(number => number.GetDouble()).ToArray();
        return (
            panel.GetProperty("spreadMm").GetDouble(),
            report.RootElement.GetProperty("sheets")[0].TryGetProperty("goodShare", out var share) ? share.GetDouble() : null,
            [new(box[0], box[1]), new(box[0] + box[2], box[1]), new(box[0] + box[2], box[1] + box[3]), new(box[0], box[1] + box[3])]);
    }

    /// <summary>The photo; kept in a folder as well where one is named, to learn from by hand.</summary>
    private static ReadOnlyMemory<byte> Kept(int seed, int copy, byte[] jpeg)
    {
        if (Environment.GetEnvironmentVariable("LAMPBLACK_PHOTOS") is { Length: > 0 } folder)
        {
            File.WriteAllBytes(Path.Combine(folder, $"printer-{seed}-copy-{copy}.jpg"), jpeg);
        }

        return jpeg;
    }

    private sealed class MadeUpPrinter
    {
        private readonly Chance _chance;
        private readonly Affine<SheetSpace, SheetSpace> _usual;

        public MadeUpPrinter(int seed)
        {
            _chance = new((ulong)seed * 77);
            _usual = About(_chance.Normal(0.8), _chance.Normal(0.8), _chance.Normal(0.003), _chance.Normal(0.001), _chance.Normal(0.001), _chance.Normal(0.0005));
        }

        /// <summary>What one more sheet gets: the printer's own way and a scatter of 0.1 mm, 0.5 mrad, 0.04 %.</summary>
        public Affine<SheetSpace, SheetSpace> NextSheet() => _usual.Then(
            About(_chance.Normal(0.1), _chance.Normal(0.1), _chance.Normal(0.0005), _chance.Normal(0.0004), _chance.Normal(0.0004), _chance.Normal(0.0002)));

        public byte[] Photo(int copy)
        {
            var plan = TrialPhoto.Plans.Single(plan => plan.Paper == A4);
            var camera = new DrawnCamera
            {
                Seed = copy,
                TiltDegrees = _chance.Between(0, 12),
                TiltTowardsDegrees = _chance.Between(0, 360),
                TurnDegrees = 90 + _chance.Between(-5, 5),
                K1 = _chance.Between(-0.05, 0.05),
                BlurPx = 1.2,
                ToneMapping = 0.2,
            };
            return camera.Jpeg(new DrawnSheet(plan, copy) { Back = NextSheet(), GainMm = 0.03, Wedge = patch => (Layer(patch.Front), Layer(patch.Back)) });
        }

        /// <summary>How dark this printer's layers are. Invented.</summary>
        private static double Layer(Ink? ink) => ink is null ? 0
            : ink.Space == InkSpace.Cmyk ? (1.2 * ink.Amounts[3]) + (0.2 * (ink.Amounts[0] + ink.Amounts[1] + ink.Amounts[2]))
            : ink.Space == InkSpace.Rgb ? 1.1 : 1.25;

        private static Affine<SheetSpace, SheetSpace> About(double right, double up, double turn, double wider, double taller, double shear)
        {
            var toMiddle = Affine<SheetSpace, SheetSpace>.Shift(-A4.WidthMm / 2, -A4.HeightMm / 2);
            return toMiddle.Then(new Affine<SheetSpace, SheetSpace>(1 + wider, shear - turn, right, shear + turn, 1 + taller, up)).Then(toMiddle.Inverse());
        }
    }
}
