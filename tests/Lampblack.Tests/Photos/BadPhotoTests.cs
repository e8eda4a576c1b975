using System;
using System.Linq;
using System.Threading;
using Lampblack.Calibration;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Photos;
using SkiaSharp;
using Xunit;

namespace Lampblack.Tests.Photos;

/// <summary>Photos and sheets with which something is wrong: each is told in words.</summary>
public sealed class BadPhotoTests
{
    private static readonly CalibrationPlan A4 = TrialPhoto.Plans.Single(plan => plan.Paper.Name == "A4");

    private static readonly DrawnCamera Camera = new() { WidthPx = 2000, HeightPx = 1500, BlurPx = 0.7, TiltDegrees = 8, Noise = 0.005 };

    [Fact]
    public void Black_and_white_photos_and_a_cat_are_no_sheet()
    {
        Stopped("photo-dark", (Camera with { Around = 0, Noise = 0.001 }).Jpeg());
        Stopped("photo-no-sheet", (Camera with { Around = 3, Vignetting = 0 }).Jpeg());
        Stopped("photo-no-sheet", Cat());
    }

    [Fact]
    public void A_sheet_upside_down_is_as_good_as_any()
    {
        var read = Read((Camera with { TurnDegrees = 270 }).Jpeg(new DrawnSheet(A4, 7)));
        Assert.DoesNotContain(read.Findings, finding => finding.Severity != Severity.Note);
        Assert.Equal(7, read.Value!.Code!.Copy);
        Assert.True(read.Value.Fit!.At(new(0, 0)).LengthMm < 0.02);
    }

    [Fact]
    public void A_sheet_from_behind_is_measured_and_said()
    {
        var read = Read((Camera with { IsFromBehind = true }).Jpeg(new DrawnSheet(A4, 7) { Back = Affine<SheetSpace, SheetSpace>.Shift(0.5, -0.3) }));
        Assert.Contains(read.Findings, finding => finding.Code == "photo-behind");
        Assert.False(read.HasStop);
        var off = read.Value!.Fit!.At(new(100, 100));
        Assert.Equal(0.5, off.DxMm, 0.01);
        Assert.Equal(-0.3, off.DyMm, 0.01);
    }

    [Fact]
    public void One_side_alone_is_told()
    {
        Stopped("photo-front-only", Camera.Jpeg(new DrawnSheet(A4, 1) { HasBack = false }));
        Stopped("photo-front-only", (Camera with { IsFromBehind = true }).Jpeg(new DrawnSheet(A4, 1) { HasBack = false }));
        Stopped("photo-back-only", Camera.Jpeg(new DrawnSheet(A4, 1) { HasFront = false }));
    }

    [Theory]
    [InlineData(1, "same face", "other edge")]
    [InlineData(2, "other edge", "same face")]
    [InlineData(3, "other edge", "nothing of this kind")]
    public void A_sheet_turned_the_wrong_way_is_told_by_its_turn_mark(int turn, string said, string unsaid)
    {
        var message = Stopped("photo-turned", Camera.Jpeg(new DrawnSheet(A4, 1) { BackTurn = turn })).Message;
        Assert.Contains(said, message, StringComparison.Ordinal);
        Assert.DoesNotContain(unsaid, message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_side_that_was_scaled_is_told_with_its_percentage()
    {
        var (x, y) = (A4.Paper.WidthMm / 2, A4.Paper.HeightMm / 2);
        var scaled = Affine<SheetSpace, SheetSpace>.Shift(-x, -y).Then(Affine<SheetSpace, SheetSpace>.Scale(0.94, 0.94)).Then(Affine<SheetSpace, SheetSpace>.Shift(x, y));
        Assert.Contains("94 %", Stopped("photo-scaled", Camera.Jpeg(new DrawnSheet(A4, 1) { Back = scaled })).Message, StringComparison.Ordinal);

        // Shifted by more than half a window, nothing can be told but that.
        Stopped("photo-back-unread", Camera.Jpeg(new DrawnSheet(A4, 1) { Back = Affine<SheetSpace, SheetSpace>.Shift(3.9, 0) }));
    }

    [Fact]
    public void A_cropped_sheet_names_the_missing_marks()
    {
        Stopped("photo-cropped", (Camera with { Aside = (0.45, 0) }).Jpeg(new DrawnSheet(A4, 1)));
        var edge = Stopped("photo-cropped", (Camera with { Aside = (0.14, 0), Fill = 0.97, TiltDegrees = 0 }).Jpeg(new DrawnSheet(A4, 1)));
        Assert.Contains("missing: ", edge.Message, StringComparison.Ordinal);

        // A thumb on one corner hides a mark or two; the others will do.
        var thumb = Read(Camera.Jpeg(new DrawnSheet(A4, 1) { Thumb = (25, 25, 14) }));
        Assert.Contains("missing: 1", Assert.Single(thumb.Findings, finding => finding.Severity == Severity.Warn).Message, StringComparison.Ordinal);
        Assert.NotNull(thumb.Value!.Fit);
    }

    [Fact]
    public void Two_sheets_and_two_halves_of_sheets_are_told()
    {
        Stopped("photo-two-sheets", (Camera with { TurnDegrees = 0 }).Jpeg(new DrawnSheet(A4, 1), new DrawnSheet(A4, 2)));
        Assert.Contains("copy 4", Stopped("photo-copies-mixed", Camera.Jpeg(new DrawnSheet(A4, 1) { BackCopy = 4 })).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Blur_darkness_and_light_from_the_front_are_told()
    {
        Stopped("photo-blurred", (Camera with { BlurPx = 3.5 }).Jpeg(new DrawnSheet(A4, 1)));
        Stopped("photo-dark", (Camera with { Exposure = 0.008, Noise = 0.0005 }).Jpeg(new DrawnSheet(A4, 1)));
        Stopped("photo-not-backlit", (Camera with { FrontLight = 6, Exposure = 0.1 }).Jpeg(new DrawnSheet(A4, 1)));
    }

    [Fact]
    public void A_smeared_mark_is_left_out_by_its_number()
    {
        var read = Read(Camera.Jpeg(new DrawnSheet(A4, 1) { Smeared = { [6] = (0.12, 0.05), [17] = (-0.2, 0.1) } }));
        var finding = Assert.Single(read.Findings, finding => finding.Code == "photo-marks-left-out");
        Assert.Contains("6 (0.13 mm", finding.Message, StringComparison.Ordinal);
        Assert.Contains("17 (0.2", finding.Message, StringComparison.Ordinal);
        Assert.Equal(22, read.Value!.Fit!.MarksUsed);
        Assert.True(read.Value.Fit.At(new(0, 0)).LengthMm < 0.02);
    }

    [Fact]
    public void Files_that_are_no_photo_are_told()
    {
        Stopped("photo-size", (Camera with { WidthPx = 800, HeightPx = 600 }).Jpeg(new DrawnSheet(A4, 1)));
        Stopped("photo-unreadable", [1, 2, 3]);
        Stopped("photo-unreadable", Camera.Jpeg(new DrawnSheet(A4, 1))[..20_000]);
    }

    private static Checked<SheetPhoto?> Read(byte[] bytes) => PhotoReading.Read("photo.jpg", bytes, TrialPhoto.Plans, CancellationToken.None);

    private static Finding Stopped(string code, byte[] bytes)
    {
        var read = Read(bytes);
        Assert.Null(read.Value?.Fit);
        var stop = Assert.Single(read.Findings, finding => finding.Severity == Severity.Stop);
        Assert.Equal(code, stop.Code);
        Assert.NotEmpty(stop.Hint);
        return stop;
    }

    private static byte[] Cat()
    {
        using var bitmap = new SKBitmap(new SKImageInfo(2000, 1500));
        using var canvas = new SKCanvas(bitmap);
        canvas.Clear(new(200, 190, 160));
        using var fur = new SKPaint { Color = new(60, 50, 45), IsAntialias = true };
        using var eye = new SKPaint { Color = new(240, 230, 120), IsAntialias = true };
        canvas.DrawOval(1000, 1000, 500, 380, fur);
        canvas.DrawCircle(1000, 520, 300, fur);
        foreach (var side in new[] { -1, 1 })
        {
            using var ear = new SKPathBuilder();
            ear.MoveTo(1000 + (side * 290), 480);
            ear.LineTo(1000 + (side * 280), 120);
            ear.LineTo(1000 + (side * 60), 260);
            using var path = ear.Detach();
            canvas.DrawPath(path, fur);
            canvas.DrawCircle(1000 + (side * 110), 480, 60, eye);
            canvas.DrawCircle(1000 + (side * 110), 480, 22, fur);
        }

        canvas.Flush();
        using var data = bitmap.Encode(SKEncodedImageFormat.Jpeg, 85);
        return data.ToArray();
    }
}
