using System;
using System.IO;
using System.IO.Ports;

namespace Lampblack.Host;

/// <summary>A serial port by the library, on systems whose interface knows every rate.</summary>
internal sealed class SerialPanelPort : IPanelPort
{
    private readonly SerialPort port;

    /// <summary>Opens the port.</summary>
    internal SerialPanelPort(string name, int baud)
    {
        port = new(name, baud, Parity.None, 8, StopBits.One) { ReadTimeout = 200, WriteTimeout = 2000, Handshake = Handshake.None };
        try
        {
            port.Open();
        }
        catch
        {
            port.Dispose();
            throw;
        }

        try
        {
            // A chip with USB of its own sends only while somebody is ready. Pseudo terminals have no such line and refuse.
            port.DtrEnable = true;
        }
        catch (IOException)
        {
        }
    }

    /// <inheritdoc />
    public int Read(byte[] buffer)
    {
        try
        {
            int count = port.Read(buffer, 0, buffer.Length);
            return count > 0 ? count : throw new IOException("the port is gone");
        }
        catch (TimeoutException)
        {
            return 0;
        }
        catch (Exception problem) when (problem is InvalidOperationException or UnauthorizedAccessException or OperationCanceledException)
        {
            throw new IOException(problem.Message, problem);
        }
    }

    /// <inheritdoc />
    public void Write(ReadOnlySpan<byte> bytes)
    {
        try
        {
            byte[] copy = bytes.ToArray();
            port.Write(copy, 0, copy.Length);
        }
        catch (Exception problem) when (problem is InvalidOperationException or UnauthorizedAccessException or TimeoutException)
        {
            throw new IOException(problem.Message, problem);
        }
    }

    /// <inheritdoc />
    public void Dispose()
    {
        try
        {
            port.Dispose();
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException or InvalidOperationException)
        {
            // A port that was pulled out can't be closed properly.
        }
    }
}
