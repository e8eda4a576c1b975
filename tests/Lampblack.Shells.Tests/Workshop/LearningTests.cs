using System;
using System.Globalization;
using System.Threading.Tasks;
using Lampblack.Calibration;
using Lampblack.Geometry;
using Lampblack.Quantities;
using Lampblack.Tests.Photos;
using Microsoft.Playwright;
using Xunit;

namespace Lampblack.Shells.Tests.Workshop;

/// <summary>A printer learned in the browser, from a photo drawn by the tests' own camera.</summary>
[Collection(nameof(InTheBrowser))]
public sealed class LearningTests
{
    [Fact]
    public async Task A_dropped_photo_shows_where_side_2_lands_and_is_learned_from()
    {
        Affine<SheetSpace, SheetSpace> truth = new(1.001, 0.0008, 0.62, -0.0006, 0.9995, -0.41);
        DrawnSheet sheet = new(CalibrationPlan.Of(PaperSize.Find("A4")!)!, 1) { Back = truth };
        byte[] photo = new DrawnCamera { Seed = 7, TiltDegrees = 8, TiltTowardsDegrees = 40, TurnDegrees = 3, BlurPx = 1, Noise = 0.006, Fill = 0.85 }.Jpeg(sheet);
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        await shop.Page.ClickAsync("nav a[href='printer']");
        await shop.Page.FillAsync("#new-name", "attic");
        await shop.Page.SelectOptionAsync("#new-paper", "A4");
        await shop.Page.ClickAsync("#new-start");
        await shop.Page.ClickAsync("#make-sheet");
        await shop.Page.WaitForSelectorAsync(".files a:has-text('front.pdf')");

        // A file that is no photo is named, and does no harm.
        await shop.Page.SetInputFilesAsync("#photo-files", [new FilePayload { Name = "cat.jpg", MimeType = "image/jpeg", Buffer = [0xFF, 0xD8, 0xFF, 1, 2, 3] }]);
        await shop.Page.WaitForSelectorAsync("#shown[data-can-teach='false'] .notice");
        await shop.Page.ClickAsync("#put-away");
        await shop.Page.SetInputFilesAsync("#photo-files", [new FilePayload { Name = "window.jpg", MimeType = "image/jpeg", Buffer = photo }]);
        await shop.Page.WaitForSelectorAsync("#shown[data-can-teach='true']", new() { Timeout = 120_000 });

        // At the sheet's lower left corner side 2 lies off by the map's own shift.
        Assert.Equal(truth.XMm, double.Parse((await shop.Page.Locator("#landing").GetAttributeAsync("data-tx"))!, CultureInfo.InvariantCulture), 0.06);
        Assert.Equal(truth.YMm, double.Parse((await shop.Page.Locator("#landing").GetAttributeAsync("data-ty"))!, CultureInfo.InvariantCulture), 0.06);
        Assert.Contains("24 marks found", await shop.Page.Locator("#shown").TextContentAsync(), StringComparison.Ordinal);
        await shop.Page.WaitForFunctionAsync("() => [...document.querySelectorAll('.arrows img')].length > 0 && [...document.querySelectorAll('.arrows img')].every(picture => picture.naturalWidth > 100)");
        await shop.Page.ClickAsync("#accept");
        await shop.Page.WaitForSelectorAsync(".history li:has-text('register, from photos')");
        await shop.Page.WaitForSelectorAsync(".learned");

        // The command line knows it too, and the next sheets go by it.
        Assert.Contains("side 2 lands", ProgramRun.Of(folder.Full, "printer", "show", "attic").Output, StringComparison.Ordinal);
        await shop.Page.ClickAsync("nav a[href='print']");
        await shop.Page.SelectOptionAsync("#printer", "attic");
        await shop.Page.ClickAsync("#make");
        await shop.Page.WaitForSelectorAsync("#fetch-all", new() { Timeout = 120_000 });
        Assert.Contains("of sheets come out whole", await shop.Page.Locator(".said-of-it").TextContentAsync(), StringComparison.Ordinal);

        // What is seen on the sheet is an answer, too.
        await shop.Page.ClickAsync("#tick-A");
        await shop.Page.WaitForSelectorAsync(".notice:has-text('Learned')");
        await shop.Page.ClickAsync("nav a[href='printer']");
        await shop.Page.WaitForSelectorAsync(".history li:has-text('the tick was in box A')");
        shop.AssertNoTrouble();
    }
}
