using System;
using System.IO;
using System.Threading.Tasks;
using Microsoft.Playwright;
using Xunit;

namespace Lampblack.Shells.Tests.Workshop;

/// <summary>The station Roll-call, with a simulated panel: the desk's own firmware runs in it.</summary>
[Collection(nameof(InTheBrowser))]
public sealed class RollCallTests : StationTests
{
    private static string Wired => Desks.Plain.Replace("[lighting]", "[controller]\nchip = \"ATmega328P\"\n\n[lighting]", StringComparison.Ordinal);

    [Fact]
    public async Task A_simulated_panel_is_called_by_keyboard_alone_and_leaves_no_record()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Wired);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        IPage page = shop.Page;
        Keys keys = new(page);
        await keys.TabTo("Roll-call");
        await keys.Press("Enter");
        await keys.TabUntil("document.activeElement?.id === 'roll-only'");
        await keys.Type("main/pump");
        await keys.TabUntil("document.activeElement?.id === 'try-roll'");
        await keys.Press("Enter");
        await Asked(page, "first position");
        await Hand("close contact.0");
        await Asked(page, "Put PUMP to OFF");
        Assert.Equal("30 45", await page.EvaluateAsync<string>("() => { const ring = document.querySelector('.where .ring'); return ring.getAttribute('cx') + ' ' + ring.getAttribute('cy'); }"));
        await Hand("open contact.0");
        await Asked(page, "Put PUMP to ON");
        await Hand("close contact.0");
        await page.WaitForSelectorAsync("#roll-record:has-text('1 of 1 answer')");

        // What a simulated panel answered is no proof of the real one.
        Assert.False(File.Exists(folder.Below("desk/rollcall.json")));
        await keys.TabUntil("document.activeElement?.id === 'try-roll'");
        await keys.Press("Enter");
        await Asked(page, "first position");
        await keys.TabUntil("document.activeElement?.id === 'stop-roll'");
        await keys.Press("Enter");
        await page.WaitForSelectorAsync("#call-roll");
        shop.AssertNoTrouble();

        async Task Hand(string command)
        {
            await keys.TabUntil("document.activeElement?.id === 'roll-hand'");
            await keys.Type(command);
            await keys.Press("Enter");
        }
    }

    [Fact]
    public async Task Without_a_panel_it_is_said_what_is_missing()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        IPage page = shop.Page;
        await page.ClickAsync("nav a[href='roll-call']");
        await page.ClickAsync("#try-roll");
        await page.WaitForSelectorAsync(".roll .refused:has-text('[controller]')");
        await page.FillAsync("#roll-port", "127.0.0.1:9");
        await page.ClickAsync("#call-roll");
        await page.WaitForSelectorAsync(".roll .refused:has-text('[controller]')");
        shop.AssertNoTrouble();
    }

    private static Task Asked(IPage page, string words) => Through(page, $"#question:has-text('{words}')");
}
