using System;

namespace Lampblack.Workshop.Pages;

/// <summary>Sentences of the core on a page: without the marks that a terminal needs around names.</summary>
internal static class PlainWords
{
    /// <summary>The sentence without backquotes.</summary>
    public static string Plain(this string sentence) => sentence.Replace("`", string.Empty, StringComparison.Ordinal);
}
