namespace Lampblack.Illumination;

/// <summary>Numbers without order, the same for the same seed on every system (SplitMix64; Steele, Lea, Flood 2014).</summary>
/// <param name="seed">Any number.</param>
public sealed class SeededRandom(ulong seed)
{
    private ulong _state = seed;

    /// <summary>A whole number from 0 up to below a limit.</summary>
    public int Below(int limit)
    {
        _state += 0x9E3779B97F4A7C15;
        var z = _state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return (int)((z ^ (z >> 31)) % (ulong)limit);
    }
}
