using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.RollCalls;
using Lampblack.Tests.Link;
using Xunit;

namespace Lampblack.Tests.RollCalls;

public sealed class RollCallFaultTests(ITestOutputHelper output)
{
    /// <summary>500 take minutes; a part of them says the same in the normal run.</summary>
    private static readonly int Panels = Environment.GetEnvironmentVariable("LAMPBLACK_LONG") == "1" ? 500 : 60;

    /// <summary>
    /// The panels are made of parts that know nothing of the model by which faults are found. A fault that changes no frame of the whole roll-call
    /// can't be found by anyone who sees frames only (a short between two rows that share no column, say): it is counted and another is drawn.
    /// </summary>
    [Fact]
    public void Of_single_faults_98_percent_are_named_and_none_passes_as_good()
    {
        XorShift chance = new(501);
        List<string> passed = [];
        List<string> unnamed = [];
        SortedDictionary<string, (int Drawn, int Named, int First)> kinds = new(StringComparer.Ordinal);
        List<int> counts = [];
        var silent = 0;
        for (var drawn = 0; drawn < Panels;)
        {
            var start = (ulong)(1000 + chance.Below(1_000_000));
            var desk = RandomDesk.Make(new(start));
            if (RandomFault.Draw(chance.Of(RandomFault.Kinds), desk, chance) is not { } fault)
            {
                continue;
            }

            NetPanel panel = new(desk.Controllers[0], new(start));
            var record = Call(desk, panel, start, fault);
            if (record.IsGood && panel.Log.SequenceEqual(LogOfGood(desk, start)))
            {
                silent++;
                continue;
            }

            drawn++;
            List<string> causes = fault.Lamp is null ? [.. record.Causes] : [.. record.Results.SelectMany(result => result.Said)];
            var place = causes.FindIndex(cause => fault.Words.All(word => cause.Contains(word, StringComparison.Ordinal)));
            var so = kinds.GetValueOrDefault(fault.Kind);
            kinds[fault.Kind] = (so.Drawn + 1, so.Named + (place is >= 0 and < 3 ? 1 : 0), so.First + (place == 0 ? 1 : 0));
            counts.Add(causes.Count);
            if (record.IsGood)
            {
                var good = LogOfGood(desk, start);
                passed.Add($"{start} {fault.Kind}: {string.Join(" | ", fault.Words)}; {good.Count} and {panel.Log.Count} lines, first other {good.Zip(panel.Log).FirstOrDefault(pair => pair.First != pair.Second)}");
            }

            if (place is < 0 or >= 3)
            {
                unnamed.Add($"{start} {fault.Kind} at {place} of {causes.Count}: {string.Join(" | ", fault.Words)} -> {string.Join(" / ", causes.Take(4))}");
            }
        }

        foreach (var (kind, count) in kinds)
        {
            output.WriteLine($"{kind}: {count.Named} of {count.Drawn} named among the first three, {count.First} first");
        }

        output.WriteLine($"{silent} drawn again because no frame changed; causes told: median {counts.Order().ElementAt(counts.Count / 2)}, most {counts.Max()}");
        passed.ForEach(output.WriteLine);
        unnamed.ForEach(output.WriteLine);
        Assert.Empty(passed);
        Assert.True(unnamed.Count <= Panels * 2 / 100, $"{unnamed.Count} of {Panels} were not named:\n{string.Join('\n', unnamed)}");
    }

    [Fact]
    public void Of_good_panels_none_is_called_faulty()
    {
        XorShift chance = new(77);
        for (var drawn = 0; drawn < Panels; drawn++)
        {
            var start = (ulong)(5_000_000 + chance.Below(1_000_000));
            var desk = RandomDesk.Make(new(start));
            NetPanel panel = new(desk.Controllers[0], new(start));
            Maker maker = new(desk, panel, new(start + 1), new(desk, 0, [], []));
            maker.Prepare();
            var record = maker.Call();
            Assert.True(record.IsGood, $"{start}: {string.Join(" / ", record.Results.SelectMany(result => result.Said))}");
            Assert.Empty(record.Causes);
            Assert.Equal(0, maker.Entered);
        }
    }

    private static RollCallRecord Call(Lampblack.Wiring.PinPlan desk, NetPanel panel, ulong start, RandomFault fault)
    {
        fault.Make(panel);
        Maker maker = new(desk, panel, new(start + 1), new(desk, 0, [], []));
        maker.Prepare();
        return maker.Call(id => id == fault.Lamp ? RollCallAnswer.No : RollCallAnswer.Done);
    }

    private static List<string> LogOfGood(Lampblack.Wiring.PinPlan desk, ulong start)
    {
        NetPanel panel = new(desk.Controllers[0], new(start));
        Maker maker = new(desk, panel, new(start + 1), new(desk, 0, [], []));
        maker.Prepare();
        maker.Call();
        return panel.Log;
    }
}
