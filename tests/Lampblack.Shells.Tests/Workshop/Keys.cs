using System;
using System.Threading.Tasks;
using Microsoft.Playwright;

namespace Lampblack.Shells.Tests.Workshop;

/// <summary>A maker without a pointer: nothing but keys, one after the other.</summary>
internal sealed class Keys(IPage page)
{
    private const int MostTabs = 140;

    public Task Press(string key) => page.Keyboard.PressAsync(key);

    public Task Type(string text) => page.Keyboard.TypeAsync(text);

    /// <summary>Tabs on to the thing that is called so.</summary>
    public Task TabTo(string name) => TabUntil($"(document.activeElement?.textContent ?? '').trim().replace(/\\s+/g, ' ').startsWith('{name}') && document.activeElement !== document.body");

    /// <summary>Tabs on until something holds of what has the keyboard.</summary>
    public async Task TabUntil(string condition)
    {
        for (int press = 0; press < MostTabs; press++)
        {
            if (await page.EvaluateAsync<bool>($"() => !!({condition})"))
            {
                return;
            }

            await page.Keyboard.PressAsync("Tab");
        }

        throw new TimeoutException($"{MostTabs} presses of Tab did not lead to where {condition}.");
    }
}
