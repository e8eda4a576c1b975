using System;
using System.Collections.Generic;
using System.Globalization;
using System.IO;
using System.Text;
using System.Text.Json;
using System.Threading;
using System.Threading.Channels;
using System.Threading.Tasks;
using Lampblack.Jobs;
using MQTTnet;
using MQTTnet.Formatter;
using MQTTnet.Protocol;

namespace Lampblack.Host;

/// <summary>
/// Publishes what was heard under <c>lampblack/ID</c> by MQTT 3.1.1, and takes levels for lamps from <c>lampblack/ID/set</c>.
/// States and levels are retained, so that who comes later knows them; detents are not.
/// </summary>
public sealed class MqttOutlet : IDisposable
{
    /// <summary>What every topic begins with.</summary>
    public const string Root = MqttTopic.Root;

    private const int MostWaiting = 1000;

    private static readonly TimeSpan Again = TimeSpan.FromSeconds(1);

    /// <summary>As long the last words may take; the program is waiting.</summary>
    private static readonly TimeSpan LastWords = TimeSpan.FromSeconds(1.5);

    private readonly IMqttClient client = new MqttClientFactory().CreateMqttClient();
    private readonly Channel<MqttApplicationMessage> waiting =
        Channel.CreateBounded<MqttApplicationMessage>(new BoundedChannelOptions(MostWaiting) { FullMode = BoundedChannelFullMode.DropOldest });

    private readonly CancellationTokenSource stop = new();
    private readonly MqttClientOptions options;
    private readonly Action<string> said;
    private readonly Task running;
    private MqttApplicationMessage? left;
    private CancellationTokenSource? lost;

    /// <summary>Begins to connect, and does so again whenever the broker is lost.</summary>
    /// <param name="place">The broker.</param>
    /// <param name="login">User and password; null for none.</param>
    /// <param name="lamps">Ids that may be set.</param>
    /// <param name="set">Handed a line as from the keyboard for each level that came; called from any thread.</param>
    /// <param name="said">Handed sentences about the connection; called from any thread.</param>
    public MqttOutlet(NetworkPlace place, MqttLogin? login, IEnumerable<string> lamps, Action<string> set, Action<string> said)
    {
        ArgumentNullException.ThrowIfNull(place);
        ArgumentNullException.ThrowIfNull(lamps);
        this.said = said;
        MqttClientOptionsBuilder builder = new MqttClientOptionsBuilder()
            .WithTcpServer(place.Host, place.Port)
            .WithProtocolVersion(MqttProtocolVersion.V311)
            .WithClientId(string.Create(CultureInfo.InvariantCulture, $"lampblack{Environment.ProcessId}"))
            .WithTimeout(TimeSpan.FromSeconds(5));
        if (login is not null)
        {
            builder = builder.WithCredentials(login.User, login.Password);
        }

        options = builder.Build();
        Dictionary<string, string> settable = MqttTopic.Settable(lamps);
        client.ApplicationMessageReceivedAsync += arrived =>
        {
            if (settable.TryGetValue(arrived.ApplicationMessage.Topic, out string? lamp))
            {
                set(LineOf(lamp, arrived.ApplicationMessage.ConvertPayloadToString() ?? string.Empty));
            }

            return Task.CompletedTask;
        };

        // While nothing is to be sent, this alone tells that the broker is gone.
        client.DisconnectedAsync += _ =>
        {
            Volatile.Read(ref lost)?.Cancel();
            return Task.CompletedTask;
        };
        running = Task.Run(() => Run($"{place.Host}:{place.Port.ToString(CultureInfo.InvariantCulture)}", settable.Keys, stop.Token));
    }

    /// <summary>Publishes one, as soon as the broker is there; the oldest are left out when it stays away.</summary>
    /// <param name="heard">What was heard.</param>
    public void Send(HeardEvent heard)
    {
        ArgumentNullException.ThrowIfNull(heard);
        waiting.Writer.TryWrite(new MqttApplicationMessageBuilder()
            .WithTopic(MqttTopic.Of(heard.Id))
            .WithPayload(heard.Payload)
            .WithQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce)
            .WithRetainFlag(heard.Kind != "encoder")
            .Build());
    }

    /// <summary>Sends what was heard last, as far as the broker takes it in a moment. Never throws.</summary>
    public void Dispose()
    {
        stop.Cancel();
        Task.WhenAny(running, Task.Delay(LastWords + LastWords)).Wait();
        client.Dispose();
        stop.Dispose();
    }

    /// <summary>What came from a broker as the line that a person would have typed.</summary>
    internal static string LineOf(string id, string payload)
    {
        using MemoryStream stream = new();
        using (Utf8JsonWriter json = new(stream))
        {
            json.WriteStartObject();
            json.WriteString("set", id);
            if (double.TryParse(payload, NumberStyles.Float, CultureInfo.InvariantCulture, out double level) && double.IsFinite(level))
            {
                json.WriteNumber("level", level);
            }
            else
            {
                json.WriteString("level", payload);
            }

            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private async Task Run(string place, IReadOnlyCollection<string> topics, CancellationToken token)
    {
        string? told = null;
        while (!token.IsCancellationRequested)
        {
            try
            {
                // Older ones are not disposed of: the client may still be telling of the connection that it lost.
                CancellationTokenSource connection = CancellationTokenSource.CreateLinkedTokenSource(token);
                Volatile.Write(ref lost, connection);
                if (!client.IsConnected)
                {
                    await client.ConnectAsync(options, token).ConfigureAwait(false);
                }

                foreach (string topic in topics)
                {
                    await client.SubscribeAsync(topic, MqttQualityOfServiceLevel.AtLeastOnce, token).ConfigureAwait(false);
                }

                said($"The broker at {place} is connected.");
                told = null;
                while (client.IsConnected)
                {
                    left ??= await waiting.Reader.ReadAsync(connection.Token).ConfigureAwait(false);
                    await client.PublishAsync(left, token).ConfigureAwait(false);
                    left = null;
                }
            }
            catch (Exception) when (token.IsCancellationRequested)
            {
                break;
            }
            catch (Exception problem) when (problem is not OutOfMemoryException)
            {
                // Whatever the network or the broker does: listening goes on, and it is tried again. What a broker that is still there does not take is left out.
                left = client.IsConnected ? null : left;
                string why = problem is OperationCanceledException ? "the connection was lost" : problem.Message;
                if (told != why)
                {
                    told = why;
                    said($"The broker at {place} can't be reached ({why}); it is tried again.");
                }
            }

            await Task.WhenAny(Task.Delay(Again, token)).ConfigureAwait(false);
        }

        await End().ConfigureAwait(false);
    }

    /// <summary>What was heard last still goes out, if the broker takes it.</summary>
    private async Task End()
    {
        using CancellationTokenSource end = new(LastWords);
        try
        {
            while (client.IsConnected && (left is not null || waiting.Reader.TryRead(out left)))
            {
                await client.PublishAsync(left, end.Token).ConfigureAwait(false);
                left = null;
            }

            if (client.IsConnected)
            {
                await client.DisconnectAsync(new MqttClientDisconnectOptions(), end.Token).ConfigureAwait(false);
            }
        }
        catch (Exception problem) when (problem is not OutOfMemoryException)
        {
            // The broker went away in the middle: nobody is left to be told.
        }
    }
}
