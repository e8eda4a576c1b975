using System;
using System.Collections.Generic;
using System.IO;
using System.Linq;
using System.Text.RegularExpressions;
using System.Threading.Tasks;
using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Lampblack.Shells.Tests.Workshop;
using Microsoft.Playwright;
using UglyToad.PdfPig;
using Xunit;

namespace Lampblack.Shells.Tests;

/// <summary>The build book as a browser shows and prints it, from the file as the program wrote it.</summary>
[Collection(nameof(InTheBrowser))]
public sealed class BookPageTests
{
    private static readonly string Pictures = Directory.CreateDirectory(Path.Combine(AppContext.BaseDirectory, "out", "book")).FullName;

    [Fact]
    public async Task A_book_is_accessible_fits_a_phone_keeps_its_ticks_and_prints_whole()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Workshop.Desks.Plain);
        ProgramRun run = ProgramRun.Of(folder.Full, "build", "desk", "--paper", "A4", "--only", "book", "--legend", "main/pump");
        Assert.True(run.Exit == 0, run.Output + run.Error);
        IBrowser browser = await RealBrowser.Started();
        await using IBrowserContext context = await browser.NewContextAsync(new() { ViewportSize = new() { Width = 1100, Height = 800 }, Offline = true });
        IPage page = await context.NewPageAsync();
        List<string> trouble = [];
        page.Console += (_, said) => trouble.Add(said.Text);
        page.PageError += (_, fault) => trouble.Add(fault);
        page.Request += (_, request) => trouble.AddRange(request.Url.StartsWith("file:", StringComparison.Ordinal) || request.Url.StartsWith("data:", StringComparison.Ordinal) ? [] : [request.Url]);
        foreach (string name in new[] { "book", "legend" })
        {
            await page.SetViewportSizeAsync(1100, 800);
            await page.GotoAsync(new Uri(folder.Below($"desk/out/{name}.html")).AbsoluteUri);
            AxeResult result = await page.RunAxe(new AxeRunOptions { RunOnly = new RunOnlyOptions { Type = "tag", Values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "best-practice"] } });
            string[] found = [.. result.Violations.Select(one => $"{name}: {one.Id}: {one.Help}: {string.Join(" | ", one.Nodes.Take(3).Select(node => node.Html))}")];
            Assert.True(found.Length == 0, string.Join('\n', found));
            await page.ScreenshotAsync(new() { Path = Path.Combine(Pictures, $"{name}.png"), FullPage = true });
            foreach (int width in new[] { 360, 390, 820 })
            {
                await page.SetViewportSizeAsync(width, 740);
                Assert.True(await page.EvaluateAsync<bool>("() => document.documentElement.scrollWidth <= innerWidth"), $"{name} at {width}");
                await page.ScreenshotAsync(new() { Path = Path.Combine(Pictures, $"{name}-{width}.png"), FullPage = true });
            }

            foreach (string paper in new[] { "A4", "Letter" })
            {
                string file = Path.Combine(Pictures, $"{name}-{paper}.pdf");
                await page.PdfAsync(new() { Path = file, Format = paper, PreferCSSPageSize = false, PrintBackground = true });
                await Printed(page, file, name == "legend" ? 2 : null);
            }
        }

        Assert.Empty(trouble);
        await Ticked(page, folder);
    }

    /// <summary>Every word of the page stands on a printed page, within its margins; so does every picture.</summary>
    private static async Task Printed(IPage page, string file, int? pages)
    {
        using PdfDocument pdf = PdfDocument.Open(file);
        Assert.Equal(pages ?? pdf.NumberOfPages, pdf.NumberOfPages);
        string printed = string.Concat(pdf.GetPages().Select(one => Letters(one.Text)));
        foreach (UglyToad.PdfPig.Content.Page one in pdf.GetPages())
        {
            Assert.All(one.Letters.Where(letter => !string.IsNullOrWhiteSpace(letter.Value)), letter => Assert.InRange(letter.BoundingBox.Right, 20, one.Width - 20));

            // No gate is torn: what to do if it fails stands on the page of what must be seen.
            string words = Letters(one.Text);
            Assert.True(Regex.Count(words, "Goonif") == Regex.Count(words, "Ifnot:"), $"a gate is torn at the end of page {one.Number} of {file}");
            Assert.All(one.GetImages(), image => Assert.True(image.BoundingBox.Left >= 20 && image.BoundingBox.Right <= one.Width - 20 && image.BoundingBox.Bottom >= 20 && image.BoundingBox.Top <= one.Height - 20));
        }

        string[] parts = await page.EvaluateAsync<string[]>("() => [...document.querySelectorAll('h1, h2, h3, li, p, td, th, dd, figcaption')].filter(one => !one.querySelector('p, li, td, h3')).map(one => one.innerText)");
        Assert.True(parts.Length > 20);

        // A cell that is cut in two by a page's end has the running head in its midst: its first and last words are looked for.
        foreach (string part in parts.Select(Letters).Where(part => part.Length > 0))
        {
            string first = part[..Math.Min(16, part.Length)];
            Assert.True(printed.Contains(first, StringComparison.Ordinal), $"not printed: {part}");
            Assert.True(printed.Contains(part[^Math.Min(10, part.Length)..], StringComparison.Ordinal), $"cut off: {part}");
        }
    }

    /// <summary>Ticks are there again when the page is opened once more.</summary>
    private static async Task Ticked(IPage page, WorkFolder folder)
    {
        string address = new Uri(folder.Below("desk/out/book.html")).AbsoluteUri;
        await page.GotoAsync(address);
        await page.Locator("#step-buy h3 input").CheckAsync();
        await page.Locator("tr[data-kind='hole'] input").First.CheckAsync();
        await page.GotoAsync(address);
        Assert.True(await page.Locator("#step-buy h3 input").IsCheckedAsync());
        Assert.True(await page.Locator("tr[data-kind='hole'] input").First.IsCheckedAsync());
        Assert.Equal(2, await page.EvaluateAsync<int>("() => document.querySelectorAll('input:checked').length"));
    }

    private static string Letters(string text) => Regex.Replace(text.Normalize(System.Text.NormalizationForm.FormKC), @"[\s\u00ad]+", string.Empty);
}
