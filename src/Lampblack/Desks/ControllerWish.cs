using System.Collections.Immutable;
using Lampblack.Findings;
using Lampblack.Parts;

namespace Lampblack.Desks;

/// <summary>The controller that a desk is wired to, and how it is to be wired, as written.</summary>
/// <param name="Controller">The controller.</param>
/// <param name="Span">Where it is written.</param>
public sealed record ControllerWish(Controller Controller, SourceSpan Span)
{
    /// <summary>The link's speed where nobody says: exact at 16 MHz.</summary>
    public const int UsualBaud = 250_000;

    /// <summary>Bits a second on the link.</summary>
    public int Baud { get; init; } = UsualBaud;

    /// <summary>The maker's number on USB; null where none is written.</summary>
    public int? UsbVendorId { get; init; }

    /// <summary>The panel's number on USB; null where none is written.</summary>
    public int? UsbProductId { get; init; }

    /// <summary>Whether encoders strike buttons on USB in place of moving axes.</summary>
    public bool EncodersStrike { get; init; }

    /// <summary>Pins that are kept free.</summary>
    public ImmutableArray<ControllerPin> Reserved { get; init; } = [];

    /// <summary>How much longer each wire is cut than its way. Common practice, no source.</summary>
    public double SlackMm { get; init; } = 30;

    /// <summary>From a panel's plug to the controller, on the shortest way.</summary>
    public double CableMm { get; init; } = 300;

    /// <summary>Whether a matrix gets a diode at every crossing.</summary>
    public bool HasDiodes { get; init; } = true;

    /// <summary>Whether selectors may be read through resistors.</summary>
    public bool MayLadder { get; init; } = true;

    /// <summary>What an indicator gets.</summary>
    public double LampAmperes { get; init; } = 0.005;
}

/// <summary>How a control is wired.</summary>
/// <param name="IsWired">Whether the controller reads or lights it.</param>
/// <param name="PoleCount">How many of its poles the controller reads.</param>
/// <param name="EdgesPerDetent">Of an encoder: changes of its phases from one click to the next.</param>
/// <param name="IsSteady">Whether its contacts are believed only once they have been steady for a while; null where the part decides.</param>
public sealed record ControlWiring(bool IsWired, int PoleCount, int EdgesPerDetent, bool? IsSteady)
{
    /// <summary>One that nothing is said of: most encoders of 20 or 24 clicks make 4 edges for each (from memory).</summary>
    public static ControlWiring Usual { get; } = new(true, 1, 4, null);

    /// <summary>What moves the pointers of most small meters to the end of their scale. From memory.</summary>
    public const double UsualMeterAmperes = 0.001;

    /// <summary>The most that a pin is asked to give a meter; those that need more have a shunt or a resistor of their own.</summary>
    public const double MostMeterAmperes = 0.005;

    /// <summary>Of a meter: whether a pin moves its pointer. One that reads volts of its own must not be joined to a pin.</summary>
    public bool HasPointer { get; init; }

    /// <summary>Of a meter with a pointer: what moves it to the end of its scale.</summary>
    public double MeterAmperes { get; init; } = UsualMeterAmperes;
}
