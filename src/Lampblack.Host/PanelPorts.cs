using System;
using System.Globalization;
using System.IO;
using System.Linq;
using System.Net.Sockets;

namespace Lampblack.Host;

/// <summary>Opens lines to panels.</summary>
public static class PanelPorts
{
    /// <summary>Opens a serial port by its name, or a simulated panel by HOST:PORT.</summary>
    /// <param name="name">"/dev/ttyACM0", "COM3", "127.0.0.1:5005".</param>
    /// <param name="baud">Bits a second on a serial line.</param>
    /// <exception cref="IOException">It can't be opened; the message says why.</exception>
    public static IPanelPort Open(string name, int baud)
    {
        ArgumentNullException.ThrowIfNull(name);
        try
        {
            if (NetworkPlace.TryRead(name, 0) is { } place)
            {
                return new TcpPanelPort(place);
            }

            // The library refuses rates that the system's old interface has no constant for, 250000 among them (dotnet/runtime, 64507).
            return OperatingSystem.IsLinux() ? new LinuxPanelPort(new LinuxCalls(), name, baud) : new SerialPanelPort(name, baud);
        }
        catch (Exception problem) when (problem is SocketException or UnauthorizedAccessException or ArgumentException or InvalidOperationException)
        {
            // The library says "access denied" of a port that is not there, too.
            string why = problem is UnauthorizedAccessException && name.StartsWith('/') && !File.Exists(name) ? "there is no such port" : problem.Message;
            throw new IOException(why, problem);
        }
    }

    /// <summary>Names of serial ports that look as if a panel could be at them, in order.</summary>
    public static string[] Names()
    {
        if (!OperatingSystem.IsLinux())
        {
            return [.. System.IO.Ports.SerialPort.GetPortNames().Order(StringComparer.Ordinal)];
        }

        string[] kinds = ["ttyACM*", "ttyUSB*"];
        return Directory.Exists("/dev") ? [.. kinds.SelectMany(kind => Directory.EnumerateFiles("/dev", kind)).Order(StringComparer.Ordinal)] : [];
    }
}

/// <summary>A host and a port of a network.</summary>
/// <param name="Host">A name or an address.</param>
/// <param name="Port">1 to 65535.</param>
public sealed record NetworkPlace(string Host, int Port)
{
    /// <summary>Reads "HOST:PORT", or "HOST" where a port is usual.</summary>
    /// <param name="text">The text.</param>
    /// <param name="usualPort">The port where none is named; 0 where one must be.</param>
    /// <returns>The place; null where the text is none.</returns>
    public static NetworkPlace? TryRead(string text, int usualPort)
    {
        ArgumentNullException.ThrowIfNull(text);
        int colon = text.LastIndexOf(':');
        string host = colon < 0 ? text : text[..colon];
        bool isPort = int.TryParse(text.AsSpan(colon + 1), NumberStyles.None, CultureInfo.InvariantCulture, out int port) && port is >= 1 and <= 65535;
        if (host.Length == 0 || host.Contains('/', StringComparison.Ordinal) || host.Contains('\\', StringComparison.Ordinal) || host.Any(char.IsWhiteSpace))
        {
            return null;
        }

        return colon < 0 ? usualPort > 0 ? new(host, usualPort) : null : isPort ? new(host.Trim('[', ']'), port) : null;
    }
}
