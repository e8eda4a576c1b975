using System;
using System.Collections.Generic;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Threading.Tasks;
using Lampblack.Firmware;
using Lampblack.Formats;
using Lampblack.Parts;
using Lampblack.Tests.Peers;
using Lampblack.Tests.Peers.Avr;
using Xunit;

namespace Lampblack.Tests.Firmware;

public sealed class FlashSessionTests
{
    public static TheoryData<ControllerChip> Chips => new(Enum.GetValues<ControllerChip>());

    [Theory]
    [MemberData(nameof(Chips))]
    public void An_image_is_written_and_read_back(ControllerChip chip)
    {
        var image = Image(chip);
        var loader = LoaderOf(chip);
        var session = Run(chip, image, loader);
        Assert.Null(session.Fault);
        Assert.True(session.IsDone);
        Assert.Equal(1, session.DoneShare);
        Assert.True(loader.HasLeft);
        Assert.All(image.Bytes(), pair => Assert.Equal(pair.Value, loader.Flash[pair.Key]));
        var boot = FlashTarget.Of(chip).BootAddress;
        Assert.All(loader.Flash[boot..], value => Assert.Equal(0xFF, value));
    }

    [Theory]
    [InlineData(ControllerChip.ATmega2560, 0x13)]
    [InlineData(ControllerChip.ATmega328P, 0x64)]
    [InlineData(ControllerChip.ATmega32U4, 'B')]
    public void Another_chip_is_not_written(ControllerChip chip, int writing)
    {
        var loader = LoaderOf(chip, [0x1E, 0x95, 0x14]);
        var session = Run(chip, Image(chip), loader);
        Assert.Equal("flash-reply", session.Fault!.Code);
        Assert.Equal($"this is no {chip}: its signature is another; nothing was written", session.Fault.Message);
        Assert.DoesNotContain((byte)writing, loader.Commands);
        Assert.All(loader.Flash, value => Assert.Equal(0xFF, value));
    }

    [Theory]
    [MemberData(nameof(Chips))]
    public void A_page_that_reads_otherwise_is_told(ControllerChip chip)
    {
        var session = Run(chip, Image(chip), LoaderOf(chip, worn: 0x105));
        Assert.Equal("the page at 0x100 reads otherwise than it was written", session.Fault?.Message);
        Assert.False(session.IsDone);
    }

    [Theory]
    [InlineData(ControllerChip.ATmega2560, 0x3E000)]
    [InlineData(ControllerChip.ATmega328P, 0x7000)]
    [InlineData(ControllerChip.ATmega32U4, 0x7000)]
    public void The_boot_loader_is_never_written(ControllerChip chip, int boot)
    {
        Assert.NotNull(FlashSession.Begin(chip, HexFile.Of([KeyValuePair.Create(boot - 1, (byte)1)])).Value);
        var refused = FlashSession.Begin(chip, HexFile.Of([KeyValuePair.Create(boot, (byte)1)]));
        Assert.Null(refused.Value);
        Assert.Equal("flash-image", Assert.Single(refused.Findings).Code);
        Assert.Equal("there is nothing to write", Assert.Single(FlashSession.Begin(chip, new([])).Findings).Message);
    }

    [Theory]
    [MemberData(nameof(Chips))]
    public void Hello_is_repeated_while_the_chip_starts_and_given_up_at_last(ControllerChip chip)
    {
        Assert.True(Run(chip, Image(chip), LoaderOf(chip, deaf: 6)).IsDone);
        var silent = Run(chip, Image(chip), LoaderOf(chip, deaf: 1000));
        Assert.Equal("flash-silent", silent.Fault?.Code);
        Assert.Equal("no answer from the boot loader while saying hello", silent.Fault?.Message);
    }

    [Theory]
    [MemberData(nameof(Chips))]
    public void Silence_in_the_middle_ends_it(ControllerChip chip)
    {
        var session = FlashSession.Begin(chip, Image(chip)).Value!;
        var loader = LoaderOf(chip);
        while (session.DoneShare < 0.5)
        {
            session.Receive(loader.Take(session.Outgoing));
        }

        session.TimeOut();
        Assert.Equal("flash-silent", session.Fault?.Code);
        Assert.Empty(session.Outgoing);
    }

    [Theory]
    [MemberData(nameof(Chips))]
    public void Answers_may_come_in_any_pieces_and_after_leftovers(ControllerChip chip)
    {
        var session = FlashSession.Begin(chip, Image(chip)).Value!;
        var loader = LoaderOf(chip);
        session.Receive([.. BenchFrame.Write(6, 3, 1, 0, 0, 0, 0, 0)]); // the engine's last words
        while (!session.IsDone && session.Fault is null)
        {
            var reply = loader.Take(session.Outgoing);
            if (reply.Length == 0)
            {
                session.TimeOut();
            }

            foreach (var value in reply)
            {
                session.Receive([value]);
            }
        }

        Assert.Null(session.Fault);
    }

    /// <summary>Hello was sent already when the engine's last words come, and is answered once for each time it was sent.</summary>
    [Theory]
    [MemberData(nameof(Chips))]
    public void A_second_answer_to_hello_is_not_taken_for_another_chip(ControllerChip chip)
    {
        var session = FlashSession.Begin(chip, Image(chip)).Value!;
        var loader = LoaderOf(chip);
        var first = loader.Take(session.Outgoing);
        session.Receive([.. BenchFrame.Write(6, 3, 1, 0, 0, 0, 0, 0)]);
        var second = loader.Take(session.Outgoing);
        session.Receive(first);
        var third = loader.Take(session.Outgoing);
        session.Receive(second);
        session.Receive(third);
        RunOn(session, loader);
        Assert.Null(session.Fault);
        Assert.True(session.IsDone);
    }

    /// <summary>The chip slept through some hellos that an adapter had kept for it: all are answered at once.</summary>
    [Theory]
    [MemberData(nameof(Chips))]
    public void Hellos_that_are_answered_late_and_all_at_once_do_no_harm(ControllerChip chip)
    {
        var session = FlashSession.Begin(chip, Image(chip)).Value!;
        var loader = LoaderOf(chip);
        var late = loader.Take(session.Outgoing);
        session.TimeOut();
        late = [.. late, .. loader.Take(session.Outgoing)];
        session.TimeOut();
        late = [.. late, .. loader.Take(session.Outgoing)];
        foreach (var value in late)
        {
            session.Receive([value]);
        }

        RunOn(session, loader);
        Assert.Null(session.Fault);
        Assert.True(session.IsDone);
    }

    [Theory]
    [MemberData(nameof(Chips))]
    public void Something_that_never_stops_talking_is_no_boot_loader(ControllerChip chip)
    {
        var session = FlashSession.Begin(chip, Image(chip)).Value!;
        for (var part = 0; part < 10_000 && session.Fault is null; part++)
        {
            session.Receive("$GP 4711 "u8);
        }

        Assert.Equal("flash-reply", session.Fault?.Code);
    }

    /// <summary>The scripted loaders are ones that an independent program can write through: else our own side would be tried on a mirror.</summary>
    [Theory]
    [InlineData(ControllerChip.ATmega328P, "stk500v1", "m328p")]
    [InlineData(ControllerChip.ATmega2560, "stk500v2", "m2560")]
    public async Task Avrdude_writes_through_the_scripted_loader(ControllerChip chip, string protocol, string part)
    {
        var image = Image(chip);
        using var folder = new ScratchFolder();
        var path = folder.Write("image.hex", Encoding.ASCII.GetBytes(image.Write()));
        var loader = LoaderOf(chip);
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        var serving = Serve(listener, loader);
        var port = ((IPEndPoint)listener.LocalEndpoint).Port;
        OutsideProgram.RunWell(
            "avrdude",
            ["-qq", "-c", protocol, "-p", part, "-P", string.Create(CultureInfo.InvariantCulture, $"net:127.0.0.1:{port}"), "-D", "-U", $"flash:w:{path}:i"]);
        listener.Stop();
        await serving;
        Assert.All(image.Bytes(), pair => Assert.Equal(pair.Value, loader.Flash[pair.Key]));
    }

    private static async Task Serve(TcpListener listener, ScriptedLoader loader)
    {
        using var client = await listener.AcceptTcpClientAsync();
        var stream = client.GetStream();
        var buffer = new byte[1024];
        while (await stream.ReadAsync(buffer) is > 0 and var count)
        {
            await stream.WriteAsync(loader.Take(buffer[..count]));
        }
    }

    private static FlashSession Run(ControllerChip chip, HexFile image, ScriptedLoader loader)
    {
        var session = FlashSession.Begin(chip, image).Value!;
        RunOn(session, loader);
        return session;
    }

    private static void RunOn(FlashSession session, ScriptedLoader loader)
    {
        for (var turn = 0; turn < 20_000 && !session.IsDone && session.Fault is null; turn++)
        {
            var reply = loader.Take(session.Outgoing);
            if (reply.Length == 0)
            {
                session.TimeOut();
            }
            else
            {
                session.Receive(reply);
            }
        }
    }

    private static ScriptedLoader LoaderOf(ControllerChip chip, byte[]? signature = null, int worn = -1, int deaf = 0)
    {
        var made = chip switch
        {
            ControllerChip.ATmega2560 => ScriptedLoader.Second(signature ?? [0x1E, 0x98, 0x01], worn),
            ControllerChip.ATmega328P => ScriptedLoader.First(signature ?? [0x1E, 0x95, 0x0F], worn),
            _ => ScriptedLoader.Letters(signature ?? [0x1E, 0x95, 0x87], worn),
        };
        made.Deaf = deaf;
        return made;
    }

    private static HexFile Image(ControllerChip chip) =>
        PanelImage.Join(EngineImage.BuiltIn(chip), PanelTable.Of(BenchPlans.Everything(chip)).Value).Value.File;
}
