namespace Lampblack.Findings;

/// <summary>How much a finding weighs.</summary>
public enum Severity
{
    /// <summary>Worth knowing; nothing to do.</summary>
    Note,

    /// <summary>The result can be used, but somebody should look.</summary>
    Warn,

    /// <summary>Do not go on: the result would be wrong. A preview may still be made.</summary>
    Stop,
}

/// <summary>What a reader or a check reports. Every code has a section in <c>docs/findings.md</c>.</summary>
/// <param name="Severity">How much it weighs.</param>
/// <param name="Code">Stable name in kebab-case, such as <c>key-unknown</c>.</param>
/// <param name="Message">One sentence: what was found and what is allowed.</param>
/// <param name="Hint">What to do about it; empty where there is nothing to add.</param>
/// <param name="Span">Where in the user's file, if it is about a place.</param>
/// <param name="Item">Id of the item it is about (<c>panel/control</c>), if any.</param>
public sealed record Finding(
    Severity Severity,
    string Code,
    string Message,
    string Hint = "",
    SourceSpan? Span = null,
    string? Item = null)
{
    /// <summary>The maker's reason to let it stand; it counts no more then. Null where it counts.</summary>
    public string? Accepted { get; init; }

    /// <summary>A finding that must be dealt with before going on.</summary>
    public static Finding Stop(string code, string message, string hint = "", SourceSpan? span = null, string? item = null) =>
        new(Severity.Stop, code, message, hint, span, item);

    /// <summary>A finding that somebody should look at.</summary>
    public static Finding Warn(string code, string message, string hint = "", SourceSpan? span = null, string? item = null) =>
        new(Severity.Warn, code, message, hint, span, item);

    /// <summary>A finding that is only worth knowing.</summary>
    public static Finding Note(string code, string message, string hint = "", SourceSpan? span = null, string? item = null) =>
        new(Severity.Note, code, message, hint, span, item);
}
