namespace Lampblack.Circuits;

/// <summary>What the flicker limits say of a light that is switched all the way.</summary>
public enum FlickerVerdict
{
    /// <summary>Above the limit of low risk.</summary>
    Flickers,

    /// <summary>Low risk.</summary>
    LowRisk,

    /// <summary>No effect known.</summary>
    NoEffect,
}

/// <summary>How deep a light may be modulated at each frequency (IEEE 1789-2015). Dimming by switching is always 100 %.</summary>
public static class Flicker
{
    private const double SlowHertz = 90;
    private const double LowRiskHertz = 1250;
    private const double NoEffectHertz = 3000;

    /// <summary>The limit of low risk, in percent; 100 where there is none.</summary>
    /// <param name="hertz">How often the light is switched.</param>
    public static double LowRiskPercent(double hertz) => hertz switch
    {
        > LowRiskHertz => 100,
        >= SlowHertz => 0.08 * hertz,
        _ => 0.025 * hertz,
    };

    /// <summary>The limit of no effect, in percent; 100 where there is none.</summary>
    /// <param name="hertz">How often the light is switched.</param>
    public static double NoEffectPercent(double hertz) => hertz switch
    {
        > NoEffectHertz => 100,
        >= SlowHertz => 0.0333 * hertz,
        _ => 0.01 * hertz,
    };

    /// <summary>The verdict on a light that is switched all the way.</summary>
    /// <param name="hertz">How often.</param>
    public static FlickerVerdict Of(double hertz) => hertz switch
    {
        > NoEffectHertz => FlickerVerdict.NoEffect,
        > LowRiskHertz => FlickerVerdict.LowRisk,
        _ => FlickerVerdict.Flickers,
    };
}
