namespace Lampblack.Tests.Architecture;

/// <summary>A text of the repository, or one made up for a test.</summary>
/// <param name="Path">From the repository's root, with '/'.</param>
/// <param name="Text">Its contents.</param>
internal sealed record SourceFile(string Path, string Text);
