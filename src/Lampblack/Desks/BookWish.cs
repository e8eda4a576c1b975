using System;
using System.Collections.Immutable;
using Lampblack.Findings;
using Lampblack.Quantities;

namespace Lampblack.Desks;

/// <summary>For whom the build book is written.</summary>
public sealed record BookWish
{
    /// <summary>A desk that says nothing of it: right-handed, mm, everything told.</summary>
    public static BookWish Usual { get; } = new();

    /// <summary>Whether the left hand leads knife, saw and iron.</summary>
    public bool IsLeftHanded { get; init; }

    /// <summary>The unit of rulers and calipers.</summary>
    public LengthUnit Unit { get; init; }

    /// <summary>Whether punches are bought in fractions of an inch.</summary>
    public bool IsInInches => Unit == LengthUnit.Inch;

    /// <summary>Whether explanations are left out.</summary>
    public bool IsBrief { get; init; }

    /// <summary>What prices are in; null where that is not said.</summary>
    public string? Currency { get; init; }

    /// <summary>What the maker pays for one of what the bill calls so.</summary>
    public ImmutableSortedDictionary<string, Price> Prices { get; init; } = ImmutableSortedDictionary.Create<string, Price>(StringComparer.Ordinal);
}

/// <summary>A price that the maker wrote down.</summary>
/// <param name="Amount">In the maker's own currency, for one piece, metre or sheet.</param>
/// <param name="Span">Where it is written.</param>
public sealed record Price(double Amount, SourceSpan Span);
