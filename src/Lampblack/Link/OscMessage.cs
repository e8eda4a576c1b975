using System;
using System.Buffers.Binary;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Text;

namespace Lampblack.Link;

/// <summary>A message of Open Sound Control 1.0 as bytes: an address, the types of its arguments, the arguments; texts end with a zero and are filled to four bytes.</summary>
/// <param name="Address">Begins with '/'.</param>
/// <param name="Arguments">Numbers (<see cref="int"/>, <see cref="float"/>) and texts.</param>
public sealed record OscMessage(string Address, ImmutableArray<object> Arguments)
{
    /// <summary>An id of a desk as an address: what addresses keep for patterns becomes '_'.</summary>
    /// <param name="id">"yard/points".</param>
    public static string AddressOf(string id)
    {
        ArgumentNullException.ThrowIfNull(id);
        StringBuilder address = new("/");
        foreach (var one in id)
        {
            address.Append(one is <= ' ' or > '~' or '#' or '*' or ',' or '?' or '[' or ']' or '{' or '}' ? '_' : one);
        }

        return address.ToString();
    }

    /// <summary>The message's bytes.</summary>
    /// <exception cref="InvalidOperationException">An argument is neither an int, a float nor a text.</exception>
    public ImmutableArray<byte> Encode()
    {
        StringBuilder types = new(",");
        List<byte> data = [];
        foreach (var argument in Arguments)
        {
            switch (argument)
            {
                case int number:
                    types.Append('i');
                    data.AddRange(BigEndian(number));
                    break;
                case float number:
                    types.Append('f');
                    data.AddRange(BigEndian(BitConverter.SingleToInt32Bits(number)));
                    break;
                case string text:
                    types.Append('s');
                    data.AddRange(Text(text));
                    break;
                default:
                    throw new InvalidOperationException("arguments are numbers and texts");
            }
        }

        return [.. Text(Address), .. Text(types.ToString()), .. data];
    }

    private static byte[] BigEndian(int number)
    {
        var bytes = new byte[4];
        BinaryPrimitives.WriteInt32BigEndian(bytes, number);
        return bytes;
    }

    private static byte[] Text(string text)
    {
        var bytes = Encoding.UTF8.GetBytes(text.Replace('\0', ' '));
        Array.Resize(ref bytes, (bytes.Length / 4 + 1) * 4);
        return bytes;
    }
}
