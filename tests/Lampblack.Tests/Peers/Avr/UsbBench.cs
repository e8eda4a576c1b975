using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Parts;
using Lampblack.Wiring;
using Xunit;

namespace Lampblack.Tests.Peers.Avr;

/// <summary>One answer to a control request.</summary>
/// <param name="Us">When it was complete.</param>
/// <param name="Setup">The request's eight bytes, as hexadecimal digits.</param>
/// <param name="How">"ok", "stall", "timeout" or "bad-status".</param>
/// <param name="Data">What came.</param>
internal sealed record UsbAnswer(long Us, string Setup, string How, ImmutableArray<byte> Data);

/// <summary>One report of the panel as a game controller.</summary>
/// <param name="Us">When the host had it.</param>
/// <param name="Bytes">All of it.</param>
internal sealed record UsbReport(long Us, ImmutableArray<byte> Bytes)
{
    public int Axis(int number) => Bytes[2 * number] | Bytes[2 * number + 1] << 8;

    public bool Button(int number) => (Bytes[16 + number / 8] >> number % 8 & 1) != 0;
}

/// <summary>A host that enumerates, in a script for the bench; and what it was told.</summary>
internal static class UsbBench
{
    /// <summary>Requests as USB 2.0, 9.4, and HID 1.11, 7.2, number them: type, request, value, index, length; numbers of two bytes low byte first.</summary>
    public const string DeviceStart = "8006000100004000";
    public const string Address5 = "0005050000000000";
    public const string Device = "8006000100001200";
    public const string ConfigurationStart = "8006000200000900";
    public const string Configuration = "800600020000ff00";
    public const string Languages = "800600030000ff00";
    public const string Name = "800601030904ff00";
    public const string Qualifier = "8006000600000a00";
    public const string Configure = "0009010000000000";
    public const string Unconfigure = "0009000000000000";
    public const string AskConfiguration = "8008000000000100";
    public const string IdleForever = "210a000000000000";
    public const string ReportDescriptor = "810600220000ff00";
    public const string HidDescriptor = "8106002100000900";
    public const string Report = "a101000100002000";

    /// <summary>What a host asks, in the order in which hosts do.</summary>
    public static readonly string[] Enumeration = [DeviceStart, Address5, Device, ConfigurationStart, Configuration, Languages, Name, Qualifier, Configure, IdleForever, ReportDescriptor, Report];

    /// <summary>A plan that is a game controller. Its numbers are nobody's: they never leave the bench.</summary>
    public static ControllerPlan Plan(bool strike = false)
    {
        var plan = BenchPlans.Everything(ControllerChip.ATmega32U4);
        return plan with { Usb = new(0xFEED, 0xBEEF, strike) };
    }

    /// <summary>A script that asks these after a reset; the panel has settled by then.</summary>
    public static string Asking(IEnumerable<string> requests, string rest = "until 160000\n") =>
        "until 100000\nusb reset\nrun 200\n" + string.Concat(requests.Select(request => $"usb ask {request}\n")) + rest;

    public static ImmutableArray<UsbAnswer> Answers(BenchLog log) =>
        [.. log.Lines.Where(line => line[0] == "usb").Select(line => new UsbAnswer(Number(line[1]), line[2], line[3], line[4] == "-" ? [] : [.. Convert.FromHexString(line[4])]))];

    public static ImmutableArray<UsbReport> Reports(BenchLog log) =>
        [.. log.Lines.Where(line => line[0] == "report").Select(line => new UsbReport(Number(line[1]), [.. Convert.FromHexString(line[2])]))];

    /// <summary>The answer to a request that must be answered well.</summary>
    public static ImmutableArray<byte> Answer(BenchLog log, string request)
    {
        var answer = Assert.Single(Answers(log), answer => answer.Setup == request);
        Assert.Equal("ok", answer.How);
        return answer.Data;
    }

    public static long Number(string word) => long.Parse(word, CultureInfo.InvariantCulture);
}
