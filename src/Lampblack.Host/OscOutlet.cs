using System;
using System.Net.Sockets;
using Lampblack.Jobs;

namespace Lampblack.Host;

/// <summary>Sends what was heard as messages of Open Sound Control, one in each UDP datagram.</summary>
public sealed class OscOutlet : IDisposable
{
    private readonly UdpClient client = new();
    private readonly NetworkPlace place;

    /// <summary>Sends to one place.</summary>
    /// <param name="place">Where.</param>
    public OscOutlet(NetworkPlace place)
    {
        ArgumentNullException.ThrowIfNull(place);
        this.place = place;
    }

    /// <summary>What went wrong last; null where nothing did.</summary>
    public string? Problem { get; private set; }

    /// <summary>Sends one.</summary>
    /// <param name="heard">What was heard.</param>
    public void Send(HeardEvent heard)
    {
        ArgumentNullException.ThrowIfNull(heard);
        try
        {
            client.Send(heard.Osc.AsSpan(), place.Host, place.Port);
            Problem = null;
        }
        catch (SocketException problem)
        {
            // Nobody may be there yet; listening goes on.
            Problem = problem.Message;
        }
    }

    /// <inheritdoc />
    public void Dispose() => client.Dispose();
}
