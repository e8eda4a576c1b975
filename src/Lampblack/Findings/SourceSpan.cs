namespace Lampblack.Findings;

/// <summary>A stretch of a user's text file.</summary>
/// <param name="File">The file's name as the user gave it, relative to the desk's folder, with '/'.</param>
/// <param name="Offset">First UTF-16 unit, zero-based, in the text without its byte-order mark.</param>
/// <param name="Length">Length in UTF-16 units; zero for a place between two characters.</param>
/// <param name="Line">Line of the first character, one-based.</param>
/// <param name="Column">Column of the first character, one-based, counted in code points.</param>
public sealed record SourceSpan(string File, int Offset, int Length, int Line, int Column)
{
    /// <summary>The place as compilers print it: <c>file(line,column)</c>.</summary>
    public override string ToString() =>
        string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{File}({Line},{Column})");
}
