using System;
using System.Collections.Concurrent;
using System.Diagnostics;
using System.IO;
using System.Linq;
using System.Net;
using System.Net.Sockets;
using System.Threading;
using Lampblack.Host;
using Lampblack.Tests.Link;
using Xunit;

namespace Lampblack.Tests.Host;

/// <summary>Against the broker and the clients of mosquitto 2.0, which speak MQTT 3.1.1 and are not ours.</summary>
public sealed class MqttOutletTests
{
    private const string Broker = "/usr/sbin/mosquitto";

    [Fact]
    public void States_are_published_and_kept_and_levels_come_back()
    {
        Assert.SkipUnless(File.Exists(Broker) && File.Exists("/usr/bin/mosquitto_sub"), "mosquitto is missing: apt-get install mosquitto mosquitto-clients");
        using WorkFolder folder = new();
        var port = FreePort();
        var passwords = Path.Combine(folder.Full, "passwords");
        Run("mosquitto_passwd", "-b", "-c", passwords, "bench", "open sesame");
        var settings = Path.Combine(folder.Full, "mosquitto.conf");
        File.WriteAllText(settings, $"listener {port} 127.0.0.1\nallow_anonymous false\npassword_file {passwords}\nuser root\n");
        ConcurrentQueue<string> said = [];
        ConcurrentQueue<string> typed = [];
        var heard = HeardOf.Yard(panel =>
        {
            panel.Set(0, true);
            panel.Turn(0, 8);
        });

        // The broker comes after its client, which waits.
        MqttLogin login = MqttLogin.Read(name => name == MqttLogin.UserVariable ? "bench" : name == MqttLogin.PasswordVariable ? "open sesame" : null, null)!;
        using MqttOutlet outlet = new(new("127.0.0.1", port), login, ["yard/call.lamp"], typed.Enqueue, said.Enqueue);
        foreach (var one in heard)
        {
            outlet.Send(one);
        }

        using var broker = Process.Start(new ProcessStartInfo(Broker) { ArgumentList = { "-c", settings }, RedirectStandardError = true, RedirectStandardOutput = true })!;
        try
        {
            Until(() => said.Any(one => one.Contains("is connected", StringComparison.Ordinal)));

            // A client that comes late gets states, and no detents.
            string[] who = ["-h", "127.0.0.1", "-p", $"{port}", "-u", "bench", "-P", "open sesame", "-V", "mqttv311"];
            string kept = string.Empty;
            Until(() => (kept = Run("mosquitto_sub", [.. who, "-t", "lampblack/#", "-v", "--retained-only", "-W", "1"])).Contains("scene", StringComparison.Ordinal));
            Assert.Contains("lampblack/yard/points MAIN\n", kept, StringComparison.Ordinal);
            Assert.DoesNotContain("speed", kept, StringComparison.Ordinal);
            Run("mosquitto_pub", [.. who, "-t", "lampblack/yard/call.lamp/set", "-m", "0.5"]);
            Until(() => !typed.IsEmpty);
            Assert.Equal("{\"set\":\"yard/call.lamp\",\"level\":0.5}", typed.Single());
        }
        finally
        {
            broker.Kill();
            broker.WaitForExit();
        }
    }

    [Fact]
    public void A_password_comes_from_the_environment_or_from_a_file()
    {
        using WorkFolder folder = new();
        var file = Path.Combine(folder.Full, "password");
        File.WriteAllText(file, "from file\nnot this");
        Assert.Null(MqttLogin.Read(_ => null, null));
        Assert.Equal(new("bench", "from variable"), MqttLogin.Read(name => name == MqttLogin.UserVariable ? "bench" : "from variable", null));
        Assert.Equal(new("bench", "from file"), MqttLogin.Read(name => name == MqttLogin.UserVariable ? "bench" : "from variable", file));
        Assert.Throws<FileProblemException>(() => MqttLogin.Read(_ => "bench", file + "-none"));
    }

    [Theory]
    [InlineData("1", "{\"set\":\"a/b\",\"level\":1}")]
    [InlineData("on", "{\"set\":\"a/b\",\"level\":\"on\"}")]
    [InlineData("NaN", "{\"set\":\"a/b\",\"level\":\"NaN\"}")]
    public void Levels_from_a_broker_become_the_lines_that_a_person_types(string payload, string line) => Assert.Equal(line, MqttOutlet.LineOf("a/b", payload));

    private static int FreePort()
    {
        using TcpListener listener = new(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    private static void Until(Func<bool> come)
    {
        var end = Stopwatch.StartNew();
        while (!come())
        {
            Assert.True(end.Elapsed < TimeSpan.FromSeconds(30), "it did not come");
            Thread.Sleep(20);
        }
    }

    private static string Run(string program, params string[] arguments)
    {
        ProcessStartInfo start = new(program) { RedirectStandardOutput = true, RedirectStandardError = true };
        arguments.ToList().ForEach(start.ArgumentList.Add);
        using var process = Process.Start(start)!;
        var text = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return text;
    }
}
