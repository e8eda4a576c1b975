using System;
using System.Threading.Tasks;
using Microsoft.JSInterop;

namespace Lampblack.Workshop.Pages;

/// <summary>What a script of the page started for a part of it. Pages change while pictures are on their way: what is asked of a script that was put away, or of a page that is gone, is not done, and is no fault.</summary>
internal sealed class PageScript(IJSObjectReference script)
{
    /// <summary>Whether its part of the page is gone.</summary>
    public bool IsAway { get; private set; }

    /// <summary>Asks the script for something.</summary>
    public async Task Tell(string what, params object?[] with)
    {
        if (IsAway)
        {
            return;
        }

        try
        {
            await script.InvokeVoidAsync(what, with);
        }
        catch (Exception gone) when (gone is JSDisconnectedException or ObjectDisposedException or TaskCanceledException)
        {
        }
    }

    /// <summary>Stops it and lets go of what it holds.</summary>
    public async Task PutAway()
    {
        if (IsAway)
        {
            return;
        }

        Task stopped = Tell("stop");

        // Before anything is waited for: from here on nobody else may ask it.
        IsAway = true;
        await stopped;
        await script.PutAway();
    }
}
