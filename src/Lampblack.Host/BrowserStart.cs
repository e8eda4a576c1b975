using System;
using System.ComponentModel;
using System.Diagnostics;
using System.IO;

namespace Lampblack.Host;

/// <summary>Shows an address of this machine in the maker's own browser.</summary>
public static class BrowserStart
{
    /// <summary>Asks the system to open an address.</summary>
    /// <param name="address">An address on this machine, <c>http://127.0.0.1</c> and so on; no other is opened.</param>
    /// <returns>Whether the system took it.</returns>
    public static bool Open(string address)
    {
        ArgumentNullException.ThrowIfNull(address);
        if (!Uri.TryCreate(address, UriKind.Absolute, out Uri? place) || place.Scheme != Uri.UriSchemeHttp || !place.IsLoopback)
        {
            return false;
        }

        try
        {
            ProcessStartInfo start = OperatingSystem.IsWindows() ? new(address) { UseShellExecute = true }
                : new(OperatingSystem.IsMacOS() ? "open" : "xdg-open") { ArgumentList = { address }, RedirectStandardError = true, RedirectStandardOutput = true };
            using Process? process = Process.Start(start);
            return process is not null;
        }
        catch (Exception problem) when (problem is Win32Exception or FileNotFoundException or InvalidOperationException)
        {
            return false;
        }
    }
}
