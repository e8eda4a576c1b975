using System;

namespace Lampblack.Tests.Architecture;

/// <summary>A place in a source that depends on a type, by name or without naming it.</summary>
/// <param name="Path">The source.</param>
/// <param name="Line">One-based.</param>
/// <param name="Assembly">The assembly that declares the type.</param>
/// <param name="Namespace">The type's namespace; empty for the global one.</param>
/// <param name="Type">The type's name, with its outer types, without type arguments.</param>
/// <param name="Name">What is used: the type, or type and member.</param>
internal sealed record SymbolUse(string Path, int Line, string Assembly, string Namespace, string Type, string Name)
{
    public const string Root = "Lampblack";

    /// <summary>The first folder below the core's root that the type lies in; null where it lies in none.</summary>
    public string? Folder => FolderOf(Namespace);

    public static string? FolderOf(string space) => space.StartsWith(Root + ".", StringComparison.Ordinal)
        ? space[(Root.Length + 1)..].Split('.')[0]
        : null;
}
