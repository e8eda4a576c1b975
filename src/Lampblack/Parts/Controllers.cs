using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;

namespace Lampblack.Parts;

/// <summary>The controllers that the firmware runs on. Pins by the public tables of common boards; limits by the chips' data sheets; which timer drives a pin from memory.</summary>
public static class Controllers
{
    // In the order of the numbers on the boards, from 0.
    private const string Pins2560 =
        "E0 E1 E4 E5 G5 E3 H3 H4 H5 H6 B4 B5 B6 B7 J1 J0 H1 H0 D3 D2 D1 D0 A0 A1 A2 A3 A4 A5 A6 A7 C7 C6 C5 C4 C3 C2 C1 C0 D7 G2 G1 G0 L7 L6 L5 L4 L3 L2 L1 L0 B3 B2 B1 B0";

    private const string Pins328 = "D0 D1 D2 D3 D4 D5 D6 D7 B0 B1 B2 B3 B4 B5";

    // D14 to D17 of this chip lie on no header but that of the programmer, and one of them drives a lamp.
    private const string Pins32U4 = "D2 D3 D1 D0 D4 C6 D7 E6 B4 B5 B6 B7 D6 C7";

    /// <summary>The ATmega2560.</summary>
    public static Controller ATmega2560 { get; } = Of(
        ControllerChip.ATmega2560,
        [.. Digital(Pins2560), .. Analog("F0 F1 F2 F3 F4 F5 F6 F7 K0 K1 K2 K3 K4 K5 K6 K7", [.. Enumerable.Range(0, 16)])],
        "E3:3 E4:3 E5:3 H3:4 H4:4 H5:4 B5:1 B6:1 L3:5 L4:5 L5:5 G5:0* B4:2* H6:2* B7:1",
        lamp: "B7",
        twoWire: ("D1", "D0"),
        ("J, A, G2", 0.2, "J A G2"),
        ("C, G0 to G1, D, L", 0.2, "C G0 G1 D L"),
        ("G3 to G4, B, H", 0.2, "G3 G4 B H"),
        ("E, G5", 0.1, "E G5"),
        ("F, K", 0.1, "F K"));

    /// <summary>The ATmega328P.</summary>
    public static Controller ATmega328P { get; } = Of(
        ControllerChip.ATmega328P,
        [.. Digital(Pins328), .. Analog("C0 C1 C2 C3 C4 C5", [.. Enumerable.Range(0, 6)])],
        "B1:1 B2:1 D3:2* D5:0* D6:0- B3:2*",
        lamp: "B5",
        twoWire: ("C4", "C5"),
        ("C0 to C5", 0.1, "C"),
        ("B0 to B5, D5 to D7", 0.1, "B D5 D6 D7"),
        ("D0 to D4", 0.1, "D0 D1 D2 D3 D4"));

    /// <summary>The ATmega32U4. Its sheet names groups of 100 mA; which pins share one is taken port by port, from memory.</summary>
    public static Controller ATmega32U4 { get; } = Of(
        ControllerChip.ATmega32U4,
        [.. Digital(Pins32U4, "D4:8 D7:10 B4:11 B5:12 B6:13 D6:9"), .. Analog("F7 F6 F5 F4 F1 F0", [7, 6, 5, 4, 1, 0])],
        "B5:1 B6:1 B7:1 C6:3 D0:0* D7:4- C7:4-",
        lamp: "C7",
        twoWire: ("D1", "D0"),
        ("B", 0.1, "B"),
        ("C, D", 0.1, "C D"),
        ("E, F", 0.1, "E F"));

    /// <summary>All of them.</summary>
    public static ImmutableArray<Controller> All { get; } = [ATmega2560, ATmega328P, ATmega32U4];

    /// <summary>The controller with a chip.</summary>
    /// <param name="chip">The chip.</param>
    public static Controller Of(ControllerChip chip) => All.First(controller => controller.Chip == chip);

    private static IEnumerable<ControllerPinFacts> Digital(string ports, string analog = "") => ports.Split(' ').Select((port, number) => new ControllerPinFacts(new(port[0], port[1] - '0', $"D{Digits(number)}"))
    {
        AnalogChannel = Channel(analog, port),
    });

    private static IEnumerable<ControllerPinFacts> Analog(string ports, ImmutableArray<int> channels) => ports.Split(' ').Zip(channels).Select((pin, number) => new ControllerPinFacts(new(pin.First[0], pin.First[1] - '0', $"A{Digits(number)}"))
    {
        AnalogChannel = pin.Second,
    });

    private static Controller Of(ControllerChip chip, IEnumerable<ControllerPinFacts> pins, string timers, string lamp, (string Data, string Clock) twoWire, params (string Name, double MostAmperes, string Ports)[] groups)
    {
        ImmutableArray<ControllerPinFacts> all =
        [
            .. pins.Select((facts, place) =>
            {
                var port = facts.Pin.Name[1..];
                var timer = timers.Split(' ').FirstOrDefault(entry => entry.StartsWith(port + ":", StringComparison.Ordinal));
                return facts with
                {
                    Timer = timer is null ? null : timer[3] - '0',
                    IsFineTimer = timer?[^1] is not (null or '*' or '-'),
                    IsCoarseTimer = timer?[^1] == '*',
                    HasLamp = port == lamp,
                    IsTwoWireData = port == twoWire.Data,
                    IsTwoWireClock = port == twoWire.Clock,
                    IsLink = place < 2,
                };
            }),
        ];
        return new(chip, all, [.. groups.Select(group => new CurrentGroup(group.Name, group.MostAmperes, [.. all.Select(facts => facts.Pin).Where(pin => group.Ports.Split(' ').Any(port => pin.Name[1..].StartsWith(port, StringComparison.Ordinal)))]) { IsFromMemory = chip == ControllerChip.ATmega32U4 })]);
    }

    private static int? Channel(string analog, string port) => analog.Split(' ').FirstOrDefault(entry => entry.StartsWith(port + ":", StringComparison.Ordinal)) is { } found
        ? int.Parse(found.AsSpan(3), CultureInfo.InvariantCulture)
        : null;

    private static string Digits(int number) => number.ToString(CultureInfo.InvariantCulture);
}
