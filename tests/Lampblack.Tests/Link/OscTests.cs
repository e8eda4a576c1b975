using System;
using System.Linq;
using System.Net;
using System.Net.Sockets;
using Lampblack.Host;
using Lampblack.Link;
using Xunit;

namespace Lampblack.Tests.Link;

public sealed class OscTests
{
    /// <summary>The two messages that the specification of Open Sound Control 1.0 gives byte for byte.</summary>
    [Fact]
    public void Messages_are_the_bytes_of_the_specification()
    {
        Assert.Equal(
            Hex("2f6f7363 696c6c61 746f722f 342f6672 65717565 6e637900 2c660000 43dc0000"),
            new OscMessage("/oscillator/4/frequency", [440.0f]).Encode());
        Assert.Equal(
            Hex("2f666f6f 00000000 2c696973 66660000 000003e8 ffffffff 68656c6c 6f000000 3f9df3b6 40b5b22d"),
            new OscMessage("/foo", [1000, -1, "hello", 1.234f, 5.678f]).Encode());
    }

    [Theory]
    [InlineData("OSC", 4)]
    [InlineData("data", 8)]
    [InlineData("", 4)]
    public void Texts_end_with_a_zero_and_are_filled_to_four(string text, int length) =>
        Assert.Equal(4 + 4 + length, new OscMessage("/a", [text]).Encode().Length);

    [Fact]
    public void Ids_become_addresses_without_what_patterns_are_made_of() =>
        Assert.Equal("/yard/go-1.lamp_____", OscMessage.AddressOf("yard/go-1.lamp#*[]ä"));

    [Fact]
    public void What_was_heard_arrives_by_udp()
    {
        using UdpClient receiver = new(new IPEndPoint(IPAddress.Loopback, 0));
        receiver.Client.ReceiveTimeout = 5000;
        using OscOutlet outlet = new(new("127.0.0.1", ((IPEndPoint)receiver.Client.LocalEndPoint!).Port));
        var heard = HeardOf.Yard(panel => panel.Set(0, true));
        outlet.Send(heard.Single(one => one.Payload == "MAIN"));
        IPEndPoint? from = null;
        Assert.Equal(Hex("2f796172 642f706f 696e7473 00000000 2c730000 4d41494e 00000000"), receiver.Receive(ref from));
    }

    [Fact]
    public void Events_are_lines_of_json_of_one_form()
    {
        var lines = HeardOf.Yard(panel =>
        {
            panel.Set(0, true);
            panel.Turn(0, -4);
            panel.Move(0, 1023);
            panel.Stand(0, 255, 2200);
        }).Select(one => one.Line).ToList();
        Assert.Contains("{\"t\":0,\"kind\":\"link\",\"id\":\"controller-1\",\"state\":\"waiting\"}", lines);
        Assert.Contains("{\"t\":5,\"kind\":\"control\",\"id\":\"yard/points\",\"state\":\"MAIN\"}", lines);
        Assert.Contains("{\"t\":5,\"kind\":\"encoder\",\"id\":\"yard/speed\",\"value\":-1}", lines);
        Assert.Contains("{\"t\":5,\"kind\":\"analog\",\"id\":\"yard/volume\",\"value\":0.25}", lines);
        Assert.Contains("{\"t\":25,\"kind\":\"control\",\"id\":\"yard/scene\",\"state\":null}", lines);
    }

    private static byte[] Hex(string text) => Convert.FromHexString(text.Replace(" ", string.Empty, StringComparison.Ordinal));
}
