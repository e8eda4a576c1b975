using System;
using System.Buffers.Binary;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.IO;
using System.Linq;
using System.Runtime.InteropServices;
using System.Text;
using Lampblack.Jobs;

namespace Lampblack.Host;

/// <summary>
/// A game controller or keyboard that this program plays to the other programs of a Linux machine, by /dev/uinput.
/// Numbers are those of linux/uinput.h and linux/input-event-codes.h.
/// </summary>
public sealed class VirtualInput : IDisposable
{
    private const string Device = "/dev/uinput";

    // O_WRONLY, O_NONBLOCK, O_CLOEXEC: a program that is started meanwhile would keep the device alive.
    private const int WriteOnlyNonBlockingCloseOnExec = 1 | 0x800 | 0x80000;
    private const uint CreateDevice = 0x5501;
    private const uint DestroyDevice = 0x5502;
    private const uint Setup = 0x405C5503;
    private const uint SetupAxis = 0x401C5504;
    private const uint AddType = 0x40045564;
    private const uint AddKey = 0x40045565;
    private const uint AddAxis = 0x40045567;
    private const ushort Synchronise = 0;
    private const ushort Key = 1;
    private const ushort Axis = 3;
    private const ushort VirtualBus = 6;
    private const int LongestName = 80;
    private const int FullTravel = 4092;

    private readonly ILinuxCalls calls;
    private readonly ImmutableArray<int> keys;
    private readonly ImmutableArray<int> axes;
    private readonly int file;

    private VirtualInput(ILinuxCalls calls, string name, ImmutableArray<int> keys, ImmutableArray<int> axes)
    {
        (this.calls, this.keys, this.axes) = (calls, keys, axes);
        file = calls.Open(Device, WriteOnlyNonBlockingCloseOnExec);
        if (file < 0)
        {
            throw new IOException(file switch
            {
                -2 => $"{Device} is missing: load the module uinput (modprobe uinput)",
                -13 => $"you may not use {Device}; give your user the right to write it (a rule for udev, or the group input)",
                _ => $"{Device}: {Marshal.GetPInvokeErrorMessage(-file)}",
            });
        }

        try
        {
            Describe(name);
        }
        catch
        {
            calls.Close(file);
            throw;
        }
    }

    /// <summary>Codes of buttons that a game controller has: 16 of a joystick, 40 more.</summary>
    public static ImmutableArray<int> ButtonCodes { get; } = [.. Enumerable.Range(0x120, 16), .. Enumerable.Range(0x2C0, 40)];

    /// <summary>Codes of axes: X, Y, Z, their rotations, throttle and rudder.</summary>
    public static ImmutableArray<int> AxisCodes { get; } = [0, 1, 2, 3, 4, 5, 6, 7];

    /// <summary>Codes of keys that no keyboard has, so that nothing is typed by mistake: F13 to F24, then 30 macro keys.</summary>
    public static ImmutableArray<int> KeyCodes { get; } = [.. Enumerable.Range(183, 12), .. Enumerable.Range(0x290, 30)];

    /// <summary>A game controller with as many buttons and axes as are needed and possible.</summary>
    /// <param name="name">Its name for other programs.</param>
    /// <param name="buttons">Buttons.</param>
    /// <param name="axes">Axes.</param>
    /// <exception cref="IOException">It can't be made; the message says what to do.</exception>
    public static VirtualInput Joystick(string name, int buttons, int axes) => Joystick(new LinuxCalls(), name, buttons, axes);

    /// <summary>A keyboard with a key for each button.</summary>
    /// <param name="name">Its name for other programs.</param>
    /// <param name="buttons">Buttons.</param>
    /// <exception cref="IOException">It can't be made; the message says what to do.</exception>
    public static VirtualInput Keyboard(string name, int buttons) => Keyboard(new LinuxCalls(), name, buttons);

    /// <summary>The same through other calls.</summary>
    internal static VirtualInput Joystick(ILinuxCalls calls, string name, int buttons, int axes) =>
        new(calls, name, [.. ButtonCodes.Take(buttons)], [.. AxisCodes.Take(axes)]);

    /// <summary>The same through other calls.</summary>
    internal static VirtualInput Keyboard(ILinuxCalls calls, string name, int buttons) => new(calls, name, [.. KeyCodes.Take(buttons)], []);

    /// <summary>Plays moves, and tells others that they belong together. Buttons and axes that it has not are left out.</summary>
    /// <param name="moves">The moves.</param>
    public void Play(IEnumerable<HeardMove> moves)
    {
        ArgumentNullException.ThrowIfNull(moves);
        List<byte> events = [];
        foreach (HeardMove move in moves)
        {
            ImmutableArray<int> codes = move.IsAxis ? axes : keys;
            if (move.Number < codes.Length)
            {
                events.AddRange(Event(move.IsAxis ? Axis : Key, (ushort)codes[move.Number], move.Value));
            }
        }

        if (events.Count > 0)
        {
            events.AddRange(Event(Synchronise, 0, 0));
            _ = calls.Write(file, events.ToArray());
        }
    }

    /// <inheritdoc />
    public void Dispose()
    {
        _ = calls.Control(file, DestroyDevice, 0);
        calls.Close(file);
    }

    /// <summary>One event as the system takes it: a time that it fills in itself, type, code and value.</summary>
    internal static byte[] Event(ushort type, ushort code, int value)
    {
        byte[] bytes = new byte[(2 * IntPtr.Size) + 8];
        Span<byte> rest = bytes.AsSpan(2 * IntPtr.Size);
        BinaryPrimitives.WriteUInt16LittleEndian(rest, type);
        BinaryPrimitives.WriteUInt16LittleEndian(rest[2..], code);
        BinaryPrimitives.WriteInt32LittleEndian(rest[4..], value);
        return bytes;
    }

    private void Describe(string name)
    {
        Check(calls.Control(file, AddType, Key));
        foreach (int key in keys)
        {
            Check(calls.Control(file, AddKey, key));
        }

        if (!axes.IsEmpty)
        {
            Check(calls.Control(file, AddType, Axis));
        }

        foreach (int axis in axes)
        {
            Check(calls.Control(file, AddAxis, axis));
            byte[] range = new byte[28];
            BinaryPrimitives.WriteUInt16LittleEndian(range, (ushort)axis);
            BinaryPrimitives.WriteInt32LittleEndian(range.AsSpan(12), FullTravel);
            Check(calls.Control(file, SetupAxis, range));
        }

        byte[] setup = new byte[8 + LongestName + 4];
        BinaryPrimitives.WriteUInt16LittleEndian(setup, VirtualBus);
        byte[] text = Encoding.UTF8.GetBytes(name);
        text.AsSpan(0, Math.Min(text.Length, LongestName - 1)).CopyTo(setup.AsSpan(8));
        Check(calls.Control(file, Setup, setup));
        Check(calls.Control(file, CreateDevice, 0));
    }

    private static void Check(int result)
    {
        if (result < 0)
        {
            throw new IOException($"{Device}: {Marshal.GetPInvokeErrorMessage(-result)}");
        }
    }
}
