using System;
using System.Threading.Tasks;
using Microsoft.Playwright;
using Xunit;

namespace Lampblack.Shells.Tests.Workshop;

/// <summary>The station Light: the plan, its drawing, what it is edited with, in the browser.</summary>
[Collection(nameof(InTheBrowser))]
public sealed class LightingTests : StationTests
{
    [Fact]
    public async Task The_light_is_planned_beside_the_page_and_follows_the_desk()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        IPage page = shop.Page;
        await page.ClickAsync("nav a[href='light']");

        // While it is planned, other stations answer.
        await page.WaitForSelectorAsync("#planning");
        await page.ClickAsync("nav a[href='fit']");
        await page.WaitForSelectorAsync(".fit-panel .holes tbody tr", new() { Timeout = 15_000 });
        await page.ClickAsync("nav a[href='light']");
        await Planned(page);
        Assert.Contains("cd/m2 in the mean", await page.Locator(".plan-words").First.TextContentAsync(), StringComparison.Ordinal);
        Assert.True((await page.Locator(".light .fit-drawing .tint-3").First.GetAttributeAsync("d"))!.Length > 50);
        Assert.Equal(1, await page.Locator(".lit-rows td:has-text('brightest')").CountAsync());
        Assert.Contains("no mains inside", await page.Locator(".plan .small").Last.TextContentAsync(), StringComparison.Ordinal);

        // Another emitter and a deeper box; both are in the file, and the plan is another one.
        await page.SelectOptionAsync("#lighting-emitter", "strip-60");
        await Planned(page);
        await page.WaitForFunctionAsync("() => document.querySelector('.plan-words').textContent.includes('pieces of strip')");

        // Of two changes one after the other only the last is planned: what was begun for the first is dropped.
        await page.SelectOptionAsync("#lighting-emitter", "strip-120");
        await page.SelectOptionAsync("#lighting-emitter", "emitter-2835");
        await Written(folder, "emitter = \"emitter-2835\"");
        await page.WaitForFunctionAsync("() => document.querySelector('#planned') && !document.querySelector('.plan-words').textContent.includes('pieces of strip')");
        await page.FillAsync("#lighting-depth", "45");
        await page.PressAsync("#lighting-depth", "Enter");
        await Written(folder, "depth = 45");
        await Planned(page);
        Assert.Contains("colour = \"cool-white\"   # for the cellar", Text(folder), StringComparison.Ordinal);

        // What is none is told in place.
        await page.FillAsync("#lighting-evenness", "even");
        await page.PressAsync("#lighting-evenness", "Enter");
        await page.WaitForSelectorAsync(".light .refused");
        await Undo(page, 4);
        Assert.Equal(Desks.Plain, Text(folder));
        shop.AssertNoTrouble();
    }

    [Fact]
    public async Task A_plan_is_kept_in_the_desk_and_planned_anew_and_undone_to_the_byte()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        IPage page = shop.Page;
        await page.ClickAsync("nav a[href='light']");
        await Planned(page);
        await page.ClickAsync("#keep-main");
        await page.WaitForSelectorAsync("#keep-main:has-text('Plan anew'):not([disabled])");
        Assert.Contains("[[panel.emitter]]", Text(folder), StringComparison.Ordinal);
        Assert.Contains("judged, not planned", await page.Locator(".plan-words").First.TextContentAsync(), StringComparison.Ordinal);
        await page.ClickAsync("#keep-main");
        await page.WaitForSelectorAsync("#keep-main:has-text('Keep this plan'):not([disabled])");
        Assert.Equal(Desks.Plain, Text(folder));
        await Undo(page, 2);
        Assert.Equal(Desks.Plain, Text(folder));
        shop.AssertNoTrouble();
    }

    [Fact]
    public async Task The_station_is_worked_by_keyboard_alone()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        IPage page = shop.Page;
        Keys keys = new(page);
        await keys.TabTo("Light");
        await keys.Press("Enter");

        // Stopped, it gives the best so far.
        await page.WaitForSelectorAsync("#stop-planning");
        await keys.TabUntil("document.activeElement?.id === 'stop-planning' || document.querySelector('#planned')");
        await keys.Press("Enter");
        await Planned(page);

        await page.Locator("#lighting-emitter").FocusAsync();
        await keys.Press("ArrowDown");
        await page.WaitForFunctionAsync("() => document.querySelector('#lighting-emitter').value !== ''");
        await keys.TabUntil("document.activeElement?.id === 'lighting-depth'");
        await keys.Type("38");
        await keys.Press("Enter");
        await Written(folder, "depth = 38");
        await Planned(page);

        // A legend of its own light, from its row.
        await keys.TabUntil("document.activeElement?.dataset?.light === 'main/cold'");
        await keys.Press("ArrowDown");
        await page.WaitForFunctionAsync("() => document.querySelector(\"[aria-label^='Cells of'] tr[data-item='main/cold']\") && document.querySelector('#planned')");
        Assert.Contains("light = \"own\"", Text(folder), StringComparison.Ordinal);
        await keys.TabUntil("document.activeElement?.id === 'keep-main' && !document.activeElement.disabled");
        await keys.Press("Enter");
        await page.WaitForSelectorAsync("#keep-main:has-text('Plan anew'):not([disabled])");
        await keys.TabUntil("document.activeElement?.tagName === 'SUMMARY' && document.activeElement.textContent.includes('stand')");
        await keys.Press("Enter");
        await page.WaitForSelectorAsync("details[open] .emitters tbody tr");
        await Undo(page, 4);
        Assert.Equal(Desks.Plain, Text(folder));
        shop.AssertNoTrouble();
    }

    [Fact]
    public async Task A_row_leads_to_its_item_and_findings_of_the_light_stand_in_the_margin()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        IPage page = shop.Page;
        await page.ClickAsync("nav a[href='light']");
        await Planned(page);
        await page.ClickAsync(".notes summary");
        await page.WaitForSelectorAsync(".finding:has-text('does not say how deep the box is')");
        await page.ClickAsync(".lit-rows .leads[data-item='main/cold']");
        await page.WaitForSelectorAsync(".item.held[data-id='main/cold']");
        shop.AssertNoTrouble();
    }

    /// <summary>Waits until the light of the desk as it is now is planned.</summary>
    private static Task Planned(IPage page) => Through(page, "#planned");
}
