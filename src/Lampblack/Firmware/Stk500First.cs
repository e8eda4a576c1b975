using System.Collections.Generic;
using System.Globalization;

namespace Lampblack.Firmware;

/// <summary>STK500 version 1 as boot loaders of the ATmega328P speak it (application note AVR061, from memory): each request ends with 0x20, each reply stands between 0x14 and 0x10.</summary>
internal static class Stk500First
{
    private const byte End = 0x20, InSync = 0x14, Ok = 0x10, Flash = (byte)'F';

    public static IEnumerable<FlashExchange> Steps(FlashTarget target, IReadOnlyList<(int Address, byte[] Bytes)> pages)
    {
        yield return Ask([0x30], [], "saying hello", mayRepeat: true);
        yield return Ask([0x75], [.. target.Signature], "asking for the chip", FlashSession.OtherChip(target));
        yield return Ask([0x50], [], "beginning");
        foreach (var (address, bytes) in pages)
        {
            yield return Ask(LoadAddress(address), [], At("going to", address));
            yield return Ask([0x64, (byte)(bytes.Length >> 8), (byte)bytes.Length, Flash, .. bytes], [], At("writing", address));
            yield return Ask(LoadAddress(address), [], At("going to", address));
            yield return Ask([0x74, (byte)(bytes.Length >> 8), (byte)bytes.Length, Flash], bytes, At("reading back", address), FlashSession.ReadsOtherwise(address));
        }

        yield return Ask([0x51], [], "ending");
    }

    /// <summary>Addresses count words.</summary>
    private static byte[] LoadAddress(int address) => [0x55, (byte)(address >> 1), (byte)(address >> 9)];

    private static FlashExchange Ask(byte[] request, byte[] answer, string doing, string fault = "", bool mayRepeat = false)
    {
        byte[] wanted = [InSync, .. answer, Ok];
        return new([.. request, End], received => Replies.Fixed(wanted, received), doing, fault, mayRepeat);
    }

    private static string At(string doing, int address) => string.Create(CultureInfo.InvariantCulture, $"{doing} 0x{address:X}");
}
