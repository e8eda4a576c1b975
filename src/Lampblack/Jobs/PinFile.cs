using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using System.Text.Json;
using Lampblack.Findings;
using Lampblack.Parts;
using Lampblack.Wiring;

namespace Lampblack.Jobs;

/// <summary>Reads a plan of pins from JSON (<c>lampblack-pins/1</c>), strictly. Pins are "PD0 D21", places "pin PD0 D21", "matrix COLUMN ROW", "chain CHIP INPUT".</summary>
internal static class PinFile
{
    private const string Schema = "lampblack-pins/1";

    /// <summary>The plan; null beside a <c>stop</c> finding.</summary>
    public static PinPlan? Read(ReadOnlySpan<byte> bytes, string name, List<Finding> findings)
    {
        try
        {
            using var document = JsonDocument.Parse(bytes.ToArray());
            var root = document.RootElement;
            if (Text(root, "schema") != Schema)
            {
                throw new FormatException($"its schema is not {Schema}");
            }

            PinPlan plan = new([.. List(root, "controllers", Controller)], [.. List(root, "controls", Control)]);
            Check(plan);
            return plan;
        }
        catch (Exception problem) when (problem is JsonException or FormatException or InvalidOperationException or KeyNotFoundException or OverflowException or ArgumentException)
        {
            findings.Add(Finding.Stop("pin-file", $"{Shown.Code(name)} is no plan of pins: {Shown.Short(problem.Message)}", "make it anew"));
            return null;
        }
    }

    private static ControllerPlan Controller(JsonElement one) => new()
    {
        Index = Whole(one, "index"),
        Chip = Enum.Parse<ControllerChip>(Text(one, "chip")),
        Baud = one.TryGetProperty("baud", out _) ? Whole(one, "baud") : 250_000,
        Diodes = !one.TryGetProperty("diodes", out _) || Flag(one, "diodes"),
        Columns = [.. List(one, "columns", pin => Pin(pin.GetString()!))],
        Rows = [.. List(one, "rows", pin => Pin(pin.GetString()!))],
        Inputs = one.TryGetProperty("shiftIn", out var shiftIn) ? new(PinOf(shiftIn, "load"), PinOf(shiftIn, "clock"), PinOf(shiftIn, "data"), Whole(shiftIn, "chips")) : null,
        Outputs = one.TryGetProperty("shiftOut", out var shiftOut) ? new(PinOf(shiftOut, "data"), PinOf(shiftOut, "clock"), PinOf(shiftOut, "latch"), Whole(shiftOut, "chips")) : null,
        Contacts = [.. List(one, "contacts", contact => new PlannedContact(Text(contact, "item"), Input(Text(contact, "at")), Flag(contact, "steady")))],
        Encoders = [.. List(one, "encoders", encoder => new PlannedEncoder(Text(encoder, "item"), PinOf(encoder, "a"), PinOf(encoder, "b"), Whole(encoder, "edges")))],
        Wipers = [.. List(one, "wipers", wiper => new PlannedWiper(Text(wiper, "item"), PinOf(wiper, "pin"), Whole(wiper, "channel")))],
        Ladders = [.. List(one, "ladders", ladder => new PlannedLadder(
            Text(ladder, "item"), PinOf(ladder, "pin"), Whole(ladder, "channel"), [.. List(ladder, "windows", window => new LadderWindow(window[0].GetInt32(), window[1].GetInt32()))]))],
        Indicators = [.. List(one, "indicators", lamp => new PlannedIndicator(Text(lamp, "item"), Output(Text(lamp, "at"))))],
        Dimmers = [.. List(one, "dimmers", dimmer => new PlannedDimmer(Text(dimmer, "channel"), PinOf(dimmer, "pin"), dimmer.GetProperty("hertz").GetDouble()))],
    };

    private static WiredControl Control(JsonElement one) => new()
    {
        Id = Text(one, "id"),
        Name = one.TryGetProperty("name", out _) ? Text(one, "name") : Text(one, "id"),
        Kind = Enum.Parse<WiredKind>(Text(one, "kind"), ignoreCase: true),
        Controller = Whole(one, "controller"),
        Contacts = [.. List(one, "contacts", contact => contact.GetInt32())],
        Number = one.TryGetProperty("number", out _) ? Whole(one, "number") : -1,
        States = [.. List(one, "states", state => new WiredState(Text(state, "name"), [.. List(state, "closed", closed => closed.GetBoolean())]))],
        BreaksBetween = Flag(one, "breaks"),
        Momentary = Flag(one, "momentary"),
        RestState = one.TryGetProperty("rest", out _) ? Whole(one, "rest") : 0,
    };

    /// <summary>Numbers that lead nowhere are found here, so that nobody after this has to ask.</summary>
    private static void Check(PinPlan plan)
    {
        var isFine = plan.Controllers.Length > 0 && plan.Controllers.Index().All(one => one.Index == one.Item.Index)
            && plan.Controllers.All(one => one.Contacts.All(contact => contact.Place is not MatrixInput at || (Has(one.Columns.Length, at.Column) && Has(one.Rows.Length, at.Row))))
            && plan.Controllers.All(one => one.Encoders.All(encoder => encoder.EdgesPerDetent is 1 or 2 or 4))
            && plan.Controls.All(control => Has(plan.Controllers.Length, control.Controller) && IsFine(control, plan.Controllers[control.Controller]));
        if (!isFine)
        {
            throw new FormatException("a number in it leads nowhere");
        }
    }

    private static bool IsFine(WiredControl control, ControllerPlan controller) => control.Kind switch
    {
        WiredKind.Encoder => Has(controller.Encoders.Length, control.Number),
        WiredKind.Analog => Has(controller.Wipers.Length, control.Number),
        WiredKind.Indicator => Has(controller.Indicators.Length, control.Number),
        _ => Has(control.States.Length, control.RestState) && (control.Contacts.IsEmpty
            ? Has(controller.Ladders.Length, control.Number)
            : control.Contacts.All(contact => Has(controller.Contacts.Length, contact)) && control.States.All(state => state.Closed.Length == control.Contacts.Length)),
    };

    private static bool Has(int count, int number) => number >= 0 && number < count;

    private static InputPlace Input(string text) => text.Split(' ') switch
    {
        ["pin", var name, var header] => new DirectInput(Pin($"{name} {header}")),
        ["matrix", var column, var row] => new MatrixInput(Number(column), Number(row)),
        ["chain", var chip, var input] => new ChainInput(Number(chip), Number(input)),
        _ => throw new FormatException($"no place is {text}"),
    };

    private static OutputPlace Output(string text) => text.Split(' ') switch
    {
        ["pin", var name, var header] => new DirectOutput(Pin($"{name} {header}")),
        ["chain", var chip, var output] => new ChainOutput(Number(chip), Number(output)),
        _ => throw new FormatException($"no place is {text}"),
    };

    private static ControllerPin PinOf(JsonElement one, string key) => Pin(Text(one, key));

    private static ControllerPin Pin(string text) => text.Split(' ') switch
    {
        [['P', >= 'A' and <= 'L', >= '0' and <= '7'] name, var header] => new(name[1], name[2] - '0', header),
        _ => throw new FormatException($"no pin is {text}"),
    };

    private static int Number(string text) => int.Parse(text, NumberStyles.None, CultureInfo.InvariantCulture);

    private static string Text(JsonElement one, string key) => one.GetProperty(key).GetString() ?? throw new FormatException($"{key} is empty");

    private static int Whole(JsonElement one, string key) => one.GetProperty(key).GetInt32();

    private static bool Flag(JsonElement one, string key) => one.TryGetProperty(key, out var flag) && flag.GetBoolean();

    private static IEnumerable<T> List<T>(JsonElement one, string key, Func<JsonElement, T> read) =>
        one.TryGetProperty(key, out var list) ? list.EnumerateArray().Select(read) : [];
}
