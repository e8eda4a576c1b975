using System;
using System.IO;
using System.Threading.Tasks;
using Microsoft.Playwright;
using Xunit;

namespace Lampblack.Shells.Tests.Workshop;

/// <summary>The station Book: what changes the book, its chapters, its files, in the browser.</summary>
[Collection(nameof(InTheBrowser))]
public sealed class BookStationTests : StationTests
{
    [Fact]
    public async Task The_book_is_changed_read_and_saved_by_keyboard_alone()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        IPage page = shop.Page;
        Keys keys = new(page);
        await keys.TabTo("Book");
        await keys.Press("Enter");
        await Through(page, "#written-book:has-text('Written')");
        Assert.Contains("steps, about", await page.Locator(".plan-words").First.TextContentAsync(), StringComparison.Ordinal);

        // Another order of work, another hand: the desk file says so, and the book is another one.
        await keys.TabUntil("document.activeElement?.id === 'order'");
        await keys.Press("ArrowDown");
        await Written(folder, "order = \"B\"");
        await keys.TabUntil("document.activeElement?.id === 'book-hand'");
        await keys.Press("ArrowDown");
        await Written(folder, "hand = \"left\"");
        await Until(page, "() => document.querySelector('#written-book') && document.querySelector('#leaf')?.textContent.includes('the left hand')");
        Assert.Contains("B (drill, glue", await page.Locator("#leaf").TextContentAsync(), StringComparison.Ordinal);

        // On, chapter by chapter, to the last.
        string last = string.Empty;
        for (int step = 0; step < 30 && await page.Locator("#chapter-after").CountAsync() > 0; step++)
        {
            await keys.TabUntil("document.activeElement?.id === 'chapter-after'");
            string before = await page.Locator("#leaf h2").First.TextContentAsync() ?? string.Empty;
            await keys.Press("Enter");
            await page.WaitForFunctionAsync("before => document.querySelector('#leaf h2').textContent !== before", before);
            last = await page.Locator("#leaf h2").First.TextContentAsync() ?? string.Empty;
        }

        Assert.Contains("Keep it", last, StringComparison.Ordinal);

        // Two pages for one legend, and the book itself, saved.
        await keys.TabUntil("document.activeElement?.id === 'legend-pages'");
        await keys.Press("ArrowDown");
        await Through(page, "#save-legend-html");
        foreach (string file in new[] { "book.html", "legend.html" })
        {
            await keys.TabUntil($"document.activeElement?.id === 'save-{file.Replace('.', '-')}'");
            IDownload saved = await page.RunAndWaitForDownloadAsync(() => keys.Press("Enter"));
            Assert.Equal(file, saved.SuggestedFilename);
            Assert.Contains("</html>", await File.ReadAllTextAsync((await saved.PathAsync())!, TestContext.Current.CancellationToken), StringComparison.Ordinal);
        }

        await Undo(page, 2);
        Assert.Equal(Desks.Plain, Text(folder));
        shop.AssertNoTrouble();
    }

    [Fact]
    public async Task A_desk_that_something_stops_has_no_book_and_says_so()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain.Replace("part = \"pot-9mm\"", "part = \"pot-9\"", StringComparison.Ordinal));
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        await shop.Page.ClickAsync("nav a[href='book']");
        await Through(shop.Page, "#written-book:has-text('No book is written')");
        shop.AssertNoTrouble();
    }
}
