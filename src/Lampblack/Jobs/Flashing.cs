using System;
using System.Collections.Immutable;
using Lampblack.Findings;
using Lampblack.Firmware;
using Lampblack.Parts;

namespace Lampblack.Jobs;

/// <summary>Writes firmware through a boot loader, over whatever carries the bytes. Done when all is written and was read back, or when something went wrong.</summary>
public sealed class Flashing : IPanelTalk
{
    private readonly FlashSession _session;
    private readonly ControllerFirmware _firmware;
    private long _sinceMs;

    internal Flashing(FlashSession session, ControllerFirmware firmware) => (_session, _firmware) = (session, firmware);

    /// <summary>The chip.</summary>
    public string Chip => _firmware.Chip.ToString();

    /// <summary>The file that a build writes with the same bytes, relative to the output folder.</summary>
    public string Path => _firmware.Path;

    /// <summary>Whether the board has to be put into its boot loader by hand.</summary>
    public bool NeedsReset => _firmware.Chip == ControllerChip.ATmega32U4;

    /// <summary>How much is done, as a share.</summary>
    public double DoneShare => _session.DoneShare;

    /// <summary>What went wrong; null while nothing did.</summary>
    public Finding? Fault { get; private set; }

    /// <inheritdoc />
    public int Baud => FlashSession.UsualBaud(_firmware.Chip);

    /// <inheritdoc />
    public bool IsDone => _session.IsDone || Fault is not null;

    /// <inheritdoc />
    public bool HasEnding => false;

    /// <inheritdoc />
    public long DueMs => _sinceMs + _session.QuietMs;

    /// <summary>What avrdude is called with to do the same.</summary>
    /// <param name="port">The port.</param>
    /// <param name="file">The HEX file.</param>
    public string AvrdudeLine(string port, string file)
    {
        var (part, way) = _firmware.Chip switch
        {
            ControllerChip.ATmega2560 => ("m2560", "stk500v2"),
            ControllerChip.ATmega328P => ("m328p", "stk500v1"),
            _ => ("m32u4", "avr109"),
        };
        return FormattableString.Invariant($"avrdude -p {part} -c {way} -P {port} -b {Baud} -D -U {(file.Contains(' ', StringComparison.Ordinal) ? $"\"flash:w:{file}:i\"" : $"flash:w:{file}:i")}");
    }

    /// <inheritdoc />
    public ImmutableArray<byte> End(long ms) => [];

    /// <inheritdoc />
    public ImmutableArray<byte> Opened(long ms)
    {
        _sinceMs = ms;
        return _session.Outgoing;
    }

    /// <inheritdoc />
    public void Closed(long ms)
    {
        if (!IsDone)
        {
            Fault = Finding.Stop("flash-silent", "the port went away in the middle", "plug the board in and begin again: a boot loader is never written over, so nothing is lost");
        }
    }

    /// <inheritdoc />
    public ImmutableArray<byte> Received(ReadOnlySpan<byte> bytes, long ms)
    {
        _session.Receive(bytes);
        return Sent(ms);
    }

    /// <inheritdoc />
    public ImmutableArray<byte> Tick(long ms)
    {
        if (ms - _sinceMs < _session.QuietMs)
        {
            return [];
        }

        _session.TimeOut();
        return Sent(ms);
    }

    /// <inheritdoc />
    public ImmutableArray<byte> Typed(string line, long ms) => [];

    private ImmutableArray<byte> Sent(long ms)
    {
        _sinceMs = ms;
        Fault ??= _session.Fault;
        return IsDone ? [] : _session.Outgoing;
    }
}
