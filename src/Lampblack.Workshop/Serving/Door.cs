using System;
using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Http;

namespace Lampblack.Workshop.Serving;

/// <summary>
/// Lets in the maker's own browser and nobody else: a random word in the address that was opened is exchanged, once per page, for a cookie that only this
/// address may use, and is gone from the address before anything is shown.
/// </summary>
internal sealed class Door
{
    /// <summary>The name of the word in the address.</summary>
    public const string Query = "key";

    private const string CookieBefore = "lampblack-";

    private readonly byte[] _word = RandomNumberGenerator.GetBytes(32);
    private readonly byte[] _pass = RandomNumberGenerator.GetBytes(32);

    /// <summary>The word as it stands in an address.</summary>
    public string Word => Convert.ToHexStringLower(_word);

    /// <summary>Whether the request may pass; where it carries the word, it is given the cookie and sent on.</summary>
    /// <param name="context">The request.</param>
    /// <param name="port">Cookies know no ports: each server has a name of its own.</param>
    public Entry Ask(HttpContext context, int port)
    {
        ArgumentNullException.ThrowIfNull(context);
        string cookie = FormattableString.Invariant($"{CookieBefore}{port}");
        if (context.Request.Query.TryGetValue(Query, out Microsoft.Extensions.Primitives.StringValues given) && given.Count == 1)
        {
            if (!HttpMethods.IsGet(context.Request.Method) || !Same(given[0], _word))
            {
                return Entry.Refused;
            }

            context.Response.Cookies.Append(cookie, Convert.ToHexStringLower(_pass), new() { HttpOnly = true, SameSite = SameSiteMode.Strict, Path = "/", IsEssential = true });
            return Entry.SentOn;
        }

        return Same(context.Request.Cookies[cookie], _pass) ? Entry.Open : Entry.Refused;
    }

    private static bool Same(string? given, byte[] wanted) =>
        given is not null && CryptographicOperations.FixedTimeEquals(Encoding.ASCII.GetBytes(given), Encoding.ASCII.GetBytes(Convert.ToHexStringLower(wanted)));
}

/// <summary>What becomes of a request.</summary>
internal enum Entry
{
    /// <summary>It is turned away.</summary>
    Refused,

    /// <summary>It was given the cookie; send it on to the address without the word.</summary>
    SentOn,

    /// <summary>It may pass.</summary>
    Open,
}
