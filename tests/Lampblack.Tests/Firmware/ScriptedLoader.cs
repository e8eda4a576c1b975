using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.Tests.Firmware;

/// <summary>
/// A boot loader of our own that the product's side is tried on: bytes in, answers out. It shares no code with the product;
/// avrdude writes through it, too (<see cref="FlashSessionTests"/>), so that it is known to be one.
/// </summary>
internal sealed class ScriptedLoader(byte[] signature, int flashBytes, Func<ScriptedLoader, byte[]?> answer)
{
    private int address;

    /// <summary>What is in flash.</summary>
    public byte[] Flash { get; } = [.. Enumerable.Repeat((byte)0xFF, flashBytes)];

    /// <summary>What has come and is not answered.</summary>
    public List<byte> Pending { get; } = [];

    /// <summary>Letters or numbers of all commands, in order.</summary>
    public List<byte> Commands { get; } = [];

    /// <summary>An address where a written byte comes out otherwise; -1 for none.</summary>
    public int WornAddress { get; init; } = -1;

    /// <summary>How many requests it leaves unanswered at first.</summary>
    public int Deaf { get; set; }

    public bool HasLeft { get; private set; }

    public static ScriptedLoader First(byte[] signature, int worn) => new(signature, 0x8000, loader => loader.AnswerFirst()) { WornAddress = worn };

    public static ScriptedLoader Second(byte[] signature, int worn) => new(signature, 0x40000, loader => loader.AnswerSecond()) { WornAddress = worn };

    public static ScriptedLoader Letters(byte[] signature, int worn) => new(signature, 0x8000, loader => loader.AnswerLetter()) { WornAddress = worn };

    /// <summary>Takes bytes and gives what it answers.</summary>
    public byte[] Take(IEnumerable<byte> bytes)
    {
        Pending.AddRange(bytes);
        List<byte> all = [];
        while (Pending.Count > 0 && answer(this) is { } reply)
        {
            if (Deaf > 0)
            {
                Deaf--;
            }
            else
            {
                all.AddRange(reply);
            }
        }

        return [.. all];
    }

    // Version 1: request ... 0x20, answer 0x14 ... 0x10.
    private byte[]? AnswerFirst()
    {
        var length = Pending[0] switch
        {
            0x41 => 3,
            0x42 => 22,
            0x45 => 7,
            0x55 => 4,
            0x56 => 6,
            0x64 => Pending.Count < 4 ? 99 : 5 + (Pending[1] << 8 | Pending[2]),
            0x74 => 5,
            _ => 2,
        };
        if (Cut(length) is not { } request)
        {
            return null;
        }

        byte[] data = [];
        switch (request[0])
        {
            case 0x75:
                data = signature;
                break;
            case 0x41:
                data = [3];
                break;
            case 0x56:
                data = [request[1] == 0x30 ? signature[request[3]] : (byte)0];
                break;
            case 0x55:
                address = (request[1] | request[2] << 8) * 2;
                break;
            case 0x64:
                Store(request[4..^1]);
                break;
            case 0x74:
                data = Flash[address..(address + (request[1] << 8 | request[2]))];
                break;
            case 0x51:
                HasLeft = true;
                break;
        }

        return request[^1] == 0x20 ? [0x14, .. data, 0x10] : [0x15];
    }

    // Version 2: 0x1B, number, length, 0x0E, body, exclusive or of all.
    private byte[]? AnswerSecond()
    {
        if (Pending.Count < 6 || Cut(6 + (Pending[2] << 8 | Pending[3]), Pending[5]) is not { } request)
        {
            return null;
        }

        var body = request[5..^1];
        byte[] data = [];
        switch (body[0])
        {
            case 0x01:
                data = [8, .. "AVRISP_2"u8];
                break;
            case 0x1B:
                data = [signature[body[4]], 0];
                break;
            case 0x1D:
                data = [0, body[4], 0, body[4] == 0x30 ? signature[body[6]] : (byte)0, 0];
                break;
            case 0x06:
                address = (body[2] << 16 | body[3] << 8 | body[4]) * 2;
                break;
            case 0x13:
                Store(body[10..]);
                break;
            case 0x14:
                data = [.. Flash[address..(address + (body[1] << 8 | body[2]))], 0];
                address += body[1] << 8 | body[2];
                break;
            case 0x03:
                data = [2];
                break;
            case 0x11:
                HasLeft = true;
                break;
        }

        byte[] reply = [body[0], 0, .. data];
        byte[] message = [0x1B, request[1], (byte)(reply.Length >> 8), (byte)reply.Length, 0x0E, .. reply];
        return [.. message, (byte)message.Aggregate(0, (sum, value) => sum ^ value)];
    }

    // Letters, answered by a carriage return or data.
    private byte[]? AnswerLetter()
    {
        var length = (char)Pending[0] switch
        {
            'A' => 3,
            'B' => Pending.Count < 4 ? 99 : 4 + (Pending[1] << 8 | Pending[2]),
            'g' => 4,
            'T' or 'x' or 'y' => 2,
            _ => 1,
        };
        if (Cut(length) is not { } request)
        {
            return null;
        }

        byte[] done = [(byte)'\r'];
        switch ((char)request[0])
        {
            case 'S':
                return [.. "LOADER1"u8];
            case 's':
                return [.. signature.Reverse()];
            case 'b':
                return [(byte)'Y', 0, 128];
            case 'V' or 'v':
                return [(byte)'1', (byte)'0'];
            case 'p':
                return [(byte)'S'];
            case 'a':
                return [(byte)'Y'];
            case 't':
                return [0x44, 0];
            case 'F' or 'N' or 'Q' or 'r':
                return [0xFF];
            case 'A':
                address = (request[1] << 8 | request[2]) * 2;
                return done;
            case 'B':
                Store(request[4..]);
                return done;
            case 'g':
                var data = Flash[address..(address + (request[1] << 8 | request[2]))];
                address += data.Length;
                return data;
            case 'E':
                HasLeft = true;
                return done;
            default:
                return done;
        }
    }

    private void Store(byte[] data)
    {
        data.CopyTo(Flash, address);
        if (WornAddress >= address && WornAddress < address + data.Length)
        {
            Flash[WornAddress] ^= 1;
        }

        address += data.Length;
    }

    private byte[]? Cut(int length, byte? command = null)
    {
        if (Pending.Count < length)
        {
            return null;
        }

        byte[] request = [.. Pending.Take(length)];
        Commands.Add(command ?? request[0]);
        Pending.RemoveRange(0, length);
        return request;
    }
}
