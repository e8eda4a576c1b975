using System;
using System.IO;
using System.Threading.Tasks;
using Lampblack.Shells.Tests.Workshop;
using Microsoft.Playwright;
using Xunit;

namespace Lampblack.Shells.Tests;

/// <summary>The build book of an example, built for A4 and opened in the browser without a network.</summary>
internal sealed class ExampleBook : IAsyncDisposable
{
    private readonly WorkFolder _folder;
    private readonly IBrowserContext _context;

    private ExampleBook(WorkFolder folder, IBrowserContext context, IPage page) => (_folder, _context, Page) = (folder, context, page);

    /// <summary>The page that shows it.</summary>
    public IPage Page { get; }

    /// <summary>Builds and opens it.</summary>
    /// <param name="name">The example's folder.</param>
    public static async Task<ExampleBook> Opened(string name)
    {
        WorkFolder folder = new();
        ProgramRun run = ProgramRun.Of(folder.Full, "build", Path.Combine(LauncherTests.Root(), "examples", name), "-o", folder.Below("out"), "--paper", "A4", "--only", "book");
        Assert.True(run.Exit == 0, run.Output + run.Error);
        IBrowser browser = await RealBrowser.Started();
        IBrowserContext context = await browser.NewContextAsync(new() { ViewportSize = new() { Width = 1100, Height = 800 }, Offline = true });
        IPage page = await context.NewPageAsync();
        await page.GotoAsync(new Uri(folder.Below("out/book.html")).AbsoluteUri);
        return new(folder, context, page);
    }

    /// <inheritdoc />
    public async ValueTask DisposeAsync()
    {
        await _context.DisposeAsync();
        _folder.Dispose();
    }
}
