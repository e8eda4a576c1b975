using System;
using System.Globalization;
using System.IO;
using System.Linq;
using Lampblack.Host;
using Xunit;

namespace Lampblack.Tests.Host;

public sealed class LinuxPanelPortTests
{
    /// <summary>What the system itself says of the open file (proc_pid_fdinfo(5): flags in octal, 02000000 is close-on-exec).</summary>
    [Fact]
    public void Programs_that_are_started_meanwhile_do_not_keep_the_port_open()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux() && File.Exists("/dev/ptmx"), "there are no pseudo terminals here");
        var before = Open();
        using LinuxPanelPort port = new(new LinuxCalls(), "/dev/ptmx", 250_000);
        var file = Assert.Single(Open().Except(before));
        var flags = File.ReadLines($"/proc/self/fdinfo/{file}").Single(line => line.StartsWith("flags:", StringComparison.Ordinal))[6..].Trim();
        Assert.Equal(Convert.ToInt32("02000000", 8), Convert.ToInt32(flags, 8) & Convert.ToInt32("02000000", 8));
    }

    /// <summary>Numbers of files of this process that are ends of pseudo terminals.</summary>
    private static int[] Open() =>
    [
        .. Directory.EnumerateFiles("/proc/self/fd")
            .Where(link => File.ResolveLinkTarget(link, false)?.FullName.EndsWith("ptmx", StringComparison.Ordinal) == true)
            .Select(link => int.Parse(Path.GetFileName(link), CultureInfo.InvariantCulture)),
    ];
}
