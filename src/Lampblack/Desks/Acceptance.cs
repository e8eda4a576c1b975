using Lampblack.Findings;

namespace Lampblack.Desks;

/// <summary>A finding that the maker has seen and lets stand.</summary>
/// <param name="Code">The finding's code.</param>
/// <param name="Because">The maker's reason.</param>
/// <param name="Span">Where it is written.</param>
public sealed record Acceptance(string Code, string Because, SourceSpan Span);
