using System;
using System.Threading.Tasks;
using Microsoft.JSInterop;

namespace Lampblack.Workshop.Pages;

/// <summary>Lets go of what a page's script holds.</summary>
internal static class ScriptObjects
{
    /// <summary>A page that is gone already holds nothing any more.</summary>
    public static async ValueTask PutAway(this IJSObjectReference? script)
    {
        try
        {
            if (script is not null)
            {
                await script.DisposeAsync();
            }
        }
        catch (Exception gone) when (gone is JSDisconnectedException or ObjectDisposedException or TaskCanceledException)
        {
        }
    }
}
