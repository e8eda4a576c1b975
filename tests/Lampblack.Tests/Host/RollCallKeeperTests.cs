using System;
using System.Collections.Generic;
using System.IO;
using System.Linq;
using System.Text.Json;
using Lampblack.Host;
using Lampblack.Jobs;
using Lampblack.Tests.Link;
using Xunit;

namespace Lampblack.Tests.Host;

public sealed class RollCallKeeperTests : IDisposable
{
    private readonly WorkFolder folder = new();
    private readonly ScriptedPanel panel = HeardOf.YardPanel();
    private readonly RollCalling roll = CallRoll.Begin(null, [.. HeardOf.PlanFile], "pins.json", ["yard/call.lamp", "legends"], [], string.Empty).Value!;
    private readonly List<string> aside = [];
    private readonly List<string> failed = [];
    private readonly RollCallKeeper keeper;
    private long ms = 100;

    public RollCallKeeperTests()
    {
        keeper = new(Record, roll) { PutAside = aside.Add, Failed = failed.Add };
        panel.Receive(roll.Opened(ms).AsSpan());
    }

    private string Record => Path.Combine(folder.Full, "roll.json");

    public void Dispose() => folder.Dispose();

    [Fact]
    public void The_record_is_written_after_each_control()
    {
        Until(() => panel.Indicators[0] == 1);
        Assert.False(File.Exists(Record));
        Say(string.Empty);
        Assert.Equal("yard/call.lamp answered, legends not-called", Verdicts());
        Say("n");
        Assert.Equal("yard/call.lamp answered, legends wrong", Verdicts());
        Assert.Equal(["roll.json"], Directory.GetFiles(folder.Full).Select(Path.GetFileName));
        Assert.Empty(aside);
    }

    [Fact]
    public void A_record_of_another_plan_is_put_aside_under_a_free_name()
    {
        File.WriteAllText(Record, "{\"schema\":\"lampblack-rollcall/1\",\"plan\":\"0BADF00D\",\"controls\":[]}");
        File.WriteAllText(Path.Combine(folder.Full, "roll-before.json"), "older still");
        Until(() => panel.Indicators[0] == 1);
        Say(string.Empty);
        Say(string.Empty);
        Assert.Equal([Path.Combine(folder.Full, "roll-before-2.json")], aside);
        Assert.Contains("0BADF00D", File.ReadAllText(aside[0]), StringComparison.Ordinal);
        Assert.Equal("older still", File.ReadAllText(Path.Combine(folder.Full, "roll-before.json")));
        Assert.Equal("yard/call.lamp answered, legends answered", Verdicts());
    }

    [Fact]
    public void A_record_of_this_plan_is_gone_on_with()
    {
        Until(() => panel.Indicators[0] == 1);
        Assert.True(keeper.Keep());
        Assert.True(new RollCallKeeper(Record, roll) { PutAside = aside.Add }.Keep());
        Assert.Empty(aside);
    }

    [Fact]
    public void A_record_that_can_not_be_written_is_told_once_and_ends_nothing()
    {
        Until(() => panel.Indicators[0] == 1);
        Directory.CreateDirectory(Record + ".new");
        Say(string.Empty);
        Say(string.Empty);
        Assert.Contains("can't be written", Assert.Single(failed), StringComparison.Ordinal);
        Assert.Throws<FileProblemException>(() => keeper.Keep());
    }

    [Fact]
    public void Without_an_answer_of_the_panel_nothing_is_touched()
    {
        File.WriteAllText(Record, "mine");
        Assert.False(keeper.Keep());
        Assert.Equal("mine", File.ReadAllText(Record));
    }

    private string Verdicts()
    {
        using var document = JsonDocument.Parse(File.ReadAllText(Record));
        return string.Join(", ", document.RootElement.GetProperty("controls").EnumerateArray().Select(one => $"{one.GetProperty("id").GetString()} {one.GetProperty("verdict").GetString()}"));
    }

    private void Say(string line)
    {
        panel.Receive(roll.Typed(line, ms).AsSpan());
        keeper.Follow();
        for (var step = 0; step < 5; step++)
        {
            Pass();
        }
    }

    private void Pass()
    {
        ms += 10;
        var bytes = panel.Take();
        panel.Receive((bytes.Length > 0 ? roll.Received(bytes, ms) : roll.Tick(ms)).AsSpan());
        keeper.Follow();
    }

    private void Until(Func<bool> come)
    {
        for (var step = 0; !come(); step++)
        {
            Assert.True(step < 1000, "it did not come");
            Pass();
        }
    }
}
