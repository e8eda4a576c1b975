using System;
using System.Runtime.InteropServices;

namespace Lampblack.Host;

/// <summary>The few calls of the system that serial lines and virtual devices need. A number below zero is the system's error, negated.</summary>
internal interface ILinuxCalls
{
    /// <summary>Opens a file.</summary>
    int Open(string path, int flags);

    /// <summary>A control with a structure that the system reads and writes.</summary>
    int Control(int file, uint request, byte[] structure);

    /// <summary>A control with a number.</summary>
    int Control(int file, uint request, int number);

    /// <summary>Waits for something to read, or for the end; 0 where neither came in time.</summary>
    int Wait(int file, int milliseconds);

    /// <summary>Reads.</summary>
    int Read(int file, byte[] buffer);

    /// <summary>Writes.</summary>
    int Write(int file, ReadOnlySpan<byte> bytes);

    /// <summary>Closes.</summary>
    void Close(int file);
}

/// <summary>The system itself.</summary>
internal sealed class LinuxCalls : ILinuxCalls
{
    /// <inheritdoc />
    public int Open(string path, int flags) => Checked(NativeOpen(path, flags));

    /// <inheritdoc />
    public int Control(int file, uint request, byte[] structure) => Checked(NativeControl(file, request, structure));

    /// <inheritdoc />
    public int Control(int file, uint request, int number) => Checked(NativeControl(file, request, number));

    /// <inheritdoc />
    public int Wait(int file, int milliseconds)
    {
        // A struct pollfd: the file, what is asked for (POLLIN is 1), what came.
        int[] asked = [file, BitConverter.IsLittleEndian ? 1 : 1 << 16];
        return Checked(NativePoll(asked, 1, milliseconds));
    }

    /// <inheritdoc />
    public int Read(int file, byte[] buffer) => Checked((int)NativeRead(file, buffer, (nuint)buffer.Length));

    /// <inheritdoc />
    public int Write(int file, ReadOnlySpan<byte> bytes)
    {
        byte[] copy = bytes.ToArray();
        return Checked((int)NativeWrite(file, copy, (nuint)copy.Length));
    }

    /// <inheritdoc />
    public void Close(int file) => _ = NativeClose(file);

    private static int Checked(int result) => result >= 0 ? result : -Marshal.GetLastPInvokeError();

    [DllImport("libc", EntryPoint = "open", SetLastError = true)]
    private static extern int NativeOpen([MarshalAs(UnmanagedType.LPUTF8Str)] string path, int flags);

    [DllImport("libc", EntryPoint = "ioctl", SetLastError = true)]
    private static extern int NativeControl(int file, nuint request, [In, Out] byte[] structure);

    [DllImport("libc", EntryPoint = "ioctl", SetLastError = true)]
    private static extern int NativeControl(int file, nuint request, nint number);

    [DllImport("libc", EntryPoint = "poll", SetLastError = true)]
    private static extern int NativePoll([In, Out] int[] asked, nuint count, int milliseconds);

    [DllImport("libc", EntryPoint = "read", SetLastError = true)]
    private static extern nint NativeRead(int file, [Out] byte[] buffer, nuint count);

    [DllImport("libc", EntryPoint = "write", SetLastError = true)]
    private static extern nint NativeWrite(int file, byte[] bytes, nuint count);

    [DllImport("libc", EntryPoint = "close")]
    private static extern int NativeClose(int file);
}
