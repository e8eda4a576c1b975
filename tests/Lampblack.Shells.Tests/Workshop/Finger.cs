using System;
using System.Collections.Generic;
using System.Threading.Tasks;
using Microsoft.Playwright;

namespace Lampblack.Shells.Tests.Workshop;

/// <summary>One finger on a tablet's screen. It goes through the browser's own handling of touch, so that what may scroll does.</summary>
internal sealed class Finger(ICDPSession session)
{
    /// <summary>A hand is not faster.</summary>
    private const int StepMs = 16;

    /// <summary>A finger on a page.</summary>
    public static async Task<Finger> On(IPage page) => new(await page.Context.NewCDPSessionAsync(page));

    /// <summary>Touches and lets go.</summary>
    public async Task Tap(double x, double y)
    {
        await Send("touchStart", x, y);
        await Task.Delay(40);
        await Send("touchEnd");
    }

    /// <summary>Touches, goes somewhere, and lets go.</summary>
    /// <param name="x">Where it touches.</param>
    /// <param name="y">Where it touches.</param>
    /// <param name="toX">Where it lets go.</param>
    /// <param name="toY">Where it lets go.</param>
    /// <param name="steps">In how many steps.</param>
    /// <param name="before">Done before it lets go.</param>
    public async Task Drag(double x, double y, double toX, double toY, int steps = 20, Func<Task>? before = null)
    {
        await Send("touchStart", x, y);
        for (int step = 1; step <= steps; step++)
        {
            await Task.Delay(StepMs);
            await Send("touchMove", x + ((toX - x) * step / steps), y + ((toY - y) * step / steps));
        }

        // Resting before it lets go, so that nothing goes on rolling.
        await Task.Delay(120);
        await (before?.Invoke() ?? Task.CompletedTask);
        await Send("touchEnd");
    }

    private Task Send(string type, params double[] place) => session.SendAsync("Input.dispatchTouchEvent", new Dictionary<string, object>
    {
        ["type"] = type,
        ["touchPoints"] = place.Length == 0 ? Array.Empty<object>() : new object[] { new Dictionary<string, object> { ["x"] = place[0], ["y"] = place[1], ["id"] = 1 } },
    });
}
