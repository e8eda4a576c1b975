namespace Lampblack.Tests.Link;

/// <summary>Chance that is the same each time (xorshift64, Marsaglia 2003).</summary>
internal sealed class XorShift(ulong start)
{
    private ulong state = start * 0x9E3779B97F4A7C15 | 1;

    public int Below(int limit)
    {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        return (int)((state >> 16) % (ulong)limit);
    }

    public T Of<T>(System.Collections.Generic.IReadOnlyList<T> list) => list[Below(list.Count)];
}
