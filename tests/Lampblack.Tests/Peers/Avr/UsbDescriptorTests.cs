using System;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using Lampblack.Firmware;
using Xunit;

namespace Lampblack.Tests.Peers.Avr;

/// <summary>
/// What the ATmega32U4 says of itself on USB, against the published structures: Universal Serial Bus Specification 2.0, chapter 9
/// (usb.org, "USB 2.0 Specification"), and Device Class Definition for HID 1.11 (usb.org, hid1_11.pdf). Tables are named beside the checks; from memory of both.
/// </summary>
public sealed class UsbDescriptorTests
{
    private static readonly Lazy<BenchLog> Log = new(() => PanelBench.Run(UsbBench.Plan(), UsbBench.Asking(UsbBench.Enumeration)));

    private static ImmutableArray<byte> Answer(string request) => UsbBench.Answer(Log.Value, request);

    /// <summary>USB 2.0, table 9-8.</summary>
    [Fact]
    public void The_device_descriptor_is_right_byte_by_byte()
    {
        byte[] expected =
        [
            18, 1,                                  // bLength, bDescriptorType DEVICE
            0x00, 0x02,                             // bcdUSB
            0, 0, 0,                                // class, subclass, protocol: the interface's
            64,                                     // bMaxPacketSize0: 8, 16, 32 or 64
            0xED, 0xFE, 0xEF, 0xBE,                 // idVendor, idProduct, from the plan
            EngineVersions.Engine, 0,               // bcdDevice
            0, 1, 0,                                // iManufacturer, iProduct, iSerialNumber
            1,                                      // bNumConfigurations
        ];
        Assert.Equal(expected, Answer(UsbBench.Device));
        Assert.Equal(expected, Answer(UsbBench.DeviceStart));
    }

    /// <summary>USB 2.0, tables 9-10, 9-12 and 9-13; HID 1.11, 6.2.1 for the HID descriptor between, and 7.1 for its place.</summary>
    [Fact]
    public void The_configuration_descriptor_is_right_byte_by_byte()
    {
        byte[] expected =
        [
            9, 2, 34, 0, 1, 1, 0,                   // CONFIGURATION: wTotalLength, interfaces, bConfigurationValue, no string
            0x80, 125,                              // bmAttributes: bit 7 is always set; bMaxPower in 2 mA, 500 mA at most
            9, 4, 0, 0, 1, 3, 0, 0, 0,              // INTERFACE 0: one endpoint, class 3 (HID), no subclass, no protocol, no string
            9, 0x21, 0x11, 0x01, 0, 1, 0x22, (byte)Answer(UsbBench.ReportDescriptor).Length, 0,
            7, 5, 0x81, 3, 32, 0, 1,                // ENDPOINT 1 IN, interrupt, 32 bytes (64 at most at full speed, 5.7.3), every frame
        ];
        Assert.Equal(expected, Answer(UsbBench.Configuration));
        Assert.Equal(expected[..9], Answer(UsbBench.ConfigurationStart));
    }

    /// <summary>USB 2.0, 9.6.7: the languages, then UTF-16 with the low byte first. 0x0409 is English of the United States.</summary>
    [Fact]
    public void The_strings_are_right_byte_by_byte()
    {
        Assert.Equal([4, 3, 0x09, 0x04], Answer(UsbBench.Languages));
        var name = Encoding.Unicode.GetBytes("Lampblack panel");
        Assert.Equal([(byte)(2 + name.Length), 3, .. name], Answer(UsbBench.Name));
    }

    /// <summary>HID 1.11, 6.2.2; usages by the HID Usage Tables: page 1 generic desktop, joystick 4, X 0x30 to dial 0x37; page 9 buttons, from 1.</summary>
    [Fact]
    public void The_report_descriptor_tells_of_eight_axes_and_128_buttons()
    {
        var items = HidItems.Read(Answer(UsbBench.ReportDescriptor).AsSpan());
        Assert.Equal((1, 4), items.Application);
        Assert.Equal(2, items.Fields.Count);
        var (axes, buttons) = (items.Fields[0], items.Fields[1]);
        Assert.Equal((1, 0, 16, 0, 4092, 2), (axes.Page, axes.BitAt, axes.Bits, axes.Low, axes.High, axes.Flags));
        Assert.Equal(Enumerable.Range(0x30, 8), axes.Usages);
        Assert.Equal((9, 128, 1, 0, 1, 2), (buttons.Page, buttons.BitAt, buttons.Bits, buttons.Low, buttons.High, buttons.Flags));
        Assert.Equal(Enumerable.Range(1, 128), buttons.Usages);
        Assert.Equal(8 * 32, items.Bits);
        Assert.Equal(items.Bits / 8, Answer(UsbBench.Report).Length);
    }

    [Fact]
    public void Every_request_of_an_enumeration_is_answered_and_the_one_for_high_speed_refused()
    {
        var answers = UsbBench.Answers(Log.Value);
        Assert.Equal(UsbBench.Enumeration, answers.Select(answer => answer.Setup));
        Assert.All(answers, answer => Assert.Equal(answer.Setup == UsbBench.Qualifier ? "stall" : "ok", answer.How)); // 9.6.2: full speed only
        Assert.Empty(Log.Value.Faults);
    }
}
