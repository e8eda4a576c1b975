using System.Collections.Immutable;
using System.Linq;
using Lampblack.Parts;
using Lampblack.Wiring;

namespace Lampblack.Firmware;

/// <summary>The table behind its key, byte for byte as firmware/source/table.c reads it.</summary>
internal static class TableBody
{
    private const byte NoPin = 0xFF;

    /// <summary>In the byte of a dimmer's output: the engine begins with 0, whatever was kept.</summary>
    private const byte Pointer = 0x80;

    /// <summary>The bytes for a plan that the rules let pass.</summary>
    public static ImmutableArray<byte> Of(ControllerPlan plan)
    {
        var banks = ContactBanks.Of(plan);
        var timers = Timers(plan);
        var bytes = ImmutableArray.CreateBuilder<byte>();
        bytes.Add((byte)plan.Index);
        Word(bytes, SerialRate.Packed(plan.Baud));
        bytes.AddRange(
            (byte)plan.Columns.Length, (byte)banks.RowPorts.Length, (byte)banks.DirectPorts.Length,
            (byte)(plan.Inputs?.ChipCount ?? 0), (byte)(plan.Outputs?.ChipCount ?? 0));
        Word(bytes, plan.Contacts.Length);
        bytes.AddRange(
            (byte)plan.Encoders.Length, (byte)plan.Wipers.Length, (byte)plan.Ladders.Length,
            (byte)plan.Indicators.Length, (byte)plan.Dimmers.Length, (byte)timers.Length);
        bytes.AddRange(Pin(plan.Inputs?.Load), Pin(plan.Inputs?.Clock), Pin(plan.Inputs?.Data));
        bytes.AddRange(Pin(plan.Outputs?.Data), Pin(plan.Outputs?.Clock), Pin(plan.Outputs?.Latch));
        bytes.AddRange(plan.Columns.Select(EnginePins.Packed));
        Ports(bytes, banks.RowPorts);
        Ports(bytes, banks.DirectPorts);
        foreach (var bank in banks.Banks)
        {
            bytes.AddRange(bank.There, bank.Steady);
            foreach (var number in bank.Numbers)
            {
                Word(bytes, number);
            }
        }

        bytes.AddRange(plan.Encoders.SelectMany(encoder => new[] { EnginePins.Packed(encoder.PhaseA), EnginePins.Packed(encoder.PhaseB) }));
        bytes.AddRange(plan.Wipers.Select(wiper => (byte)wiper.AnalogChannel));
        foreach (var ladder in plan.Ladders)
        {
            bytes.AddRange((byte)ladder.AnalogChannel, (byte)ladder.Windows.Length);
            foreach (var window in ladder.Windows)
            {
                Word(bytes, window.LowCount);
                Word(bytes, window.HighCount);
            }
        }

        foreach (var indicator in plan.Indicators)
        {
            Word(bytes, Place(indicator.Place));
        }

        foreach (var timer in timers)
        {
            bytes.AddRange((byte)timer.Timer, (byte)timer.ClockBits);
            Word(bytes, timer.Steps - 1);
        }

        foreach (var dimmer in plan.Dimmers)
        {
            var output = EnginePins.TimerOf(plan.Chip, dimmer.Pin)!;
            bytes.AddRange(EnginePins.Packed(dimmer.Pin), (byte)output.Timer, (byte)(output.Output | (dimmer.IsMeter ? Pointer : 0)));
        }

        if (plan.Usb is { } usb)
        {
            Word(bytes, usb.VendorId);
            Word(bytes, usb.ProductId);
            bytes.Add((byte)(usb.EncodersStrike ? 1 : 0));
            bytes.AddRange(plan.Encoders.Select(encoder => (byte)encoder.EdgesPerDetent));
        }

        return bytes.ToImmutable();
    }

    /// <summary>The timers that the plan's dimmers need, each as fast as the most hurried of its dimmers wants.</summary>
    public static ImmutableArray<TimerSetting> Timers(ControllerPlan plan) =>
    [
        .. plan.Dimmers
            .Select(dimmer => (EnginePins.TimerOf(plan.Chip, dimmer.Pin)?.Timer, dimmer.PwmHertz))
            .Where(want => want.Timer is not null)
            .GroupBy(want => want.Timer!.Value, want => want.PwmHertz)
            .OrderBy(group => group.Key)
            .Select(group => TimerSetting.For(group.Key, group.Max())),
    ];

    private static int Place(OutputPlace place) => place is ChainOutput chain ? 0x8000 | chain.Chip * 8 + chain.Output : EnginePins.Packed(((DirectOutput)place).Pin);

    private static byte Pin(ControllerPin? pin) => pin is null ? NoPin : EnginePins.Packed(pin);

    private static void Ports(ImmutableArray<byte>.Builder bytes, ImmutableArray<(byte Port, byte Mask)> ports) =>
        bytes.AddRange(ports.SelectMany(port => new[] { port.Port, port.Mask }));

    private static void Word(ImmutableArray<byte>.Builder bytes, int value) => bytes.AddRange((byte)value, (byte)(value >> 8));
}
