using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;

namespace Lampblack.Firmware;

/// <summary>
/// STK500 version 2 as boot loaders of the ATmega2560 speak it (application note AVR068, from memory):
/// 0x1B, a number, the body's length, 0x0E, the body, and all of it combined by exclusive or.
/// </summary>
internal static class Stk500Second
{
    private const byte Start = 0x1B, Token = 0x0E, Ok = 0;
    private const int HeadBytes = 5;

    public static IEnumerable<FlashExchange> Steps(FlashTarget target, IReadOnlyList<(int Address, byte[] Bytes)> pages)
    {
        byte number = 0;
        yield return Ask(ref number, [0x01], body => body is [0x01, Ok, ..], "saying hello", mayRepeat: true);
        for (byte index = 0; index < 3; index++)
        {
            var wanted = target.Signature[index];
            yield return Ask(ref number, [0x1B, 4, 0x30, 0, index, 0], body => body is [0x1B, Ok, var part, ..] && part == wanted, "asking for the chip", FlashSession.OtherChip(target));
        }

        yield return Ask(ref number, [0x10, 200, 100, 25, 32, 0, 0x53, 3, 0xAC, 0x53, 0, 0], body => body is [0x10, Ok, ..], "beginning");
        foreach (var (address, bytes) in pages)
        {
            byte[] size = [(byte)(bytes.Length >> 8), (byte)bytes.Length];
            yield return Ask(ref number, LoadAddress(address), body => body is [0x06, Ok, ..], At("going to", address));
            yield return Ask(ref number, [0x13, .. size, 0xC1, 10, 0x40, 0x4C, 0x20, 0, 0, .. bytes], body => body is [0x13, Ok, ..], At("writing", address));
            yield return Ask(ref number, LoadAddress(address), body => body is [0x06, Ok, ..], At("going to", address));
            yield return Ask(
                ref number, [0x14, .. size, 0x20], body => body is [0x14, Ok, .., Ok] && body.AsSpan(2, body.Length - 3).SequenceEqual(bytes),
                At("reading back", address), FlashSession.ReadsOtherwise(address));
        }

        yield return Ask(ref number, [0x11, 1, 1], body => body is [0x11, Ok, ..], "ending");
    }

    /// <summary>Addresses count words; the highest bit asks for the far half.</summary>
    private static byte[] LoadAddress(int address) => [0x06, (byte)(address >= 0x20000 ? 0x80 : 0), (byte)(address >> 17), (byte)(address >> 9), (byte)(address >> 1)];

    private static FlashExchange Ask(ref byte number, byte[] body, Func<byte[], bool> isRight, string doing, string fault = "", bool mayRepeat = false)
    {
        var own = number++;
        byte[] message = [Start, own, (byte)(body.Length >> 8), (byte)body.Length, Token, .. body];
        return new([.. message, Combined(message)], received => Judge(own, isRight, received), doing, fault, mayRepeat);
    }

    private static ReplyKind Judge(byte number, Func<byte[], bool> isRight, byte[] received)
    {
        if (received.Length < HeadBytes)
        {
            return ReplyKind.More;
        }

        var end = HeadBytes + (received[2] << 8 | received[3]);
        if (received[0] != Start || received[1] != number || received[4] != Token || received.Length > end + 1)
        {
            return ReplyKind.Wrong;
        }

        if (received.Length <= end)
        {
            return ReplyKind.More;
        }

        return Combined(received) == 0 && isRight(received[HeadBytes..end]) ? ReplyKind.Right : ReplyKind.Wrong;
    }

    private static byte Combined(byte[] bytes) => (byte)bytes.Aggregate(0, (sum, value) => sum ^ value);

    private static string At(string doing, int address) => string.Create(CultureInfo.InvariantCulture, $"{doing} 0x{address:X}");
}
