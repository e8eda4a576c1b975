using System;
using System.IO;
using System.Threading.Tasks;
using Microsoft.Playwright;
using Xunit;

namespace Lampblack.Shells.Tests.Workshop;

/// <summary>The workshop on a tablet, under a finger, held either way.</summary>
[Collection(nameof(InTheBrowser))]
public sealed class TouchTests : StationTests
{
    /// <summary>Screenshots go here, to be looked at; the folder is not kept.</summary>
    private static readonly string Pictures = Directory.CreateDirectory(Path.Combine(AppContext.BaseDirectory, "out", "touch")).FullName;

    [Theory]
    [InlineData(1024, 768)]
    [InlineData(768, 1024)]
    public async Task An_item_is_dragged_put_written_and_the_room_pulled_by_finger(int width, int height)
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk", withPage: false);
        (IPage page, Finger finger) = await Tablet(shop, width, height);
        await page.ScreenshotAsync(new() { Path = Path.Combine(Pictures, $"whole-{width}.png") });

        // Everything that one works with is on the screen.
        foreach (string part in new[] { ".panel", ".shelf", "#room", ".margin", "#undo" })
        {
            LocatorBoundingBoxResult box = (await page.Locator(part).BoundingBoxAsync())!;
            Assert.True(box.X >= 0 && box.Y >= 0 && box.X + box.Width <= width + 0.5 && box.Y + box.Height <= height + 0.5, $"{part} at {box.X}, {box.Y}, {box.Width} x {box.Height}");
        }

        // Dragged: the file follows.
        (float x, float y) = await shop.Middle("main/pump", page);
        await finger.Drag(x, y, x + 60, y - 40, before: async () => Assert.Equal(1, await page.Locator(".ghost").CountAsync()));
        await page.WaitForSelectorAsync(".stage[data-settled]");
        Assert.DoesNotContain("at = [30, 25]", Text(folder), StringComparison.Ordinal);
        double[] carried = await page.EvaluateAsync<double[]>("() => document.querySelector('.panel').dataset.carried.split(' ').map(Number)");
        Assert.True(carried[0] > 3 && carried[1] > 2, string.Join(' ', carried));
        await Written(folder, FormattableString.Invariant($"at = [{30 + carried[0]:0.####}, {25 + carried[1]:0.####}]"));

        // Words are written where they stand, after two taps.
        (x, y) = await shop.Middle("main/cold", page);
        await finger.Tap(x, y);
        await Task.Delay(90, TestContext.Current.CancellationToken);
        await finger.Tap(x, y);
        await page.WaitForSelectorAsync(".in-place");
        await page.FillAsync(".in-place", "CHILL");
        LocatorBoundingBoxResult head = (await page.Locator(".head").BoundingBoxAsync())!;
        await finger.Tap(head.X + 4, head.Y + 4);
        await Written(folder, "text = \"CHILL\"");

        // Pulled out of a drawer onto the panel.
        int before = await page.Locator(".item").CountAsync();
        await Tap(finger, page, "button.front:has-text('Toggles')");
        await page.WaitForSelectorAsync(".thing[data-what^='part:']");
        LocatorBoundingBoxResult thing = (await page.Locator(".thing[data-what^='part:']").First.BoundingBoxAsync())!;
        LocatorBoundingBoxResult panel = (await page.Locator(".panel").BoundingBoxAsync())!;
        await finger.Drag(thing.X + (thing.Width / 2), thing.Y + 14, panel.X + (panel.Width * 0.5), panel.Y + (panel.Height * 0.15), before: async () => Assert.Equal(1, await page.Locator(".carried").CountAsync()));
        await page.WaitForFunctionAsync("count => document.querySelectorAll('.item').length > count", before);
        Assert.Equal(0, await page.Locator(".carried").CountAsync());
        Assert.Contains("legend = \"NAME\"", Text(folder), StringComparison.Ordinal);
        await page.ScreenshotAsync(new() { Path = Path.Combine(Pictures, $"put-{width}.png") });

        // The drawer itself is pushed along by the things in it, and nothing falls out.
        string text = Text(folder);
        bool isLong = await page.EvaluateAsync<bool>("() => document.querySelector('.drawer').scrollWidth > document.querySelector('.drawer').clientWidth + 20");
        thing = (await page.Locator(".thing[data-what^='part:']").First.BoundingBoxAsync())!;
        LocatorBoundingBoxResult drawer = (await page.Locator(".drawer").BoundingBoxAsync())!;
        await finger.Drag(drawer.X + (drawer.Width * 0.3), thing.Y + 31, drawer.X + (drawer.Width * 0.8), thing.Y + 30);
        await finger.Drag(drawer.X + (drawer.Width * 0.7), thing.Y + 30, drawer.X + (drawer.Width * 0.3), thing.Y + 31);
        Assert.Equal(isLong, await page.EvaluateAsync<bool>("() => document.querySelector('.drawer').scrollLeft > 5"));
        Assert.Equal(text, Text(folder));
        Assert.Equal(0, await page.Locator(".carried").CountAsync());

        // The room's band: by its lamp to the night, and back by touching noon.
        LocatorBoundingBoxResult room = (await page.Locator("#room").BoundingBoxAsync())!;
        await finger.Drag(room.X + 36, room.Y + (room.Height / 2), room.X + (room.Width * 0.9), room.Y + (room.Height / 2));
        Assert.True(int.Parse(await page.InputValueAsync("#room"), System.Globalization.CultureInfo.InvariantCulture) > 80, await page.InputValueAsync("#room"));
        await page.ScreenshotAsync(new() { Path = Path.Combine(Pictures, $"night-{width}.png") });
        await finger.Tap(room.X + 30, room.Y + (room.Height / 2));
        Assert.True(int.Parse(await page.InputValueAsync("#room"), System.Globalization.CultureInfo.InvariantCulture) < 10, await page.InputValueAsync("#room"));
        shop.AssertNoTrouble();
    }

    [Theory]
    [InlineData(1024, 768)]
    [InlineData(768, 1024)]
    public async Task Nothing_scrolls_away_under_a_finger_that_drags_an_item_and_everything_else_scrolls(int width, int height)
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk", withPage: false);
        (IPage page, Finger finger) = await Tablet(shop, width, height);
        await Tap(finger, page, "[data-scale='4']");
        await page.WaitForFunctionAsync("() => document.querySelector('.stage').scrollHeight > document.querySelector('.stage').clientHeight + 200");
        await page.EvaluateAsync("() => document.querySelector(\".item[data-id='main/heat']\").scrollIntoView({ block: 'center', inline: 'center' })");

        // On an item: it goes, the stage stays, whichever way the finger sets out.
        foreach ((int right, int down) in new[] { (70, 4), (-3, -70), (50, 50) })
        {
            string scrolled = await Scrolled(page);
            string text = Text(folder);
            await page.EvaluateAsync("() => delete document.querySelector('.stage').dataset.settled");
            (float x, float y) = await shop.Middle("main/heat", page);
            await finger.Drag(x, y, x + right, y + down, before: async () =>
            {
                Assert.Equal(1, await page.Locator(".ghost").CountAsync());
                Assert.Equal(scrolled, await Scrolled(page));
            });
            await page.WaitForSelectorAsync(".stage[data-settled]");
            Assert.Equal(scrolled, await Scrolled(page));
            Assert.NotEqual(text, Text(folder));
        }

        // On the bare face: the stage goes, and what is held stays held and where it is. The tags are looked through, as the last of them comes when it comes.
        await page.EvaluateAsync("() => document.querySelector('.tags').style.visibility = 'hidden'");
        string before = Text(folder);
        Assert.Equal(1, await page.Locator(".item.held").CountAsync());
        const string Bare = """
            () => {
                const stage = document.querySelector('.stage').getBoundingClientRect();
                for (let y = stage.top + stage.height * 0.75; y > stage.top + 150; y -= 7) {
                    for (let x = stage.left + 40; x < stage.right - 40; x += 7) {
                        if (document.elementFromPoint(x, y)?.matches('svg.over')) {
                            return [x, y];
                        }
                    }
                }
            }
            """;
        double[] bare = await page.EvaluateAsync<double[]>(Bare);
        double start = await page.EvaluateAsync<double>("() => document.querySelector('.stage').scrollTop");
        await finger.Drag(bare[0], bare[1], bare[0], bare[1] - 120);
        Assert.InRange(await page.EvaluateAsync<double>("() => document.querySelector('.stage').scrollTop") - start, 60, 130);
        Assert.Equal(1, await page.Locator(".item.held").CountAsync());
        Assert.Equal(before, Text(folder));

        // A tap there lets go, once nothing rolls any more.
        await page.WaitForTimeoutAsync(500);
        bare = await page.EvaluateAsync<double[]>(Bare);
        await finger.Tap(bare[0], bare[1]);
        await page.WaitForFunctionAsync("() => !document.querySelector('.item.held')");

        // The findings scroll: by themselves where they stand beside the panel, with all above the room where they stand below it.
        await page.EvaluateAsync("() => document.querySelector('.margin details').open = true");
        await page.EvaluateAsync("() => document.querySelector('.margin h2').scrollIntoView({ block: 'center' })");
        LocatorBoundingBoxResult margin = (await page.Locator(".margin h2").BoundingBoxAsync())!;
        const string Pushed = "() => document.querySelector('.margin').scrollTop + document.querySelector('.bench').scrollTop";
        double pushed = await page.EvaluateAsync<double>(Pushed);
        await finger.Drag(margin.X + 60, margin.Y + 100, margin.X + 60, margin.Y);
        Assert.InRange(await page.EvaluateAsync<double>(Pushed) - pushed, 40, 110);
        shop.AssertNoTrouble();
    }

    private static async Task<(IPage Page, Finger Finger)> Tablet(OpenedWorkshop shop, int width, int height)
    {
        IPage page = await shop.NewPage(width, height, hasTouch: true);
        await shop.Drawn(page);
        return (page, await Finger.On(page));
    }

    private static Task<string> Scrolled(IPage page) => page.EvaluateAsync<string>("() => [document.querySelector('.stage').scrollLeft, document.querySelector('.stage').scrollTop, scrollX, scrollY].map(Math.round).join()");

    private static async Task Tap(Finger finger, IPage page, string selector)
    {
        LocatorBoundingBoxResult box = (await page.Locator(selector).First.BoundingBoxAsync())!;
        await finger.Tap(box.X + (box.Width / 2), box.Y + (box.Height / 2));
    }
}
