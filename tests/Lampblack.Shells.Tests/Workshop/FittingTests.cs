using System;
using System.IO;
using System.Linq;
using System.Threading.Tasks;
using Microsoft.Playwright;
using Xunit;

namespace Lampblack.Shells.Tests.Workshop;

/// <summary>The station Fit, and the plate itself: what is cut and drilled, in the browser.</summary>
[Collection(nameof(InTheBrowser))]
public sealed class FittingTests
{
    private const string Crowded = """
        lampblack = 1
        title = "Bench"
        [[panel]]
        id = "main"
        size = [120, 70]
        [[panel.control]]
        id = "near"
        part = "toggle-mini-on-on"
        at = [40, 35]
        [[panel.control]]
        id = "nearer"
        part = "toggle-mini-on-on"
        at = [52, 35]
        """;

    [Fact]
    public async Task Holes_follow_the_drills_that_are_written_down_and_templates_are_made()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        IPage page = shop.Page;
        await page.ClickAsync("nav a[href='fit']");
        await page.WaitForSelectorAsync(".fit-panel .holes tbody tr");
        Assert.Equal(2, await page.Locator(".holes tbody tr").CountAsync());
        Assert.Contains("6.5 mm", await page.Locator(".holes tbody tr").First.TextContentAsync() + await page.Locator(".holes tbody tr").Last.TextContentAsync(), StringComparison.Ordinal);

        await page.FillAsync("#fit-bench-drills", "inch, letters");
        await page.PressAsync("#fit-bench-drills", "Enter");
        await page.WaitForSelectorAsync(".holes td:has-text('letter F')");
        Assert.Contains("drills = [\"inch\", \"letters\"]", File.ReadAllText(folder.Below("desk/desk.toml")), StringComparison.Ordinal);

        // What is none is told, and taking it back restores the file.
        await page.FillAsync("#fit-bench-drills", "metrik");
        await page.PressAsync("#fit-bench-drills", "Enter");
        await page.WaitForSelectorAsync(".findings:has-text('metrik'), .refused:has-text('metrik')");
        await page.ClickAsync("#undo");
        await page.WaitForFunctionAsync("() => !document.querySelector('.findings')?.textContent.includes('metrik')");

        await page.SelectOptionAsync("#fit-order", "B");
        await page.WaitForFunctionAsync("() => document.querySelector('.fit-panel')?.textContent.includes('Glue the print on')");

        await page.ClickAsync("#make-bench");
        await page.WaitForSelectorAsync("#bench-files a:has-text('templates.pdf')", new() { Timeout = 120_000 });
        string[] made = [.. (await page.Locator("#bench-files a").AllTextContentsAsync()).Order(StringComparer.Ordinal)];
        Assert.Contains("cutter/main.dxf", made);
        Assert.DoesNotContain(made, name => name.EndsWith("front.pdf", StringComparison.Ordinal));
        Assert.All(made, name => Assert.True(File.Exists(folder.Below("desk/out/" + name)), name));
        shop.AssertNoTrouble();
    }

    [Fact]
    public async Task Controls_too_close_are_ringed_and_their_row_leads_to_them()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Crowded);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        IPage page = shop.Page;
        await page.ClickAsync("nav a[href='fit']");
        await page.WaitForSelectorAsync(".holes .leads");
        Assert.True((await page.Locator(".fit-drawing .found").First.GetAttributeAsync("d"))!.Length > 50);
        string item = (await page.Locator(".holes .leads").First.GetAttributeAsync("data-item"))!;
        await page.Locator(".holes .leads").First.ClickAsync();
        await page.WaitForSelectorAsync($".item.held[data-id='{item}']");
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
        await keys.TabTo("Fit");
        await keys.Press("Enter");
        await page.WaitForSelectorAsync(".fit-panel .holes");
        await keys.TabUntil("document.activeElement?.id === 'fit-bench-drills'");
        await page.Keyboard.TypeAsync("inch");
        await keys.Press("Enter");
        await page.WaitForSelectorAsync(".holes td:has-text('17/64 in')");
        await keys.TabUntil("document.activeElement?.id === 'make-bench'");
        await keys.Press("Enter");
        await page.WaitForSelectorAsync("#bench-files a:has-text('hole-chart.pdf')", new() { Timeout = 120_000 });
        await keys.TabUntil("document.activeElement?.tagName === 'SUMMARY' && document.activeElement.textContent.includes('Each drill')");
        await keys.Press("Enter");
        await page.WaitForSelectorAsync("details[open] li:has-text('turns a minute')");
        shop.AssertNoTrouble();
    }

    [Fact]
    public async Task Plates_and_the_way_of_cutting_are_written_by_keyboard_and_the_plan_follows()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        IPage page = shop.Page;
        Keys keys = new(page);
        string Text() => File.ReadAllText(folder.Below("desk/desk.toml"));
        Task Plan(string words) => page.WaitForFunctionAsync("words => document.querySelector('#cut-plan figcaption')?.textContent.includes(words)", words);
        Task At(string id) => page.WaitForFunctionAsync("id => document.activeElement?.id === id", id);
        await keys.TabTo("Fit");
        await keys.Press("Enter");
        await Plan("300 x 400 mm");
        string assumed = (await page.Locator("#cut-plan figcaption").First.TextContentAsync())!;

        // A plate is listed; the keyboard waits in its size, which is typed over.
        await keys.TabUntil("document.activeElement?.id === 'another-plate'");
        await keys.Press("Enter");
        await At("stock-1-size");
        await keys.Type("250 x 200");
        await keys.Press("Enter");
        await Plan("250 x 200 mm");
        await keys.TabUntil("document.activeElement?.id === 'stock-1-count'");
        await keys.Type("2");
        await keys.TabUntil("document.activeElement?.id === 'stock-1-price'");
        await keys.Type("4.5");
        await keys.Press("Enter");
        await page.WaitForFunctionAsync("() => document.querySelector('#stock-1-price').value === '4.5'");

        // The way, what it eats, and spares.
        await page.Locator("#cutting-way").FocusAsync();
        await keys.Press("ArrowDown");
        await page.WaitForFunctionAsync("() => document.querySelector('#cutting-way').value === 'snap'");
        await keys.Press("ArrowDown");
        await page.WaitForFunctionAsync("() => document.querySelector('#cutting-way').value === 'saw'");
        await keys.Press("Tab");
        await At("cutting-kerf");
        await keys.Type("2.5");
        await keys.Press("Tab");
        await keys.Type("1");
        await keys.Press("Enter");
        await page.WaitForFunctionAsync("() => [...document.querySelectorAll('#cut-plan .cuts li')].some(step => step.textContent.startsWith('1. Saw')) && document.querySelectorAll('#cut-plan .cuts li').length > 2");
        Assert.Contains("[[stock]]\nsize = [250, 200]\ncount = 2\nprice = 4.5\n", Text(), StringComparison.Ordinal);
        Assert.Contains("[cutting]\nway = \"saw\"\nkerf = 2.5\nspares = 1\n", Text(), StringComparison.Ordinal);
        Assert.Contains("at = [30, 25]   # beside the door", Text(), StringComparison.Ordinal);

        // What is none is refused in place, and the file keeps its bytes.
        string before = Text();
        await keys.TabUntil("document.activeElement?.id === 'stock-1-thickness'");
        await keys.Type("thick");
        await keys.Press("Enter");
        await page.WaitForSelectorAsync("#cut-plan .refused:has-text('thick')");
        Assert.Equal(before, Text());

        // Taken off, and the keyboard is at the button that lists another.
        await keys.TabUntil("document.activeElement?.textContent === 'take plate-1 off'");
        await keys.Press("Enter");
        await At("another-plate");
        await Plan("300 x 400 mm");
        Assert.DoesNotContain("stock", Text(), StringComparison.Ordinal);
        for (int step = 0; step < 9; step++)
        {
            await page.ClickAsync("#undo");
        }

        await page.WaitForFunctionAsync("() => document.querySelector('#undo').disabled");
        Assert.Equal(Desks.Plain, Text());
        await page.WaitForFunctionAsync("words => document.querySelector('#cut-plan figcaption')?.textContent === words", assumed);
        shop.AssertNoTrouble();
    }

    [Fact]
    public async Task The_plate_itself_gets_another_size_corners_screws_and_a_second_plate()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        IPage page = shop.Page;
        await page.ClickAsync("#plate");
        await page.FillAsync("#plate-size", "150, 80");
        await page.PressAsync("#plate-size", "Enter");
        await page.WaitForSelectorAsync(".stage[data-width='150'][data-height='80']");
        await page.FillAsync("#plate-corner", "6");
        await page.PressAsync("#plate-corner", "Enter");
        await page.WaitForSelectorAsync(".stage[data-corner='6']");
        await page.SelectOptionAsync("#plate-fixings-part", "screw-m3");
        await page.WaitForSelectorAsync(".item[data-id='main/fixing-4']");
        await page.FillAsync("#plate-title", "PUMP ROOM");
        await page.PressAsync("#plate-title", "Enter");
        await page.WaitForSelectorAsync(".panels button:has-text('PUMP ROOM')");
        string desk = File.ReadAllText(folder.Below("desk/desk.toml"));
        Assert.Contains("size = [150, 80]", desk, StringComparison.Ordinal);
        Assert.Contains("at = [30, 25]   # beside the door", desk, StringComparison.Ordinal);

        await page.ClickAsync("#another-panel");
        await page.WaitForSelectorAsync(".panels button[aria-pressed='true']:has-text('PANEL 2')");
        await page.ClickAsync("#remove-panel");
        await page.WaitForFunctionAsync("() => document.querySelectorAll('.panels button[aria-pressed]').length === 1");

        // Without screws again; all of it can be taken back.
        await page.SelectOptionAsync("#plate-fixings-part", "");
        await page.WaitForFunctionAsync("() => !document.querySelector(\".item[data-id='main/fixing-1']\")");
        // However long the words on it are, the button stays under the pointer.
        const string Place = "() => { const { left, top, width } = document.querySelector('#undo').getBoundingClientRect(); return [left, top, width].join(' '); }";
        string place = await page.EvaluateAsync<string>(Place);
        for (int step = 0; step < 7; step++)
        {
            await page.ClickAsync("#undo");
            Assert.Equal(place, await page.EvaluateAsync<string>(Place));
        }

        await page.WaitForFunctionAsync("() => document.querySelector('#undo').disabled");
        Assert.Equal(Desks.Plain, File.ReadAllText(folder.Below("desk/desk.toml")));
        shop.AssertNoTrouble();
    }
}
