using System;
using System.IO;
using Lampblack.Findings;

namespace Lampblack.Cli;

/// <summary>What the maker sees: results on the standard output, everything else on the standard error output.</summary>
/// <param name="isQuiet">Whether only what must be dealt with is shown.</param>
/// <param name="isVerbose">Whether every step is logged.</param>
/// <param name="hasColour">Whether colour helps: somebody watches and wants it.</param>
/// <param name="output">The standard output.</param>
/// <param name="error">The standard error output.</param>
internal sealed class Terminal(bool isQuiet, bool isVerbose, bool hasColour, TextWriter output, TextWriter error)
{
    private readonly long start = Environment.TickCount64;

    /// <summary>Whether only what must be dealt with is shown.</summary>
    internal bool IsQuiet { get; } = isQuiet;

    /// <summary>Whether progress can be shown on a line that is written over.</summary>
    internal bool ShowsProgress { get; } =
        !isQuiet && !isVerbose && !Console.IsErrorRedirected && Environment.GetEnvironmentVariable("TERM") != "dumb";

    /// <summary>The terminal that the program was started in.</summary>
    /// <param name="isQuiet">Whether only what must be dealt with is shown.</param>
    /// <param name="isVerbose">Whether every step is logged.</param>
    /// <param name="isPlain">Whether colour is not wanted.</param>
    internal static Terminal Here(bool isQuiet, bool isVerbose, bool isPlain)
    {
        bool hasColour = !isPlain && !Console.IsOutputRedirected
            && string.IsNullOrEmpty(Environment.GetEnvironmentVariable("NO_COLOR"))
            && Environment.GetEnvironmentVariable("TERM") != "dumb";
        return new(isQuiet, isVerbose, hasColour, Console.Out, Console.Error);
    }

    /// <summary>A line of the result.</summary>
    /// <param name="line">The line.</param>
    internal void Say(string line)
    {
        if (!IsQuiet)
        {
            output.WriteLine(line);
        }
    }

    /// <summary>A line that is shown in any case.</summary>
    /// <param name="line">The line.</param>
    internal void Insist(string line) => output.WriteLine(line);

    /// <summary>A line about something that went wrong.</summary>
    /// <param name="line">The line.</param>
    internal void Complain(string line) => error.WriteLine(line);

    /// <summary>A step for the log that <c>--verbose</c> shows, with the time since the start.</summary>
    /// <param name="step">What begins now.</param>
    internal void Log(string step)
    {
        if (isVerbose)
        {
            error.WriteLine(FormattableString.Invariant($"[{(Environment.TickCount64 - start) / 1000.0,7:0.000} s] {step}"));
            error.Flush();
        }
    }

    /// <summary>Writes over the progress line; an empty text removes it.</summary>
    /// <param name="text">A few words.</param>
    internal void Progress(string text) => error.Write($"\r\u001b[2K{text}");

    /// <summary>A severity as a word, coloured where that helps; the word alone says it all.</summary>
    /// <param name="severity">The severity.</param>
    internal string Word(Severity severity) => severity switch
    {
        Severity.Stop => Coloured("stop", "1;31"),
        Severity.Warn => Coloured("warn", "33"),
        _ => Coloured("note", "36"),
    };

    /// <summary>Bytes of a machine's answer, which nothing else may share the standard output with.</summary>
    /// <param name="utf8">The bytes, in UTF-8 whatever the console's encoding is.</param>
    internal static void SayBytes(ReadOnlySpan<byte> utf8)
    {
        using Stream stream = Console.OpenStandardOutput();
        stream.Write(utf8);
        stream.Flush();
    }

    private string Coloured(string word, string code) => hasColour ? $"\u001b[{code}m{word}\u001b[0m" : word;
}
