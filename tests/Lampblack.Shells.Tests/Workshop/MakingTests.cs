using System;
using System.Collections.Generic;
using System.IO;
using System.IO.Compression;
using System.Linq;
using System.Threading.Tasks;
using Microsoft.Playwright;
using UglyToad.PdfPig;
using Xunit;

namespace Lampblack.Shells.Tests.Workshop;

/// <summary>A panel from nothing to print files, by pointer and by keyboard; and what becomes of edits.</summary>
[Collection(nameof(InTheBrowser))]
public sealed class MakingTests
{
    [Fact]
    public async Task A_panel_is_made_from_nothing_to_print_files_by_pointer()
    {
        using WorkFolder folder = new();
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "my desk");
        IPage page = shop.Page;
        int before = await page.Locator(".item").CountAsync();

        // A toggle is pulled from its drawer onto the panel.
        await page.ClickAsync("button.front:has-text('Toggles')");
        LocatorBoundingBoxResult thing = (await page.Locator(".thing[data-what^='part:']").First.BoundingBoxAsync())!;
        LocatorBoundingBoxResult panel = (await page.Locator(".panel").BoundingBoxAsync())!;
        await page.Mouse.MoveAsync(thing.X + (thing.Width / 2), thing.Y + 12);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(panel.X + (panel.Width * 0.3f), panel.Y + (panel.Height * 0.5f), new() { Steps = 8 });
        await page.Mouse.UpAsync();
        await page.WaitForFunctionAsync("count => document.querySelectorAll('.item').length > count", before);
        string made = (await page.Locator(".item.held").First.GetAttributeAsync("data-id"))!;

        // Its word is written in place, its ink chosen on a tag.
        (float x, float y) = await shop.Middle(made);
        await page.Mouse.DblClickAsync(x, y);
        await page.FillAsync(".in-place", "PUMP");
        await page.PressAsync(".in-place", "Enter");
        await page.WaitForSelectorAsync(".item[data-words='PUMP']");
        await page.Locator(".item[data-words='PUMP']").ClickAsync();
        await page.ClickAsync(".tag button[data-key='ink']");
        await page.SelectOptionAsync("#tag-ink", "amber");
        await page.WaitForFunctionAsync("() => document.querySelector('.tag button[data-key=\"ink\"]')?.textContent.includes('amber')");
        string desk = File.ReadAllText(folder.Below("my desk/desk.toml"));
        Assert.Contains("legend = \"PUMP\"", desk, StringComparison.Ordinal);
        Assert.Contains("ink = \"amber\"", desk, StringComparison.Ordinal);

        // It is dragged, and the file follows.
        (x, y) = await shop.Middle(made);
        await page.Mouse.MoveAsync(x, y);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(x + 40, y + 20, new() { Steps = 6 });
        await page.Mouse.UpAsync();
        await page.WaitForSelectorAsync(".stage[data-settled]");
        Assert.NotEqual(desk, File.ReadAllText(folder.Below("my desk/desk.toml")));

        await AssertPrints(shop, () => page.ClickAsync("nav a:has-text('Print') >> nth=0"), () => page.ClickAsync("#make"), () => page.ClickAsync("#fetch-all"));
        shop.AssertNoTrouble();
    }

    [Fact]
    public async Task A_panel_is_made_from_nothing_to_print_files_by_keyboard_alone()
    {
        using WorkFolder folder = new();
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        IPage page = shop.Page;
        Keys keys = new(page);

        // Words and lines: the drawer opens, the words go where there is room.
        await keys.TabTo("Words and lines");
        await keys.Press("Enter");
        await keys.TabTo("words");
        await keys.Press("Enter");
        await page.WaitForSelectorAsync(".item.held[data-kind='Legend'][data-words='WORDS']");
        string made = (await page.Locator(".item.held").GetAttributeAsync("data-id"))!;

        // Into the panel, to what was put there, its words written, moved by 3 mm, turned.
        await keys.TabUntil("document.activeElement?.classList.contains('item')");
        for (int press = 0; press < 60 && await page.EvaluateAsync<string>("() => document.activeElement.dataset.id") != made; press++)
        {
            await keys.Press(new[] { "ArrowRight", "ArrowUp", "ArrowLeft", "ArrowDown" }[press % 4]);
        }

        Assert.Equal(made, await page.EvaluateAsync<string>("() => document.activeElement.dataset.id"));
        await keys.Press("e");
        await page.WaitForSelectorAsync(".in-place");
        await keys.Type("FAN");
        await keys.Press("Enter");
        await page.WaitForSelectorAsync(".item[data-words='FAN']");
        string at = await Anchor(page, made);
        if (await page.Locator($".item.held[data-id='{made}']").CountAsync() == 0)
        {
            await keys.Press("Enter");
        }

        await page.WaitForSelectorAsync($".item.held[data-id='{made}']");
        foreach (string _ in new[] { "", "", "" })
        {
            await keys.Press("ArrowLeft");
        }

        await page.WaitForFunctionAsync("([id, at]) => document.querySelector(`.item[data-id='${id}']`)?.dataset.anchor !== at", new[] { made, at });
        Assert.Equal(double.Parse(at.Split(' ')[0], System.Globalization.CultureInfo.InvariantCulture) - 3, double.Parse((await Anchor(page, made)).Split(' ')[0], System.Globalization.CultureInfo.InvariantCulture), 3);
        await keys.Press(".");
        await page.WaitForFunctionAsync("() => document.querySelector('.said')?.textContent.includes('turned')");

        // Midnight and back by keyboard, then printed.
        await keys.Press("m");
        Assert.Equal("5", await page.InputValueAsync("#room"));
        await keys.Press("n");
        await AssertPrints(
            shop,
            async () =>
            {
                await keys.TabTo("Print");
                await keys.Press("Enter");
            },
            async () =>
            {
                await page.WaitForSelectorAsync("#make");
                await keys.TabTo("Make the sheets");
                await keys.Press("Enter");
            },
            async () =>
            {
                await keys.TabTo("Take all of it home");
                await keys.Press("Enter");
            });
        shop.AssertNoTrouble();
    }

    [Fact]
    public async Task Fifty_edits_are_taken_back_and_done_again_also_after_the_program_was_killed()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        List<string> states = [File.ReadAllText(folder.Below("desk/desk.toml"))];
        await using (OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk"))
        {
            await shop.Page.Locator(".item[data-id='main/pump']").FocusAsync();
            await shop.Page.Keyboard.PressAsync("Enter");
            await shop.Page.WaitForSelectorAsync(".item.held");
            for (int step = 0; step < 50; step++)
            {
                await shop.Page.Keyboard.PressAsync(step % 3 == 0 ? "ArrowUp" : "ArrowRight");
                states.Add(await Changed(folder, states[^1]));
            }

            Assert.Equal(51, states.Distinct().Count());
            for (int step = 49; step >= 0; step--)
            {
                await shop.Page.Keyboard.PressAsync("Control+z");
                Assert.Equal(states[step], await Changed(folder, states[step + 1]));
            }

            for (int step = 1; step <= 50; step++)
            {
                await shop.Page.Keyboard.PressAsync("Control+y");
                Assert.Equal(states[step], await Changed(folder, states[step - 1]));
            }

            shop.AssertNoTrouble();
            shop.Kill();
        }

        Assert.Equal(states[50], File.ReadAllText(folder.Below("desk/desk.toml")));
        await using OpenedWorkshop again = await OpenedWorkshop.Open(folder, "desk");
        for (int step = 49; step >= 40; step--)
        {
            await again.Page.ClickAsync("#undo");
            Assert.Equal(states[step], await Changed(folder, states[step + 1]));
        }
    }

    [Fact]
    public async Task Two_pages_on_one_desk_see_each_others_edits()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        IPage other = await shop.NewPage();
        await shop.Drawn(other);
        string at = await Anchor(other, "main/pump");
        await shop.Page.Locator(".item[data-id='main/pump']").FocusAsync();
        await shop.Page.Keyboard.PressAsync("Enter");
        await shop.Page.WaitForSelectorAsync(".item.held");
        await shop.Page.Keyboard.PressAsync("ArrowRight");
        await other.WaitForFunctionAsync("at => document.querySelector(\".item[data-id='main/pump']\").dataset.anchor !== at", at);
        Assert.Equal("31 25", await Anchor(other, "main/pump"));
        Assert.Equal(0, await other.Locator(".item.held").CountAsync());

        // And the other one takes it back.
        await other.ClickAsync("#undo");
        await shop.Page.WaitForFunctionAsync("at => document.querySelector(\".item[data-id='main/pump']\").dataset.anchor === at", at);
        Assert.Equal(Desks.Plain, File.ReadAllText(folder.Below("desk/desk.toml")));
        shop.AssertNoTrouble();
    }

    private static async Task<string> Changed(WorkFolder folder, string before)
    {
        for (int wait = 0; wait < 600; wait++)
        {
            try
            {
                string now = File.ReadAllText(folder.Below("desk/desk.toml"));
                if (now != before)
                {
                    return now;
                }
            }
            catch (IOException)
            {
            }

            await Task.Delay(50);
        }

        throw new TimeoutException("The desk file did not change.");
    }

    private static async Task<string> Anchor(IPage page, string item) => (await page.Locator($".item[data-id='{item}']").GetAttributeAsync("data-anchor"))!;

    private static async Task AssertPrints(OpenedWorkshop shop, Func<Task> goes, Func<Task> makes, Func<Task> fetches)
    {
        await goes();
        await makes();
        await shop.Page.WaitForSelectorAsync("#fetch-all", new() { Timeout = 120_000 });
        IDownload download = await shop.Page.RunAndWaitForDownloadAsync(fetches);
        using ZipArchive archive = ZipFile.OpenRead((await download.PathAsync())!);
        string[] pages = [.. archive.Entries.Select(entry => entry.FullName).Where(name => name.StartsWith("sheet-", StringComparison.Ordinal) && name.EndsWith(".pdf", StringComparison.Ordinal))];
        Assert.Contains(pages, name => name.EndsWith("/front.pdf", StringComparison.Ordinal));
        Assert.Contains(pages, name => name.EndsWith("/mask.pdf", StringComparison.Ordinal));
        foreach (string name in pages)
        {
            using MemoryStream bytes = new();
            using Stream entry = archive.GetEntry(name)!.Open();
            entry.CopyTo(bytes);
            using PdfDocument document = PdfDocument.Open(bytes.ToArray());
            Assert.True(document.NumberOfPages >= 1);
        }
    }
}
