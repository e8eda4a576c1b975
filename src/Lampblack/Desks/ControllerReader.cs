using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Parts;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>Reads what a desk is wired to: <c>[controller]</c>, <c>[wiring]</c>, and what a control says of its wires.</summary>
internal static class ControllerReader
{
    private static readonly ImmutableArray<(string Word, ControllerChip Value)> Chips = [.. Controllers.All.Select(controller => (controller.Name, controller.Chip))];

    // Two bytes, and 0 is nobody's.
    private const int MostUsbNumber = 0xFFFF;

    private static readonly ImmutableArray<(string Word, bool Value)> EncoderWays = [("axes", false), ("buttons", true)];

    /// <summary>The desk's controller; null where it has none, or one that is not known.</summary>
    public static ControllerWish? Read(TableReader root, DeskReading reading)
    {
        var (table, wiring) = (root.Table("controller"), root.Table("wiring"));
        var wish = table is null ? null : Controller(table, reading);
        if (wiring is not null)
        {
            if (table is null)
            {
                reading.Findings.Add(Finding.Warn("key-unused", "`[wiring]` does nothing here: there is no `[controller]`", "add `[controller]` with `chip = \"ATmega2560\"`, or delete it", wiring.Span));
            }

            // A file is read whole, also where its wishes lead nowhere.
            wish = Wiring(wiring, wish ?? new(Controllers.ATmega2560, wiring.Span)) is var told && wish is not null ? told : null;
        }

        return wish;
    }

    /// <summary>How a control is wired; keys that its part has no use for are told of.</summary>
    public static ControlWiring Control(TableReader table, DeskReading reading, Part? part)
    {
        var usual = ControlWiring.Usual;
        var isWired = table.Flag("wired") ?? usual.IsWired;
        var poles = table.Whole("poles", 0, 12);
        var edges = table.Whole("edges", 1, 4);
        var steady = table.Flag("steady");
        var meter = table.Number("meter-current", 0.05, ControlWiring.MostMeterAmperes * 1000) / 1000;
        if (part is null)
        {
            return usual;
        }

        if (edges == 3)
        {
            reading.Findings.Add(Finding.Stop("value-range", "`edges` is 1, 2 or 4, found 3", "look it up on the encoder's sheet; most of 20 or 24 clicks have 4", table.SpanOf("edges")));
            edges = null;
        }

        if (poles > part.Poles && part.Poles > 0)
        {
            reading.Findings.Add(Finding.Stop("value-range", $"`poles` is at most {part.Poles} for `{part.Id}`, found {poles}", "give a smaller number, or take a part with more poles", table.SpanOf("poles")));
            poles = null;
        }

        KeyUnused.Report(table, reading, part.Poles == 0 ? ["poles", "steady"] : [], $"`{part.Id}` is no switch");
        KeyUnused.Report(table, reading, part.Class == PartClass.Encoder ? [] : ["edges"], $"`{part.Id}` is no encoder");
        KeyUnused.Report(table, reading, part is { Class: PartClass.Meter, Illuminated: false } ? [] : ["meter-current"], $"`{part.Id}` is no meter with a pointer");

        // Any other meter may run on 12 V or the mains: only who writes the current says that a pin may move it.
        var hasPointer = part is { Class: PartClass.Meter, Illuminated: false } && (meter is not null || reading.Pointers.Contains(part.Id));
        return new(isWired, poles ?? usual.PoleCount, edges ?? usual.EdgesPerDetent, steady) { HasPointer = hasPointer, MeterAmperes = meter ?? usual.MeterAmperes };
    }

    private static ControllerWish? Controller(TableReader table, DeskReading reading)
    {
        if (!table.Has("chip"))
        {
            reading.Findings.Add(Finding.Stop("key-missing", "`controller` has no `chip`", "such as `chip = \"ATmega2560\"`", table.Span));
        }

        var chip = table.Choice("chip", Chips);
        var baud = table.Whole("baud", 1200, 2_000_000);
        var reserved = table.Texts("reserved");
        var (vendor, product) = (table.Whole("usb-vendor", 1, MostUsbNumber), table.Whole("usb-product", 1, MostUsbNumber));
        var strike = table.Choice("usb-encoders", EncoderWays);
        table.Finish();
        if (chip is not { } known)
        {
            return null;
        }

        var controller = Controllers.Of(known);
        KeyUnused.Report(table, reading, known == ControllerChip.ATmega32U4 ? [] : ["usb-vendor", "usb-product", "usb-encoders"], $"the {controller.Name} has no USB of its own");
        return new(controller, table.Span)
        {
            Baud = baud ?? ControllerWish.UsualBaud,
            UsbVendorId = vendor,
            UsbProductId = product,
            EncodersStrike = strike ?? false,
            Reserved = [.. reserved.Select(name => Reserved(name, controller, reading.Findings)).OfType<ControllerPin>().Distinct()],
        };
    }

    private static ControllerPin? Reserved(TextNode name, Controller controller, List<Finding> findings)
    {
        if (controller.Find(name.Value) is { } facts)
        {
            return facts.Pin;
        }

        findings.Add(Finding.Stop(
            "pin-unknown",
            $"the {controller.Name} has no pin {Shown.Quoted(name.Value)} on common boards",
            $"its pins are {controller.Pins[0].Pin.Header} to {controller.Pins.Last(pin => pin.Pin.Header[0] == 'D').Pin.Header} and A0 to {controller.Pins[^1].Pin.Header}; the chip maker's names, such as {controller.Pins[2].Pin.Name}, will do too",
            name.Span));
        return null;
    }

    private static ControllerWish Wiring(TableReader table, ControllerWish usual)
    {
        var wish = usual with
        {
            SlackMm = table.LengthMm("slack", 0, 500) ?? usual.SlackMm,
            CableMm = table.LengthMm("cable", 10, 10_000) ?? usual.CableMm,
            HasDiodes = table.Flag("diodes") ?? usual.HasDiodes,
            MayLadder = table.Flag("ladders") ?? usual.MayLadder,
            LampAmperes = (table.Number("lamp-current", 0.1, 100) / 1000) ?? usual.LampAmperes,
        };
        table.Finish();
        return wish;
    }
}
