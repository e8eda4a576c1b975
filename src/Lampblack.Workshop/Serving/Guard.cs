using System;
using System.Linq;
using System.Threading.Tasks;
using Microsoft.AspNetCore.Http;

namespace Lampblack.Workshop.Serving;

/// <summary>What every request has to pass: it must name this very machine and port, come from our own page, and carry the cookie.</summary>
/// <param name="door">Who is let in.</param>
internal sealed class Guard(Door door)
{
    private static readonly string[] Names = ["127.0.0.1", "localhost"];

    /// <summary>The page may load nothing from elsewhere, run no script but ours, and stand in nobody's frame.</summary>
    private const string ContentPolicy =
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; font-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'self'; frame-ancestors 'none'";

    /// <summary>Handles a request, or hands it on.</summary>
    public async Task Pass(HttpContext context, RequestDelegate next)
    {
        ArgumentNullException.ThrowIfNull(context);
        ArgumentNullException.ThrowIfNull(next);
        Harden(context.Response.Headers);
        int port = context.Connection.LocalPort;
        if (!IsOurs(context.Request.Host, port) || !ComesFromUs(context.Request, port))
        {
            await Refuse(context, "This is the maker's own workshop; it answers only its own page.").ConfigureAwait(false);
            return;
        }

        switch (door.Ask(context, port))
        {
            case Entry.SentOn:
                // Nothing of the address but the path is kept, so that the word is in no history and no referrer.
                context.Response.Redirect(context.Request.Path.HasValue ? context.Request.Path.Value : "/");
                return;
            case Entry.Refused:
                await Refuse(context, "This page can be opened only by 'lampblack open': start it again in the terminal, or follow the address that it printed.").ConfigureAwait(false);
                return;
            default:
                await next(context).ConfigureAwait(false);
                return;
        }
    }

    private static bool IsOurs(HostString host, int port) => Names.Contains(host.Host, StringComparer.OrdinalIgnoreCase) && host.Port == port;

    /// <summary>A page of another origin says so in everything but plain navigation; what only reads gets the strict cookie's protection.</summary>
    private static bool ComesFromUs(HttpRequest request, int port)
    {
        string origin = request.Headers.Origin.ToString();
        return origin.Length == 0
            ? HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method)
            : Names.Any(name => string.Equals(origin, FormattableString.Invariant($"http://{name}:{port}"), StringComparison.OrdinalIgnoreCase))
                && Uri.TryCreate(origin, UriKind.Absolute, out Uri? from) && string.Equals(from.Host, request.Host.Host, StringComparison.OrdinalIgnoreCase);
    }

    private static void Harden(IHeaderDictionary headers)
    {
        headers.ContentSecurityPolicy = ContentPolicy;
        headers.XContentTypeOptions = "nosniff";
        headers.XFrameOptions = "DENY";
        headers["Referrer-Policy"] = "no-referrer";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        headers.CacheControl = "no-store";
    }

    private static async Task Refuse(HttpContext context, string why)
    {
        context.Response.StatusCode = StatusCodes.Status403Forbidden;
        context.Response.ContentType = "text/plain; charset=utf-8";
        await context.Response.WriteAsync(why + "\n", context.RequestAborted).ConfigureAwait(false);
    }
}
