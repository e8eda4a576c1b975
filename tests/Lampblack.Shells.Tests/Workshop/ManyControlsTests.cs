using System;
using System.Collections.Generic;
using System.Globalization;
using System.IO;
using System.Linq;
using System.Text.Json;
using System.Text.RegularExpressions;
using System.Threading.Tasks;
using Lampblack.Bench;
using Microsoft.Playwright;
using Xunit;

namespace Lampblack.Shells.Tests.Workshop;

/// <summary>A desk of 400 controls under the hand. Figures are written down where they are asked for; whether they will do is not judged here, as they are this machine's.</summary>
[Collection(nameof(InTheBrowser))]
public sealed partial class ManyControlsTests(ITestOutputHelper output)
{
    private static readonly bool IsLong = Environment.GetEnvironmentVariable("LAMPBLACK_LONG") == "1";

    /// <summary>Between its neighbours, so that it can be taken up again.</summary>
    private const double RightMm = 4;
    private const double DownMm = 2;

    [Theory]
    [InlineData("A4", "panel-1/c45", "c45")]
    [InlineData("A3", "panel-1/c200", "c200")]
    public async Task A_control_among_400_is_carried_under_the_hand_and_the_file_and_the_findings_follow(string paper, string item, string id)
    {
        using WorkFolder folder = new();
        folder.Put("desk/desk.toml", paper == "A4" ? ManyControls.OnA4() : ManyControls.OnA3());
        await using OpenedWorkshop shop = await OpenedWorkshop.Open(folder, "desk", 1600, 1000);
        await shop.Page.WaitForFunctionAsync("() => document.querySelector('.checking').textContent === ''");
        List<WatchedDrag> drags = [];
        for (int drag = 0; drag < (IsLong ? 40 : 2); drag++)
        {
            (double X, double Y) before = Place(folder, id);
            double pxPerMm = await shop.Page.EvaluateAsync<double>("() => document.querySelector('.panel').clientWidth / Number(document.querySelector('.stage').dataset.width)");
            (double right, double down) = (drag % 2 == 0 ? 1 : -1) * pxPerMm is var way ? (RightMm * way, DownMm * way) : default;
            WatchedDrag seen = await WatchedDrag.Of(shop.Page, item, (float)right, (float)down, isFree: (drag + (drag / 2)) % 2 == 0, HeldWithin(pxPerMm));
            drags.Add(seen);
            Assert.True(seen.Moves > 5, $"{seen.Moves} movements were seen");
            Assert.Empty(seen.Astray);
            (double x, double y) = Place(folder, id);
            Assert.Equal((seen.DxMm, seen.DyMm), (x - before.X, y - before.Y), (one, other) => Math.Abs(one.Item1 - other.Item1) < 0.001 && Math.Abs(one.Item2 - other.Item2) < 0.001);
            Assert.True(Math.Abs(seen.DxMm) > 1);
            Tell($"{paper}, drag {drag + 1}: {seen}; {Memory(shop)}");
        }

        Tell($"{paper}, all {drags.Count}: exact after {WatchedDrag.Share(drags.Select(drag => drag.SettledMs), 0.5):0} ms, most {drags.Max(drag => drag.SettledMs):0}; findings after {WatchedDrag.Share(drags.Select(drag => drag.CheckedMs), 0.5):0} ms, most {drags.Max(drag => drag.CheckedMs):0}; frames {WatchedDrag.Share(drags.SelectMany(drag => drag.FramesMs), 0.5):0} ms apart, 99 of 100 within {WatchedDrag.Share(drags.SelectMany(drag => drag.FramesMs), 0.99):0}; {Memory(shop)}");
        await AssertFindingsAreThoseOf(folder, shop.Page);
        shop.AssertNoTrouble();
    }

    /// <summary>The margin tells what the command line tells of the file as it is now.</summary>
    private static async Task AssertFindingsAreThoseOf(WorkFolder folder, IPage page)
    {
        ProgramRun check = ProgramRun.Of(folder.Full, "check", "desk", "--json");
        using JsonDocument told = JsonDocument.Parse(check.Output);
        string[] wanted = [.. told.RootElement.GetProperty("findings").EnumerateArray()
            .Where(finding => !finding.TryGetProperty("accepted", out JsonElement accepted) || accepted.ValueKind == JsonValueKind.Null)
            .Where(finding => finding.GetProperty("severity").GetString() != "note").DistinctBy(finding => finding.GetRawText(), StringComparer.Ordinal)
            .Select(finding => $"{finding.GetProperty("message").GetString()!.Replace("`", string.Empty, StringComparison.Ordinal)}.")];
        string[] shown = await page.Locator(".margin > .findings .finding > span").EvaluateAllAsync<string[]>("all => all.map(one => one.textContent)");
        Assert.Equal(Math.Min(60, wanted.Length), shown.Length);
        Assert.Empty(shown.Except(wanted));
    }

    /// <summary>How many dots of the screen away from the hand a line (6 dots), or a grid of half a millimetre, may hold an item.</summary>
    private static double HeldWithin(double pxPerMm) => (Math.Sqrt(2) * Math.Max(6, pxPerMm / 4)) + 1;

    private static (double X, double Y) Place(WorkFolder folder, string id)
    {
        Match at = PlaceForm().Match(File.ReadAllText(folder.Below("desk/desk.toml")), File.ReadAllText(folder.Below("desk/desk.toml")).IndexOf($"id = \"{id}\"", StringComparison.Ordinal));
        return (double.Parse(at.Groups[1].Value, CultureInfo.InvariantCulture), double.Parse(at.Groups[2].Value, CultureInfo.InvariantCulture));
    }

    private static string Memory(OpenedWorkshop shop) => shop.Memory() is var (now, most) ? string.Create(CultureInfo.InvariantCulture, $"{now:0} MB, at most {most:0} MB") : string.Empty;

    private void Tell(FormattableString line)
    {
        string words = FormattableString.Invariant(line);
        output.WriteLine(words);
        if (Environment.GetEnvironmentVariable("LAMPBLACK_FIGURES") is { Length: > 0 } path)
        {
            File.AppendAllText(path, words + "\n");
        }
    }

    [GeneratedRegex(@"at = \[([0-9.]+), ([0-9.]+)\]")]
    private static partial Regex PlaceForm();
}
