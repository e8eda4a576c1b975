using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Parts;
using Lampblack.Wiring;

namespace Lampblack.Firmware;

/// <summary>What a plan must keep to so that the engine can run it.</summary>
internal static class TableRules
{
    /// <summary>Every fault of the plan, not only the first.</summary>
    public static IEnumerable<Finding> Check(ControllerPlan plan) => [.. Pins(plan), .. Places(plan), .. Analog(plan), .. Dimmers(plan), .. Room(plan), .. Pace(plan)];

    /// <summary>A table that does not fit into its place in the chip's memory.</summary>
    public static Finding TooLong(ControllerPlan plan, int length) => Finding.Stop(
        "firmware-room",
        Text($"{Name(plan)}'s table takes {length} bytes; there is room for {EngineLimits.TableBytes}"),
        "lay the rows on fewer ports, or share the desk among more controllers");

    private static IEnumerable<Finding> Pins(ControllerPlan plan)
    {
        var uses = Uses(plan).ToList();
        foreach (var (pin, use, item) in uses)
        {
            if (!EnginePins.Exists(plan.Chip, pin))
            {
                yield return Pin(plan, $"{Shown(pin)} for {use}: {plan.Chip} has no such pin", item);
            }
            else if (EnginePins.KeptFor(plan.Chip, pin) is { } kept)
            {
                yield return Pin(plan, $"{Shown(pin)} for {use}: it is kept for {kept}", item);
            }
        }

        foreach (var twice in uses.GroupBy(use => use.Pin.Name).Where(group => group.Count() > 1))
        {
            yield return Pin(plan, $"{Shown(twice.First().Pin)} is used more than once: {string.Join(", ", twice.Select(use => use.Use).Distinct())}", twice.Last().Item);
        }
    }

    private static IEnumerable<(ControllerPin Pin, string Use, string? Item)> Uses(ControllerPlan plan) =>
    [
        .. plan.Columns.Select((pin, index) => (pin, Text($"column {index}"), (string?)null)),
        .. plan.Rows.Select((pin, index) => (pin, Text($"row {index}"), (string?)null)),
        .. plan.Contacts.Where(contact => contact.Place is DirectInput).Select(contact => (((DirectInput)contact.Place).Pin, contact.ItemId, (string?)contact.ItemId)),
        .. plan.Encoders.SelectMany(encoder => new[] { (encoder.PhaseA, encoder.ItemId + " phase A", (string?)encoder.ItemId), (encoder.PhaseB, encoder.ItemId + " phase B", encoder.ItemId) }),
        .. plan.Wipers.Select(wiper => (wiper.Pin, wiper.ItemId, (string?)wiper.ItemId)),
        .. plan.Ladders.Select(ladder => (ladder.Pin, ladder.ItemId, (string?)ladder.ItemId)),
        .. plan.Indicators.Where(lamp => lamp.Place is DirectOutput).Select(lamp => (((DirectOutput)lamp.Place).Pin, lamp.ItemId, (string?)lamp.ItemId)),
        .. plan.Dimmers.Select(dimmer => (dimmer.Pin, "the dimmer of " + dimmer.Channel, (string?)null)),
        .. plan.Inputs is { } inputs ? new[] { (inputs.Load, "the inputs' load", (string?)null), (inputs.Clock, "the inputs' clock", null), (inputs.Data, "the inputs' data", null) } : [],
        .. plan.Outputs is { } outputs ? new[] { (outputs.Data, "the outputs' data", (string?)null), (outputs.Clock, "the outputs' clock", null), (outputs.Latch, "the outputs' latch", null) } : [],
    ];

    private static IEnumerable<Finding> Places(ControllerPlan plan)
    {
        foreach (var contact in plan.Contacts)
        {
            var isThere = contact.Place switch
            {
                MatrixInput matrix => Within(matrix.Column, plan.Columns.Length) && Within(matrix.Row, plan.Rows.Length),
                ChainInput chain => Within(chain.Chip, plan.Inputs?.ChipCount ?? 0) && Within(chain.Input, 8),
                _ => true,
            };
            if (!isThere)
            {
                yield return Place(plan, contact.ItemId, contact.Place.ToString()!);
            }
        }

        foreach (var twice in plan.Contacts.Where(contact => contact.Place is not DirectInput).GroupBy(contact => contact.Place).Where(group => group.Count() > 1))
        {
            yield return Place(plan, twice.Last().ItemId, $"{twice.Key}, where {twice.First().ItemId} is already");
        }

        foreach (var lamp in plan.Indicators)
        {
            if (lamp.Place is ChainOutput chain && !(Within(chain.Chip, plan.Outputs?.ChipCount ?? 0) && Within(chain.Output, 8)))
            {
                yield return Place(plan, lamp.ItemId, lamp.Place.ToString());
            }
        }
    }

    private static IEnumerable<Finding> Analog(ControllerPlan plan)
    {
        foreach (var (pin, channel, item) in plan.Wipers.Select(wiper => (wiper.Pin, wiper.AnalogChannel, wiper.ItemId))
            .Concat(plan.Ladders.Select(ladder => (ladder.Pin, ladder.AnalogChannel, ladder.ItemId))))
        {
            var wanted = EnginePins.AnalogPin(plan.Chip, channel);
            if (wanted != pin.Name)
            {
                yield return Pin(plan, Text($"{Shown(pin)} for {item} does not measure channel {channel} on {plan.Chip}") + (wanted.Length == 0 ? string.Empty : $"; {wanted} does"), item);
            }
        }

        foreach (var ladder in plan.Ladders)
        {
            var ordered = ladder.Windows.OrderBy(window => window.LowCount).ToList();
            var wrong = ladder.Windows.Length is 0 or > 250
                || ordered.Any(window => window.LowCount < 0 || window.HighCount > 1023 || window.LowCount > window.HighCount)
                || ordered.Zip(ordered.Skip(1)).Any(pair => pair.First.HighCount >= pair.Second.LowCount);
            if (wrong)
            {
                yield return Finding.Stop(
                    "firmware-ladder", $"{ladder.ItemId}: its windows overlap, lie outside 0 to 1023, or there are none",
                    "choose other resistors for the ladder, or read the selector by contacts", item: ladder.ItemId);
            }
        }
    }

    private static IEnumerable<Finding> Dimmers(ControllerPlan plan)
    {
        foreach (var dimmer in plan.Dimmers.Where(dimmer => EnginePins.TimerOf(plan.Chip, dimmer.Pin) is null))
        {
            yield return Pin(plan, $"{Shown(dimmer.Pin)} for {dimmer.Channel} can't dim on {plan.Chip}; allowed are {string.Join(", ", EnginePins.Dimmable(plan.Chip))}", null);
        }

        var timers = TableBody.Timers(plan).ToDictionary(timer => timer.Timer);
        foreach (var dimmer in plan.Dimmers)
        {
            if (EnginePins.TimerOf(plan.Chip, dimmer.Pin) is { } output && timers[output.Timer].PwmHertz < dimmer.PwmHertz * 0.999)
            {
                yield return Finding.Warn(
                    "firmware-dimmer",
                    Text($"{dimmer.Channel} wants {dimmer.PwmHertz:0} switchings a second; the timer of {Shown(dimmer.Pin)} gives {timers[output.Timer].PwmHertz:0}"),
                    "give it a pin of another timer, or ask for fewer");
            }
        }
    }

    private static IEnumerable<Finding> Room(ControllerPlan plan)
    {
        var limits = EngineLimits.Of(plan.Chip);
        (string What, int Count, int Limit)[] counts =
        [
            ("bytes of contacts (columns times ports with rows, ports, chips)", ContactBanks.Count(plan), limits.Banks),
            ("encoders", plan.Encoders.Length, limits.Encoders),
            ("analog inputs", plan.Wipers.Length + plan.Ladders.Length, limits.AnalogInputs),
            ("indicators", plan.Indicators.Length, limits.Indicators),
            ("74HC595", plan.Outputs?.ChipCount ?? 0, limits.OutputChips),
            ("dimmers", plan.Dimmers.Length, limits.Dimmers),
        ];
        foreach (var (what, count, limit) in counts.Where(count => count.Count > count.Limit))
        {
            yield return Finding.Stop(
                "firmware-room", Text($"{Name(plan)} has {count} {what}; {plan.Chip} holds {limit}"), "share the desk among more controllers, or take a larger chip");
        }
    }

    private static IEnumerable<Finding> Pace(ControllerPlan plan)
    {
        var cycles = Places(plan).Any() ? 0 : EnginePace.LadenCycles(plan);
        if (cycles > EnginePace.BeatCycles)
        {
            yield return Finding.Warn(
                "firmware-pace",
                Text($"{Name(plan)} has more to read than it can while everything moves at once: {cycles} of {EnginePace.BeatCycles} cycles a beat. Contacts are told later then, up to twice as late{(plan.Encoders.IsEmpty ? string.Empty : ", and an encoder turned at full speed may lose steps")}{Standing(plan)}"),
                "lay the rows on fewer ports, give encoders or columns to another controller, or take a slower link");
        }
    }

    private static string Standing(ControllerPlan plan) =>
        plan.Ladders.IsEmpty ? string.Empty : Text($", and a selector on a ladder has to stand for {EnginePace.LadderHoldMs(plan)} ms at a position that is to be told");

    private static Finding Pin(ControllerPlan plan, string what, string? item) =>
        Finding.Stop("firmware-pin", $"{Name(plan)}: {what}", "let the pins be planned again, or name another pin", item: item);

    private static Finding Place(ControllerPlan plan, string item, string where) =>
        Finding.Stop("firmware-place", $"{Name(plan)}: {item} is planned at a place that the controller has not: {where}", "let the pins be planned again", item: item);

    private static bool Within(int index, int count) => index >= 0 && index < count;

    private static string Shown(ControllerPin pin) => pin.Header.Length == 0 ? pin.Name : $"{pin.Header} ({pin.Name})";

    private static string Name(ControllerPlan plan) => Text($"controller {plan.Index + 1}");

    private static string Text(System.FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
