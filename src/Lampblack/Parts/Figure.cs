namespace Lampblack.Parts;

/// <summary>A length with where it comes from, so that a maker knows what to trust and what to measure.</summary>
/// <param name="Mm">The length, in mm.</param>
/// <param name="Source">A standard's or data sheet's row, "common practice, no source", "from memory", or "user"; never empty in the catalogue.</param>
public readonly record struct Figure(double Mm, string Source)
{
    /// <summary>What the source of a figure from a desk file says.</summary>
    public const string UserSource = "user";

    /// <summary>A figure that the maker measured or read, in mm.</summary>
    public static Figure FromUser(double mm) => new(mm, UserSource);
}
