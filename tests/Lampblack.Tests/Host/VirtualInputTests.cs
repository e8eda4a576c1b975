using System;
using System.Collections.Generic;
using System.Diagnostics;
using System.IO;
using System.Linq;
using Lampblack.Host;
using Xunit;

namespace Lampblack.Tests.Host;

public sealed class VirtualInputTests
{
    [Fact]
    public void A_game_controller_is_made_and_played_by_these_calls()
    {
        Recorded calls = new();
        using (var joystick = VirtualInput.Joystick(calls, "Panel", 2, 1))
        {
            joystick.Play([new(false, 1, 1), new(true, 0, 4092)]);
            joystick.Play([new(false, 7, 1)]);
        }

        Assert.Equal(
            [
                "open /dev/uinput 80801",
                "40045564 1", "40045565 288", "40045565 289",
                "40045564 3", "40045567 0",
                $"401C5504 {new string('0', 24)}FC0F0000{new string('0', 24)}",
                $"405C5503 0600000000000000{"50616E656C".PadRight(160, '0')}00000000",
                "5501 0",
                $"write {Event("0100210101000000")}{Event("03000000FC0F0000")}{Event("0000000000000000")}",
                "5502 0",
                "close",
            ],
            calls.Log);
    }

    [Fact]
    public void A_keyboard_has_only_keys_that_type_nothing()
    {
        Recorded calls = new();
        using (var keyboard = VirtualInput.Keyboard(calls, "Keys", 14))
        {
            keyboard.Play([new(false, 0, 1)]);
        }

        Assert.Equal([.. Enumerable.Range(183, 12), 0x290, 0x291], calls.Log.Where(call => call.StartsWith("40045565", StringComparison.Ordinal)).Select(call => int.Parse(call[9..], System.Globalization.CultureInfo.InvariantCulture)));
        Assert.Contains($"write {Event("0100B70001000000")}{Event("0000000000000000")}", calls.Log);
    }

    [Theory]
    [InlineData(-2, "modprobe uinput")]
    [InlineData(-13, "right to write")]
    public void What_is_missing_is_told(int error, string words) =>
        Assert.Contains(words, Assert.Throws<IOException>(() => VirtualInput.Joystick(new Recorded { OpenResult = error }, "x", 1, 0)).Message, StringComparison.Ordinal);

    [Fact]
    public void A_device_that_the_system_refuses_is_closed_again()
    {
        Recorded calls = new() { ControlResult = -22 };
        Assert.Throws<IOException>(() => VirtualInput.Joystick(calls, "x", 1, 0));
        Assert.Equal("close", calls.Log[^1]);
    }

    /// <summary>Every number asked of the C compiler and the system's own headers.</summary>
    [Fact]
    public void Numbers_are_those_of_the_systems_headers()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux() && File.Exists("/usr/bin/gcc") && File.Exists("/usr/include/linux/uinput.h"), "gcc or the kernel's headers are missing: apt-get install gcc linux-libc-dev");
        using WorkFolder folder = new();
        var source = Path.Combine(folder.Full, "numbers.c");
        File.WriteAllText(source, """
            #define _GNU_SOURCE
            #include <stdio.h>
            #include <fcntl.h>
            #include <stddef.h>
            #include <linux/uinput.h>
            #include <asm/termbits.h>
            #include <asm/ioctls.h>
            int main(void) {
              printf("%X %X %X %X %X %X %X\n", (unsigned)UI_DEV_CREATE, (unsigned)UI_DEV_DESTROY, (unsigned)UI_DEV_SETUP, (unsigned)UI_ABS_SETUP, (unsigned)UI_SET_EVBIT, (unsigned)UI_SET_KEYBIT, (unsigned)UI_SET_ABSBIT);
              printf("%zu %zu %zu %zu\n", sizeof(struct uinput_setup), sizeof(struct uinput_abs_setup), offsetof(struct uinput_abs_setup, absinfo.maximum), sizeof(struct input_event));
              printf("%d %d %d %d %d %d %d %d\n", BTN_JOYSTICK, BTN_TRIGGER_HAPPY1, BTN_TRIGGER_HAPPY40, KEY_F13, KEY_F24, KEY_MACRO1, KEY_MACRO30, ABS_RUDDER);
              printf("%X %X %X %zu %zu %zu %zu %X\n", (unsigned)TCGETS2, (unsigned)TCSETS2, TIOCMBIS, sizeof(struct termios2), offsetof(struct termios2, c_cflag), offsetof(struct termios2, c_cc), offsetof(struct termios2, c_ispeed), CS8 | CREAD | HUPCL | CLOCAL | BOTHER);
              printf("%d %d\n", VTIME, VMIN);
              printf("%X\n", O_WRONLY | O_NONBLOCK | O_CLOEXEC);
            }
            """);
        Assert.Equal(0, Run("gcc", "-o", Path.Combine(folder.Full, "numbers"), source).Exit);
        Assert.Equal(
            "5501 5502 405C5503 401C5504 40045564 40045565 40045567\n"
            + $"92 28 12 {(2 * IntPtr.Size) + 8}\n"
            + $"{VirtualInput.ButtonCodes[0]} {VirtualInput.ButtonCodes[16]} {VirtualInput.ButtonCodes[^1]} {VirtualInput.KeyCodes[0]} {VirtualInput.KeyCodes[11]} {VirtualInput.KeyCodes[12]} {VirtualInput.KeyCodes[^1]} {VirtualInput.AxisCodes[^1]}\n"
            + "802C542A 402C542B 5416 44 8 17 36 1CB0\n"
            + "5 6\n"
            + "80801\n",
            Run(Path.Combine(folder.Full, "numbers")).Text);
    }

    [Fact]
    public void A_serial_port_is_set_to_eight_bits_at_any_rate() => Assert.Equal(
        $"0000000000000000B01C0000{new string('0', 2 * 24)}90D0030090D00300",
        Convert.ToHexString(LinuxPanelPort.Settings(250_000)));

    private static string Event(string rest) => new string('0', 4 * IntPtr.Size) + rest;

    private static (int Exit, string Text) Run(string program, params string[] arguments)
    {
        ProcessStartInfo start = new(program) { RedirectStandardOutput = true };
        arguments.ToList().ForEach(start.ArgumentList.Add);
        using var process = Process.Start(start)!;
        var text = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, text);
    }

    private sealed class Recorded : ILinuxCalls
    {
        public List<string> Log { get; } = [];

        public int OpenResult { get; init; } = 5;

        public int ControlResult { get; init; }

        public int Open(string path, int flags)
        {
            Log.Add($"open {path} {flags:X}");
            return OpenResult;
        }

        public int Control(int file, uint request, byte[] structure)
        {
            Log.Add($"{request:X} {Convert.ToHexString(structure)}");
            return ControlResult;
        }

        public int Control(int file, uint request, int number)
        {
            Log.Add(FormattableString.Invariant($"{request:X} {number}"));
            return ControlResult;
        }

        public int Wait(int file, int milliseconds) => 0;

        public int Read(int file, byte[] buffer) => 0;

        public int Write(int file, ReadOnlySpan<byte> bytes)
        {
            Log.Add($"write {Convert.ToHexString(bytes)}");
            return bytes.Length;
        }

        public void Close(int file) => Log.Add("close");
    }
}
