using System;
using System.IO;
using System.Linq;
using System.Net;
using System.Net.Http;
using System.Text;
using System.Threading.Tasks;
using Microsoft.Playwright;
using Xunit;

namespace Lampblack.Shells.Tests.Workshop;

/// <summary>Who is let in, what may be fetched and dropped, and what becomes of a desk that somebody else has in hand too.</summary>
[Collection(nameof(InTheBrowser))]
public sealed class SafetyTests
{
    [Fact]
    public async Task Only_the_maker_s_own_browser_is_let_in()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk", withPage: false);
        using HttpClient stranger = Client(new CookieContainer());
        foreach (string path in new[] { "/", "/face/main/0/day.png", "/_framework/blazor.web.js", "/_blazor/negotiate?negotiateVersion=1", "/made/1/report.json" })
        {
            Assert.Equal(HttpStatusCode.Forbidden, (await stranger.GetAsync(shop.Place + path, TestContext.Current.CancellationToken)).StatusCode);
        }

        Assert.Equal(HttpStatusCode.Forbidden, (await stranger.GetAsync($"{shop.Place}/?key=0123", TestContext.Current.CancellationToken)).StatusCode);

        // The word is exchanged for a cookie that no script can read and no other page can use; then it is gone from the address.
        CookieContainer cookies = new();
        using HttpClient maker = Client(cookies);
        using HttpResponseMessage entry = await maker.GetAsync(shop.Address, TestContext.Current.CancellationToken);
        Assert.Equal((HttpStatusCode.Redirect, "/"), (entry.StatusCode, entry.Headers.Location!.ToString()));
        string cookie = Assert.Single(entry.Headers.GetValues("Set-Cookie"));
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
        using HttpResponseMessage page = await maker.GetAsync(shop.Place + "/", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.OK, page.StatusCode);
        string policy = Assert.Single(page.Headers.GetValues("Content-Security-Policy"));
        Assert.Contains("default-src 'none'", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
        Assert.Equal("no-referrer", Assert.Single(page.Headers.GetValues("Referrer-Policy")));

        // Another name for this machine, and another page's request, are turned away with the cookie too.
        Assert.Equal(HttpStatusCode.Forbidden, (await Asked(maker, HttpMethod.Get, shop.Place + "/", host: "panels.example")).StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, (await Asked(maker, HttpMethod.Get, shop.Place + "/", origin: "http://panels.example")).StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, (await Asked(maker, HttpMethod.Post, shop.Place + "/photo?name=a.jpg", origin: "http://127.0.0.1:1")).StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, (await Asked(maker, HttpMethod.Post, shop.Place + "/photo?name=a.jpg")).StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, (await Asked(maker, HttpMethod.Get, shop.Place + "/", origin: "null")).StatusCode);
    }

    [Fact]
    public async Task A_panel_that_goes_while_its_picture_is_on_its_way_takes_nothing_with_it()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        IPage page = shop.Page;
        TaskCompletionSource gone = new();
        foreach (string kind in new[] { "face", "lamp" })
        {
            await page.RouteAsync($"**/{kind}/panel-2/**", async route =>
            {
                await gone.Task;
                await route.ContinueAsync();
            });
        }

        await page.ClickAsync("#plate");
        await page.ClickAsync("#held-to-lamp");
        await page.ClickAsync("#another-panel");
        await page.WaitForSelectorAsync(".panels button[aria-pressed='true']:has-text('PANEL 2')");
        await page.ClickAsync(".looks button:has-text('as it looks')");
        await page.WaitForSelectorAsync(".stage:not(.lit)");
        await page.ClickAsync("#remove-panel");
        await page.WaitForSelectorAsync(".panel[data-panel='main']");
        gone.SetResult();

        // Without a size: so is a panel in the moment in which it leaves the page.
        for (int tries = 0; tries < 60 && await page.Locator(".tags .tag").CountAsync() == 0; tries++)
        {
            // Until the scripts of the panel that came back are there.
            await page.ClickAsync(".item[data-id='main/pump']");
            await page.WaitForTimeoutAsync(500);
        }

        await page.WaitForSelectorAsync(".tags .tag");
        await page.EvaluateAsync("() => document.querySelector('.panel').style.display = 'none'");
        await page.ClickAsync("[data-unit='in']");
        await page.EvaluateAsync("() => document.querySelector('.panel').style.display = ''");

        // There and back, faster than pictures come: then one hand moves one thing once.
        await page.ClickAsync("#another-panel");
        await page.WaitForSelectorAsync(".panels button:has-text('PANEL 2')");
        for (int turn = 0; turn < 10; turn++)
        {
            await page.EvaluateAsync("number => document.querySelectorAll('.panels button[aria-pressed]')[number].click()", (turn + 1) % 2);
            await page.EvaluateAsync("() => document.querySelector('#held-to-lamp').click()");
            await page.EvaluateAsync("() => document.querySelector('.looks button').click()");
        }

        await page.WaitForSelectorAsync(".panel[data-panel='main']");
        for (int tries = 0; tries < 60 && await page.Locator(".item[data-id='main/pump'].held").CountAsync() == 0; tries++)
        {
            // Until the last of the scripts is there.
            await page.ClickAsync(".item[data-id='main/pump']");
            await page.WaitForTimeoutAsync(500);
        }

        await page.Locator(".item[data-id='main/pump'].held").FocusAsync();
        string before = (await page.Locator("#undo .what").TextContentAsync())!;
        await page.Keyboard.PressAsync("ArrowRight");
        await page.WaitForFunctionAsync("words => document.querySelector('#undo .what').textContent !== words", before);
        Assert.Contains("at = [31, 25]", File.ReadAllText(folder.Below("desk/desk.toml")), StringComparison.Ordinal);
        for (string words = "?"; words.Length > 0;)
        {
            words = await page.Locator("#undo .what").TextContentAsync() ?? string.Empty;
            if (words.Length > 0)
            {
                await page.ClickAsync("#undo");
                await page.WaitForFunctionAsync("words => document.querySelector('#undo .what').textContent !== words", words);
            }
        }

        Assert.Equal(Desks.Plain, File.ReadAllText(folder.Below("desk/desk.toml")));
        shop.AssertNoTrouble();
    }

    [Fact]
    public async Task Nothing_outside_the_desk_s_folder_is_read_or_written()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        folder.Put("secret.toml", "not for the page");
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk", withPage: false);
        using HttpClient maker = Client(new CookieContainer());
        await maker.GetAsync(shop.Address, TestContext.Current.CancellationToken);
        foreach (string path in new[] { "/made/1/../../secret.toml", "/made/1/..%2f..%2fsecret.toml", "/../secret.toml", "/_content/Lampblack.Workshop/..%2f..%2fsecret.toml", "/desk.toml", "/face/..%2fsecret/0/day.png", "/lamp/main/0/other.png" })
        {
            using HttpResponseMessage answer = await maker.GetAsync(shop.Place + path, TestContext.Current.CancellationToken);
            Assert.DoesNotContain("not for the page", await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
            Assert.NotEqual(HttpStatusCode.OK, answer.StatusCode);
        }

        foreach (string name in new[] { "../evil.svg", "..%2Fevil.svg", "%2Ftmp%2Fevil.svg", ".hidden.svg", "a%00.svg", "evil.toml", "evil.exe", "a\\b.svg", new string('a', 200) + ".svg", "" })
        {
            using HttpResponseMessage answer = await Sent(maker, shop, $"/artwork?name={name}", "<svg xmlns=\"http://www.w3.org/2000/svg\"/>");
            Assert.True(answer.StatusCode is HttpStatusCode.BadRequest or HttpStatusCode.Conflict, $"{name}: {answer.StatusCode}");
        }

        Assert.Equal(HttpStatusCode.OK, (await Sent(maker, shop, "/artwork?name=my%20drawing.svg", "<svg/>")).StatusCode);

        // A file that is there is never overwritten.
        Assert.Equal(HttpStatusCode.Conflict, (await Sent(maker, shop, "/artwork?name=my%20drawing.svg", "<svg> </svg>")).StatusCode);
        Assert.Equal("<svg/>", File.ReadAllText(folder.Below("desk/my drawing.svg")));
        Assert.Equal(["desk/desk.toml", "desk/my drawing.svg", "secret.toml"], folder.Files().Where(file => !file.Contains(".lampblack/", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task Artwork_reaches_the_page_as_dots_and_boxes_only()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        folder.Put("drawing.svg", "<svg xmlns='http://www.w3.org/2000/svg' width='40mm' height='20mm' viewBox='0 0 40 20'><script>window.reached = 1</script><image href='http://panels.example/x.png' onerror='window.reached = 2'/><rect id='mine' x='2' y='2' width='36' height='16' fill='#fff' onload='window.reached = 3'/></svg>");
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        await shop.Page.ClickAsync("button.front:has-text('Words and lines')");
        await shop.Page.SetInputFilesAsync("#artwork-file", folder.Below("drawing.svg"));
        await shop.Page.WaitForSelectorAsync(".item[data-kind='Art']");
        Assert.Contains("file = \"drawing.svg\"", File.ReadAllText(folder.Below("desk/desk.toml")), StringComparison.Ordinal);
        Assert.True(await shop.Page.EvaluateAsync<bool>("() => window.reached === undefined && !document.querySelector('#mine, image, [src*=\"panels.example\"], [href*=\"panels.example\"]')"));
        shop.AssertNoTrouble();
    }

    [Fact]
    public async Task A_desk_changed_by_another_program_is_shown_and_nothing_is_overwritten()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        string theirs = Desks.Plain.Replace("\"PUMP\"", "\"WELL\"", StringComparison.Ordinal);
        File.WriteAllText(folder.Below("desk/desk.toml"), theirs);
        await shop.Page.WaitForSelectorAsync(".item[data-words='WELL']");
        Assert.Equal(theirs, File.ReadAllText(folder.Below("desk/desk.toml")));
        await shop.Page.Locator(".item[data-id='main/heat']").FocusAsync();
        await shop.Page.Keyboard.PressAsync("Enter");
        await shop.Page.WaitForSelectorAsync(".item.held");
        await shop.Page.Keyboard.PressAsync("ArrowRight");
        await shop.Page.WaitForSelectorAsync(".item[data-id='main/heat'][data-anchor='81 28']");
        Assert.Equal(theirs.Replace("at = [80, 28]", "at = [81, 28]", StringComparison.Ordinal), File.ReadAllText(folder.Below("desk/desk.toml")));
    }

    [Fact]
    public async Task A_file_that_is_no_text_is_shown_and_never_written()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        byte[] bytes = [.. Encoding.UTF8.GetBytes(Desks.Plain), 0xC3, 0x28, (byte)'\n'];
        File.WriteAllBytes(folder.Below("desk/desk.toml"), bytes);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk", withPage: false);
        IPage page = await shop.NewPage();
        await page.WaitForSelectorAsync(".findings .stop");
        await shop.Drawn(page);
        await page.FillAsync("#desk-name", "Another");
        await page.PressAsync("#desk-name", "Enter");
        await page.WaitForSelectorAsync(".refused:has-text('nothing was changed')");
        await page.ClickAsync(".refused button");
        await page.Locator(".item[data-id='main/heat']").FocusAsync();
        await page.Keyboard.PressAsync("Delete");
        await page.WaitForSelectorAsync(".refused");
        Assert.Equal(bytes, File.ReadAllBytes(folder.Below("desk/desk.toml")));
    }

    [Fact]
    public async Task A_read_only_desk_is_said_and_the_edit_is_kept_until_it_can_be_written()
    {
        Assert.SkipWhen(Environment.UserName == "root" && !OperatingSystem.IsWindows() && !File.Exists("/usr/bin/chattr"), "as root nothing is read-only here");
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        FileInfo file = new(folder.Below("desk/desk.toml")) { IsReadOnly = true };
        await shop.Page.Locator(".item[data-id='main/heat']").FocusAsync();
        await shop.Page.Keyboard.PressAsync("Enter");
        await shop.Page.WaitForSelectorAsync(".item.held");
        await shop.Page.Keyboard.PressAsync("ArrowRight");
        await shop.Page.WaitForSelectorAsync(".notice");
        Assert.Equal(Desks.Plain, File.ReadAllText(file.FullName));
        file.IsReadOnly = false;
        await shop.Page.ClickAsync("#try-again");
        await shop.Page.WaitForSelectorAsync(".item[data-id='main/heat'][data-anchor='81 28']");
        Assert.Contains("at = [81, 28]", File.ReadAllText(file.FullName), StringComparison.Ordinal);
        Assert.Equal(0, await shop.Page.Locator(".notice").CountAsync());
    }

    [Fact]
    public async Task A_drilled_control_says_what_it_costs_before_it_is_moved()
    {
        using WorkFolder folder = new();
        string drilled = Desks.Plain.Replace("at = [80, 28]", "at = [80, 28]\n  drilled = [0.2, -0.1]", StringComparison.Ordinal);
        folder.Put("desk/desk.toml", drilled);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        ILocator heat = shop.Page.Locator(".item[data-id='main/heat']");
        Assert.Contains("drilled", await heat.GetAttributeAsync("aria-label"), StringComparison.Ordinal);
        await heat.FocusAsync();
        await shop.Page.Keyboard.PressAsync("Enter");
        await shop.Page.WaitForSelectorAsync(".item.held");
        await shop.Page.Keyboard.PressAsync("ArrowRight");
        await shop.Page.WaitForSelectorAsync(".price:has-text('new plate')");
        Assert.Equal(drilled, File.ReadAllText(folder.Below("desk/desk.toml")));
        await shop.Page.ClickAsync("#price-no");
        await shop.Page.WaitForFunctionAsync("() => !document.querySelector('.price')");
        Assert.Equal(drilled, File.ReadAllText(folder.Below("desk/desk.toml")));
        await heat.FocusAsync();
        await shop.Page.Keyboard.PressAsync("ArrowRight");
        await shop.Page.ClickAsync("#price-yes");
        await shop.Page.WaitForFunctionAsync("() => !document.querySelector('.price')");
        Assert.Equal(drilled.Replace("[80, 28]", "[81, 28]", StringComparison.Ordinal), File.ReadAllText(folder.Below("desk/desk.toml")));
        shop.AssertNoTrouble();
    }

    [Fact]
    public async Task A_second_start_joins_the_first_and_the_program_ends_with_its_last_page()
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", Desks.Plain);
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk");
        ProgramRun second = ProgramRun.Of(folder.Full, "open", "desk", "--no-browser");
        Assert.Equal(0, second.Exit);
        Assert.Contains(shop.Address, second.Output, StringComparison.Ordinal);
        Assert.True(shop.IsRunning);

        // A page that is loaded anew does not end it; the last one closed does.
        await shop.Page.ReloadAsync();
        await shop.Drawn();
        Assert.False(await shop.Ends(TimeSpan.FromSeconds(6)));
        await shop.Page.CloseAsync();
        Assert.True(await shop.Ends(TimeSpan.FromSeconds(60)));
    }

    private static HttpClient Client(CookieContainer cookies) => new(new SocketsHttpHandler { AllowAutoRedirect = false, UseProxy = false, CookieContainer = cookies });

    private static async Task<HttpResponseMessage> Asked(HttpClient client, HttpMethod method, string address, string? host = null, string? origin = null)
    {
        using HttpRequestMessage request = new(method, address);
        if (host is not null)
        {
            request.Headers.Host = host;
        }

        if (origin is not null)
        {
            request.Headers.Add("Origin", origin);
        }

        return await client.SendAsync(request, TestContext.Current.CancellationToken);
    }

    private static async Task<HttpResponseMessage> Sent(HttpClient client, OpenedWorkshop shop, string address, string text)
    {
        using HttpRequestMessage request = new(HttpMethod.Post, shop.Place + address) { Content = new ByteArrayContent(Encoding.UTF8.GetBytes(text)) };
        request.Headers.Add("Origin", shop.Place);
        return await client.SendAsync(request, TestContext.Current.CancellationToken);
    }
}
