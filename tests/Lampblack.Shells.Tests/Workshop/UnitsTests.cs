using System;
using System.Linq;
using System.Threading.Tasks;
using Microsoft.Playwright;
using Xunit;

namespace Lampblack.Shells.Tests.Workshop;

/// <summary>Lengths in the unit of the maker's rulers: shown and typed in it, written to the file in mm.</summary>
[Collection(nameof(InTheBrowser))]
public sealed class UnitsTests : StationTests
{
    [Fact]
    public async Task Tags_tell_and_take_inches_where_inches_are_chosen_and_the_file_stays_in_mm()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        IPage page = shop.Page;
        await page.ClickAsync(".item[data-id='main/pump']");
        await OnTag(page, "at", "30, 25 mm");
        await page.ClickAsync("#more");
        await OnTag(page, "gap", "2.2 mm");
        await AssertEveryLengthTells(page, " mm");
        await page.ClickAsync("[data-unit='in']");
        await OnTag(page, "at", "1.1811, 0.9843 in");
        await OnTag(page, "gap", "0.0866 in");
        await AssertEveryLengthTells(page, " in");
        Assert.Contains("1.181, 0.984 in", await page.Locator(".item[data-id='main/pump']").GetAttributeAsync("aria-label"), StringComparison.Ordinal);
        Assert.Contains("4.724 × 2.756 in", await page.Locator(".panels").TextContentAsync(), StringComparison.Ordinal);
        Assert.Equal(Desks.Plain, Text(folder));

        // A plain number means the unit that is shown; a fraction and a named unit are taken, too.
        await Type(page, "gap", "0.1");
        await Written(folder, "gap = 2.54\n");
        await Type(page, "gap", "1/8");
        await Written(folder, "gap = 3.175\n");
        await Type(page, "gap", "0.5 in");
        await Written(folder, "gap = 12.7\n");
        await Type(page, "gap", "4 mm");
        await Written(folder, "gap = 4\n");
        await OnTag(page, "gap", "0.1575 in");

        // What was not changed keeps its mm to the last digit, however many digits of an inch are told.
        await page.ClickAsync(".tag button[data-key='at']");
        Assert.Equal("1.1811, 0.9843 in", await page.InputValueAsync("#tag-at"));
        await page.PressAsync("#tag-at", "Escape");
        await Type(page, "at", "1.1811, 1");
        await Written(folder, "at = [30, 25.4]   # beside the door");
        Assert.DoesNotContain(" in\"", Text(folder), StringComparison.Ordinal);

        // What can't be is refused in words, and nothing is written.
        string before = Text(folder);
        await Type(page, "gap", "a bit");
        await page.WaitForSelectorAsync(".refused");
        await page.ClickAsync(".refused button");
        Assert.Equal(before, Text(folder));

        // The plate, and the stations beside this one, are told alike; another browser keeps its own unit.
        await page.ClickAsync("#plate");
        Assert.Equal("4.7244, 2.7559 in", await page.InputValueAsync("#plate-size"));
        await page.FillAsync("#plate-size", "5, 3");
        await page.PressAsync("#plate-size", "Enter");
        await Written(folder, "size = [127, 76.2]");
        IPage other = await shop.NewPage();
        await shop.Drawn(other);
        await other.ClickAsync("#plate");
        Assert.Equal("127, 76.2 mm", await other.InputValueAsync("#plate-size"));
        await page.ClickAsync("nav a:has-text('Fit')");
        Assert.Equal("25 in", await page.Locator("#fit-use-distance").GetAttributeAsync("placeholder"));
        await page.FillAsync("#fit-use-distance", "20");
        await page.PressAsync("#fit-use-distance", "Enter");
        await Written(folder, "distance = 508\n");
        await page.ReloadAsync();
        await page.WaitForFunctionAsync("() => document.querySelector('#fit-use-distance')?.value === '20 in'");
        await page.ClickAsync("nav a:has-text('Artwork')");
        await shop.Drawn();
        await page.ClickAsync("[data-unit='mm']");
        await page.ClickAsync("#plate");
        Assert.Equal("127, 76.2 mm", await page.InputValueAsync("#plate-size"));
        shop.AssertNoTrouble();
    }

    private static Task OnTag(IPage page, string key, string told) =>
        page.WaitForFunctionAsync("([key, told]) => document.querySelector(`.tag button[data-key='${key}']`)?.textContent.trim().endsWith(` ${told}`)", new[] { key, told });

    private static async Task Type(IPage page, string key, string typed)
    {
        await page.ClickAsync($".tag button[data-key='{key}']");
        await page.FillAsync($"#tag-{key}", typed);
        await page.PressAsync($"#tag-{key}", "Enter");
        await page.WaitForSelectorAsync($".tag button[data-key='{key}']");
    }

    private static async Task AssertEveryLengthTells(IPage page, string unit)
    {
        string[] told = await page.Locator(".tag button[data-kind='Length'], .tag button[data-kind='TwoLengths']").EvaluateAllAsync<string[]>("all => all.map(one => one.textContent.trim())");
        Assert.True(told.Length >= 3, string.Join("; ", told));
        Assert.All(told.Where(words => !words.EndsWith(" none", StringComparison.Ordinal)), words => Assert.EndsWith(unit, words, StringComparison.Ordinal));
    }
}
