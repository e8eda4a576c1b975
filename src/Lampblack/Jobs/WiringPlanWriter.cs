using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Text.Json;
using Lampblack.Parts;
using Lampblack.Wiring;

namespace Lampblack.Jobs;

/// <summary>Writes a controller's plan as properties of an object. Pins by what stands beside them on the board.</summary>
internal static class WiringPlanWriter
{
    public static void Controller(Utf8JsonWriter json, ControllerPlan plan)
    {
        json.WriteString("chip", plan.Chip.ToString());
        json.WriteNumber("baud", plan.Baud);
        if (plan.Usb is { } usb)
        {
            json.WriteStartObject("usb");
            json.WriteNumber("vendor", usb.VendorId);
            json.WriteNumber("product", usb.ProductId);
            json.WriteBoolean("strike", usb.EncodersStrike);
            json.WriteEndObject();
        }

        json.WriteBoolean("diodes", plan.Diodes);
        Pins(json, "columns", plan.Columns);
        Pins(json, "rows", plan.Rows);
        if (plan.Inputs is { } inputs)
        {
            json.WriteStartObject("inputs");
            json.WriteString("load", inputs.Load.Header);
            json.WriteString("clock", inputs.Clock.Header);
            json.WriteString("data", inputs.Data.Header);
            json.WriteNumber("registers", inputs.ChipCount);
            json.WriteEndObject();
        }

        if (plan.Outputs is { } outputs)
        {
            json.WriteStartObject("outputs");
            json.WriteString("data", outputs.Data.Header);
            json.WriteString("clock", outputs.Clock.Header);
            json.WriteString("latch", outputs.Latch.Header);
            json.WriteNumber("registers", outputs.ChipCount);
            json.WriteEndObject();
        }

        All(json, "contacts", plan.Contacts, one =>
        {
            json.WriteString("control", one.ItemId);
            Place(json, one.Place);
            json.WriteBoolean("steady", one.Steady);
        });
        All(json, "encoders", plan.Encoders, one =>
        {
            json.WriteString("control", one.ItemId);
            json.WriteString("a", one.PhaseA.Header);
            json.WriteString("b", one.PhaseB.Header);
            json.WriteNumber("edges", one.EdgesPerDetent);
        });
        All(json, "wipers", plan.Wipers, one => Analog(json, one.ItemId, one.Pin, one.AnalogChannel));
        All(json, "ladders", plan.Ladders, one =>
        {
            Analog(json, one.ItemId, one.Pin, one.AnalogChannel);
            json.WriteStartArray("windows");
            foreach (var window in one.Windows)
            {
                json.WriteStartArray();
                json.WriteNumberValue(window.LowCount);
                json.WriteNumberValue(window.HighCount);
                json.WriteEndArray();
            }

            json.WriteEndArray();
        });
        All(json, "indicators", plan.Indicators, one =>
        {
            json.WriteString("control", one.ItemId);
            Place(json, one.Place);
        });
        All(json, "dimmers", plan.Dimmers, one =>
        {
            json.WriteString("channel", one.Channel);
            json.WriteString("pin", one.Pin.Header);
            json.Number("hertz", one.PwmHertz, 3);
            if (one.IsMeter)
            {
                json.WriteBoolean("meter", true);
                json.Number("milliamperes", one.FullScaleAmperes * 1000, 4);
            }
        });
        if (!plan.DataLines.IsEmpty)
        {
            All(json, "data", plan.DataLines, one =>
            {
                json.WriteString("control", one.ItemId);
                json.WriteString("terminal", one.Terminal);
                json.WriteString("pin", one.Pin.Header);
            });
        }
    }

    public static void Control(Utf8JsonWriter json, WiredControl control)
    {
        json.WriteStartObject();
        json.WriteString("id", control.Id);
        json.WriteString("name", control.Name);
        json.WriteString("kind", control.Kind.ToString().ToLowerInvariant());
        json.WriteNumber("controller", control.Controller);
        json.WriteStartArray("contacts");
        foreach (var contact in control.Contacts)
        {
            json.WriteNumberValue(contact);
        }

        json.WriteEndArray();
        json.WriteNumber("number", control.Number);
        All(json, "states", control.States, state =>
        {
            json.WriteString("name", state.Name);
            json.WriteStartArray("closed");
            foreach (var closed in state.Closed)
            {
                json.WriteBooleanValue(closed);
            }

            json.WriteEndArray();
        });
        json.WriteBoolean("breaks", control.BreaksBetween);
        json.WriteBoolean("momentary", control.Momentary);
        json.WriteNumber("rest", control.RestState);
        json.WriteEndObject();
    }

    private static void Analog(Utf8JsonWriter json, string item, ControllerPin pin, int channel)
    {
        json.WriteString("control", item);
        json.WriteString("pin", pin.Header);
        json.WriteNumber("channel", channel);
    }

    /// <summary>Where a contact or a lamp is: a pin by its name, anything else by two numbers.</summary>
    /// <param name="json">The writer.</param>
    /// <param name="place">An <see cref="InputPlace"/> or an <see cref="OutputPlace"/>.</param>
    private static void Place(Utf8JsonWriter json, object place)
    {
        (ControllerPin? Pin, (string Name, int Number)[] Numbers) written = place switch
        {
            DirectInput direct => (direct.Pin, []),
            DirectOutput direct => (direct.Pin, []),
            MatrixInput at => (null, [("column", at.Column), ("row", at.Row)]),
            ChainInput at => (null, [("register", at.Chip), ("input", at.Input)]),
            ChainOutput at => (null, [("register", at.Chip), ("output", at.Output)]),
            _ => throw new ArgumentOutOfRangeException(nameof(place)),
        };
        if (written.Pin is { } pin)
        {
            json.WriteString("pin", pin.Header);
        }

        foreach (var (name, number) in written.Numbers)
        {
            json.WriteNumber(name, number);
        }
    }

    private static void Pins(Utf8JsonWriter json, string name, ImmutableArray<ControllerPin> pins)
    {
        json.WriteStartArray(name);
        foreach (var pin in pins)
        {
            json.WriteStringValue(pin.Header);
        }

        json.WriteEndArray();
    }

    private static void All<T>(Utf8JsonWriter json, string name, IEnumerable<T> entries, Action<T> write)
    {
        json.WriteStartArray(name);
        foreach (var entry in entries)
        {
            json.WriteStartObject();
            write(entry);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
