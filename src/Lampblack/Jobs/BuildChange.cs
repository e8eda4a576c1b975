namespace Lampblack.Jobs;

/// <summary>What a build changed against the last one in the same folder. It is told, and never written into a file.</summary>
/// <param name="Item">The panel's or sheet's id; empty where it is about everything.</param>
/// <param name="Kind"><c>same</c>, <c>changed</c>, <c>new</c>, <c>gone</c>, <c>renamed</c>, or <c>sheet</c> for a sheet.</param>
/// <param name="Sentence">What the maker reads.</param>
public sealed record BuildChange(string Item, string Kind, string Sentence);
