using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Tests.Peers;
using Lampblack.Tests.Printers;
using SkiaSharp;
using Xunit;

namespace Lampblack.Tests.Photos;

/// <summary>
/// The whole way: the PDFs of a calibration sheet, drawn by Ghostscript with side 2 off by a known way, laid over each other as light sees them, photographed aslant
/// by a few lines of projective geometry, and learned. Nothing here knows where the marks are.
/// </summary>
public sealed class PrintedSheetTests
{
    private const int Dpi = 400;

    private static readonly (double RightMm, double UpMm)[] Off = [(0.42, -0.27), (0.33, -0.21)];

    private static readonly Lazy<ImmutableArray<OutputFile>> Files = new(() => CalibrationSheetJob.Run("A4", PrinterSamples.New(), "study", 2).Value);

    private static readonly Lazy<ImmutableArray<InkPlates>> Fronts = new(() => GhostscriptPlates.Render(Files.Value.Single(file => file.Path == "front.pdf").Bytes.AsSpan(), Dpi));

    private static readonly Lazy<byte[]> BackPdf = new(() => [.. Files.Value.Single(file => file.Path == "back.pdf").Bytes]);

    private static readonly Lazy<ImmutableArray<byte[]>> Photos = new(() =>
        [.. Off.Select((off, copy) => Photo(Fronts.Value[copy], GhostscriptPlates.Render(BackPdf.Value, Dpi, -off.RightMm * 72 / 25.4, off.UpMm * 72 / 25.4)[copy]))]);

    [Fact]
    public void A_photo_of_the_printed_sheet_tells_where_side_2_lies_within_a_hundredth_of_a_millimetre()
    {
        var read = Read("one.png");
        var photo = Assert.Single(read.Photos);
        Assert.Equal((1, 24, true), (photo.Copy, photo.MarksFound, read.CanTeach));
        Check(Off[0].RightMm, Off[0].UpMm, photo.Fit!, 0.01);
    }

    [Fact]
    public void Photos_of_two_copies_are_two_sheets_of_one_lesson_and_the_next_build_undoes_their_mean()
    {
        var taught = Learned(PrinterSamples.New(), Read("one.png", "two.png"));
        Assert.Equal(["photos", "photos"], taught.Register.Select(entry => entry.From));
        Assert.Equal(1, taught.Revision);
        var estimate = RegisterEstimate.Of(taught);
        Assert.Equal((Off[0].RightMm + Off[1].RightMm) / 2, estimate.ShiftRightMm, 0.01);
        Assert.Equal((Off[0].UpMm + Off[1].UpMm) / 2, estimate.ShiftUpMm, 0.01);
        Assert.Equal(0, estimate.TurnDegrees, 0.01);

        // However sharp the photos are: two sheets of a printer whose sheets scatter by 0.1 mm tell its mean to 0.07 mm.
        Assert.InRange(estimate.ShiftRightSdMm, 0.05, 0.09);
    }

    [Fact]
    public void The_photo_tells_that_each_layer_has_the_density_that_it_was_drawn_with_and_the_file_keeps_it()
    {
        var read = Read("one.png");
        TestContext.Current.TestOutputHelper?.WriteLine(string.Join(" ", read.Patches.Select(patch => FormattableString.Invariant($"{patch.Id}:{patch.Density:0.000}±{patch.UncertaintyDensity:0.000}{(patch.IsLowerBound ? "+" : "")}"))));
        Assert.Contains(read.Findings, finding => finding is { Code: "photo-one-exposure", Severity: Severity.Note });
        Assert.Equal(54, read.Patches.Length);
        foreach (var patch in read.Patches)
        {
            var truth = Truth(patch.Id);
            Assert.True(patch.IsLowerBound ? patch.Density <= truth : Math.Abs(patch.Density - truth) < 2.576 * patch.UncertaintyDensity, $"{patch.Id}: {patch.Density} for {truth}");
        }

        Assert.All(read.Patches.Where(patch => Truth(patch.Id) <= PlatePhoto.Density), patch => Assert.Equal(Truth(patch.Id), patch.Density, 0.03));
        var taught = Learned(PrinterSamples.New(), read);
        Assert.Equal(1, WedgeEstimate.Of(taught).Sheets);

        // All builds were drawn alike: the one with the least toner is asked for.
        Assert.Equal("K", PrinterProperties.Of(taught, PaperSize.Find("A4")!).Builds[0].Name);
        Assert.Empty(PrinterFiles.Forget(taught, PrinterLore.Wedge).Wedges);
        Assert.DoesNotContain(
            PhotosOfSheets.Read([("one.png", Photos.Value[0])], new Progress<string>(), TestContext.Current.CancellationToken, hasColours: false).Patches, patch => patch.Id.Contains("240", StringComparison.Ordinal));
    }

    [Fact]
    public void The_same_photo_twice_is_refused_and_another_papers_file_learns_nothing()
    {
        var photos = Read("one.png");
        var once = Learned(PrinterSamples.New(), photos);
        Assert.Contains(Learn.Run(once, LearnAnswers.Nothing with { Photos = photos }).Findings, finding => finding is { Code: "register-twice", Severity: Severity.Stop });
        var letter = PrinterSamples.New() with { Path = PrinterSamples.New().Path with { Paper = "Letter" } };
        Assert.Equal(["photo-other-paper"], Learn.Run(letter, LearnAnswers.Nothing with { Photos = photos }).Findings.Where(finding => finding.Severity == Severity.Stop).Select(finding => finding.Code));
        Assert.Contains(
            Learn.Run(once, LearnAnswers.Nothing with { Photos = photos, Bars = ["front=99.8"] }).Findings, finding => finding is { Code: "answer-mixed", Severity: Severity.Stop });
    }

    [Fact]
    public void A_useless_photo_beside_a_good_one_is_told_and_the_good_one_is_learned_from()
    {
        var both = PhotosOfSheets.Read([("black.png", Plain(0)), ("one.png", Photos.Value[0])], new Progress<string>(), TestContext.Current.CancellationToken);
        Assert.True(both.CanTeach);
        Assert.All(both.Findings, finding => Assert.NotEqual(Severity.Stop, finding.Severity));
        Assert.Single(Learned(PrinterSamples.New(), both).Register);
        var none = PhotosOfSheets.Read([("black.png", Plain(0)), ("white.png", Plain(255))], new Progress<string>(), TestContext.Current.CancellationToken);
        var result = Learn.Run(PrinterSamples.New(), LearnAnswers.Nothing with { Photos = none });
        Assert.Equal(2, result.Findings.Count(finding => finding.Severity == Severity.Stop));
        Assert.Equal(0, result.Value.File.Revision);
    }

    [Fact]
    public void Each_photo_that_teaches_gives_a_picture_with_arrows() =>
        Assert.Equal(["photo-1-arrows.png", "photo-2-arrows.png", "manifest.json"], Read("one.png", "two.png").Arrows().Select(file => file.Path));

    [Fact]
    public void A_photo_without_colours_says_that_it_does_not_tell_of_them_and_tells_how_much_wider_black_was_drawn()
    {
        var read = Read("one.png");
        Assert.Contains(read.Findings, finding => finding is { Code: "photo-colours-unread", Severity: Severity.Note } && finding.Message.Contains("C, M, Y: the photo has no colours", StringComparison.Ordinal));
        Assert.Empty(read.Colours);
        var growth = Assert.Single(read.Growth);

        // The truth is what the plates themselves say: how many of their dots across each line are clear.
        var plan = TrialPhoto.Plans.Single(plan => plan.Paper.Name == "A4");
        var truths = new[] { true, false }.Select(isUpright => CalibrationLines.Of(plan).Where(line => line.IsUpright == isUpright).Average(line => (line.WidthMm - OpenMm(line)) / 2)).ToList();
        TestContext.Current.TestOutputHelper?.WriteLine(FormattableString.Invariant($"{truths[0]:0.0000} {truths[1]:0.0000} read {growth.AcrossMm:0.0000} {growth.AlongMm:0.0000} ± {growth.SdMm:0.0000}, {growth.Lines} lines"));
        Assert.Equal(truths[0], growth.AcrossMm, 0.01);
        Assert.Equal(truths[1], growth.AlongMm, 0.01);
        var taught = Learned(PrinterSamples.New(), read);
        Assert.Equal(1, GainEstimate.Of(taught).Sheets);
        Assert.Contains(Learn.Run(PrinterSamples.New(), LearnAnswers.Nothing with { Photos = read }).Value.Words, word => word.StartsWith("Toner grows by ", StringComparison.Ordinal));
        Assert.Empty(PrinterFiles.Forget(taught, PrinterLore.Gain).Gains);
        Assert.Equal(taught.Gains, PrinterFiles.Forget(taught, PrinterLore.Planes).Gains);

        static double OpenMm(LitLine line)
        {
            var clear = 0;
            const int Steps = 400;
            for (var step = 0; step < Steps; step++)
            {
                var off = (((step + 0.5) / Steps) - 0.5) * 2;
                var dot = Fronts.Value[0].AtMm(line.Middle.XMm + (line.IsUpright ? off : 0), line.Middle.YMm + (line.IsUpright ? 0 : off), Dpi);
                clear += dot.Black < 128 ? 1 : 0;
            }

            return 2.0 * clear / Steps;
        }
    }

    [Fact]
    public void A_photo_in_colour_tells_where_the_printer_laid_each_colour()
    {
        (double RightMm, double UpMm)[] off = [(0.11, -0.05), (-0.08, 0.06), (0.04, 0.13)];
        var colour = Photo(Fronts.Value[0], GhostscriptPlates.Render(BackPdf.Value, Dpi)[0], off);
        var read = PhotosOfSheets.Read([("colour.png", colour)], new Progress<string>(), TestContext.Current.CancellationToken);
        Assert.Equal(6, read.Colours.Length);
        TestContext.Current.TestOutputHelper?.WriteLine(string.Join(" ", read.Colours.Select(one => FormattableString.Invariant($"{one.Ink}:{one.RightMm:0.000},{one.UpMm:0.000}±{one.SdMm:0.000}"))));
        foreach (var one in read.Colours)
        {
            var (right, up) = off["CMY".IndexOf(one.Ink, StringComparison.Ordinal)];
            Assert.Equal(right, one.RightMm, 0.02);
            Assert.Equal(up, one.UpMm, 0.02);
        }

        var taught = Learned(PrinterSamples.New(), read);
        Assert.Equal(6, Assert.Single(taught.Planes).Readings.Length);
        Assert.Contains(Learn.Run(PrinterSamples.New(), LearnAnswers.Nothing with { Photos = read }).Value.Words, word => word.StartsWith("The colours lie off their black: C 0.1", StringComparison.Ordinal));
        Assert.InRange(PrinterProperties.Of(taught, PaperSize.Find("A4")!).StandBackMm, 0.15, 0.35);
        Assert.Empty(PrinterFiles.Forget(taught, PrinterLore.Planes).Planes);
    }

    // Ghostscript's conversion makes 88.6 % K the most of RGB 0, 0, 0 (measured; the largest ink counts here).
    private static double Truth(string patch) =>
        PlatePhoto.Density * (patch.StartsWith("both", StringComparison.Ordinal) || patch.StartsWith("opaque", StringComparison.Ordinal) ? 2 : 1) * (patch.Contains("rgb", StringComparison.Ordinal) ? 0.886 : 1);

    private static PhotosOfSheets Read(params string[] names) => PhotosOfSheets.Read(
        names.Select(name => (name, (ReadOnlyMemory<byte>)Photos.Value[name == "one.png" ? 0 : 1])), new Progress<string>(), TestContext.Current.CancellationToken);

    private static PrinterFile Learned(PrinterFile file, PhotosOfSheets photos)
    {
        var learned = Learn.Run(file, LearnAnswers.Nothing with { Photos = photos });
        Assert.DoesNotContain(learned.Findings, finding => finding.Severity == Severity.Stop);
        return learned.Value.File;
    }

    private static void Check(double rightMm, double upMm, LandingOfSide2 fit, double mostMm)
    {
        foreach (var (x, y) in new[] { (20.0, 20.0), (190, 20), (190, 277), (20, 277), (105, 148.5) })
        {
            var (to, up) = ((fit.Affine[0][0] * x) + (fit.Affine[0][1] * y) + fit.Affine[0][2] - x, (fit.Affine[1][0] * x) + (fit.Affine[1][1] * y) + fit.Affine[1][2] - y);
            Assert.True(Math.Abs(to - rightMm) < mostMm && Math.Abs(up - upMm) < mostMm, FormattableString.Invariant($"at {x}, {y}: {to:0.0000}, {up:0.0000} for {rightMm}, {upMm}"));
        }
    }

    private static byte[] Photo(InkPlates front, InkPlates back, (double RightMm, double UpMm)[]? off = null) => new PlatePhoto(front, back, Dpi) { Colours = off }.Png();

    private static byte[] Plain(byte code)
    {
        using SKBitmap plain = new(new SKImageInfo(2000, 1500, SKColorType.Gray8, SKAlphaType.Opaque));
        plain.GetPixelSpan().Fill(code);
        using var png = plain.Encode(SKEncodedImageFormat.Png, 90);
        return png.ToArray();
    }
}
