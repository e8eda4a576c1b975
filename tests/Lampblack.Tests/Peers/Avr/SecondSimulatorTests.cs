using System;
using System.Diagnostics;
using System.Globalization;
using System.IO;
using System.Linq;
using System.Net.Sockets;
using System.Text;
using Lampblack.Firmware;
using Lampblack.Parts;
using Lampblack.Tests.Architecture;
using Lampblack.Wiring;
using Xunit;

namespace Lampblack.Tests.Peers.Avr;

/// <summary>The same images and scripts on avr8js, which shares no code with libsimavr. Times differ by the moment of reading; what is told does not.</summary>
public sealed class SecondSimulatorTests
{
    public static TheoryData<string> Kinds => ["direct 328P", "scattered matrix", "chains 32U4", "everything 2560", "everything 328P", "everything 32U4"];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Both_simulators_tell_the_same(string kind) => Compare(BenchScenes.OneByOne(BenchKinds.Of(kind), 11), inOrder: true);

    /// <summary>
    /// Five plans of which the maker is not warned that the chip cannot keep pace: beyond that an encoder at full speed may lose a step in one simulator and
    /// not in the other (plan 1004 has 2554 cycles of work for a beat of 2000, and loses one in avr8js), which is no promise to compare.
    /// </summary>
    public static TheoryData<int> Seeds =>
    [
        .. Enumerable.Range(1001, 100).Where(seed => PanelTable.Of(BenchPlans.ByChance(new Random(seed))).Findings.All(finding => finding.Code != "firmware-pace")).Take(5),
    ];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Both_simulators_tell_the_same_of_plans_made_by_chance(int seed) => Compare(BenchScenes.AtSpeed(BenchPlans.ByChance(new Random(seed)), seed), inOrder: false);

    /// <summary>libsimavr 1.6 has these channels wrong (fixed upstream in 1.7), so they are read here alone.</summary>
    [Theory]
    [InlineData(ControllerChip.ATmega2560, "8 9 10 11 12 13 14 15")]
    [InlineData(ControllerChip.ATmega32U4, "8 9 10 11 12 13")]
    public void Analog_channels_above_seven_are_right(ControllerChip chip, string channels)
    {
        var plan = new ControllerPlan
        {
            Index = 0,
            Chip = chip,
            Wipers = [.. channels.Split(' ').Select(text => int.Parse(text, CultureInfo.InvariantCulture)).Select(channel => new PlannedWiper($"kiln/{channel}", BenchPlans.Pin(EnginePins.AnalogPin(chip, channel)), channel))],
        };
        var scenario = new PanelScenario(plan, new Random(3));
        for (var round = 0; round < 5; round++)
        {
            for (var wiper = 0; wiper < plan.Wipers.Length; wiper++)
            {
                scenario.Slide(60_000 + round * 50_000, wiper, (wiper * 7 + round * 3) % 11 / 10.0);
            }
        }

        Assert.Empty(scenario.Faults(PanelBench.RunSecond(plan, scenario.Script()), inOrder: true, converterSteps: 1024));
    }

    [Fact]
    public void A_panel_without_a_chip_answers_on_a_port_of_this_machine()
    {
        var plan = BenchPlans.Everything(ControllerChip.ATmega2560);
        using var folder = new ScratchFolder();
        var image = folder.Write("image.hex", Encoding.ASCII.GetBytes(PanelBench.ImageOf(plan)));
        var wires = folder.Write("wires.txt", Encoding.ASCII.GetBytes($"chip {plan.Chip} {image}\n{SimulatorWires.Of(plan)}"));
        var start = new ProcessStartInfo(OutsideProgram.Need("node"), [Path.Combine(Repository.Root, "firmware/simulator/panel.mjs"), "--listen", "0", "--wires", wires])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            UseShellExecute = false,
        };
        using var process = Process.Start(start)!;
        var listening = process.StandardOutput.ReadLine()!.Split(' ');
        Assert.Equal("listening", listening[0]);
        using var client = new TcpClient("127.0.0.1", int.Parse(listening[1], CultureInfo.InvariantCulture)) { ReceiveTimeout = 20_000 };
        var stream = client.GetStream();
        stream.Write(BenchFrame.Write(0x41, 0).AsSpan());
        var hello = Next(stream, FrameType.Hello);
        Assert.Equal(plan.Contacts.Length, hello.Word(9));

        process.StandardInput.WriteLine("close contact.5");
        var contact = Next(stream, FrameType.Contact);
        Assert.Equal(0x8005, contact.Word(0));
        process.StandardInput.WriteLine("turn encoder.1 12 1000");
        var position = 0;
        while (position != 12)
        {
            position = Next(stream, FrameType.Encoder).SignedWord(2);
        }

        process.StandardInput.WriteLine("close nothing-of-that-name");
        Assert.StartsWith("fault there is no switch nothing-of-that-name", process.StandardOutput.ReadLine(), StringComparison.Ordinal);
        process.StandardInput.Close();
        Assert.True(process.WaitForExit(10_000));
        Assert.Equal(0, process.ExitCode);
    }

    private static BenchFrame Next(NetworkStream stream, FrameType type)
    {
        while (true)
        {
            System.Collections.Generic.List<byte> packet = [];
            do
            {
                packet.Add((byte)stream.ReadByte());
            }
            while (packet[^1] != 0);

            if (BenchFrame.Read(0, packet.ToArray()) is { } frame && frame.Type == type)
            {
                return frame;
            }
        }
    }

    private static void Compare(PanelScenario scenario, bool inOrder)
    {
        var first = PanelBench.Run(scenario.Plan, scenario.Script());
        var second = PanelBench.RunSecond(scenario.Plan, scenario.Script());
        Assert.Equal(string.Empty, string.Join('\n', scenario.Faults(first, inOrder)));
        Assert.Equal(string.Empty, string.Join('\n', scenario.Faults(second, inOrder, converterSteps: 1024)));
        Assert.Equal(Sequences(first, inOrder), Sequences(second, inOrder));
        Assert.Equal(first.Of(FrameType.Hello).Select(frame => frame.Data), second.Of(FrameType.Hello).Select(frame => frame.Data));
        Assert.Equal(Dimmers(first), Dimmers(second));
    }

    /// <summary>Changes of contacts, of all together or each for itself; where the moment of reading decides between two contacts their order is nobody's.</summary>
    private static string Sequences(BenchLog log, bool inOrder)
    {
        var changes = log.Contacts().Select(change => (change.Number, change.Closed));
        return string.Join(' ', inOrder ? changes : changes.OrderBy(change => change.Number));
    }

    private static string Dimmers(BenchLog log) => string.Join('\n', log.Lines.Where(line => line[0] == "dimmer").Select(line => string.Join(' ', line.RemoveAt(1))));
}
