using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.Tests.Peers.Avr;

/// <summary>A field of a report.</summary>
/// <param name="Page">The usage page of its controls.</param>
/// <param name="Usages">Their usages.</param>
/// <param name="BitAt">Where it begins.</param>
/// <param name="Bits">Bits of each control.</param>
/// <param name="Low">The least value.</param>
/// <param name="High">The largest.</param>
/// <param name="Flags">Of the input item.</param>
internal sealed record HidField(int Page, IReadOnlyList<int> Usages, int BitAt, int Bits, int Low, int High, int Flags);

/// <summary>
/// Reads a report descriptor by the rules of HID 1.11, 6.2.2 (usb.org/sites/default/files/hid1_11.pdf): short items are tag, type and size in one byte, then data;
/// type 0 main, 1 global, 2 local; global items stay, local ones are gone after a main item. Written from memory of that document; the forms of sections 6.2.2.2 and 6.2.2.4 to 6.2.2.8 then compared with a public
/// transcription of it (rewls/usb-device-class-definition-for-human-interface-devices-hid, 6-descriptors.md).
/// </summary>
internal sealed class HidItems
{
    private readonly Dictionary<int, int> globals = [];
    private readonly List<int> usages = [];
    private int least, depth, at;

    public List<HidField> Fields { get; } = [];

    /// <summary>Page and usage of the outermost collection.</summary>
    public (int Page, int Usage) Application { get; private set; }

    public static HidItems Read(ReadOnlySpan<byte> bytes)
    {
        var items = new HidItems();
        var place = 0;
        while (place < bytes.Length)
        {
            var head = bytes[place++];
            var size = (head & 3) == 3 ? 4 : head & 3;
            if (head == 0xFE || place + size > bytes.Length)
            {
                throw new FormatException("a long item, or one that is cut off");
            }

            var data = 0;
            for (var index = 0; index < size; index++)
            {
                data |= bytes[place++] << 8 * index;
            }

            items.Take(head >> 4, head >> 2 & 3, data, size);
        }

        return items.depth == 0 ? items : throw new FormatException("a collection stays open");
    }

    /// <summary>Bits of the whole report.</summary>
    public int Bits => at;

    private void Take(int tag, int type, int data, int size)
    {
        switch (type)
        {
            case 0:
                Main(tag, data);
                usages.Clear();
                break;
            case 1:
                globals[tag] = tag is 1 or 2 && size > 0 && size < 4 && data >> (8 * size - 1) != 0 ? data - (1 << 8 * size) : data;
                break;
            case 2 when tag == 0:
                usages.Add(data);
                break;
            case 2 when tag == 1:
                least = data;
                break;
            case 2 when tag == 2:
                usages.AddRange(Enumerable.Range(least, data - least + 1));
                break;
            default:
                throw new FormatException("an item of no known type");
        }
    }

    private void Main(int tag, int data)
    {
        switch (tag)
        {
            case 10:
                Application = depth++ == 0 ? (globals[0], usages.Single()) : Application;
                break;
            case 12:
                depth--;
                break;
            case 8:
                var (bits, count) = (globals[7], globals[9]);
                Fields.Add(new(globals[0], [.. usages.Take(count)], at, bits, globals[1], globals[2], data));
                at += bits * count;
                break;
            default:
                throw new FormatException("a main item that is no input");
        }
    }
}
