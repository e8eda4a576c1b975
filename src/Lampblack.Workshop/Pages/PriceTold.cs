using System;
using System.Threading.Tasks;

namespace Lampblack.Workshop.Pages;

/// <summary>A price that is worked out beside the page while the hand goes on: only the newest question is answered.</summary>
internal sealed class PriceTold
{
    /// <summary>A hand that hurries past asks nothing.</summary>
    private const int RestMs = 180;

    private int _asked;

    /// <summary>The price in words; empty while it is worked out, and where there is none.</summary>
    public string Words { get; private set; } = string.Empty;

    /// <summary>Takes the words away; an answer on its way is no longer wanted.</summary>
    public void Forget()
    {
        _asked++;
        Words = string.Empty;
    }

    /// <summary>Asks, and tells the page when there is an answer.</summary>
    /// <param name="work">Works it out; runs beside the page.</param>
    /// <param name="show">Shows it; runs on the page.</param>
    public async Task Ask(Func<string> work, Func<Task> show)
    {
        int mine = ++_asked;
        await Task.Delay(RestMs);
        if (mine != _asked)
        {
            return;
        }

        string words = await Task.Run(work);
        if (mine == _asked)
        {
            Words = words;
            await show();
        }
    }
}
