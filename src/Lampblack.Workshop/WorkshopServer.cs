using System;
using System.Linq;
using System.Net;
using System.Threading;
using System.Threading.Tasks;
using Lampblack.Host;
using Lampblack.Workshop.Bench;
using Lampblack.Workshop.Pages;
using Lampblack.Workshop.Serving;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Components.Server.Circuits;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace Lampblack.Workshop;

/// <summary>How the workshop is to be opened.</summary>
/// <param name="Port">The port on 127.0.0.1; 0 for a free one.</param>
/// <param name="OpensBrowser">Whether the maker's browser is started.</param>
public sealed record WorkshopOptions(int Port, bool OpensBrowser);

/// <summary>The workshop: pages for one desk, served to this machine's own browser and to nobody else.</summary>
public static class WorkshopServer
{
    /// <summary>Serves a desk until its last page is closed or somebody stops it.</summary>
    /// <param name="desk">The desk, as the maker named it.</param>
    /// <param name="options">How.</param>
    /// <param name="say">Told a line for the maker.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <exception cref="FileProblemException">The desk cannot be read, or the port is taken.</exception>
    public static async Task Run(string desk, WorkshopOptions options, Action<string> say, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(desk);
        ArgumentNullException.ThrowIfNull(options);
        ArgumentNullException.ThrowIfNull(say);
        using DeskBench bench = DeskBench.Open(desk);
        if (WorkshopRecord.Find(bench.FilePath) is { } running && await running.Answers(cancellation).ConfigureAwait(false))
        {
            say($"The workshop for this desk is open already: {running.Address}");
            Start(running.Address, options, say);
            return;
        }

        Door door = new();
        await using WebApplication site = Build(bench, door, options.Port);
        try
        {
            await site.StartAsync(cancellation).ConfigureAwait(false);
        }
        catch (System.IO.IOException problem)
        {
            throw new FileProblemException(FormattableString.Invariant($"Port {options.Port} on this machine is taken: leave out --port, or name another. ({problem.Message})"), problem);
        }

        string place = site.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First();
        string address = $"{place}/?{Door.Query}={door.Word}";
        using WorkshopRecord record = WorkshopRecord.Write(bench.FilePath, address);
        say($"The workshop is open at {address}");
        say("Close its page, or press Ctrl-C here, to end it. Every edit is in the desk file at once.");
        Start(address, options, say);
        OpenPages pages = site.Services.GetRequiredService<OpenPages>();
        using CancellationTokenSource end = CancellationTokenSource.CreateLinkedTokenSource(cancellation, pages.Closed);
        await Task.Delay(Timeout.Infinite, end.Token).ContinueWith(_ => { }, CancellationToken.None, TaskContinuationOptions.ExecuteSynchronously, TaskScheduler.Default).ConfigureAwait(false);
        using CancellationTokenSource patience = new(TimeSpan.FromSeconds(5));
        await site.StopAsync(patience.Token).ConfigureAwait(false);
        say("The workshop is closed.");
    }

    private static WebApplication Build(DeskBench bench, Door door, int port)
    {
        WebApplicationBuilder builder = WebApplication.CreateBuilder(new WebApplicationOptions { ContentRootPath = AppContext.BaseDirectory, ApplicationName = "lampblack-cli" });

        // Addresses carry the maker's key: nothing of a request is written down.
        builder.Logging.ClearProviders();
        builder.Configuration.Sources.Clear();

        // Of a program that was not published, scripts and styles lie in the projects' folders; of a published one this does nothing.
        builder.WebHost.UseStaticWebAssets();
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.Listen(IPAddress.Loopback, port, listen => listen.Protocols = HttpProtocols.Http1);
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = Uploads.LimitBytes;
        });
        builder.Services.AddRazorComponents().AddInteractiveServerComponents(circuits =>
        {
            circuits.DisconnectedCircuitRetentionPeriod = TimeSpan.FromMinutes(2);
            circuits.DetailedErrors = false;
        }).AddHubOptions(hub => hub.MaximumReceiveMessageSize = 256 * 1024);
        builder.Services.AddSingleton(bench);
        builder.Services.AddSingleton<OpenPages>();
        builder.Services.AddScoped<CircuitHandler, OpenPages.Watch>();
        WebApplication site = builder.Build();
        Guard guard = new(door);
        site.Use((context, next) => guard.Pass(context, next));
        site.UseAntiforgery();
        site.MapStaticAssets();
        Files.Map(site, bench);
        Uploads.Map(site, bench);
        
        // Who may frame the page is said by the guard, once.
        site.MapRazorComponents<Root>().AddInteractiveServerRenderMode(mode => mode.ContentSecurityFrameAncestorsPolicy = null);
        return site;
    }

    private static void Start(string address, WorkshopOptions options, Action<string> say)
    {
        if (options.OpensBrowser && !BrowserStart.Open(address))
        {
            say("No browser could be started: open the address above in yours.");
        }
    }
}
