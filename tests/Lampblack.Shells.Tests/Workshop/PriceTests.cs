using System;
using System.IO;
using System.Threading.Tasks;
using Microsoft.Playwright;
using Xunit;

namespace Lampblack.Shells.Tests.Workshop;

/// <summary>What a change costs at the bench is said near the hand before it is made, calmly; a box that asks stays for what costs a plate.</summary>
[Collection(nameof(InTheBrowser))]
public sealed class PriceTests : StationTests
{
    [Fact]
    public async Task As_long_as_nothing_is_drilled_or_wired_everything_costs_a_new_print_and_nothing_asks()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        IPage page = shop.Page;
        await page.ClickAsync(".item[data-id='main/pump']");
        await Costs(page, "#costs", "moved, copied or taken off: a new print");
        await Carried(shop, "main/pump", "a new print");
        Assert.Equal(Desks.Plain, Text(folder));

        // While it is written, and before it is: the words and another part.
        await page.ClickAsync(".tag button[data-key='legend']");
        await page.Locator("#tag-legend").PressSequentiallyAsync("WELL");
        await Costs(page, ".writing .costs", "costs a new print");
        await page.PressAsync("#tag-legend", "Escape");
        await page.ClickAsync(".tag button[data-key='part']");
        await Costs(page, ".writing .costs", "costs a new print");
        await page.PressAsync("#tag-part", "Escape");
        Assert.Equal(Desks.Plain, Text(folder));

        // From the shelf.
        await Pulled(page, "a new print");
        Assert.Equal(0, await page.Locator(".price").CountAsync());
        shop.AssertNoTrouble();
    }

    [Fact]
    public async Task With_a_drilled_plate_and_wires_laid_holes_and_wires_are_said_too()
    {
        using WorkFolder folder = new();
        string desk = $"{Desks.Plain.Replace("at = [80, 28]", "at = [80, 28]\n  drilled = [0.2, -0.1]", StringComparison.Ordinal)}\n[controller]\nchip = \"ATmega2560\"\n";
        folder.Put("desk/desk.toml", desk);
        Assert.Equal(0, ProgramRun.Of(folder.Full, "build", "desk").Exit);
        Assert.True(File.Exists(folder.Below("desk/out/wiring/plan.json")));
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        IPage page = shop.Page;
        await page.ClickAsync(".item[data-id='main/pump']");
        await Costs(page, "#costs", "moved: a new print and a new hole · copied: a new print and a new hole; other wires for PUMP · taken off: a new print; other wires for PUMP");
        await Carried(shop, "main/pump", "a new print and a new hole");
        await page.ClickAsync(".item[data-id='main/cold']");
        await Costs(page, "#costs", "moved, copied or taken off: a new print");
        await page.ClickAsync(".item[data-id='main/heat']");
        await Costs(page, "#costs", "moved: a new plate · copied: a new print and a new hole; other wires for HEAT · taken off: a new plate; other wires for HEAT");
        await Carried(shop, "main/heat", "a new plate");
        await page.ClickAsync(".tag button[data-key='part']");
        await page.WaitForFunctionAsync("() => document.querySelector('.writing .costs')?.textContent.includes('other wires for HEAT')");
        await page.PressAsync("#tag-part", "Escape");
        await Pulled(page, "a new print and a new hole; other wires for NAME");

        // Asked is only about the plate, and nothing is written before the answer.
        Assert.Equal(0, await page.Locator(".price").CountAsync());
        string before = Text(folder);
        await page.Locator(".item[data-id='main/heat']").FocusAsync();
        await page.Keyboard.PressAsync("Delete");
        await page.WaitForSelectorAsync(".price:has-text('new plate')");
        Assert.Equal(before, Text(folder));
        shop.AssertNoTrouble();
    }

    private static Task Costs(IPage page, string where, string told) =>
        page.WaitForFunctionAsync("([where, told]) => document.querySelector(where)?.textContent === told", new[] { where, told });

    /// <summary>Carries an item until the price hangs on it, and puts it back where it was.</summary>
    private static async Task Carried(OpenedWorkshop shop, string item, string told)
    {
        IPage page = shop.Page;
        (float x, float y) = await shop.Middle(item);
        await page.Mouse.MoveAsync(x, y);
        await page.Mouse.DownAsync();
        await page.Keyboard.DownAsync("Alt");
        await page.Mouse.MoveAsync(x + 30, y + 12, new() { Steps = 4 });
        await Costs(page, ".guides .costs", told);
        await page.Mouse.MoveAsync(x, y, new() { Steps = 4 });
        await page.Mouse.UpAsync();
        await page.Keyboard.UpAsync("Alt");
        Assert.Equal(0, await page.Locator(".guides .costs").CountAsync());
    }

    /// <summary>Pulls a switch out of its drawer until its price hangs on it, and lets it fall beside the panel.</summary>
    private static async Task Pulled(IPage page, string told)
    {
        await page.ClickAsync("button.front:has-text('Toggles')");
        LocatorBoundingBoxResult thing = (await page.Locator(".thing[data-what^='part:']").First.BoundingBoxAsync())!;
        await page.Mouse.MoveAsync(thing.X + (thing.Width / 2), thing.Y + 12);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(thing.X + (thing.Width / 2), thing.Y - 60, new() { Steps = 4 });
        await Costs(page, ".carried-price", told);
        await page.Mouse.MoveAsync(4, 4);
        await page.Mouse.UpAsync();
        await page.WaitForFunctionAsync("() => !document.querySelector('.carried, .carried-price')");
    }
}
