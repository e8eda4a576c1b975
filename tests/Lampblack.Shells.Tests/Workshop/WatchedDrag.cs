using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using System.Text.Json;
using System.Threading.Tasks;
using Microsoft.Playwright;
using Xunit;

namespace Lampblack.Shells.Tests.Workshop;

/// <summary>An item dragged by the pointer, with what the page showed in each of its frames.</summary>
/// <param name="FramesMs">How far apart the page's frames were while the item was carried.</param>
/// <param name="FollowedMs">For each movement of the pointer that the page saw: how long until the next frame was about to be painted with the picture in its place.</param>
/// <param name="Moves">How many movements the page saw, several within one frame counted once.</param>
/// <param name="Astray">The movements after which the next frame did not show the picture under the hand: by how many dots of the screen it was off.</param>
/// <param name="DxMm">How far the page said that the item was carried.</param>
/// <param name="DyMm">The same, upwards.</param>
/// <param name="SettledMs">How long after letting go the exact picture stood.</param>
/// <param name="CheckedMs">How long after letting go the margin said that all findings are those of the new state.</param>
internal sealed record WatchedDrag(double[] FramesMs, double[] FollowedMs, int Moves, double[] Astray, double DxMm, double DyMm, double SettledMs, double CheckedMs)
{
    /// <summary>Movements of the pointer of one drag; about one to a frame.</summary>
    private const int Steps = 45;

    /// <summary>How far the hand strays on its way, in dots of the screen.</summary>
    private const float WanderPx = 60;

    /// <summary>How long the slower checks may take on a busy machine.</summary>
    private const float PatienceMs = 180_000;

    /// <summary>Sees every movement of the pointer before the workshop does, and looks where the carried picture is when the next frame is about to be painted.</summary>
    private const string Watch = """
        within => {
            const stage = document.querySelector('.stage');
            delete stage.dataset.settled;
            const log = window.watched = { frames: [], followed: [], astray: [], moves: 0, away: new AbortController() };
            let from, seen, last;
            const see = (name, act) => document.addEventListener(name, act, { capture: true, signal: log.away.signal });
            see('pointerdown', event => from = { x: event.clientX, y: event.clientY });
            see('pointermove', event => { if (from) { seen ??= { at: event.timeStamp }; seen.x = event.clientX; seen.y = event.clientY; } });
            see('pointerup', () => { from = undefined; log.letGo = performance.now(); });
            const frame = () => {
                const now = performance.now(), ghost = document.querySelector('.ghost');
                if (from && ghost) {
                    const place = ghost.getBoundingClientRect();
                    if (last) {
                        log.frames.push(now - last);
                    }
                    last = now;
                    if (seen) {
                        // Where it lay before it was lifted is known to the page itself.
                        const [lx, ly] = [parseFloat(ghost.style.left), parseFloat(ghost.style.top)];
                        const panel = document.querySelector('.panel').getBoundingClientRect();
                        const off = Math.hypot(place.left - panel.left - lx - (seen.x - from.x), place.top - panel.top - ly - (seen.y - from.y));
                        log.moves++;
                        log.followed.push(now - seen.at);
                        if (off > within) {
                            log.astray.push(off);
                        }
                    }
                } else if (from && seen && Math.hypot(seen.x - from.x, seen.y - from.y) > 4) {
                    log.astray.push(Math.hypot(seen.x - from.x, seen.y - from.y));
                }
                seen = undefined;
                if (!log.away.signal.aborted) {
                    requestAnimationFrame(frame);
                }
            };
            requestAnimationFrame(frame);
            const checking = document.querySelector('.checking');
            log.observer = new MutationObserver(() => {
                if (log.letGo) {
                    log.began ||= checking.textContent !== '';
                    log.checked = log.began && checking.textContent === '' ? performance.now() : undefined;
                }
            });
            log.observer.observe(checking, { childList: true, subtree: true, characterData: true });
        }
        """;

    /// <summary>Drags an item and waits until its picture is exact and its findings stand.</summary>
    /// <param name="page">The page.</param>
    /// <param name="item">The item.</param>
    /// <param name="right">How far to the right it is put down, in dots of the screen.</param>
    /// <param name="down">How far down.</param>
    /// <param name="isFree">Whether it is held free of lines and grid, so that it must be exactly under the hand.</param>
    /// <param name="gridPx">How far from the hand lines and grid may hold it otherwise.</param>
    public static async Task<WatchedDrag> Of(IPage page, string item, float right, float down, bool isFree, double gridPx)
    {
        await page.EvaluateAsync(Watch, isFree ? 1.0 : gridPx);
        LocatorBoundingBoxResult box = (await page.Locator($".item[data-id='{item}']").BoundingBoxAsync())!;
        (float x, float y) = (box.X + (box.Width / 2), box.Y + (box.Height / 2));
        Assert.Equal(item, await page.EvaluateAsync<string?>("([x, y]) => document.elementFromPoint(x, y)?.dataset.id", new double[] { x, y }));
        await page.Mouse.MoveAsync(x, y);
        if (isFree)
        {
            await page.Keyboard.DownAsync("Alt");
        }

        await page.Mouse.DownAsync();
        for (int step = 1; step <= Steps; step++)
        {
            // Not straight there: a hand looks for its place.
            float share = (float)step / Steps;
            float aside = WanderPx * MathF.Sin(2 * MathF.PI * share);
            await page.Mouse.MoveAsync(x + (right * share) + aside, y + (down * share) + aside);
            await Task.Delay(12);
        }

        await page.Mouse.UpAsync();
        if (isFree)
        {
            await page.Keyboard.UpAsync("Alt");
        }

        await page.WaitForSelectorAsync(".stage[data-settled]");
        await page.WaitForFunctionAsync("() => watched.checked", null, new() { Timeout = PatienceMs });
        JsonElement seen = await page.EvaluateAsync<JsonElement>("""
            () => {
                watched.away.abort();
                watched.observer.disconnect();
                const { frames, followed, moves, astray, checked, letGo } = watched;
                return { frames, followed, moves, astray, checked: checked - letGo, settled: Number(document.querySelector('.stage').dataset.settled), carried: document.querySelector('.panel').dataset.carried.split(' ').map(Number) };
            }
            """);
        return new(
            Numbers(seen, "frames"), Numbers(seen, "followed"), seen.GetProperty("moves").GetInt32(), Numbers(seen, "astray"),
            Numbers(seen, "carried")[0], Numbers(seen, "carried")[1], seen.GetProperty("settled").GetDouble(), seen.GetProperty("checked").GetDouble());
    }

    /// <summary>The figures in a line.</summary>
    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture,
        $"frames {Share(FramesMs, 0.5):0} ms apart (95 of 100 within {Share(FramesMs, 0.95):0}, most {FramesMs.DefaultIfEmpty().Max():0}); picture in its place {Share(FollowedMs, 0.5):0.0} ms after the pointer moved (95 of 100 within {Share(FollowedMs, 0.95):0.0}), {Moves - Astray.Length} of {Moves} in the very next frame; exact after {SettledMs:0} ms; findings after {CheckedMs:0} ms");

    /// <summary>The figure that a share of all does not exceed.</summary>
    public static double Share(IEnumerable<double> figures, double share)
    {
        double[] sorted = [.. figures.Order()];
        Assert.NotEmpty(sorted);
        return sorted[(int)Math.Ceiling(share * (sorted.Length - 1))];
    }

    private static double[] Numbers(JsonElement seen, string name) => [.. seen.GetProperty(name).EnumerateArray().Select(number => number.GetDouble())];
}
