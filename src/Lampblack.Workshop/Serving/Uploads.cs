using System;
using System.Linq;
using System.Threading.Tasks;
using Lampblack.Workshop.Bench;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Lampblack.Workshop.Serving;

/// <summary>Takes files that were dropped on the page: photos into memory, artwork into the desk's own folder. They are bounded here and judged where they are read.</summary>
internal static class Uploads
{
    /// <summary>No file may be larger: 100 MB, what a photo of 50 megapixels may come to.</summary>
    public const long LimitBytes = 100_000_000;

    private const int LongestName = 80;

    /// <summary>Maps the addresses.</summary>
    public static void Map(IEndpointRouteBuilder site, DeskBench bench)
    {
        site.MapPost("/photo", async (HttpRequest request, string? name) =>
            Plain(name) is { } plain && await Body(request).ConfigureAwait(false) is { } bytes ? Said(bench.Printers.Take(plain, bytes)) : Results.BadRequest("This is not a file that can be taken: at most 100 MB, with a plain name.")).DisableAntiforgery();
        site.MapPost("/artwork", async (HttpRequest request, string? name) =>
            Plain(name) is { } plain && await Body(request).ConfigureAwait(false) is { } bytes ? Said(bench.TakeArtwork(plain, bytes)) : Results.BadRequest("This is not a file that can be taken: at most 100 MB, with a plain name.")).DisableAntiforgery();
    }

    private static IResult Said(string? problem) => problem is null ? Results.Ok() : Results.Conflict(problem);

    /// <summary>A name without any way to another folder; null where there is none.</summary>
    private static string? Plain(string? name) => name is { Length: > 0 and <= LongestName }
        && name.All(sign => char.IsLetterOrDigit(sign) || sign is '.' or '-' or '_' or ' ' or '(' or ')') && name[0] != '.' && !name.Contains("..", StringComparison.Ordinal) ? name : null;

    private static async Task<byte[]?> Body(HttpRequest request)
    {
        if (request.ContentLength is not (> 0 and <= LimitBytes))
        {
            return null;
        }

        byte[] bytes = new byte[request.ContentLength.Value];
        await request.Body.ReadExactlyAsync(bytes, request.HttpContext.RequestAborted).ConfigureAwait(false);
        return bytes;
    }
}
