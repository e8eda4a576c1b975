using System.Collections.Immutable;

namespace Lampblack.Link;

/// <summary>Something the panel says.</summary>
/// <param name="Sequence">Counts the panel's frames from 0; after 255 comes 0.</param>
public abstract record PanelFrame(byte Sequence);

/// <summary>Who the panel is; said once at its start, and when asked.</summary>
public sealed record HelloFrame(byte Sequence) : PanelFrame(Sequence)
{
    /// <summary>Version of the frames; 1 is known.</summary>
    public byte LinkVersion { get; init; } = 1;

    /// <summary>Version of the engine.</summary>
    public byte EngineVersion { get; init; } = 1;

    /// <summary>Version of the table that the engine reads.</summary>
    public byte TableVersion { get; init; } = 1;

    /// <summary>1 ATmega2560, 2 ATmega328P, 3 ATmega32U4.</summary>
    public byte Chip { get; init; } = 1;

    /// <summary>The controller's index in the desk.</summary>
    public byte Controller { get; init; }

    /// <summary>CRC-32 of the desk's table without its own checksum; 0 without a table.</summary>
    public uint PlanHash { get; init; }

    /// <summary>How many contacts, encoders, wipers, ladders, indicators and dimmers its table has.</summary>
    public PanelCounts Counts { get; init; } = new(0, 0, 0, 0, 0, 0);

    /// <summary>Why the chip started, as its register MCUSR has it.</summary>
    public byte ResetCause { get; init; }
}

/// <summary>How many of each a controller has.</summary>
/// <param name="Contacts">Contacts.</param>
/// <param name="Encoders">Encoders.</param>
/// <param name="Wipers">Wipers.</param>
/// <param name="Ladders">Ladders.</param>
/// <param name="Indicators">Indicators.</param>
/// <param name="Dimmers">Dimmers.</param>
public sealed record PanelCounts(int Contacts, int Encoders, int Wipers, int Ladders, int Indicators, int Dimmers);

/// <summary>A contact closed or opened.</summary>
/// <param name="Sequence">The frame's number.</param>
/// <param name="Number">The contact, 0 to 32767.</param>
/// <param name="IsClosed">Whether it is closed now.</param>
public sealed record ContactFrame(byte Sequence, int Number, bool IsClosed) : PanelFrame(Sequence);

/// <summary>An encoder turned.</summary>
/// <param name="Sequence">The frame's number.</param>
/// <param name="Number">The encoder.</param>
/// <param name="Delta">Edges since the last frame, clockwise positive, -128 to 127.</param>
/// <param name="Position">Edges since the start; wraps at 16 bits.</param>
/// <param name="Illegal">Steps that an encoder can't make, so far; wraps at 8 bits.</param>
public sealed record EncoderFrame(byte Sequence, int Number, sbyte Delta, short Position, byte Illegal) : PanelFrame(Sequence);

/// <summary>A wiper moved.</summary>
/// <param name="Sequence">The frame's number.</param>
/// <param name="Number">The wiper.</param>
/// <param name="Value">Four readings of 10 bits added: 0 to 4092.</param>
public sealed record WiperFrame(byte Sequence, int Number, int Value) : PanelFrame(Sequence)
{
    /// <summary>The largest value: four times 1023.</summary>
    public const int Full = 4092;
}

/// <summary>A selector with a ladder stands elsewhere.</summary>
/// <param name="Sequence">The frame's number.</param>
/// <param name="Number">The ladder.</param>
/// <param name="Position">0 for the first position; 255 for none.</param>
/// <param name="Value">Four readings of 10 bits added: 0 to 4092.</param>
public sealed record LadderFrame(byte Sequence, int Number, byte Position, int Value) : PanelFrame(Sequence)
{
    /// <summary>The position that means none.</summary>
    public const byte None = 255;
}

/// <summary>Said once a second.</summary>
/// <param name="Sequence">The frame's number.</param>
/// <param name="UpSeconds">Since the start; wraps at 16 bits.</param>
/// <param name="BadFrames">Packets that the panel refused.</param>
/// <param name="DroppedFrames">Frames that the panel could not send.</param>
public sealed record AliveFrame(byte Sequence, int UpSeconds, int BadFrames, int DroppedFrames) : PanelFrame(Sequence);

/// <summary>What a stretch of a snapshot is about.</summary>
public enum SnapshotKind
{
    /// <summary>Contacts: 1 is closed.</summary>
    Contacts = 0,

    /// <summary>Encoders: positions.</summary>
    Encoders = 1,

    /// <summary>Wipers: values.</summary>
    Wipers = 2,

    /// <summary>Ladders: position in the lowest 8 bits, value above.</summary>
    Ladders = 3,

    /// <summary>Indicators: levels.</summary>
    Indicators = 4,

    /// <summary>Dimmers: levels.</summary>
    Dimmers = 5,

    /// <summary>The snapshot is complete.</summary>
    End = 255,
}

/// <summary>A stretch of a snapshot.</summary>
/// <param name="Sequence">The frame's number.</param>
/// <param name="Kind">What it is about.</param>
/// <param name="First">Number of the first entry.</param>
/// <param name="Entries">The entries from there on. Contacts come in bytes, so that up to seven entries behind the last contact are 0.</param>
public sealed record SnapshotFrame(byte Sequence, SnapshotKind Kind, int First, ImmutableArray<int> Entries) : PanelFrame(Sequence);

/// <summary>What became of a command.</summary>
public enum CommandResult
{
    /// <summary>Done.</summary>
    Done = 0,

    /// <summary>The panel does not know it.</summary>
    Unknown = 1,

    /// <summary>It had too many or too few bytes.</summary>
    WrongLength = 2,

    /// <summary>It was about something that the panel has not.</summary>
    OutOfRange = 3,

    /// <summary>Later, perhaps.</summary>
    Busy = 4,
}

/// <summary>The panel's answer to a command.</summary>
/// <param name="Sequence">The frame's number.</param>
/// <param name="Command">The command's number.</param>
/// <param name="Result">What became of it.</param>
public sealed record AcknowledgeFrame(byte Sequence, byte Command, CommandResult Result) : PanelFrame(Sequence);

/// <summary>How a contact bounced.</summary>
/// <param name="Sequence">The frame's number.</param>
/// <param name="Number">The contact.</param>
/// <param name="Changes">Raw changes seen.</param>
/// <param name="Ticks">Eighths of a millisecond from the first to the last; 255 for that or more.</param>
public sealed record BounceFrame(byte Sequence, int Number, byte Changes, byte Ticks) : PanelFrame(Sequence);
