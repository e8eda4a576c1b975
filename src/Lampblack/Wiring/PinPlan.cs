using System.Collections.Immutable;
using System.Globalization;
using Lampblack.Desks;
using Lampblack.Parts;

namespace Lampblack.Wiring;

/// <summary>Which pin reads or drives what, for every controller of a desk.</summary>
/// <param name="Controllers">At least one where the desk has anything to wire.</param>
/// <param name="Controls">Every control and indicator of the desk with what belongs to it, in the desk's order.</param>
public sealed record PinPlan(ImmutableArray<ControllerPlan> Controllers, ImmutableArray<WiredControl> Controls)
{
    /// <summary>What stands before a place where there are several controllers: "controller 2: "; nothing where there is one.</summary>
    /// <param name="controller">0 for the first.</param>
    public string At(int controller) => Controllers.Length == 1 ? string.Empty : string.Create(CultureInfo.InvariantCulture, $"controller {controller + 1}: ");
}

/// <summary>
/// One controller's pins. The place of an entry in a list is its number in the firmware's table and on the link:
/// the third contact is contact 2 in every frame.
/// </summary>
public sealed record ControllerPlan
{
    /// <summary>0 for the first.</summary>
    public required int Index { get; init; }

    /// <summary>The chip.</summary>
    public required ControllerChip Chip { get; init; }

    /// <summary>Bits a second on the serial line.</summary>
    public int Baud { get; init; } = 250_000;

    /// <summary>How it shows itself on USB of its own; null where it does not.</summary>
    public UsbPad? Usb { get; init; }

    /// <summary>Driven low one after the other, else left floating; never driven high.</summary>
    public ImmutableArray<ControllerPin> Columns { get; init; } = [];

    /// <summary>Pulled up; read while a column is low.</summary>
    public ImmutableArray<ControllerPin> Rows { get; init; } = [];

    /// <summary>Whether every crossing has a diode.</summary>
    public bool Diodes { get; init; } = true;

    /// <summary>Shift registers that read, if any (74HC165).</summary>
    public ShiftIn? Inputs { get; init; }

    /// <summary>Shift registers that drive, if any (74HC595).</summary>
    public ShiftOut? Outputs { get; init; }

    /// <summary>Every contact of switches, buttons and selectors (of those not read by a ladder).</summary>
    public ImmutableArray<PlannedContact> Contacts { get; init; } = [];

    /// <summary>Every encoder.</summary>
    public ImmutableArray<PlannedEncoder> Encoders { get; init; } = [];

    /// <summary>Every potentiometer or slider.</summary>
    public ImmutableArray<PlannedWiper> Wipers { get; init; } = [];

    /// <summary>Every selector read through a ladder of resistors.</summary>
    public ImmutableArray<PlannedLadder> Ladders { get; init; } = [];

    /// <summary>Every lamp that is switched on and off.</summary>
    public ImmutableArray<PlannedIndicator> Indicators { get; init; } = [];

    /// <summary>Every channel that is dimmed: gates of the lamps' transistors, and meters with a pointer.</summary>
    public ImmutableArray<PlannedDimmer> Dimmers { get; init; } = [];

    /// <summary>Pins kept for data lines of displays and pixels, which the engine has no code for: they stay inputs, and are in no table.</summary>
    public ImmutableArray<PlannedDataLine> DataLines { get; init; } = [];
}

/// <summary>A pin kept for a data line.</summary>
/// <param name="ItemId">The display, the first pixel, or the circuit's name for a channel of pixels.</param>
/// <param name="Terminal">Which of its terminals.</param>
/// <param name="Pin">The pin.</param>
public sealed record PlannedDataLine(string ItemId, string Terminal, ControllerPin Pin);

/// <summary>A chain of 74HC165.</summary>
/// <param name="Load">To SH/LD of all chips; low loads.</param>
/// <param name="Clock">To CLK of all chips.</param>
/// <param name="Data">From QH of chip 0.</param>
/// <param name="ChipCount">Chips in the chain.</param>
public sealed record ShiftIn(ControllerPin Load, ControllerPin Clock, ControllerPin Data, int ChipCount);

/// <summary>A chain of 74HC595.</summary>
/// <param name="Data">To SER of chip 0.</param>
/// <param name="Clock">To SRCLK of all chips.</param>
/// <param name="Latch">To RCLK of all chips.</param>
/// <param name="ChipCount">Chips in the chain.</param>
public sealed record ShiftOut(ControllerPin Data, ControllerPin Clock, ControllerPin Latch, int ChipCount);

/// <summary>One contact.</summary>
/// <param name="ItemId">Its control: "dome/shutter".</param>
/// <param name="Place">Where it is read.</param>
/// <param name="Steady">Read steadily (15 equal scans) in place of at once and locked for 20 ms: for guarded switches.</param>
public sealed record PlannedContact(string ItemId, InputPlace Place, bool Steady = false);

/// <summary>One encoder, both phases on pins of their own.</summary>
/// <param name="ItemId">Its control.</param>
/// <param name="PhaseA">Terminal A.</param>
/// <param name="PhaseB">Terminal B.</param>
/// <param name="EdgesPerDetent">1, 2 or 4.</param>
public sealed record PlannedEncoder(string ItemId, ControllerPin PhaseA, ControllerPin PhaseB, int EdgesPerDetent);

/// <summary>One wiper on an analog pin.</summary>
/// <param name="ItemId">Its control.</param>
/// <param name="Pin">The pin.</param>
/// <param name="AnalogChannel">The chip's channel, 0 to 15.</param>
public sealed record PlannedWiper(string ItemId, ControllerPin Pin, int AnalogChannel);

/// <summary>One selector through a ladder: each position joins the pin to another tap.</summary>
/// <param name="ItemId">Its control.</param>
/// <param name="Pin">The pin.</param>
/// <param name="AnalogChannel">The chip's channel, 0 to 15.</param>
/// <param name="Windows">For each position, first to last, the readings that mean it; no two overlap. Readings of 10 bits: 0 to 1023.</param>
public sealed record PlannedLadder(string ItemId, ControllerPin Pin, int AnalogChannel, ImmutableArray<LadderWindow> Windows);

/// <summary>Readings of 10 bits that mean one position, both ends counted in.</summary>
/// <param name="LowCount">The least.</param>
/// <param name="HighCount">The largest.</param>
public sealed record LadderWindow(int LowCount, int HighCount);

/// <summary>One lamp.</summary>
/// <param name="ItemId">Its control, or the legend it stands behind.</param>
/// <param name="Place">Where it is driven; high lights it.</param>
public sealed record PlannedIndicator(string ItemId, OutputPlace Place);

/// <summary>One dimmed channel.</summary>
/// <param name="Channel">The circuit's name for the channel.</param>
/// <param name="Pin">A pin that a timer of the chip drives.</param>
/// <param name="PwmHertz">Wanted switchings a second.</param>
/// <param name="IsMeter">Whether it moves a meter's pointer, and the channel is that control's id: it begins at 0 with each start.</param>
public sealed record PlannedDimmer(string Channel, ControllerPin Pin, double PwmHertz, bool IsMeter = false)
{
    /// <summary>Of a meter: what moves its pointer to the end of its scale.</summary>
    public double FullScaleAmperes { get; init; } = ControlWiring.UsualMeterAmperes;
}
