using Lampblack.Edits;
using Lampblack.Jobs;
using Lampblack.Quantities;

namespace Lampblack.Workshop.Pages;

/// <summary>Facts in the unit of the maker's rulers: lengths tell it, other facts are as they are.</summary>
internal static class FactUnits
{
    /// <summary>Whether a fact is one length, or two.</summary>
    public static bool IsLength(this ItemFact fact) => fact.Kind is FactKind.Length or FactKind.TwoLengths;

    /// <summary>A fact's value, as it is told and typed.</summary>
    public static string Told(this ItemFact fact, LengthUnit unit) => fact.IsLength() ? LengthEntry.Told(fact.Value, unit) : fact.Value;

    /// <summary>What holds where it says nothing.</summary>
    public static string ToldUsual(this ItemFact fact, LengthUnit unit) => fact.IsLength() ? LengthEntry.Told(fact.Usual, unit) : fact.Usual;

    /// <summary>What was typed, as the file is to have it.</summary>
    public static string Meant(this ItemFact fact, string? typed, LengthUnit unit) =>
        fact.IsLength() ? LengthEntry.Meant(fact.Value, typed ?? string.Empty, unit, fact.Kind == FactKind.TwoLengths) : typed ?? string.Empty;
}
