using System;
using System.Collections.Generic;
using System.IO;
using System.Linq;
using System.Text;
using System.Text.RegularExpressions;

namespace Lampblack.Tests.Peers.Kernel;

/// <summary>The first disk of a small machine: one program and the kernel's modules that it loads, in the order in which they need each other.</summary>
internal static partial class MemoryDisk
{
    /// <summary>What a game controller on USB, offered over a network, takes: the kernel's own names.</summary>
    private static readonly string[] Modules = ["e1000", "vhci-hcd", "usbhid", "hid-generic", "evdev"];

    /// <summary>An archive of the kind "newc", as the kernel's Documentation/driver-api/early-userspace/buffer-format.rst has it.</summary>
    /// <param name="program">The program that the kernel starts.</param>
    /// <param name="modules">The folder below which the kernel's modules lie.</param>
    public static byte[] Of(byte[] program, string modules)
    {
        using var disk = new MemoryStream();
        Add(disk, "init", 0x81ED, program); // a file that may be run
        Add(disk, "dev", 0x41ED, []);
        Add(disk, "modules", 0x41ED, []);
        foreach (var (number, path) in InOrder(modules).Index())
        {
            Add(disk, FormattableString.Invariant($"modules/{number}.ko"), 0x81A4, File.ReadAllBytes(path));
        }

        Add(disk, "TRAILER!!!", 0, []);
        return disk.ToArray();
    }

    /// <summary>Each module after those that it names in its "depends=".</summary>
    private static List<string> InOrder(string folder)
    {
        var paths = Directory.EnumerateFiles(folder, "*.ko", SearchOption.AllDirectories).ToLookup(path => Path.GetFileNameWithoutExtension(path).Replace('_', '-'));
        List<string> order = [];
        foreach (var name in Modules)
        {
            Take(name);
        }

        return order;

        void Take(string name)
        {
            var path = paths[name.Replace('_', '-')].FirstOrDefault() ?? throw new FileNotFoundException($"the kernel has no module {name} (or it is packed)", folder);
            foreach (var other in Depends().Match(Encoding.Latin1.GetString(File.ReadAllBytes(path))).Groups[1].Value.Split(',', StringSplitOptions.RemoveEmptyEntries))
            {
                Take(other);
            }

            if (!order.Contains(path))
            {
                order.Add(path);
            }
        }
    }

    private static void Add(MemoryStream disk, string name, int mode, byte[] bytes)
    {
        int[] fields = [(int)disk.Length + 1, mode, 0, 0, 1, 0, bytes.Length, 0, 0, 0, 0, name.Length + 1, 0];
        disk.Write(Encoding.ASCII.GetBytes("070701" + string.Concat(fields.Select(field => field.ToString("X8", System.Globalization.CultureInfo.InvariantCulture))) + name + "\0"));
        Fill(disk);
        disk.Write(bytes);
        Fill(disk);
    }

    private static void Fill(MemoryStream disk)
    {
        while (disk.Length % 4 != 0)
        {
            disk.WriteByte(0);
        }
    }

    [GeneratedRegex(@"\0depends=([^\0]*)\0")]
    private static partial Regex Depends();
}
