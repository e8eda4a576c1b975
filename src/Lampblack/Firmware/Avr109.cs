using System.Collections.Generic;
using System.Globalization;
using System.Linq;

namespace Lampblack.Firmware;

/// <summary>AVR109 as boot loaders of the ATmega32U4 speak it (application note AVR109, from memory): single letters, each answered by a carriage return or by data.</summary>
internal static class Avr109
{
    private const byte Done = (byte)'\r', Flash = (byte)'F';
    private const int NameLetters = 7;

    public static IEnumerable<FlashExchange> Steps(FlashTarget target, IReadOnlyList<(int Address, byte[] Bytes)> pages)
    {
        yield return new(
            [(byte)'S'], received => received.Length < NameLetters ? ReplyKind.More : received.Length == NameLetters ? ReplyKind.Right : ReplyKind.Wrong, "saying hello", MayRepeat: true);
        yield return Ask([(byte)'s'], [.. target.Signature.Reverse()], "asking for the chip", FlashSession.OtherChip(target));
        yield return Ask([(byte)'b'], [(byte)'Y', (byte)(target.PageBytes >> 8), (byte)target.PageBytes], "asking for the size of a block", "the boot loader takes blocks of another size");
        yield return Ask([(byte)'P'], [Done], "beginning");
        foreach (var (address, bytes) in pages)
        {
            yield return Ask(GoTo(address), [Done], At("going to", address));
            yield return Ask([(byte)'B', (byte)(bytes.Length >> 8), (byte)bytes.Length, Flash, .. bytes], [Done], At("writing", address));
            yield return Ask(GoTo(address), [Done], At("going to", address));
            yield return Ask([(byte)'g', (byte)(bytes.Length >> 8), (byte)bytes.Length, Flash], bytes, At("reading back", address), FlashSession.ReadsOtherwise(address));
        }

        yield return Ask([(byte)'L'], [Done], "ending");
        yield return Ask([(byte)'E'], [Done], "starting the engine");
    }

    /// <summary>Addresses count words.</summary>
    private static byte[] GoTo(int address) => [(byte)'A', (byte)(address >> 9), (byte)(address >> 1)];

    private static FlashExchange Ask(byte[] request, byte[] answer, string doing, string fault = "") => new(request, received => Replies.Fixed(answer, received), doing, fault);

    private static string At(string doing, int address) => string.Create(CultureInfo.InvariantCulture, $"{doing} 0x{address:X}");
}
