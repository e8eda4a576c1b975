namespace Lampblack.Cutting;

/// <summary>
/// The lengths that what is cut can be given along one side. What a cut leaves must be nothing or at least the narrowest strip, so a piece of length a fits a, and anything from
/// a + narrowest up, but nothing between: it is tight. Where two tight lengths meet that differ by less than a strip, any length from the longer one and a strip up will do: loose.
/// Without a narrowest strip all is loose.
/// </summary>
/// <param name="Length">The least length.</param>
/// <param name="IsLoose">Whether every greater length fits, too.</param>
internal readonly record struct Extent(int Length, bool IsLoose)
{
    /// <summary>Whether so much room can be used.</summary>
    public bool Serves(int room, int narrowest) => room == Length || (room > Length && (IsLoose || room - Length >= narrowest));

    /// <summary>Both, one behind the other.</summary>
    public Extent And(Extent other) => new(Length + other.Length, IsLoose || other.IsLoose);

    /// <summary>The lengths that fit both.</summary>
    public Extent Both(Extent other, int narrowest)
    {
        var (small, large) = Length <= other.Length ? (this, other) : (other, this);
        if (small.Length == large.Length)
        {
            return new(small.Length, small.IsLoose && large.IsLoose);
        }

        if (small.IsLoose || large.Length - small.Length >= narrowest)
        {
            return large;
        }

        return large.IsLoose ? new(small.Length + narrowest, true) : new(large.Length + narrowest, true);
    }

    /// <summary>Whether whatever fits the other fits this.</summary>
    public bool Covers(Extent other, int narrowest) => IsLoose
        ? other.Length >= Length
        : other.Length - Length >= narrowest || (!other.IsLoose && other.Length == Length);
}
