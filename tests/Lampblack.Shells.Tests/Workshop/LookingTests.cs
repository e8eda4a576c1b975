using System;
using System.Collections.Generic;
using System.IO;
using System.Linq;
using System.Threading.Tasks;
using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using SkiaSharp;
using Xunit;

namespace Lampblack.Shells.Tests.Workshop;

/// <summary>What the workshop shows: the panel by day and by night as a build draws it, coloured lamps, front and mask in the hand, and all of it for everyone.</summary>
[Collection(nameof(InTheBrowser))]
public sealed class LookingTests
{
    /// <summary>Screenshots of every station at noon and midnight go here, to be looked at; the folder is not kept.</summary>
    private static readonly string Pictures = Directory.CreateDirectory(Path.Combine(AppContext.BaseDirectory, "out", "workshop")).FullName;

    [Fact]
    public async Task Noon_and_midnight_are_the_pictures_of_a_build()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        Assert.Equal(0, ProgramRun.Of(folder.Full, "build", "desk", "-o", "built").Exit);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        using SKBitmap noon = await Face(shop, 0);
        using SKBitmap midnight = await Face(shop, 100);
        using SKBitmap day = SKBitmap.Decode(folder.Below("built/panels/main/day.png"));
        using SKBitmap lit = SKBitmap.Decode(folder.Below("built/panels/main/lit.png"));
        AssertSame(day, noon);
        AssertSame(lit, midnight);
        Assert.True(Mean(midnight) < 0.5 * Mean(noon), "midnight is darker");

        // In between the room dims steadily, and the page with it.
        List<double> pages = [];
        foreach (int hour in new[] { 0, 25, 50, 75, 100 })
        {
            await shop.Room(hour);
            string paper = await shop.Page.EvaluateAsync<string>("() => getComputedStyle(document.body).backgroundColor");
            pages.Add(paper.Split('(', ' ', ',', ')').Where(part => int.TryParse(part, out int _)).Sum(part => int.Parse(part, System.Globalization.CultureInfo.InvariantCulture)));
        }

        Assert.Equal(pages.OrderDescending(), pages);
        Assert.True(pages[0] > 4 * pages[^1]);
        shop.AssertNoTrouble();
    }

    [Fact]
    public async Task Red_lamps_kill_a_blue_legend_and_merge_a_red_range_with_white_and_a_finding_says_so()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        await shop.Room(100);
        using SKBitmap white = await Face(shop, 100);
        int drawn = await shop.Page.EvaluateAsync<int>("() => Number(document.querySelector('canvas.face').dataset.drawn)");
        await shop.Page.SelectOptionAsync("#lamps", "red");
        await shop.Page.WaitForFunctionAsync("before => Number(document.querySelector('canvas.face').dataset.drawn) > before", drawn);
        await shop.Page.WaitForSelectorAsync(".finding[data-item='main/cold']:has-text('nearly out')");
        Assert.Contains("colour = \"red\"   # for the cellar", File.ReadAllText(folder.Below("desk/desk.toml")), StringComparison.Ordinal);
        await shop.Page.ClickAsync(".notes summary");
        await shop.Page.WaitForSelectorAsync(".finding[data-item='main/heat']:has-text('looks like white')");
        await shop.Page.WaitForSelectorAsync(".stage:not(.drawing)");
        using SKBitmap red = await Face(shop, 100);

        // COLD stands around 30, 55 and is blue; PUMP is white.
        SKRectI cold = new(8 * 15, 8 * (70 - 60), 8 * 45, 8 * (70 - 50));
        SKRectI pump = new(8 * 20, 8 * (70 - 40), 8 * 42, 8 * (70 - 29));
        Assert.True(Shining(white, cold) > 0.2 * Shining(white, pump), $"{Shining(white, cold)} of {Shining(white, pump)}");
        Assert.True(Shining(red, cold) < 0.25 * Shining(red, pump), $"{Shining(red, cold)} of {Shining(red, pump)}");

        // Everything that shines is red now, the range as well as the numerals beside it.
        SKColor range = BrightestDot(red, new SKRectI(8 * 80, 8 * (70 - 34), 8 * 96, 8 * (70 - 16)));
        Assert.True(range.Red > 200 && range.Green < 60 && range.Blue < 60, range.ToString());
        shop.AssertNoTrouble();
    }

    [Fact]
    public async Task Front_and_mask_are_laid_over_each_other_and_what_is_clipped_lights_up()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        await shop.Page.ClickAsync("#held-to-lamp");
        await shop.Page.WaitForSelectorAsync("canvas.face[data-clipped]");
        Assert.Contains("nothing leaks", await shop.Page.Locator("#lamp-said").TextContentAsync(), StringComparison.Ordinal);

        // Within the spread of half a millimetre nothing is clipped, beyond it legends are; the wrong way the mask goes does not matter.
        Assert.InRange(await Clipped(shop, "lamp-right", 0.4), 0, 30);
        Assert.InRange(await Clipped(shop, "lamp-right", 1.2), 100, 1_000_000);
        Assert.InRange(await Clipped(shop, "lamp-right", -1.2), 100, 1_000_000);
        Assert.InRange(await Clipped(shop, "lamp-right", 0), 0, 10);

        // A shift that alone does no harm does so with a turn.
        Assert.InRange(await Clipped(shop, "lamp-right", 0.4), 0, 30);
        Assert.InRange(await Clipped(shop, "lamp-turn", 0.7), 20, 1_000_000);
        Assert.Contains("Clipped", await shop.Page.Locator("#lamp-said").TextContentAsync(), StringComparison.Ordinal);

        // By hand: dragged to the right, the sheet follows.
        await Clipped(shop, "lamp-turn", 0);
        await Clipped(shop, "lamp-right", 0);
        LocatorBoundingBoxResult box = (await shop.Page.Locator(".panel").BoundingBoxAsync())!;
        await shop.Page.Mouse.MoveAsync(box.X + 100, box.Y + 100);
        await shop.Page.Mouse.DownAsync();
        await shop.Page.Mouse.MoveAsync(box.X + 120, box.Y + 100, new() { Steps = 4 });
        await shop.Page.Mouse.UpAsync();
        Assert.True(double.Parse(await shop.Page.InputValueAsync("#lamp-right"), System.Globalization.CultureInfo.InvariantCulture) > 0.5);
        shop.AssertNoTrouble();
    }

    [Theory]
    [InlineData("", "artwork")]
    [InlineData("print", "print")]
    [InlineData("printer", "printer")]
    [InlineData("fit", "fit")]
    [InlineData("light", "light")]
    [InlineData("wire", "wire")]
    [InlineData("roll-call", "roll-call")]
    [InlineData("book", "book")]
    public async Task Every_station_is_accessible_by_day_and_by_night(string address, string name)
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain.Replace("at = [30, 55]", "at = [30, 28]", StringComparison.Ordinal));
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        if (address.Length > 0)
        {
            await shop.Page.ClickAsync($"nav a[href='{address}']");
            await shop.Page.WaitForSelectorAsync($"main[data-station='{address}'] .station");
        }
        else
        {
            await shop.Page.ClickAsync("button.front:has-text('Toggles')");
            await shop.Page.Locator(".item[data-id='main/heat']").ClickAsync();
            await shop.Page.WaitForSelectorAsync(".tags .tag");
        }

        if (address == "print")
        {
            await shop.Page.ClickAsync("#make");
            await shop.Page.WaitForSelectorAsync("#fetch-all", new() { Timeout = 120_000 });
        }

        if (address == "printer")
        {
            await shop.Page.FillAsync("#new-name", "attic");
            await shop.Page.ClickAsync("#new-start");
            await shop.Page.WaitForSelectorAsync("#make-sheet");
        }

        if (address == "light")
        {
            await shop.Page.WaitForSelectorAsync("#planned", new() { Timeout = 120_000 });
        }

        if (address == "wire")
        {
            await shop.Page.SelectOptionAsync("#controller-chip", "ATmega328P");
            await shop.Page.WaitForSelectorAsync(".wired-panel .looms", new() { Timeout = 120_000 });
        }

        if (address == "book")
        {
            await shop.Page.WaitForSelectorAsync("#written-book", new() { Timeout = 120_000 });
            await shop.Page.ClickAsync("#chapter-print");
            await shop.Page.WaitForSelectorAsync("#leaf .gate");
        }

        foreach ((int hour, string when) in new[] { (0, "noon"), (55, "evening"), (100, "midnight") })
        {
            await shop.Room(hour);
            await shop.Page.ScreenshotAsync(new() { Path = Path.Combine(Pictures, $"{name}-{when}.png") });
            AxeResult result = await shop.Page.RunAxe(new AxeRunOptions { RunOnly = new RunOnlyOptions { Type = "tag", Values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "best-practice"] } });
            string[] serious = [.. result.Violations.Where(one => one.Impact is "serious" or "critical").Select(one => $"{when}: {one.Id}: {one.Help}: {string.Join(" | ", one.Nodes.Take(4).Select(node => $"{node.Html} {string.Join(' ', node.Any.Select(check => check.Message))}"))}")];
            Assert.True(serious.Length == 0, string.Join('\n', serious));
        }

        // At 200 % of a small laptop, and on a tablet, nothing has to be scrolled sideways.
        foreach ((int width, int height) in new[] { (640, 360), (820, 1180), (1180, 820) })
        {
            await shop.Page.SetViewportSizeAsync(width, height);
            await shop.Page.ScreenshotAsync(new() { Path = Path.Combine(Pictures, $"{name}-{width}x{height}.png") });
            Assert.True(await shop.Page.EvaluateAsync<bool>("() => document.documentElement.scrollWidth <= innerWidth + 1"), $"{width} x {height}");
        }

        shop.AssertNoTrouble();
    }

    private static async Task<int> Clipped(OpenedWorkshop shop, string input, double value)
    {
        int drawn = await shop.Page.EvaluateAsync<int>("() => Number(document.querySelector('canvas.face').dataset.drawn)");
        await shop.Page.Locator($"#{input}").EvaluateAsync("(input, value) => { input.value = value; input.dispatchEvent(new Event('input')); }", value);
        await shop.Page.WaitForFunctionAsync("before => Number(document.querySelector('canvas.face').dataset.drawn) > before", drawn);
        return await shop.Page.EvaluateAsync<int>("() => Number(document.querySelector('canvas.face').dataset.clipped)");
    }

    /// <summary>The panel's canvas, dot by dot as the page has it.</summary>
    private static async Task<SKBitmap> Face(OpenedWorkshop shop, int hour)
    {
        await shop.Room(hour);
        string png = await shop.Page.EvaluateAsync<string>("() => document.querySelector('canvas.face').toDataURL('image/png')");
        return SKBitmap.Decode(Convert.FromBase64String(png["data:image/png;base64,".Length..]));
    }

    /// <summary>A build's picture has a border of 6 mm, 48 dots; outside of the rounded corners there is scenery.</summary>
    private static void AssertSame(SKBitmap built, SKBitmap shown)
    {
        const int Border = 48;
        const double EdgeStep = 1 / 16.0; // of the light between black and white at an edge, where the drawing library tells sixteen steps
        const int Corner = 25;
        Assert.Equal((built.Width - (2 * Border), built.Height - (2 * Border)), (shown.Width, shown.Height));
        for (int y = 0; y < shown.Height; y++)
        {
            for (int x = 0; x < shown.Width; x++)
            {
                if (Math.Min(x, shown.Width - x) > Corner || Math.Min(y, shown.Height - y) > Corner)
                {
                    (SKColor wanted, SKColor found) = (built.GetPixel(x + Border, y + Border), shown.GetPixel(x, y));
                    Assert.True(Math.Abs(Linear(wanted.Red) - Linear(found.Red)) <= EdgeStep && Math.Abs(Linear(wanted.Green) - Linear(found.Green)) <= EdgeStep && Math.Abs(Linear(wanted.Blue) - Linear(found.Blue)) <= EdgeStep, $"at {x}, {y}: {wanted} built, {found} shown");
                }
            }
        }
    }

    private static double Mean(SKBitmap picture) => picture.Pixels.Average(Light);

    /// <summary>The middle one of the dots that shine: the edges of letters, where little of the ink lies, don't count.</summary>
    private static double Shining(SKBitmap picture, SKRectI box)
    {
        double[] lights = [.. Enumerable.Range(box.Top, box.Height).SelectMany(y => Enumerable.Range(box.Left, box.Width).Select(x => Light(picture.GetPixel(x, y)))).Order()];
        double[] shining = [.. lights.Where(light => light > 0.3 * lights[^1])];
        return shining[shining.Length / 2];
    }

    private static SKColor BrightestDot(SKBitmap picture, SKRectI box) =>
        Enumerable.Range(box.Top, box.Height).SelectMany(y => Enumerable.Range(box.Left, box.Width).Select(x => picture.GetPixel(x, y))).MaxBy(Light);

    /// <summary>Luminance, 0 to 1 (IEC 61966-2-1).</summary>
    private static double Light(SKColor colour) => (0.2126 * Linear(colour.Red)) + (0.7152 * Linear(colour.Green)) + (0.0722 * Linear(colour.Blue));

    private static double Linear(byte code) => code / 255.0 is var stored && stored <= 0.04045 ? stored / 12.92 : Math.Pow((stored + 0.055) / 1.055, 2.4);
}
