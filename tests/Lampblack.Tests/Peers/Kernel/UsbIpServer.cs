using System;
using System.Buffers.Binary;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using System.Net;
using System.Net.Sockets;
using System.Threading;
using Lampblack.Tests.Peers.Avr;

namespace Lampblack.Tests.Peers.Kernel;

/// <summary>
/// Offers a simulated panel's USB to a kernel elsewhere. It knows no descriptor and no report: every answer is what the firmware said in its simulator.
/// Frames by the kernel's Documentation/usb/usbip_protocol.rst (big endian).
/// </summary>
internal sealed class UsbIpServer : IDisposable
{
    private const int Pipe = -32;        // EPIPE: the device refused
    private const int Overdue = -110;    // ETIMEDOUT
    private const int Taken = -104;      // ECONNRESET: what was asked for was taken back in time
    private const int StepUs = 2000;     // the panel's time between two looks at the line

    private readonly TcpListener listener = new(IPAddress.Loopback, 0);
    private readonly LivePanel panel;
    private readonly Thread thread;
    private readonly Queue<(uint Sequence, uint Device, int Length)> waiting = [];
    private readonly Queue<byte[]> reports = [];
    private volatile bool ends;

    /// <summary>Begins to listen.</summary>
    /// <param name="panel">A panel that has been on the bus for a moment.</param>
    public UsbIpServer(LivePanel panel)
    {
        this.panel = panel;
        listener.Start();
        thread = new(Serve) { IsBackground = true };
        thread.Start();
    }

    /// <summary>The port on this machine.</summary>
    public int Port => ((IPEndPoint)listener.LocalEndpoint).Port;

    /// <summary>Control requests and their ends, in their order: sixteen digits, then "ok", "stall" or "timeout".</summary>
    public List<string> Asked { get; } = [];

    /// <summary>What went wrong here; null where nothing did.</summary>
    public Exception? Fault { get; private set; }

    /// <summary>Pulls the plug: the kernel sees the device go.</summary>
    public void Dispose()
    {
        ends = true;
        listener.Stop();
        thread.Join();
    }

    private void Serve()
    {
        try
        {
            using var socket = listener.AcceptSocket();
            socket.NoDelay = true;
            Import(socket);
            while (!ends)
            {
                if (socket.Poll(1000, SelectMode.SelectRead))
                {
                    if (socket.Available == 0)
                    {
                        return;
                    }

                    Take(socket);
                }
                else
                {
                    Advance();
                }

                while (waiting.Count > 0 && reports.Count > 0)
                {
                    var (sequence, device, length) = waiting.Dequeue();
                    var report = reports.Dequeue();
                    Answer(socket, sequence, device, 0, report.AsSpan(0, Math.Min(length, report.Length)));
                }
            }
        }
        catch (SocketException) when (ends)
        {
            // Nobody came.
        }
        catch (Exception fault)
        {
            Fault = fault;
        }
    }

    /// <summary>OP_REQ_IMPORT: the device's own first descriptors fill the reply.</summary>
    private void Import(Socket socket)
    {
        var ask = Read(socket, 40);
        if (BinaryPrimitives.ReadUInt32BigEndian(ask) != 0x01118003)
        {
            throw new ProtocolViolationException("not a question for a device: " + Convert.ToHexString(ask));
        }

        panel.Do("usb reset\nrun 2000");
        var device = Control(UsbBench.Device).Data;
        var configuration = Control(UsbBench.ConfigurationStart).Data;
        Control(UsbBench.Address5); // the kernel elsewhere believes that it did this itself
        var reply = new byte[8 + 312];
        BinaryPrimitives.WriteUInt32BigEndian(reply, 0x01110003);
        "/sys/devices/bench/1-1"u8.CopyTo(reply.AsSpan(8));
        "1-1"u8.CopyTo(reply.AsSpan(8 + 256));
        foreach (var (at, value) in new[] { (288, 1u), (292, 2u), (296, 2u) }) // bus 1, device 2, full speed
        {
            BinaryPrimitives.WriteUInt32BigEndian(reply.AsSpan(8 + at), value);
        }

        // Vendor, product and version have their low byte first in the descriptor (USB 2.0, table 9-8).
        foreach (var (to, from) in new[] { (300, 9), (301, 8), (302, 11), (303, 10), (304, 13), (305, 12), (306, 4), (307, 5), (308, 6), (310, 17) })
        {
            reply[8 + to] = device[from];
        }

        reply[8 + 309] = configuration[5];
        reply[8 + 311] = configuration[4];
        socket.Send(reply);
    }

    /// <summary>USBIP_CMD_SUBMIT or USBIP_CMD_UNLINK.</summary>
    private void Take(Socket socket)
    {
        var head = Read(socket, 48);
        uint Word(int at) => BinaryPrimitives.ReadUInt32BigEndian(head.AsSpan(at));
        var (command, sequence, device, isIn, endpoint, length) = (Word(0), Word(4), Word(8), Word(12) == 1, Word(16), (int)Word(24));
        if (command == 2)
        {
            var kept = waiting.Where(one => one.Sequence != Word(20)).ToList();
            var status = kept.Count < waiting.Count ? Taken : 0;
            waiting.Clear();
            kept.ForEach(waiting.Enqueue);
            Answer(socket, sequence, device, status, [], reply: 4);
        }
        else if (command != 1)
        {
            throw new ProtocolViolationException("unknown command " + Convert.ToHexString(head));
        }
        else if (endpoint == 0)
        {
            if (!isIn && length > 0)
            {
                Read(socket, length); // nothing of ours takes data: the firmware would refuse, and the bench can't send any
                Asked.Add(Convert.ToHexStringLower(head.AsSpan(40)) + " data");
                Answer(socket, sequence, device, Pipe, []);
                return;
            }

            var (how, data) = Control(Convert.ToHexStringLower(head.AsSpan(40)));
            Answer(socket, sequence, device, how == "ok" ? 0 : how == "stall" ? Pipe : Overdue, data.AsSpan(0, Math.Min(length, data.Length)));
        }
        else
        {
            if (waiting.Count == 0)
            {
                panel.Do("usb poll");
            }

            waiting.Enqueue((sequence, device, length));
        }
    }

    private (string How, byte[] Data) Control(string setup)
    {
        for (var tries = 0; tries < 40; tries++)
        {
            var lines = Sort(panel.Do(tries == 0 ? $"usb ask {setup}\nrun 2000" : "run 2000"));
            if (lines.FirstOrDefault(line => line[0] == "usb") is { } answer)
            {
                Asked.Add($"{setup} {answer[3]}");
                return (answer[3], answer[4] == "-" ? [] : Convert.FromHexString(answer[4]));
            }
        }

        throw new TimeoutException(setup);
    }

    private void Advance() => Sort(panel.Do(string.Create(CultureInfo.InvariantCulture, $"run {StepUs}")));

    private List<string[]> Sort(IEnumerable<string> lines)
    {
        List<string[]> words = [.. lines.Select(line => line.Split(' '))];
        foreach (var line in words.Where(line => line[0] == "report" && line[2] != "stall"))
        {
            reports.Enqueue(Convert.FromHexString(line[2]));
        }

        return words;
    }

    private static void Answer(Socket socket, uint sequence, uint device, int status, ReadOnlySpan<byte> data, uint reply = 3)
    {
        var bytes = new byte[48 + data.Length];
        BinaryPrimitives.WriteUInt32BigEndian(bytes, reply);
        BinaryPrimitives.WriteUInt32BigEndian(bytes.AsSpan(4), sequence);
        BinaryPrimitives.WriteUInt32BigEndian(bytes.AsSpan(8), device);
        BinaryPrimitives.WriteInt32BigEndian(bytes.AsSpan(20), status);
        BinaryPrimitives.WriteInt32BigEndian(bytes.AsSpan(24), data.Length);
        data.CopyTo(bytes.AsSpan(48));
        socket.Send(bytes);
    }

    private static byte[] Read(Socket socket, int count)
    {
        var bytes = new byte[count];
        for (var have = 0; have < count;)
        {
            var got = socket.Receive(bytes, have, count - have, SocketFlags.None);
            have += got > 0 ? got : throw new SocketException((int)SocketError.ConnectionReset);
        }

        return bytes;
    }
}
