using System;
using System.Threading.Tasks;
using Microsoft.Playwright;
using Xunit;

namespace Lampblack.Shells.Tests.Workshop;

/// <summary>The station Wire: pins, the back with its wires, lists and tests, in the browser.</summary>
[Collection(nameof(InTheBrowser))]
public sealed class WiringTests : StationTests
{
    [Fact]
    public async Task A_controller_is_chosen_and_pins_and_wires_are_planned_by_keyboard_alone()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        IPage page = shop.Page;
        Keys keys = new(page);
        await keys.TabTo("Wire");
        await keys.Press("Enter");
        await page.WaitForSelectorAsync("#wired:has-text('Choose a controller')");
        await keys.TabUntil("document.activeElement?.id === 'controller-chip'");
        await keys.Press("ArrowDown");
        await Through(page, ".wired-panel .looms");
        Assert.Contains("chip = \"ATmega", Text(folder), StringComparison.Ordinal);

        // The toggle's two contacts share a terminal and one pin is enough; the knob's wiper has an analog one.
        Assert.Contains("1 knob", await page.Locator(".plan-words").First.TextContentAsync(), StringComparison.Ordinal);
        Assert.Contains("A0", await page.Locator(".word-rows tr:has(.leads[data-item='main/heat']) td").First.TextContentAsync(), StringComparison.Ordinal);
        Assert.Equal("SEEN FROM BEHIND", await page.Locator(".wired-panel .behind").First.TextContentAsync());
        Assert.True((await page.Locator(".wired-panel .looms").First.GetAttributeAsync("d"))!.Length > 20);

        // A pin that is kept free moves what was on it; what is none is refused in place.
        await keys.TabUntil("document.activeElement?.id === 'controller-reserved'");
        await keys.Type("A0");
        await keys.Press("Enter");
        await Until(page, "() => document.querySelector('#wired') && document.querySelector(\".word-rows tr:has(.leads[data-item='main/heat']) td\")?.textContent.includes('A1')");
        await keys.TabUntil("document.activeElement?.id === 'wiring-slack'");
        await keys.Type("much");
        await keys.Press("Enter");
        await page.WaitForSelectorAsync(".wire .refused:has-text('much')");

        // The wires, from the list; and a row leads to its item.
        await keys.TabUntil("document.activeElement?.tagName === 'SUMMARY' && document.activeElement.textContent.includes('cut and solder')");
        await keys.Press("Enter");
        await page.WaitForSelectorAsync("details[open] .word-rows tbody tr");
        await Undo(page, 2);
        Assert.Equal(Desks.Plain, Text(folder));
        shop.AssertNoTrouble();
    }
}
