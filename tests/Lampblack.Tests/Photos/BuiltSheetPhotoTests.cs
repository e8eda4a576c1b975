using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Jobs;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Tests.Peers;
using Lampblack.Tests.Printers;
using Lampblack.Tests.Suites;
using Xunit;

namespace Lampblack.Tests.Photos;

/// <summary>
/// The pages of a build, drawn by Ghostscript, laid over each other with side 2 off by a known way, photographed aslant, and learned from.
/// </summary>
public sealed class BuiltSheetPhotoTests
{
    private const int Dpi = 400;

    // Three ways to hold a camera: the usual one, a quarter turn with a stronger lean, half a turn from farther away.
    private static readonly double[][] Cameras =
    [
        [0.0830, 0.0011, -9, -0.0007, 0.0850, -6, 1.1e-5, -0.7e-5],
        [-0.002, 0.0872, -40, -0.1160, 0.001, 305, 1.6e-5, -1.2e-5],
        [-0.0930, 0.0012, 230, -0.0009, -0.0920, 312, -0.8e-5, 1.3e-5],
    ];

    private static readonly PaperSize A4 = PaperSize.Find("A4")!;

    private static readonly Lazy<Printed> Yard = new(() => Print(ExampleDesks.Source("yard-board"), null));

    [Theory]
    [InlineData(0, 0.31, -0.22, 0.0)]
    [InlineData(1, -0.12, 0.05, 0.001)]
    [InlineData(2, 0.02, 0.4, -0.0015)]
    public void A_photo_of_a_production_sheet_tells_where_side_2_lies(int camera, double rightMm, double upMm, double turn)
    {
        var read = Read(Yard.Value, Photo(Yard.Value) with { Camera = Cameras[camera], Lands = About(rightMm, upMm, turn) });
        var photo = Assert.Single(read.Photos);
        Assert.True(read.CanTeach, string.Join(" ", read.Findings.Select(finding => finding.Message)));
        Assert.Equal("sheet-1", photo.Sheet);
        Assert.Equal((photo.MarksFound, photo.MarksFound), (photo.MarksUsed, Yard.Value.Marks));

        // At the marks; elsewhere the fit of six numbers reaches as far as they surround it.
        var worst = 0.0;
        foreach (var place in Yard.Value.Places)
        {
            var truth = About(rightMm, upMm, turn).Apply(place) - place;
            var seen = At(photo.Fit!, place);
            worst = Math.Max(worst, double.Hypot(seen.RightMm - truth.DxMm, seen.UpMm - truth.DyMm));
        }

        TestContext.Current.TestOutputHelper?.WriteLine(FormattableString.Invariant($"worst {worst:0.0000} mm, rms {photo.Fit!.RmsMm:0.0000} mm"));
        Assert.True(worst < 0.015, FormattableString.Invariant($"{worst}"));

        var learned = Learn.Run(PrinterSamples.New(), LearnAnswers.Nothing with { Photos = read });
        Assert.DoesNotContain(learned.Findings, finding => finding.Severity == Severity.Stop);
        var estimate = RegisterEstimate.Of(learned.Value.File);
        Assert.Equal(1, estimate.Sheets);
        foreach (var (x, y) in new[] { (-70.0, -110.0), (70, -110), (70, 110), (-70, 110) })
        {
            var off = estimate.At(x, y);
            var truth = About(rightMm, upMm, turn).Apply(new(105 + x, 148.5 + y)) - new Point<SheetSpace>(105 + x, 148.5 + y);

            // What one sheet tells of the printer's mean, its scatter in it: three standard deviations.
            Assert.True(Math.Abs(off.RightMm - truth.DxMm) < 3 * off.RightSdMm && Math.Abs(off.UpMm - truth.DyMm) < 3 * off.UpSdMm);
        }
    }

    [Fact]
    public void What_was_undone_on_the_sheet_is_put_back()
    {
        // The printer lays side 2 off by 0.6, -0.4; readings have told 0.5, -0.3, and the build undid that.
        var known = PrinterSamples.New() with { Register = [PrinterSamples.Entry((_, _) => (0.5, -0.3), 0.02)] };
        var made = RegisterEstimate.Of(known);
        var printed = Print(ExampleDesks.Source("yard-board"), known);
        Assert.Equal(1, printed.Build.Printer!.Revision);
        var read = Read(printed, Photo(printed) with { Lands = About(0.6, -0.4, 0) });

        // On the sheet only what was not undone shows.
        var at = At(read.Photos[0].Fit!, printed.Places[0]);
        Assert.Equal(0.6 - made.ShiftRightMm, at.RightMm, 0.02);
        Assert.Equal(-0.4 - made.ShiftUpMm, at.UpMm, 0.02);
        var learned = Learn.Run(known, LearnAnswers.Nothing with { Photos = read });
        Assert.DoesNotContain(learned.Findings, finding => finding.Severity == Severity.Stop);
        var entry = learned.Value.File.Register[^1];
        Assert.Equal(0.6, entry.Readings.Average(reading => reading.RightMm!.Value), 0.02);
        Assert.Equal(-0.4, entry.Readings.Average(reading => reading.UpMm!.Value), 0.02);
        Assert.Equal(2, RegisterEstimate.Of(learned.Value.File).Sheets);
        Assert.Contains(learned.Value.Words, word => word.Contains("0.1", StringComparison.Ordinal));
        Assert.Contains("register 1", Assert.Single(read.SheetsTold), StringComparison.Ordinal);

        // Another printer's file learns nothing from it; this one does though it forgot what it knew then: the report tells what was undone.
        var other = Learn.Run(known with { Name = "attic" }, LearnAnswers.Nothing with { Photos = read });
        Assert.Equal(["photo-other-printer"], other.Findings.Where(finding => finding.Severity == Severity.Stop).Select(finding => finding.Code));
        var forgotten = Learn.Run(PrinterFiles.Forget(known, PrinterLore.Register), LearnAnswers.Nothing with { Photos = read });
        Assert.Equal(0.6, forgotten.Value.File.Register[^1].Readings.Average(reading => reading.RightMm!.Value), 0.02);

        // Built anew after that lesson, the old sheet is none of that build: its marks have other numbers.
        var anew = Print(ExampleDesks.Source("yard-board"), learned.Value.File);
        Assert.Equal(printed.Places, anew.Places);
        Assert.Equal("photo-sheet-other", Stop(Read(anew, Photo(printed) with { Lands = About(0.6, -0.4, 0) })));
    }

    [Fact]
    public void Two_photos_of_one_piece_of_paper_count_once_and_two_pieces_twice()
    {
        var first = Photo(Yard.Value) with { Lands = About(0.3, 0.1, 0) };
        var same = Learned(first, first with { Camera = Cameras[2] });
        Assert.Contains(same.Findings, finding => finding.Code == "sheet-known");
        Assert.Equal(1, RegisterEstimate.Of(same.Value.File).Sheets);
        var two = Learned(first, first with { Camera = Cameras[2], Lands = About(0.5, -0.06, 0) });
        Assert.DoesNotContain(two.Findings, finding => finding.Code == "sheet-known");
        Assert.Equal(2, RegisterEstimate.Of(two.Value.File).Sheets);

        static Checked<LearnResult> Learned(params PlatePhoto[] photos) => Learn.Run(PrinterSamples.New(), LearnAnswers.Nothing with { Photos = Read(Yard.Value, photos) });
    }

    [Fact]
    public void A_sheet_of_no_or_another_build_is_told()
    {
        var photo = Photo(Yard.Value);
        Assert.Equal("photo-sheet-unnamed", Stop(PhotosOfSheets.Read([("one.png", photo.Png())], new Progress<string>(), TestContext.Current.CancellationToken)));
        var kiln = Print(ExampleDesks.Source("kiln"), null);
        Assert.Equal("photo-sheet-other", Stop(Read(kiln, photo)));
    }

    [Fact]
    public void A_build_whose_report_tells_no_marks_says_why()
    {
        var photo = Photo(Yard.Value);
        Assert.Contains("can't be read", Why("{ \"schema\": 1"), StringComparison.Ordinal);
        var report = Encoding.UTF8.GetString([.. Yard.Value.Report]);
        Assert.Contains("older", Why(report.Replace("\"undone\"", "\"undone-not\"", StringComparison.Ordinal)), StringComparison.Ordinal);
        Assert.Contains("bracket", Why(report.Replace("\"bracket\": false", "\"bracket\": true", StringComparison.Ordinal)), StringComparison.Ordinal);
        Assert.Contains("had room", Why(report.Replace("\"marks\"", "\"no-marks\"", StringComparison.Ordinal)), StringComparison.Ordinal);

        string Why(string text)
        {
            var read = PhotosOfSheets.Read([("one.png", photo.Png())], new Progress<string>(), TestContext.Current.CancellationToken, report: [.. Encoding.UTF8.GetBytes(text)]);
            Assert.Equal("photo-sheet-unnamed", Stop(read));
            return read.Findings.Single(finding => finding.Severity == Severity.Stop).Message;
        }
    }

    [Fact]
    public void A_smeared_mark_is_left_out_or_the_photo_is_refused_never_learned_from()
    {
        // Every second mark's disc is pulled aside: no common way is left.
        var read = Read(Yard.Value, Photo(Yard.Value) with { Smear = place => Yard.Value.Places.IndexOf(Yard.Value.Places.MinBy(mark => mark.DistanceMm(place))) % 2 == 0 ? 0.25 : 0 });
        Assert.Equal("photo-marks-contrary", Stop(read));
    }

    [Fact]
    public void A_sheet_with_one_side_or_turned_the_wrong_way_or_half_out_of_the_photo_is_told()
    {
        var photo = Photo(Yard.Value);
        Assert.Equal("photo-front-only", Stop(Read(Yard.Value, photo with { HasBack = false })));
        Assert.Equal("photo-back-unread", Stop(Read(Yard.Value, photo with { IsHalfTurned = true })));
        Assert.Equal("photo-scaled", Stop(Read(Yard.Value, photo with { Lands = Affine<SheetSpace, SheetSpace>.Shift(-180, 0).Then(Affine<SheetSpace, SheetSpace>.Scale(0.98, 1)).Then(Affine<SheetSpace, SheetSpace>.Shift(180, 0)) })));
        Assert.Equal("photo-cropped", Stop(Read(Yard.Value, photo with { Camera = [0.0830, 0.0011, -9, -0.0007, 0.0850, -170, 1.1e-5, -0.7e-5] })));
    }

    [Fact]
    public void A_sheet_that_is_full_has_no_marks_and_says_so()
    {
        var full = Build.Run(
            ExampleDesks.Alone(Encoding.UTF8.GetBytes("lampblack = 1\n[[panel]]\nid = \"full\"\nsize = [190, 262]\n[[panel.legend]]\ntext = \"FULL\"\nat = [90, 100]\n")),
            new("A4", "test", Parts: BuildParts.Print), new Progress<string>(), TestContext.Current.CancellationToken);
        Assert.Contains(full.Findings, finding => finding.Code == "gauge-no-room" && finding.Message.Contains("register marks", StringComparison.Ordinal));
    }

    private static string Stop(PhotosOfSheets read)
    {
        Assert.False(read.CanTeach);
        return Assert.Single(read.Findings, finding => finding.Severity == Severity.Stop).Code;
    }

    private static (double RightMm, double UpMm) At(LandingOfSide2 fit, Point<SheetSpace> place) => (
        (fit.Affine[0][0] * place.XMm) + (fit.Affine[0][1] * place.YMm) + fit.Affine[0][2] - place.XMm,
        (fit.Affine[1][0] * place.XMm) + (fit.Affine[1][1] * place.YMm) + fit.Affine[1][2] - place.YMm);

    /// <summary>A shift, and a turn about the sheet's middle.</summary>
    private static Affine<SheetSpace, SheetSpace> About(double rightMm, double upMm, double turn) => Affine<SheetSpace, SheetSpace>.Shift(-105, -148.5)
        .Then(new Affine<SheetSpace, SheetSpace>(1, -turn, rightMm, turn, 1, upMm)).Then(Affine<SheetSpace, SheetSpace>.Shift(105, 148.5));

    private static PlatePhoto Photo(Printed printed) => new(printed.Front, printed.Back, Dpi);

    private static PhotosOfSheets Read(Printed printed, params PlatePhoto[] photos) => PhotosOfSheets.Read(
        photos.Select((photo, index) => (FormattableString.Invariant($"photo-{index + 1}.png"), (ReadOnlyMemory<byte>)photo.Png())), new Progress<string>(), TestContext.Current.CancellationToken,
        report: printed.Report);

    private static Printed Print(DeskSource desk, PrinterFile? printer)
    {
        BuildRequest request = new("A4", "test", Parts: BuildParts.Print, Printer: printer);
        var built = Build.Run(desk, request, new Progress<string>(), TestContext.Current.CancellationToken);
        ImmutableArray<byte> File(string path) => built.Files.Single(file => file.Path == path).Bytes;
        var report = File("report.json");
        using var json = System.Text.Json.JsonDocument.Parse(report.AsMemory());
        List<Point<SheetSpace>> places =
        [
            .. json.RootElement.GetProperty("sheets")[0].GetProperty("marks").EnumerateArray().Select(mark => mark.GetProperty("atMm"))
                .Select(at => new Point<SheetSpace>(at[0].GetDouble(), at[1].GetDouble())),
        ];
        return new(
            request, report, GhostscriptPlates.Render(File("sheet-1/front.pdf").AsSpan(), Dpi)[0], GhostscriptPlates.Render(File("sheet-1/mask.pdf").AsSpan(), Dpi)[0], [.. places]);
    }

    private sealed record Printed(BuildRequest Build, ImmutableArray<byte> Report, InkPlates Front, InkPlates Back, ImmutableArray<Point<SheetSpace>> Places)
    {
        public int Marks => Places.Length;
    }
}
