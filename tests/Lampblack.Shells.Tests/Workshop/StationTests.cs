using System;
using System.IO;
using System.Threading.Tasks;
using Microsoft.Playwright;
using Xunit;

namespace Lampblack.Shells.Tests.Workshop;

/// <summary>What tests of stations do alike: read the desk's file, wait for what is worked out beside the page, undo.</summary>
public abstract class StationTests
{
    /// <summary>How long something may take that is planned or simulated beside the page.</summary>
    private const float PatienceMs = 120_000;

    /// <summary>The desk file as it is now.</summary>
    private protected static string Text(WorkFolder folder) => File.ReadAllText(folder.Below("desk/desk.toml"));

    /// <summary>Waits until the desk file says so.</summary>
    private protected static async Task Written(WorkFolder folder, string words)
    {
        for (int look = 0; look < 300 && !Text(folder).Contains(words, StringComparison.Ordinal); look++)
        {
            await Task.Delay(100);
        }

        Assert.Contains(words, Text(folder), StringComparison.Ordinal);
    }

    /// <summary>Waits for what comes when the work beside the page is through.</summary>
    private protected static Task Through(IPage page, string selector) => page.WaitForSelectorAsync(selector, new() { Timeout = PatienceMs });

    /// <summary>Waits for something that only a function can tell.</summary>
    private protected static Task Until(IPage page, string function) => page.WaitForFunctionAsync(function, null, new() { Timeout = PatienceMs });

    /// <summary>Takes back so many edits, and waits until there is none left.</summary>
    private protected static async Task Undo(IPage page, int steps)
    {
        for (int step = 0; step < steps; step++)
        {
            await page.ClickAsync("#undo");
        }

        await page.WaitForFunctionAsync("() => document.querySelector('#undo').disabled");
    }
}
