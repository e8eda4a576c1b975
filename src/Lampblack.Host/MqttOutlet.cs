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
using MQTTnet.Exceptions;
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
    public const string Root = "lampblack/";

    private const string Set = "/set";
    private const int MostWaiting = 1000;

    private readonly IMqttClient client = new MqttClientFactory().CreateMqttClient();
    private readonly Channel<MqttApplicationMessage> waiting =
        Channel.CreateBounded<MqttApplicationMessage>(new BoundedChannelOptions(MostWaiting) { FullMode = BoundedChannelFullMode.DropOldest });

    private readonly CancellationTokenSource stop = new();
    private readonly MqttClientOptions options;
    private readonly Action<string> said;
    private readonly Task running;

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
        client.ApplicationMessageReceivedAsync += arrived =>
        {
            string topic = arrived.ApplicationMessage.Topic;
            if (topic.StartsWith(Root, StringComparison.Ordinal) && topic.EndsWith(Set, StringComparison.Ordinal))
            {
                set(LineOf(topic[Root.Length..^Set.Length], arrived.ApplicationMessage.ConvertPayloadToString() ?? string.Empty));
            }

            return Task.CompletedTask;
        };
        string[] topics = [.. System.Linq.Enumerable.Select(lamps, lamp => Root + lamp + Set)];
        running = Task.Run(() => Run($"{place.Host}:{place.Port.ToString(CultureInfo.InvariantCulture)}", topics, stop.Token));
    }

    /// <summary>Publishes one, as soon as the broker is there; the oldest are left out when it stays away.</summary>
    /// <param name="heard">What was heard.</param>
    public void Send(HeardEvent heard)
    {
        ArgumentNullException.ThrowIfNull(heard);
        waiting.Writer.TryWrite(new MqttApplicationMessageBuilder()
            .WithTopic(Root + heard.Id)
            .WithPayload(heard.Payload)
            .WithQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce)
            .WithRetainFlag(heard.Kind != "encoder")
            .Build());
    }

    /// <inheritdoc />
    public void Dispose()
    {
        stop.Cancel();
        running.Wait(TimeSpan.FromSeconds(2));
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

    private async Task Run(string place, string[] topics, CancellationToken token)
    {
        string? told = null;
        MqttApplicationMessage? left = null;
        while (!token.IsCancellationRequested)
        {
            try
            {
                await client.ConnectAsync(options, token).ConfigureAwait(false);
                foreach (string topic in topics)
                {
                    await client.SubscribeAsync(topic, MqttQualityOfServiceLevel.AtLeastOnce, token).ConfigureAwait(false);
                }

                said($"The broker at {place} is connected.");
                told = null;
                while (client.IsConnected)
                {
                    left ??= await waiting.Reader.ReadAsync(token).ConfigureAwait(false);
                    await client.PublishAsync(left, token).ConfigureAwait(false);
                    left = null;
                }
            }
            catch (OperationCanceledException) when (token.IsCancellationRequested)
            {
                break;
            }
            catch (Exception problem) when (problem is MqttCommunicationException or MQTTnet.Adapter.MqttConnectingFailedException or InvalidOperationException or OperationCanceledException)
            {
                if (told != problem.Message)
                {
                    told = problem.Message;
                    said($"The broker at {place} can't be reached ({problem.Message}); it is tried again.");
                }
            }

            await Task.WhenAny(Task.Delay(1000, token)).ConfigureAwait(false);
        }

        if (client.IsConnected)
        {
            // What was heard last still goes out.
            while (waiting.Reader.TryRead(out MqttApplicationMessage? message))
            {
                await client.PublishAsync(message, CancellationToken.None).ConfigureAwait(false);
            }

            await client.DisconnectAsync().ConfigureAwait(false);
        }
    }
}

/// <summary>User and password for a broker.</summary>
/// <param name="User">The user.</param>
/// <param name="Password">The password.</param>
public sealed record MqttLogin(string User, string Password)
{
    /// <summary>The variable that holds the user.</summary>
    public const string UserVariable = "LAMPBLACK_MQTT_USER";

    /// <summary>The variable that holds the password.</summary>
    public const string PasswordVariable = "LAMPBLACK_MQTT_PASSWORD";

    /// <summary>Reads them from the environment, and the password from a file where one is named: never from arguments, which every user of the machine can read.</summary>
    /// <param name="variable">Gives a variable's value.</param>
    /// <param name="passwordFile">A file whose first line is the password; null for none.</param>
    /// <returns>The login; null where no user is named.</returns>
    /// <exception cref="FileProblemException">The file can't be read.</exception>
    public static MqttLogin? Read(Func<string, string?> variable, string? passwordFile)
    {
        ArgumentNullException.ThrowIfNull(variable);
        string? user = variable(UserVariable);
        string? password = passwordFile is null ? variable(PasswordVariable) : FirstLine(passwordFile);
        return string.IsNullOrEmpty(user) ? null : new(user, password ?? string.Empty);
    }

    private static string FirstLine(string file)
    {
        try
        {
            using StreamReader reader = new(file);
            return reader.ReadLine() ?? string.Empty;
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            throw new FileProblemException($"The password file {file} can't be read: {problem.Message}");
        }
    }
}
