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
    [Fact]
    public void States_are_published_and_kept_and_levels_come_back()
    {
        using WorkFolder folder = new();
        MqttBroker broker = new(folder, ("bench", "open sesame"));
        ConcurrentQueue<string> said = [];
        ConcurrentQueue<string> typed = [];
        var heard = HeardOf.Yard(panel =>
        {
            panel.Set(0, true);
            panel.Turn(0, 8);
        });

        // The broker comes after its client, which waits.
        MqttLogin login = MqttLogin.Read(name => name == MqttLogin.UserVariable ? "bench" : name == MqttLogin.PasswordVariable ? "open sesame" : null, null)!;
        using MqttOutlet outlet = new(new("127.0.0.1", broker.Port), login, ["yard/call.lamp"], typed.Enqueue, said.Enqueue);
        foreach (var one in heard)
        {
            outlet.Send(one);
        }

        using var running = broker.Start();
        Until(() => said.Any(one => one.Contains("is connected", StringComparison.Ordinal)));

        // A client that comes late gets states, and no detents.
        string kept = string.Empty;
        Until(() => (kept = broker.Retained("-v")).Contains("scene", StringComparison.Ordinal) && kept.Contains("lampblack/yard/points MAIN\n", StringComparison.Ordinal));
        Assert.DoesNotContain("speed", kept, StringComparison.Ordinal);
        broker.Publish("lampblack/yard/call.lamp/set", "0.5");
        Until(() => !typed.IsEmpty);
        Assert.Equal("{\"set\":\"yard/call.lamp\",\"level\":0.5}", typed.Single());
    }

    [Fact]
    public void A_broker_that_starts_again_is_found_again_although_nothing_happens_at_the_panel()
    {
        using WorkFolder folder = new();
        MqttBroker broker = new(folder);
        ConcurrentQueue<string> said = [];
        ConcurrentQueue<string> typed = [];
        using MqttOutlet outlet = new(new("127.0.0.1", broker.Port), null, ["yard/call.lamp"], typed.Enqueue, said.Enqueue);
        for (var round = 1; round <= 2; round++)
        {
            using var running = broker.Start();
            Until(() => said.Count(one => one.Contains("is connected", StringComparison.Ordinal)) == round);
            broker.Publish("lampblack/yard/call.lamp/set", "1");
            Until(() => typed.Count == round);
        }
    }

    /// <summary>Names as wildcards and with a NUL would end the connection at a real broker.</summary>
    [Fact]
    public void Names_that_no_topic_may_have_are_written_so_that_a_broker_takes_them()
    {
        using WorkFolder folder = new();
        MqttBroker broker = new(folder);
        ConcurrentQueue<string> said = [];
        ConcurrentQueue<string> typed = [];
        using var running = broker.Start();
        using MqttOutlet outlet = new(new("127.0.0.1", broker.Port), null, ["north+south", "a/#", "nul\0", "50%"], typed.Enqueue, said.Enqueue);
        foreach (var id in new[] { "yard/one+two", "#", "nul\0nul", "50%", "50%25", "ünder/way" })
        {
            outlet.Send(HeardOf.Yard(panel => panel.Set(0, true)).First(one => one.Kind == "control") with { Id = id });
        }

        Until(() => said.Any(one => one.Contains("is connected", StringComparison.Ordinal)));
        string kept = string.Empty;
        Until(() => (kept = broker.Retained("-F", "%t")).Contains("way", StringComparison.Ordinal));
        Assert.Equal(
            ["lampblack/%23", "lampblack/50%25", "lampblack/50%2525", "lampblack/nul%00nul", "lampblack/yard/one%2Btwo", "lampblack/ünder/way"],
            kept.Split('\n', StringSplitOptions.RemoveEmptyEntries).Order(StringComparer.Ordinal));
        broker.Publish("lampblack/north%2Bsouth/set", "1");
        broker.Publish("lampblack/nul%00/set", "0");
        Until(() => typed.Count == 2);
        Assert.Equal(["{\"set\":\"north\\u002Bsouth\",\"level\":1}", "{\"set\":\"nul\\u0000\",\"level\":0}"], typed);

        // It may have come before the broker was up; once connected, nothing ends the connection.
        Assert.Single(said.SkipWhile(one => !one.Contains("is connected", StringComparison.Ordinal)));
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

    private static void Until(Func<bool> come)
    {
        var end = Stopwatch.StartNew();
        while (!come())
        {
            Assert.True(end.Elapsed < TimeSpan.FromSeconds(30), "it did not come");
            Thread.Sleep(20);
        }
    }
}
