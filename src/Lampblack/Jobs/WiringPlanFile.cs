using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Text.Json;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Parts;
using Lampblack.Wiring;

namespace Lampblack.Jobs;

/// <summary>The pin plan as a file: what the next build keeps to, so that a change moves no wire that it need not. Written with every build of a desk that has a controller.</summary>
public static class WiringPlanFile
{
    /// <summary>Its path, relative to the output folder.</summary>
    public const string Path = "wiring/plan.json";

    /// <summary>What stands as <c>schema</c> in it.</summary>
    public const string Schema = "lampblack-wiring/1";

    // The firmware's lists are shorter; what is longer is not ours.
    private const int MostEntries = 2000;
    private const int MostRegisters = 32;
    private const int RegisterPins = 8;

    /// <summary>The file among a build's outputs.</summary>
    internal static OutputFile Write(PinPlan plan) => new(Path, "which pin reads and drives what; the next build keeps to it", Written(plan));

    /// <summary>The file of an earlier build, for one that plans no wires: what is soldered stays soldered, and the desk may get its controller back. Null where there is none that can be read.</summary>
    internal static OutputFile? Kept(ImmutableArray<byte> bytes) =>
        Read(bytes).Value is null ? null : new(Path, "which pin reads and drives what, from an earlier build that planned wires; kept for the next one that does", bytes);

    /// <summary>The file's bytes.</summary>
    /// <param name="plan">The plan.</param>
    public static ImmutableArray<byte> Written(PinPlan plan) => JsonBytes.Write(json =>
    {
        json.WriteString("schema", Schema);
        json.WriteStartArray("controllers");
        foreach (var controller in plan.Controllers)
        {
            json.WriteStartObject();
            WiringPlanWriter.Controller(json, controller);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("controls");
        foreach (var control in plan.Controls)
        {
            WiringPlanWriter.Control(json, control);
        }

        json.WriteEndArray();
    });

    /// <summary>Reads a file of an earlier build. Null and a note where it can't be read, or numbers in it lead nowhere; null alone where there is none.</summary>
    /// <param name="bytes">The file; empty for none.</param>
    public static Checked<PinPlan?> Read(ImmutableArray<byte> bytes)
    {
        if (bytes.IsDefaultOrEmpty)
        {
            return new(null, []);
        }

        try
        {
            using var document = JsonDocument.Parse(bytes.AsMemory());
            var root = document.RootElement;
            if (root.GetProperty("schema").GetString() != Schema)
            {
                throw new FormatException("another schema");
            }

            PinPlan plan = new([.. Entries(root, "controllers").Select((entry, index) => Controller(entry, index))], [.. Entries(root, "controls").Select(Control).DistinctBy(control => control.Id)]);
            return new(PinPlanSense.Holds(plan) ? plan : throw new FormatException("a number leads nowhere"), []);
        }
        catch (Exception fault) when (fault is JsonException or KeyNotFoundException or InvalidOperationException or FormatException or ArgumentException)
        {
            return new(null, [Finding.Note("wiring-plan-unreadable", $"`{Path}` of the last build can't be read, so the wiring is planned anew", "compare the new wire list with what is soldered already")]);
        }
    }

    private static WiredControl Control(JsonElement entry) => new()
    {
        Id = Word(entry, "id"),
        Name = Word(entry, "name"),
        Kind = Enum.TryParse<WiredKind>(Word(entry, "kind"), ignoreCase: true, out var kind) && Enum.IsDefined(kind) ? kind : throw new FormatException("kind"),
        Controller = entry.GetProperty("controller").GetInt32(),
        Contacts = [.. Entries(entry, "contacts").Select(contact => contact.GetInt32())],
        Number = entry.GetProperty("number").GetInt32(),
        States = [.. Entries(entry, "states").Select(state => new WiredState(Word(state, "name"), [.. Entries(state, "closed").Select(closed => closed.GetBoolean())]))],
        BreaksBetween = entry.GetProperty("breaks").GetBoolean(),
        Momentary = entry.GetProperty("momentary").GetBoolean(),
        RestState = entry.GetProperty("rest").GetInt32(),
    };

    private static ControllerPlan Controller(JsonElement entry, int index)
    {
        var name = Word(entry, "chip");
        var controller = Controllers.All.FirstOrDefault(known => known.Name == name) ?? throw new FormatException(name);
        ControllerPin Pin(JsonElement parent, string key) => Named(parent.GetProperty(key));
        ControllerPin Named(JsonElement pin) => controller.Find(pin.GetString() ?? string.Empty)?.Pin ?? throw new FormatException("no such pin");
        ImmutableArray<ControllerPin> Pins(string key) => [.. entry.GetProperty(key).EnumerateArray().Take(MostEntries).Select(Named)];
        ImmutableArray<T> All<T>(string key, Func<JsonElement, T> read) => [.. Entries(entry, key).Select(read)];
        InputPlace Place(JsonElement one) => one.TryGetProperty("pin", out var pin) ? new DirectInput(Named(pin))
            : one.TryGetProperty("column", out var column) ? new MatrixInput(Within(column, entry.GetProperty("columns").GetArrayLength()), Within(one.GetProperty("row"), entry.GetProperty("rows").GetArrayLength()))
            : new ChainInput(Within(one.GetProperty("register"), Registers("inputs")), Within(one.GetProperty("input"), RegisterPins));
        OutputPlace Lamp(JsonElement one) => one.TryGetProperty("pin", out var pin) ? new DirectOutput(Named(pin))
            : new ChainOutput(Within(one.GetProperty("register"), Registers("outputs")), Within(one.GetProperty("output"), RegisterPins));
        int Registers(string key) => Within(entry.GetProperty(key).GetProperty("registers"), MostRegisters + 1);
        return new()
        {
            Index = index,
            Chip = controller.Chip,
            Baud = entry.GetProperty("baud").GetInt32(),
            Usb = entry.TryGetProperty("usb", out var usb) ? new(UsbNumber(usb, "vendor"), UsbNumber(usb, "product"), usb.GetProperty("strike").GetBoolean()) : null,
            Diodes = entry.GetProperty("diodes").GetBoolean(),
            Columns = Pins("columns"),
            Rows = Pins("rows"),
            Inputs = entry.TryGetProperty("inputs", out var inputs) ? new(Pin(inputs, "load"), Pin(inputs, "clock"), Pin(inputs, "data"), Registers("inputs")) : null,
            Outputs = entry.TryGetProperty("outputs", out var outputs) ? new(Pin(outputs, "data"), Pin(outputs, "clock"), Pin(outputs, "latch"), Registers("outputs")) : null,
            Contacts = All("contacts", one => new PlannedContact(Word(one, "control"), Place(one), one.GetProperty("steady").GetBoolean())),
            Encoders = All("encoders", one => new PlannedEncoder(Word(one, "control"), Pin(one, "a"), Pin(one, "b"), one.GetProperty("edges").GetInt32())),
            Wipers = All("wipers", one => new PlannedWiper(Word(one, "control"), Pin(one, "pin"), one.GetProperty("channel").GetInt32())),
            Ladders = All("ladders", one => new PlannedLadder(Word(one, "control"), Pin(one, "pin"), one.GetProperty("channel").GetInt32(), [.. Entries(one, "windows").Select(window => window.GetArrayLength() == 2 ? new LadderWindow(window[0].GetInt32(), window[1].GetInt32()) : throw new FormatException("windows"))])),
            Indicators = All("indicators", one => new PlannedIndicator(Word(one, "control"), Lamp(one))),
            Dimmers = All("dimmers", one => new PlannedDimmer(Word(one, "channel"), Pin(one, "pin"), one.GetProperty("hertz").GetDouble() is var hertz and > 0 and < 1e7 ? hertz : throw new FormatException("hertz"), one.TryGetProperty("meter", out var meter) && meter.GetBoolean()) { FullScaleAmperes = Amperes(one) }),
            DataLines = entry.TryGetProperty("data", out _) ? All("data", one => new PlannedDataLine(Word(one, "control"), Word(one, "terminal"), Pin(one, "pin"))) : [],
        };
    }

    /// <summary>A meter's current; what is usual where an older file says nothing.</summary>
    private static double Amperes(JsonElement dimmer) => !dimmer.TryGetProperty("milliamperes", out var current) ? ControlWiring.UsualMeterAmperes
        : current.GetDouble() / 1000 is var amperes and > 0 and <= ControlWiring.MostMeterAmperes ? amperes : throw new FormatException("milliamperes");

    private static IEnumerable<JsonElement> Entries(JsonElement parent, string key) =>
        parent.GetProperty(key) is { ValueKind: JsonValueKind.Array } list && list.GetArrayLength() <= MostEntries ? list.EnumerateArray() : throw new FormatException(key);

    /// <summary>A number from 0 up to, but not, a count.</summary>
    private static int Within(JsonElement number, int count) => number.GetInt32() is var value && value >= 0 && value < count ? value : throw new FormatException("out of range");

    private static int UsbNumber(JsonElement usb, string key) => Within(usb.GetProperty(key), 0x10000) is var number and > 0 ? number : throw new FormatException(key);

    private static string Word(JsonElement parent, string key) => parent.GetProperty(key).GetString() is { Length: > 0 } word ? word : throw new FormatException(key);
}
