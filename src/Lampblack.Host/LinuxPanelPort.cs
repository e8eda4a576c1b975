using System;
using System.Buffers.Binary;
using System.IO;
using System.Runtime.InteropServices;
using System.Threading;

namespace Lampblack.Host;

/// <summary>
/// A serial port of Linux at any rate: 8 bits, no parity, one stop bit, nothing translated, nothing echoed, no flow control.
/// Structure and numbers are those of asm-generic/termbits.h and asm-generic/ioctls.h.
/// </summary>
internal sealed class LinuxPanelPort : IPanelPort
{
    private const int ReadWrite = 2;
    private const int NotControlling = 0x100;
    private const int NonBlocking = 0x800;

    /// <summary>A program that is started meanwhile, a browser say, must not keep the port open after us.</summary>
    private const int CloseOnExec = 0x80000;
    private const uint GetSettings = 0x802C542A;
    private const uint SetSettings = 0x402C542B;
    private const uint ModemBitsOn = 0x5416;
    private const int ReadyAndRequest = 0x006;
    private const int SettingsLength = 44;

    // CS8, CREAD and CLOCAL, and the speed told in the two last fields (BOTHER). HUPCL: closing drops the lines, so that the next opening raises them
    // and a board that resets by them starts its boot loader.
    private const uint Control = 0x30 | 0x80 | 0x400 | 0x800 | 0x1000;
    private const int ControlAt = 8;
    private const int CharactersAt = 17;
    private const int TimeAt = CharactersAt + 5;
    private const int LeastAt = CharactersAt + 6;
    private const int InputSpeedAt = 36;
    private const int OutputSpeedAt = 40;
    private const int TryAgain = -11;
    private const int Interrupted = -4;
    private const int WaitMs = 200;

    private readonly ILinuxCalls calls;
    private int file;

    /// <summary>Opens a port.</summary>
    /// <exception cref="IOException">It can't be opened.</exception>
    internal LinuxPanelPort(ILinuxCalls calls, string path, int baud)
    {
        this.calls = calls;

        // Without waiting for a modem's carrier.
        file = calls.Open(path, ReadWrite | NotControlling | NonBlocking | CloseOnExec);
        if (file < 0)
        {
            throw new IOException(Explain(-file, path));
        }

        byte[] settings = new byte[SettingsLength];
        int result = calls.Control(file, GetSettings, settings);
        if (result >= 0)
        {
            result = calls.Control(file, SetSettings, Settings(baud));
        }

        if (result < 0)
        {
            Dispose();
            throw new IOException($"{path} is no serial port ({Marshal.GetPInvokeErrorMessage(-result)})");
        }

        // Pseudo terminals have no such lines; a real port works without them, too, except chips with USB of their own.
        _ = calls.Control(file, ModemBitsOn, BitConverter.GetBytes(ReadyAndRequest));
    }

    /// <summary>The settings as the system takes them.</summary>
    internal static byte[] Settings(int baud)
    {
        byte[] settings = new byte[SettingsLength];
        BinaryPrimitives.WriteUInt32LittleEndian(settings.AsSpan(ControlAt), Control);
        settings[TimeAt] = 0;
        settings[LeastAt] = 0;
        BinaryPrimitives.WriteInt32LittleEndian(settings.AsSpan(InputSpeedAt), baud);
        BinaryPrimitives.WriteInt32LittleEndian(settings.AsSpan(OutputSpeedAt), baud);
        return settings;
    }

    /// <inheritdoc />
    public int Read(byte[] buffer)
    {
        int count = calls.Wait(file, WaitMs);
        if (count == 0 || count == Interrupted)
        {
            return 0;
        }

        count = count < 0 ? count : calls.Read(file, buffer);

        // The system says there is something and then gives nothing: the end.
        return count > 0 ? count : count is TryAgain or Interrupted ? 0 : throw Gone(count);
    }

    /// <inheritdoc />
    public void Write(ReadOnlySpan<byte> bytes)
    {
        for (int tries = 0; !bytes.IsEmpty;)
        {
            int count = calls.Write(file, bytes);
            if (count > 0)
            {
                bytes = bytes[count..];
            }
            else if (count is not (0 or TryAgain or Interrupted) || ++tries > 1000)
            {
                throw Gone(count);
            }
            else
            {
                Thread.Sleep(2);
            }
        }
    }

    /// <inheritdoc />
    public void Dispose()
    {
        if (file >= 0)
        {
            calls.Close(file);
            file = -1;
        }
    }

    private static IOException Gone(int error) => new(error < 0 ? $"the port is gone ({Marshal.GetPInvokeErrorMessage(-error)})" : "the port is gone");

    private static string Explain(int error, string path) => error switch
    {
        2 => "there is no such port",
        13 => $"you may not use {path}; on most systems your name must be in the group dialout",
        16 => "another program uses it",
        _ => Marshal.GetPInvokeErrorMessage(error),
    };
}
