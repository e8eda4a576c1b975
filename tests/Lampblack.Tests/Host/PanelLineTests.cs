using System;
using System.Collections.Concurrent;
using System.Collections.Generic;
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

public sealed class PanelLineTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    [Fact]
    public void A_simulated_panel_is_heard_lost_and_found_again_by_tcp()
    {
        using TcpListener listener = new(IPAddress.Loopback, 0);
        listener.Start();
        using Running running = new($"127.0.0.1:{((IPEndPoint)listener.LocalEndpoint).Port}");
        for (var round = 0; round < 2; round++)
        {
            using var client = listener.AcceptTcpClient();
            var panel = HeardOf.YardPanel();
            panel.Contacts[0] = round == 0;
            using PanelEnd end = new(client.GetStream(), panel);
            running.Expect($"yard/points {(round == 0 ? "MAIN" : "OFF")}");
            end.Do(() => panel.Set(2, true));
            running.Expect("yard/call in");
            end.Do(() => panel.Set(2, false));
            running.Expect("yard/call out");
            running.Line.Post("{\"set\": \"yard/call.lamp\", \"level\": 1}");
            end.Until(() => panel.Indicators[0] == 1);
        }

        running.Expect("controller-1 closed");
    }

    [Fact]
    public void Rubbish_and_half_frames_on_the_line_end_nothing()
    {
        using TcpListener listener = new(IPAddress.Loopback, 0);
        listener.Start();
        using Running running = new($"127.0.0.1:{((IPEndPoint)listener.LocalEndpoint).Port}");
        using (var first = listener.AcceptTcpClient())
        {
            first.GetStream().Write([7, 7, 7, 0, 9, 1, 2]);
        }

        using var client = listener.AcceptTcpClient();
        XorShift chance = new(3);
        client.GetStream().Write([.. Enumerable.Range(0, 5000).Select(_ => (byte)chance.Below(256)), 0]);
        var panel = HeardOf.YardPanel();
        using PanelEnd end = new(client.GetStream(), panel);
        running.Expect("controller-1 connected");
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_panel_at_a_serial_port_is_heard_lost_and_found_again(bool isOwn)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux() && File.Exists("/usr/bin/socat"), "socat is missing: apt-get install socat");
        using WorkFolder folder = new();
        var (ours, theirs) = (Path.Combine(folder.Full, "ours"), Path.Combine(folder.Full, "theirs"));

        // Pseudo terminals take any rate; the library none that the old interface has no constant for.
        Func<string, int, IPanelPort> open = isOwn ? (name, baud) => new LinuxPanelPort(new LinuxCalls(), name, baud) : (name, _) => Library(name);
        using Running running = new(ours, open);
        for (var round = 0; round < 2; round++)
        {
            using Process socat = Process.Start(new ProcessStartInfo("socat") { ArgumentList = { $"pty,raw,echo=0,link={ours}", $"pty,raw,echo=0,link={theirs}" }, RedirectStandardError = true })!;
            try
            {
                Wait(() => Path.Exists(theirs) && Path.Exists(ours));
                using FileStream stream = new(theirs, FileMode.Open, FileAccess.ReadWrite, FileShare.ReadWrite, 1);
                var panel = HeardOf.YardPanel();
                using PanelEnd end = new(stream, panel);
                running.Expect("controller-1 connected");
                end.Do(() => panel.Set(0, true));
                running.Expect("yard/points MAIN");
                end.Do(() => panel.Set(0, false));
                running.Expect("yard/points OFF");
            }
            finally
            {
                socat.Kill();
                socat.WaitForExit();
                File.Delete(ours);
                File.Delete(theirs);
            }

            running.Expect("controller-1 closed");
        }
    }

    [Fact]
    public void A_port_that_is_not_there_is_told_once_and_waited_for()
    {
        ConcurrentQueue<string> told = [];
        using CancellationTokenSource stop = new(1800);
        PanelLine line = new("/dev/ttyACM-none", HeardOf.Listening()) { Missing = told.Enqueue };
        line.Run(stop.Token);
        Assert.Equal(["there is no such port"], told);
    }

    [Theory]
    [InlineData("127.0.0.1:9000", "127.0.0.1", 9000)]
    [InlineData("bench.local:1", "bench.local", 1)]
    [InlineData("[::1]:7000", "::1", 7000)]
    [InlineData("/dev/ttyACM0", null, 0)]
    [InlineData("/dev/serial/by-path/pci-0000:00:1", null, 0)]
    [InlineData("COM3", null, 0)]
    [InlineData("host:0", null, 0)]
    [InlineData("host:65536", null, 0)]
    public void Ports_of_networks_are_told_from_serial_ports(string text, string? host, int port) =>
        Assert.Equal(host is null ? null : new NetworkPlace(host, port), NetworkPlace.TryRead(text, 0));

    private static SerialPanelPort Library(string name)
    {
        try
        {
            return new(name, 115_200);
        }
        catch (Exception problem) when (problem is UnauthorizedAccessException)
        {
            throw new IOException(problem.Message, problem);
        }
    }

    private static void Wait(Func<bool> come)
    {
        var end = Stopwatch.StartNew();
        while (!come())
        {
            Assert.True(end.Elapsed < Patience, "it did not come");
            Thread.Sleep(5);
        }
    }

    /// <summary>A line that runs beside the test, and what was heard.</summary>
    private sealed class Running : IDisposable
    {
        private readonly CancellationTokenSource stop = new();
        private readonly Thread thread;
        private readonly List<string> heard = [];

        public Running(string port, Func<string, int, IPanelPort>? open = null)
        {
            var listening = HeardOf.Listening();
            Line = new(port, listening, open ?? PanelPorts.Open);
            Line.After = () =>
            {
                lock (heard)
                {
                    heard.AddRange(listening.TakeHeard().Select(one => $"{one.Id} {one.Payload}"));
                }
            };
            thread = new(() => Line.Run(stop.Token)) { IsBackground = true };
            thread.Start();
        }

        public PanelLine Line { get; }

        /// <summary>Waits until something was heard, and forgets what came before.</summary>
        public void Expect(string text) => Wait(() =>
        {
            lock (heard)
            {
                var at = heard.IndexOf(text);
                if (at >= 0)
                {
                    heard.RemoveRange(0, at + 1);
                }

                return at >= 0;
            }
        });

        public void Dispose()
        {
            stop.Cancel();
            Assert.True(thread.Join(Patience), "the line did not end");
            stop.Dispose();
        }
    }

    /// <summary>A scripted panel at the other end of a stream.</summary>
    private sealed class PanelEnd : IDisposable
    {
        private readonly Stream stream;
        private readonly ScriptedPanel panel;
        private readonly Lock turn = new();

        public PanelEnd(Stream stream, ScriptedPanel panel)
        {
            (this.stream, this.panel) = (stream, panel);
            Thread thread = new(Listen) { IsBackground = true };
            thread.Start();
        }

        public void Do(Action act)
        {
            lock (turn)
            {
                act();
                stream.Write(panel.Take());
                stream.Flush();
            }
        }

        public void Until(Func<bool> come) => Wait(() =>
        {
            lock (turn)
            {
                return come();
            }
        });

        public void Dispose() => stream.Dispose();

        private void Listen()
        {
            var buffer = new byte[512];
            try
            {
                for (var count = stream.Read(buffer); count > 0; count = stream.Read(buffer))
                {
                    Do(() => panel.Receive(buffer.AsSpan(0, count)));
                }
            }
            catch (Exception problem) when (problem is IOException or ObjectDisposedException)
            {
                // The test is over, or the line was cut.
            }
        }
    }
}
