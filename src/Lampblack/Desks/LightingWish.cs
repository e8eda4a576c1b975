using Lampblack.Findings;
using Lampblack.Parts;

namespace Lampblack.Desks;

/// <summary>How the panels are to be lit from behind, as written.</summary>
public sealed record LightingWish
{
    /// <summary>How much brighter the brightest legend may be than the dimmest, where nobody says. Common practice, no source.</summary>
    public const double UsualEvennessFactor = 2;

    /// <summary>What neighbours' light may be in a dark cell: a twentieth of theirs. Ours; no source.</summary>
    public const double UsualLeakFactor = 20;

    /// <summary>White card or matt white paint (from memory).</summary>
    public const double WhiteReflectance = 0.8;

    /// <summary>From the panel's edge to the walls' inner faces. Common practice, no source.</summary>
    public const double UsualInsetMm = 3;

    /// <summary>The highest volts of a supply, direct current: IEC 60598-1 8.2.3, as for the circuit.</summary>
    public const double HighestSupplyVolts = 60;

    /// <summary>A desk that says nothing of it.</summary>
    public static LightingWish Unsaid { get; } = new();

    /// <summary>The emitters; null where no plan is wanted.</summary>
    public EmitterType? Emitter { get; init; }

    /// <summary>Volts of the supply; null where it is not said.</summary>
    public double? SupplyVolts { get; init; }

    /// <summary>What the supply can give; null where it is not said.</summary>
    public double? SupplyAmperes { get; init; }

    /// <summary>Mean luminance of the lit legends; null for what the desk's use asks for.</summary>
    public double? WantedCandelaPerM2 { get; init; }

    /// <summary>The brightest legend at most so many times as bright as the dimmest.</summary>
    public double EvennessFactor { get; init; } = UsualEvennessFactor;

    /// <summary>The largest share of its light that a legend may owe to one emitter; null where that doesn't matter.</summary>
    public double? MostOneShare { get; init; }

    /// <summary>Neighbours' light in a dark cell: at most one part in so many.</summary>
    public double LeakFactor { get; init; } = UsualLeakFactor;

    /// <summary>What the walls throw back.</summary>
    public double WallReflectance { get; init; } = WhiteReflectance;

    /// <summary>What the floor throws back.</summary>
    public double FloorReflectance { get; init; } = WhiteReflectance;

    /// <summary>From the panel's edge to the walls' inner faces.</summary>
    public double InsetMm { get; init; } = UsualInsetMm;

    /// <summary>A sheet that scatters, across the box; null for none.</summary>
    public DiffuserSheet? Diffuser { get; init; }

    /// <summary>How often a second the light is switched for dimming; null for the usual.</summary>
    public double? PwmHertz { get; init; }

    /// <summary>From the supply to the panel; null for the usual.</summary>
    public double? WireMm { get; init; }

    /// <summary>Where all that is written; null where it is not.</summary>
    public SourceSpan? Span { get; init; }

    /// <summary>Where the emitters are chosen.</summary>
    public SourceSpan? EmitterSpan { get; init; }
}

/// <summary>A sheet that scatters all light that passes it.</summary>
/// <param name="GapMm">From the panel's back; 0 where it lies on it.</param>
/// <param name="Transmittance">What it lets through.</param>
/// <param name="Reflectance">What it throws back.</param>
public sealed record DiffuserSheet(double GapMm, double Transmittance, double Reflectance)
{
    /// <summary>White opal sheet of 3 mm, or tracing paper: passes 60 %, throws back 30 %. From memory.</summary>
    public static DiffuserSheet Usual { get; } = new(0, 0.6, 0.3);
}

/// <summary>An emitter where the maker wants it.</summary>
/// <param name="XMm">Its place, seen from the front.</param>
/// <param name="YMm">Its place.</param>
/// <param name="FluxLumens">All its light; null for that of the desk's emitters.</param>
/// <param name="HalfAngleDegrees">From its axis to half its intensity; null for that of the desk's emitters.</param>
/// <param name="Span">Where it is written.</param>
public sealed record DeskEmitter(double XMm, double YMm, double? FluxLumens, double? HalfAngleDegrees, SourceSpan Span);
