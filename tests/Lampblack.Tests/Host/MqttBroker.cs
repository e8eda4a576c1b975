using System;
using System.Diagnostics;
using System.IO;
using System.Linq;
using System.Net;
using System.Net.Sockets;
using Xunit;

namespace Lampblack.Tests.Host;

/// <summary>The broker and the clients of mosquitto 2.0 on a free port of this machine.</summary>
internal sealed class MqttBroker
{
    private const string Program = "/usr/sbin/mosquitto";

    private readonly string _settings;
    private readonly string[] _login;

    /// <summary>Writes its settings; without mosquitto the test is skipped.</summary>
    /// <param name="folder">Where to.</param>
    /// <param name="user">The only one who is let in, with a password; null for everybody.</param>
    public MqttBroker(WorkFolder folder, (string Name, string Password)? user = null)
    {
        Assert.SkipUnless(File.Exists(Program) && File.Exists("/usr/bin/mosquitto_sub"), "mosquitto is missing: apt-get install mosquitto mosquitto-clients");
        using (TcpListener listener = new(IPAddress.Loopback, 0))
        {
            listener.Start();
            Port = ((IPEndPoint)listener.LocalEndpoint).Port;
        }

        _settings = Path.Combine(folder.Full, "mosquitto.conf");
        var who = "allow_anonymous true";
        _login = [];
        if (user is var (name, password))
        {
            var passwords = Path.Combine(folder.Full, "passwords");
            Run("mosquitto_passwd", "-b", "-c", passwords, name, password);
            who = $"allow_anonymous false\npassword_file {passwords}";
            _login = ["-u", name, "-P", password];
        }

        File.WriteAllText(_settings, $"listener {Port} 127.0.0.1\n{who}\nuser root\n");
    }

    /// <summary>Where it listens once it runs.</summary>
    public int Port { get; }

    /// <summary>Runs it until the answer is disposed of.</summary>
    public IDisposable Start() => new Running(Process.Start(new ProcessStartInfo(Program) { ArgumentList = { "-c", _settings }, RedirectStandardError = true, RedirectStandardOutput = true })!);

    /// <summary>Publishes as another client.</summary>
    public void Publish(string topic, string message) => Run("mosquitto_pub", [.. Who, "-t", topic, "-m", message]);

    /// <summary>What a client gets that comes late.</summary>
    /// <param name="form">Options of the client for how it is written.</param>
    public string Retained(params string[] form) => Run("mosquitto_sub", [.. Who, "-t", "lampblack/#", "--retained-only", "-W", "1", .. form]);

    private string[] Who => ["-h", "127.0.0.1", "-p", $"{Port}", "-V", "mqttv311", .. _login];

    private static string Run(string program, params string[] arguments)
    {
        ProcessStartInfo start = new(program) { RedirectStandardOutput = true, RedirectStandardError = true };
        arguments.ToList().ForEach(start.ArgumentList.Add);
        using var process = Process.Start(start)!;
        var text = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return text;
    }

    private sealed class Running(Process process) : IDisposable
    {
        public void Dispose()
        {
            process.Kill();
            process.WaitForExit();
            process.Dispose();
        }
    }
}
