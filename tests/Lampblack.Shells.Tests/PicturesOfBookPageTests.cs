using System;
using System.Threading.Tasks;
using Lampblack.Shells.Tests.Workshop;
using Microsoft.Playwright;
using Xunit;

namespace Lampblack.Shells.Tests;

/// <summary>Words in the pictures of a book, as a browser draws them: none is cut off, none lies over another, and no line runs through one.</summary>
[Collection(nameof(InTheBrowser))]
public sealed class PicturesOfBookPageTests
{
    // Boxes of words and points of lines are the browser's own. Of a line's height letters take the middle; what a filled box hides below a word is not seen.
    private const string Faults = """
        () => {
          const found = [];
          for (const svg of document.querySelectorAll('svg')) {
            const name = (svg.querySelector('title') || {}).textContent || '?', view = svg.viewBox.baseVal, back = svg.getScreenCTM().inverse();
            const words = [...svg.querySelectorAll('text')].filter(one => one.textContent).map(one => {
              const box = one.getBBox(), map = back.multiply(one.getScreenCTM()), flat = Math.abs(map.b) < 0.01;
              const corners = [[box.x, box.y], [box.x + box.width, box.y], [box.x, box.y + box.height], [box.x + box.width, box.y + box.height]].map(([x, y]) => new DOMPoint(x, y).matrixTransform(map));
              const [left, right] = [Math.min(...corners.map(at => at.x)), Math.max(...corners.map(at => at.x))], [top, bottom] = [Math.min(...corners.map(at => at.y)), Math.max(...corners.map(at => at.y))];
              const [across, up] = flat ? [0, 0.22 * (bottom - top)] : [0.22 * (right - left), 0];
              const before = one.previousElementSibling, hides = before && before.tagName === 'rect' && getComputedStyle(before).fill !== 'none' && before.getBBox();
              return { says: one.textContent, hiding: hides && hides.x <= box.x && hides.x + hides.width >= box.x + box.width ? before : null, left: left + across, right: right - across, top: top + up, bottom: bottom - up };
            });
            words.forEach((one, index) => {
              if (one.left < view.x - 0.1 || one.right > view.x + view.width + 0.1 || one.top < view.y || one.bottom > view.y + view.height) found.push(`${name}: "${one.says}" is cut off`);
              for (const other of words.slice(index + 1)) {
                if (Math.min(one.right, other.right) - Math.max(one.left, other.left) > 0.1 && Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top) > 0.1) found.push(`${name}: "${one.says}" lies over "${other.says}"`);
              }
              for (const shape of svg.querySelectorAll('path, line, rect, circle')) {
                if (shape.closest('symbol, defs') || getComputedStyle(shape).stroke === 'none') continue;
                if (one.hiding && (shape === one.hiding || (shape.compareDocumentPosition(one.hiding) & Node.DOCUMENT_POSITION_FOLLOWING))) continue;
                const map = back.multiply(shape.getScreenCTM()), whole = shape.getTotalLength(), step = Math.max(0.4 / Math.max(0.01, Math.hypot(map.a, map.b)), whole / 1500);
                for (let at = 0; at <= whole; at += step) {
                  const point = shape.getPointAtLength(at).matrixTransform(map);
                  if (point.x > one.left + 0.2 && point.x < one.right - 0.2 && point.y > one.top + 0.1 && point.y < one.bottom - 0.1) { found.push(`${name}: a line runs through "${one.says}"`); break; }
                }
              }
            });
          }
          return found;
        }
        """;

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public async Task No_word_of_a_picture_is_cut_off_crossed_or_covered(string name)
    {
        await using ExampleBook book = await ExampleBook.Opened(name);
        IPage page = book.Page;
        Assert.True(await page.Locator("svg text").CountAsync() > 200);
        string[] faults = await page.EvaluateAsync<string[]>(Faults);
        Assert.True(faults.Length == 0, string.Join('\n', faults));

        // A word that is moved onto another one, and a line through it, are seen.
        string[] planted = await page.EvaluateAsync<string[]>($$"""
            () => {
              const [one, other] = document.querySelectorAll('svg:has(text + text) text');
              const copy = one.cloneNode(true);
              one.after(copy);
              const box = other.getBBox(), line = document.createElementNS('http://www.w3.org/2000/svg', 'path');
              line.setAttribute('d', `M${box.x - 2} ${box.y + box.height / 2}h${box.width + 4}`);
              line.setAttribute('stroke', '#000');
              other.after(line);
              return ({{Faults}})();
            }
            """);
        Assert.Contains(planted, fault => fault.Contains("lies over", StringComparison.Ordinal));
        Assert.Contains(planted, fault => fault.Contains("a line runs through", StringComparison.Ordinal));
    }
}
