using System;

namespace Lampblack.Workshop.Bench;

/// <summary>Progress that is told at once and in order, unlike the framework's own.</summary>
/// <param name="say">Told each step.</param>
internal sealed class ToldAtOnce(Action<string> say) : IProgress<string>
{
    /// <inheritdoc />
    public void Report(string value) => say(value);
}
