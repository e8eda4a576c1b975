using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Tests.Suites;
using Lampblack.Tests.Wiring;
using Lampblack.Wiring;
using Xunit;

namespace Lampblack.Tests.Peers.Kernel;

/// <summary>
/// The panel as a game controller at a kernel that is in daily use: its USB core enumerates the simulated ATmega32U4 over usb/IP, its drivers read the
/// firmware's descriptors and reports, and its input devices tell what the desk's controls do. Nothing between knows the desk.
/// </summary>
public sealed class RealKernelTests
{
    // linux/input-event-codes.h: EV_KEY, EV_ABS, BTN_JOYSTICK, BTN_TRIGGER_HAPPY; the first 16 buttons of a joystick count from the one, all further from the other.
    private const int KeyEvent = 1;
    private const int AxisEvent = 3;
    private const int Joystick = 0x120;
    private const int Further = 0x2C0;

    /// <summary>Buttons of which the kernel knows a code: 16, and 64 up to KEY_MAX.</summary>
    private const int Coded = 80;

    /// <summary>A contact that is closed when the panel gets power.</summary>
    private const int Closed = 2;

    private static readonly string Items = WiredDesk.Many("toggle-mini-on-on", 5, "damper") + WiredDesk.Many("button-12-momentary", 4, "call", left: 300) + WiredDesk.Many("rotary-12x30", 1, "zone", left: 600)
        + WiredDesk.Many("pot-9mm", 2, "heat", left: 20, top: 600) + WiredDesk.Many("slider-60", 1, "draught", left: 300, top: 600) + WiredDesk.Many("encoder-m7", 1, "hours", left: 600, top: 600);

    [Fact]
    public void A_kernel_finds_the_controls_of_the_desk()
    {
        Assert.SkipUnless(ExampleDesks.IsLong, "needs the emulator and a kernel; set LAMPBLACK_LONG=1");
        var pins = WiredDesk.Planned(WiredDesk.Toml(Items, "ATmega32U4", "usb-vendor = 0xFEED\nusb-product = 0xBEEF\n")).Plan;
        var plan = Assert.Single(pins.Controllers);
        using LivePanel panel = new(plan, $"close contact.{Closed}\n");
        UsbIpServer server = new(panel);
        using SmallMachine machine = new(server.Port);
        try
        {
            machine.Wait("ready", 0, 200);
            Bits(machine.Said());

            // Where everything stands is known before anything moves: an encoder in the middle, a switch that was closed from the start.
            machine.Wait($"event {AxisEvent} {UsbNumbers.Of(pins, plan).Single(number => number.ItemId == "p/hours1").Number} 2046", 0, 20);
            machine.Wait($"event {KeyEvent} {Code(Closed)} 1", 0, 20);
            panel.Do($"open contact.{Closed}");
            machine.Wait($"event {KeyEvent} {Code(Closed)} 0", 0, 20);
            foreach (var number in UsbNumbers.Of(pins, plan).Where(number => !number.IsAxis))
            {
                Press(pins, plan, number, panel, machine);
            }

            foreach (var number in UsbNumbers.Of(pins, plan).Where(number => number.IsAxis))
            {
                Move(plan, number, panel, machine);
            }

            TestContext.Current.TestOutputHelper?.WriteLine(string.Join('\n', machine.Said().Concat(server.Asked)));
        }
        finally
        {
            server.Dispose();
        }

        Assert.Null(server.Fault);
        Assert.DoesNotContain(server.Asked, asked => asked.EndsWith("timeout", StringComparison.Ordinal));
        machine.Wait("gone", 0, 20);
        Assert.True(machine.Ends(20));
    }

    /// <summary>What the kernel made of the descriptors: the name, whose it is, eight axes from 0 to 4092, as many buttons as it has codes for.</summary>
    private static void Bits(List<string> said)
    {
        Assert.Contains("name Lampblack panel", said);
        Assert.Contains(said, line => line.StartsWith("list I: Bus=0003 Vendor=feed Product=beef ", StringComparison.Ordinal));
        Assert.Contains(said, line => line.StartsWith("list H: Handlers=", StringComparison.Ordinal) && line.Contains("event", StringComparison.Ordinal));
        Assert.Equal(Enumerable.Range(0, UsbNumbers.MostAxes).Select(axis => $"axis {axis} 0 4092"), said.Where(line => line.StartsWith("axis", StringComparison.Ordinal)).Select(line => line[..line.LastIndexOf(' ')]));
        var keys = Assert.Single(said, line => line.StartsWith("keys", StringComparison.Ordinal)).Split(' ').Skip(1).Select(key => int.Parse(key, CultureInfo.InvariantCulture));
        Assert.Equal(Enumerable.Range(0, Coded).Select(Code), keys);
    }

    private static void Press(PinPlan pins, ControllerPlan plan, UsbNumber number, LivePanel panel, SmallMachine machine)
    {
        var control = pins.Controls.Single(control => control.Id == number.ItemId);
        var state = control.States.Single(state => state.Name == number.Meaning);
        var from = machine.Said().Count;
        var (on, off) = state.Closed.IsEmpty
            ? ($"select ladder.{control.Number} {control.States.IndexOf(state)}", $"select ladder.{control.Number} -1")
            : ($"close contact.{control.Contacts[state.Closed.IndexOf(true)]}", $"open contact.{control.Contacts[state.Closed.IndexOf(true)]}");
        panel.Do(on);
        machine.Wait($"event {KeyEvent} {Code(number.Number)} 1", from, 20);
        panel.Do(off);
        machine.Wait($"event {KeyEvent} {Code(number.Number)} 0", from, 20);
        Assert.Equal([$"event {KeyEvent} {Code(number.Number)} 1", $"event {KeyEvent} {Code(number.Number)} 0"], machine.Said(from));
    }

    private static void Move(ControllerPlan plan, UsbNumber number, LivePanel panel, SmallMachine machine)
    {
        var from = machine.Said().Count;
        if (plan.Wipers.Select(wiper => wiper.ItemId).ToImmutableArray().IndexOf(number.ItemId) is >= 0 and var wiper)
        {
            panel.Do($"slide wiper.{wiper} 1");
            machine.Wait($"event {AxisEvent} {number.Number} 4092", from, 20);
            panel.Do($"slide wiper.{wiper} 0");
            machine.Wait($"event {AxisEvent} {number.Number} 0", from, 20);
        }
        else
        {
            // From the middle to its stop. What moves by less than 2/256 of the way at once the kernel smooths (its drivers/hid/hid-input.c gives joysticks
            // that much fuzz; input_defuzz_abs_event in drivers/input/input.c), so the last step of 16 is seen in part.
            panel.Do($"turn encoder.{plan.Encoders.Select(encoder => encoder.ItemId).ToImmutableArray().IndexOf(number.ItemId)} 160 1000");
            machine.Wait(line => line.StartsWith($"event {AxisEvent} {number.Number} ", StringComparison.Ordinal) && int.Parse(line[(line.LastIndexOf(' ') + 1)..], CultureInfo.InvariantCulture) > 4092 - (4092 >> 8), "the encoder's stop", from, 20);
        }

        Assert.All(machine.Said(from), line => Assert.StartsWith($"event {AxisEvent} {number.Number} ", line, StringComparison.Ordinal));
    }

    private static int Code(int button) => button < 16 ? Joystick + button : Further + button - 16;
}
