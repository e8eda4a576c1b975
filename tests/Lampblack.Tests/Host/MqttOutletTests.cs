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
    public void A_broker_that_starts_again_is_found_again_although_nothing_happens_at_the_panel()
    {
        Assert.SkipUnless(File.Exists(Broker) && File.Exists("/usr/bin/mosquitto_sub"), "mosquitto is missing: apt-get install mosquitto mosquitto-clients");
        using WorkFolder folder = new();
        var port = FreePort();
        var settings = Path.Combine(folder.Full, "mosquitto.conf");
        File.WriteAllText(settings, $"listener {port} 127.0.0.1\nallow_anonymous true\nuser root\n");
        ConcurrentQueue<string> said = [];
        ConcurrentQueue<string> typed = [];
        using MqttOutlet outlet = new(new("127.0.0.1", port), null, ["yard/call.lamp"], typed.Enqueue, said.Enqueue);
        for (var round = 1; round <= 2; round++)
        {
            using var broker = Process.Start(new ProcessStartInfo(Broker) { ArgumentList = { "-c", settings }, RedirectStandardError = true, RedirectStandardOutput = true })!;
            try
            {
                Until(() => said.Count(one => one.Contains("is connected", StringComparison.Ordinal)) == round);
                Run("mosquitto_pub", "-h", "127.0.0.1", "-p", $"{port}", "-V", "mqttv311", "-t", "lampblack/yard/call.lamp/set", "-m", "1");
                Until(() => typed.Count == round);
            }
            finally
            {
                broker.Kill();
                broker.WaitForExit();
            }
        }
    }

    /// <summary>Names as wildcards and with a NUL would end the connection at a real broker.</summary>
    [Fact]
    public void Names_that_no_topic_may_have_are_written_so_that_a_broker_takes_them()
    {
        Assert.SkipUnless(File.Exists(Broker) && File.Exists("/usr/bin/mosquitto_sub"), "mosquitto is missing: apt-get install mosquitto mosquitto-clients");
        using WorkFolder folder = new();
        var port = FreePort();
        var settings = Path.Combine(folder.Full, "mosquitto.conf");
        File.WriteAllText(settings, $"listener {port} 127.0.0.1\nallow_anonymous true\nuser root\n");
        ConcurrentQueue<string> said = [];
        ConcurrentQueue<string> typed = [];
        using var broker = Process.Start(new ProcessStartInfo(Broker) { ArgumentList = { "-c", settings }, RedirectStandardError = true, RedirectStandardOutput = true })!;
        try
        {
            using MqttOutlet outlet = new(new("127.0.0.1", port), null, ["north+south", "a/#", "nul\0", "50%"], typed.Enqueue, said.Enqueue);
            foreach (var id in new[] { "yard/one+two", "#", "nul\0nul", "50%", "50%25", "ünder/way" })
            {
                outlet.Send(HeardOf.Yard(panel => panel.Set(0, true)).First(one => one.Kind == "control") with { Id = id });
            }

            Until(() => said.Any(one => one.Contains("is connected", StringComparison.Ordinal)));
            string[] who = ["-h", "127.0.0.1", "-p", $"{port}", "-V", "mqttv311"];
            string kept = string.Empty;
            Until(() => (kept = Run("mosquitto_sub", [.. who, "-t", "lampblack/#", "-F", "%t", "--retained-only", "-W", "1"])).Contains("way", StringComparison.Ordinal));
            Assert.Equal(
                ["lampblack/%23", "lampblack/50%25", "lampblack/50%2525", "lampblack/nul%00nul", "lampblack/yard/one%2Btwo", "lampblack/ünder/way"],
                kept.Split('\n', StringSplitOptions.RemoveEmptyEntries).Order(StringComparer.Ordinal));
            Run("mosquitto_pub", [.. who, "-t", "lampblack/north%2Bsouth/set", "-m", "1"]);
            Run("mosquitto_pub", [.. who, "-t", "lampblack/nul%00/set", "-m", "0"]);
            Until(() => typed.Count == 2);
            Assert.Equal(["{\"set\":\"north\\u002Bsouth\",\"level\":1}", "{\"set\":\"nul\\u0000\",\"level\":0}"], typed);

            // It may have come before the broker was up; once connected, nothing ends the connection.
            Assert.Single(said.SkipWhile(one => !one.Contains("is connected", StringComparison.Ordinal)));
        }
        finally
        {
            broker.Kill();
            broker.WaitForExit();
        }
    }

    /// <summary>A broker that takes the connection, leaves the first message unanswered, and hangs up at the second: the program's end must not become an error.</summary>
    [Fact]
    public void A_broker_that_hangs_up_at_the_last_words_does_no_harm()
    {
        using TcpListener listener = new(IPAddress.Loopback, 0);
        listener.Start();
        var published = 0;
        Thread serving = new(() =>
        {
            using var client = listener.AcceptTcpClient();
            using var stream = client.GetStream();
            while (published < 2)
            {
                var kind = stream.ReadByte();
                var length = stream.ReadByte();
                stream.ReadExactly(new byte[length]);
                if (kind == 0x10)
                {
                    // CONNACK: accepted (MQTT 3.1.1, 3.2).
                    stream.Write([0x20, 2, 0, 0]);
                }

                published += kind >> 4 == 3 ? 1 : 0;
            }
        }) { IsBackground = true };
        serving.Start();
        ConcurrentQueue<string> said = [];
        MqttOutlet outlet = new(new("127.0.0.1", ((IPEndPoint)listener.LocalEndpoint).Port), null, [], _ => { }, said.Enqueue);
        Until(() => said.Any(one => one.Contains("is connected", StringComparison.Ordinal)));
        var heard = HeardOf.Yard(panel => panel.Set(0, true));
        outlet.Send(heard[0]);
        Until(() => published == 1);
        outlet.Send(heard[1]);
        outlet.Dispose();
        Assert.True(serving.Join(30_000));
    }

    [Fact]
    public void A_broker_that_says_nothing_any_more_holds_up_no_end()
    {
        using TcpListener listener = new(IPAddress.Loopback, 0);
        listener.Start();
        MqttOutlet outlet = new(new("127.0.0.1", ((IPEndPoint)listener.LocalEndpoint).Port), null, [], _ => { }, _ => { });
        using var client = listener.AcceptTcpClient();
        var end = Stopwatch.StartNew();
        outlet.Dispose();
        Assert.InRange(end.Elapsed.TotalSeconds, 0, 10);
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
