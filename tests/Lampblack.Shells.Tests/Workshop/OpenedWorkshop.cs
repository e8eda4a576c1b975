using System;
using System.Collections.Concurrent;
using System.Collections.Generic;
using System.Diagnostics;
using System.Globalization;
using System.IO;
using System.Linq;
using System.Text.RegularExpressions;
using System.Threading.Tasks;
using Microsoft.Playwright;
using Xunit;

namespace Lampblack.Shells.Tests.Workshop;

/// <summary>The workshop as a process, with a page of it in a real browser. Whatever goes wrong in the page, or leaves this machine, is gathered as trouble.</summary>
internal sealed partial class OpenedWorkshop : IAsyncDisposable
{
    private readonly Process _process;
    private readonly List<IBrowserContext> _contexts = [];

    private OpenedWorkshop(Process process, string address)
    {
        _process = process;
        Address = address;
    }

    /// <summary>The address that was printed, with the word that lets one in.</summary>
    public string Address { get; }

    /// <summary>The address without it.</summary>
    public string Place => Address[..Address.IndexOf("/?", StringComparison.Ordinal)];

    /// <summary>The first page.</summary>
    public IPage Page { get; private set; } = null!;

    /// <summary>What should not have happened.</summary>
    public ConcurrentQueue<string> Trouble { get; } = [];

    /// <summary>Whether the program still runs.</summary>
    public bool IsRunning => !_process.HasExited;

    /// <summary>The program's process.</summary>
    public int ProcessId => _process.Id;

    /// <summary>Opens a desk and, unless it is not wanted, a page of it.</summary>
    public static Task<OpenedWorkshop> Open(WorkFolder folder, string desk, int width = 1280, int height = 720, bool withPage = true, params string[] more) =>
        OpenWith(folder, new Dictionary<string, string>(), desk, width, height, withPage, more);

    /// <summary>The same, with variables set for the program.</summary>
    public static async Task<OpenedWorkshop> OpenWith(WorkFolder folder, IReadOnlyDictionary<string, string> variables, string desk, int width = 1280, int height = 720, bool withPage = true, params string[] more)
    {
        Process process = ProgramRun.Start(folder.Full, variables, ["open", desk, "--no-browser", .. more]);
        string? line;
        do
        {
            line = await process.StandardOutput.ReadLineAsync().WaitAsync(TimeSpan.FromSeconds(90));
        }
        while (line is not null && !line.Contains("http://", StringComparison.Ordinal));
        if (line is null)
        {
            throw new InvalidOperationException($"The workshop did not open: {await process.StandardError.ReadToEndAsync()}");
        }

        OpenedWorkshop opened = new(process, AddressForm().Match(line).Value);
        _ = process.StandardOutput.ReadToEndAsync();
        if (withPage)
        {
            opened.Page = await opened.NewPage(width, height);
            await opened.Drawn();
        }

        return opened;
    }

    /// <summary>One more page, as a browser of its own.</summary>
    public async Task<IPage> NewPage(int width = 1280, int height = 720, bool hasTouch = false)
    {
        IBrowser browser = await RealBrowser.Started();
        IBrowserContext context = await browser.NewContextAsync(new() { ViewportSize = new() { Width = width, Height = height }, AcceptDownloads = true, HasTouch = hasTouch });
        _contexts.Add(context);
        IPage page = await context.NewPageAsync();
        page.SetDefaultTimeout(60_000);
        page.Console += (_, said) =>
        {
            if (said.Type is "error" or "warning")
            {
                Trouble.Enqueue($"{said.Type}: {said.Text}");
            }
        };
        page.PageError += (_, fault) => Trouble.Enqueue($"fault: {fault}");
        page.Request += (_, request) =>
        {
            if (!request.Url.StartsWith(Place, StringComparison.Ordinal) && !request.Url.StartsWith("blob:", StringComparison.Ordinal) && !request.Url.StartsWith("data:", StringComparison.Ordinal))
            {
                Trouble.Enqueue($"fetched {request.Url}");
            }
        };
        await page.GotoAsync(Address);
        return page;
    }

    /// <summary>Closes a page and its browser, as a maker does.</summary>
    public async Task ClosePage(IPage page)
    {
        await page.CloseAsync();
        await page.Context.CloseAsync();
        _contexts.Remove(page.Context);
    }

    /// <summary>Waits until the panel is drawn.</summary>
    public Task Drawn(IPage? page = null) => (page ?? Page).WaitForSelectorAsync("canvas.face[data-drawn]");

    /// <summary>The middle of an item on the page.</summary>
    public async Task<(float X, float Y)> Middle(string item, IPage? page = null)
    {
        LocatorBoundingBoxResult box = (await (page ?? Page).Locator($".item[data-id='{item}']").BoundingBoxAsync())!;
        return (box.X + (box.Width / 2), box.Y + (box.Height / 2));
    }

    /// <summary>Sends the room to an hour between noon (0) and midnight (100).</summary>
    public async Task Room(int hour, IPage? page = null)
    {
        await (page ?? Page).Locator("#room").EvaluateAsync("(input, hour) => { input.value = hour; input.dispatchEvent(new Event('input')); }", hour);
        await (page ?? Page).EvaluateAsync("() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))");
    }

    /// <summary>How much of the machine's memory the program has, in MB; and the most that it ever had. Zeros where the system does not tell.</summary>
    public (double NowMb, double MostMb) Memory()
    {
        string path = $"/proc/{ProcessId}/status";
        string[] lines = File.Exists(path) ? File.ReadAllLines(path) : [];
        double Mb(string name) => lines.FirstOrDefault(line => line.StartsWith(name, StringComparison.Ordinal)) is { } line
            ? double.Parse(line[name.Length..].Replace("kB", string.Empty, StringComparison.Ordinal).Trim(), CultureInfo.InvariantCulture) / 1024 : 0;
        return (Mb("VmRSS:"), Mb("VmHWM:"));
    }

    /// <summary>Kills the program as a power cut would.</summary>
    public void Kill() => _process.Kill(entireProcessTree: true);

    /// <summary>Waits until the program has ended by itself.</summary>
    public async Task<bool> Ends(TimeSpan patience)
    {
        try
        {
            await _process.WaitForExitAsync().WaitAsync(patience);
            return true;
        }
        catch (TimeoutException)
        {
            return false;
        }
    }

    /// <summary>Nothing went wrong in any page.</summary>
    public void AssertNoTrouble() => Assert.DoesNotContain(Trouble, one => !one.Contains("WebSocket", StringComparison.Ordinal));

    public async ValueTask DisposeAsync()
    {
        foreach (IBrowserContext context in _contexts)
        {
            await context.CloseAsync();
        }

        if (!_process.HasExited)
        {
            _process.Kill(entireProcessTree: true);
            await _process.WaitForExitAsync();
        }

        _process.Dispose();
    }

    [GeneratedRegex(@"http://\S+")]
    private static partial Regex AddressForm();
}

/// <summary>The browser that the workshop is tried in.</summary>
internal static class RealBrowser
{
    private static readonly string[] Places = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];

    private static readonly Lazy<Task<IBrowser>> Lazy = new(async () =>
    {
        IPlaywright playwright = await Playwright.CreateAsync();
        return await playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = Path,
            Args = ["--no-sandbox", "--disable-background-networking", "--disable-component-update", "--disable-sync", "--no-first-run", "--disable-quic"],
        });
    });

    /// <summary>Where it is; null where there is none.</summary>
    public static string? Path { get; } = Environment.GetEnvironmentVariable("LAMPBLACK_BROWSER") is { Length: > 0 } named ? named : Places.FirstOrDefault(File.Exists);

    /// <summary>The browser; without one the test is skipped, or fails where nothing may be skipped.</summary>
    public static Task<IBrowser> Started()
    {
        if (Path is null && Environment.GetEnvironmentVariable("LAMPBLACK_ALL") == "1")
        {
            throw new FileNotFoundException("There is no Chromium: install the package chromium, or name a browser in LAMPBLACK_BROWSER.");
        }

        Assert.SkipWhen(Path is null, "NO BROWSER: install Chromium, or name one in LAMPBLACK_BROWSER");
        return Lazy.Value;
    }
}

/// <summary>Tests in the browser come one after the other: side by side they would wait for the same two processors.</summary>
[CollectionDefinition(nameof(InTheBrowser), DisableParallelization = true)]
public sealed class InTheBrowser;
