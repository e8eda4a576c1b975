using System;
using System.IO;
using System.Net.Sockets;

namespace Lampblack.Host;

/// <summary>A line to a simulated panel.</summary>
internal sealed class TcpPanelPort : IPanelPort
{
    private readonly TcpClient client = new();
    private readonly NetworkStream stream;

    /// <summary>Connects, within 2 s.</summary>
    internal TcpPanelPort(NetworkPlace place)
    {
        try
        {
            if (!client.ConnectAsync(place.Host, place.Port).Wait(2000))
            {
                client.Dispose();
                throw new IOException("it does not answer");
            }
        }
        catch (AggregateException problem) when (problem.InnerException is SocketException inner)
        {
            client.Dispose();
            throw new IOException(inner.Message, inner);
        }

        client.NoDelay = true;
        stream = client.GetStream();
        stream.WriteTimeout = 2000;
    }

    /// <inheritdoc />
    public int Read(byte[] buffer)
    {
        try
        {
            if (!client.Client.Poll(TimeSpan.FromMilliseconds(200), SelectMode.SelectRead))
            {
                return 0;
            }

            int count = stream.Read(buffer);
            return count > 0 ? count : throw new IOException("the other end closed the line");
        }
        catch (Exception problem) when (problem is ObjectDisposedException or SocketException or InvalidOperationException)
        {
            throw new IOException(problem.Message, problem);
        }
    }

    /// <inheritdoc />
    public void Write(ReadOnlySpan<byte> bytes)
    {
        try
        {
            stream.Write(bytes);
        }
        catch (ObjectDisposedException problem)
        {
            throw new IOException(problem.Message, problem);
        }
    }

    /// <inheritdoc />
    public void Dispose() => client.Dispose();
}
